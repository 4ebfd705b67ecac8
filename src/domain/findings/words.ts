import { length, usualDecimals } from '../show';
import type { Site } from '../site/site';
import { metres, type Metres } from '../units';
import type { GaugedScreen } from '../water/event-heads';
import type { Finding } from './finding';

/** Names a sentence can carry before it says "and 9 others". */
const MOST_NAMES = 6;

/** "A", "A and B", "A, B, C and 9 others". */
export function listed(names: readonly string[], most = MOST_NAMES): string {
  const shown = names.length > most ? names.slice(0, most - 1) : names;
  const left = names.length - shown.length;
  const parts = left > 0 ? [...shown, `${left} others`] : shown;
  const last = parts.at(-1) ?? '';
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`;
}

/** "1 well", "3 wells". */
export const counted = (n: number, what: string, several = `${what}s`) =>
  `${n} ${n === 1 ? what : several}`;

/** A length in the site's vertical unit: "94.16 ft". */
export const said = (site: Site, value: number, decimals?: number) => {
  const unit = site.settings.verticalUnit;
  return length(metres(value), unit, decimals ?? usualDecimals(unit));
};

/** A distance over the ground in the grid's unit: "10.6 ft". */
export const distanceSaid = (site: Site, value: number, decimals = 1) =>
  length(metres(value), site.settings.grid.unit, decimals);

/** "0.31 ft above", "0.31 ft below". */
export const aboveOrBelow = (site: Site, value: number, decimals?: number) =>
  `${said(site, Math.abs(value), decimals)} ${value < 0 ? 'below' : 'above'}`;

/** A percentage of chance, or how small it is. */
export const chance = (probability: number) =>
  probability < 0.0001
    ? 'less than 1 in 10,000'
    : probability < 0.01
      ? `1 in ${Math.round(1 / probability).toLocaleString('en')}`
      : `${Math.round(100 * probability)} in 100`;

/** "2 h", "3.5 days". */
export const lapse = (hours: number) =>
  hours < 48 ? `${Math.round(hours)} h` : `${(hours / 24).toFixed(1).replace(/\.0$/, '')} days`;

/** "2025-10-15 09:21", of a time as the tables write it. */
export const timeSaid = (time: string) => time.replace('T', ' ');

/** The locations of gauged screens, each once. */
export const locationsOf = (heads: readonly GaugedScreen[]) => [
  ...new Set(heads.map(({ location }) => location.id)),
];

/** What a rule says of one thing: its name for decisions is made of the rule, the thing and the event. */
export function finding(
  rule: string,
  subject: string,
  event: string | null,
  rest: Omit<Finding, 'rule' | 'about'>,
): Finding {
  return { rule, about: `${rule}: ${subject}${event === null ? '' : ` @ ${event}`}`, ...rest };
}

/** Half of a set lies above it and half below; null of nothing. */
export function middleOf(values: readonly number[]): number | null {
  const sorted = values.toSorted((a, b) => a - b);
  const upper = sorted[sorted.length >> 1];
  const lower = sorted[(sorted.length - 1) >> 1];
  return upper === undefined || lower === undefined ? null : (upper + lower) / 2;
}

/**
 * How far values scatter about their middle, as a standard deviation that a few
 * strange ones do not move: 1.4826 times the middle distance (P. J. Huber, 1981,
 * Robust statistics, value from memory). Null of nothing.
 */
export function usualSpread(values: readonly number[]): number | null {
  const middle = middleOf(values);
  if (middle === null) return null;
  const apart = middleOf(values.map((value) => Math.abs(value - middle)));
  return apart === null ? null : 1.4826 * apart;
}

export const feet = (n: number): Metres => metres(n, 'ft');
