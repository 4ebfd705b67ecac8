import { metres, type Metres } from '../units';

/** When a water level counts as static: less change than this over these minutes. */
export type StaticRule = {
  readonly change: Metres;
  readonly minutes: number;
  readonly source: string;
};

/** Where a site has stated no rule of its own. */
export const USUAL_STATIC_RULE: StaticRule = {
  change: metres(0.02, 'ft'),
  minutes: 15,
  source: 'Common practice, no source: under 0.02 ft over 10 to 15 minutes',
};

/** Depth to water at a time; depth positive down from one mark. */
export type LevelReading = { readonly minutes: number; readonly depth: Metres };

export type LevelState =
  | {
      readonly kind: 'static' | 'rising' | 'falling' | 'unsteady'; // unsteady: up and down
      /** Highest less lowest within the time looked at. */
      readonly change: Metres;
      /** Change for each minute of it, in metres. */
      readonly rate: number;
      readonly minutes: number;
    }
  | { readonly kind: 'too few'; readonly have: number }
  | { readonly kind: 'too short'; readonly minutes: number; readonly need: number };

/** Equal decimals compared after subtraction. */
const ROUNDING = 1e-9;

/**
 * Whether a level has come to rest: its rate of change over the stated time is
 * under the stated one. Two readings that agree only check the tape. The time
 * looked at runs back from the last reading to the latest one that is at least
 * the stated minutes before it.
 *
 * @param readings  in the order of time
 */
export function levelState(readings: readonly LevelReading[], rule: StaticRule): LevelState {
  const [first, last] = [readings[0], readings.at(-1)];
  if (!first || !last || readings.length < 2) return { kind: 'too few', have: readings.length };
  const from = readings.findLastIndex(
    ({ minutes }) => last.minutes - minutes >= rule.minutes - ROUNDING,
  );
  if (from === -1)
    return { kind: 'too short', minutes: last.minutes - first.minutes, need: rule.minutes };

  const looked = readings.slice(from);
  const depths = looked.map(({ depth }) => depth);
  const change = metres(Math.max(...depths) - Math.min(...depths));
  const start = looked[0] ?? first;
  const minutes = last.minutes - start.minutes;
  const rate = minutes > 0 ? change / minutes : Infinity;
  const net = last.depth - start.depth; // deeper is falling
  const kind =
    rate < rule.change / rule.minutes - ROUNDING
      ? 'static'
      : Math.abs(net) < change - ROUNDING
        ? 'unsteady'
        : net > 0
          ? 'falling'
          : 'rising';
  return { kind, change, rate, minutes };
}

/**
 * Two readings of the tape within this agree. (W. L. Cunningham and C. W.
 * Schalla, 2011, USGS Techniques and Methods 1-A1; value from memory.)
 */
export const TAPE_LIMIT = metres(0.02, 'ft');

/** Whether a second reading bears out the first. It says nothing about being static. */
export const tapeAgrees = (first: Metres, second: Metres, limit: Metres = TAPE_LIMIT): boolean =>
  Math.abs(first - second) <= limit + ROUNDING;

const TIME = /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2}))?$/;

/**
 * Minutes from one time of the tables to another, both as a clock on the site
 * shows them; null for a day without a time. The change to summer time is not
 * known here.
 */
export function minutesBetween(from: string, to: string): number | null {
  const [a, b] = [from, to].map((text) => {
    const [, year, month, day, hour, minute, second = '0'] = TIME.exec(text) ?? [];
    if (year === undefined) return null;
    return Date.UTC(+year, Number(month) - 1, Number(day), Number(hour), Number(minute), +second);
  });
  return a === null || b === null || a === undefined || b === undefined ? null : (b - a) / 60_000;
}
