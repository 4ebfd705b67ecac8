import { casOf } from './cas';
import type { HoldingLimit } from './holding-time-list';

/** How long a sample was held against how long it may be. */
export type HoldingTime = {
  readonly limit: HoldingLimit;
  readonly step: 'to extraction' | 'to analysis' | 'from extraction to analysis';
  /** Hours between the two times, or whole days × 24 where only days are known. */
  readonly hours: number;
  readonly allowedHours: number;
  readonly kept: boolean;
  /** True where only days were written, so that the calendar was counted. */
  readonly byDays: boolean;
};

const HOUR = 3_600_000; // ms

/** Times local to the site as the tables have them: "2026-05-31T14:05", or a day alone. */
type When = string;

const moment = (time: When) => Date.parse(time.includes('T') ? `${time}Z` : `${time}T00:00Z`);

/**
 * The time between two moments of one clock, in hours; in calendar days, as is
 * common practice, where either is only a day. Null where one is not a time or
 * they are the wrong way round.
 */
export function heldFor(from: When, to: When): { hours: number; byDays: boolean } | null {
  const byDays = !from.includes('T') || !to.includes('T');
  const cut = (time: When) => (byDays ? time.slice(0, 10) : time);
  const hours = (moment(cut(to)) - moment(cut(from))) / HOUR;
  return hours >= 0 ? { hours, byDays } : null;
}

export type Handled = {
  readonly sampled: When;
  readonly extracted: When | null;
  readonly analysed: When | null;
};

/**
 * Each step of a sample's handling against its limit, in the order they
 * happened; a step whose times are not known is left out.
 */
export function holdingTimes(handled: Handled, limit: HoldingLimit): HoldingTime[] {
  const { sampled, extracted, analysed } = handled;
  const steps: HoldingTime[] = [];
  const add = (
    step: HoldingTime['step'],
    from: When | null,
    to: When | null,
    allowedHours: number | null,
  ) => {
    if (from === null || to === null || allowedHours === null) return;
    const held = heldFor(from, to);
    if (held === null) return;
    steps.push({ limit, step, ...held, allowedHours, kept: held.hours <= allowedHours });
  };
  if (limit.toExtraction === null) add('to analysis', sampled, analysed, limit.toAnalysis);
  else {
    add('to extraction', sampled, extracted, limit.toExtraction);
    add('from extraction to analysis', extracted, analysed, limit.toAnalysis);
  }
  return steps;
}

/** The limit for an analyte or method: by CAS number first, then by the method's name. */
export function holdingLimitFor(
  list: readonly HoldingLimit[],
  cas: string | null,
  method: string | null,
): HoldingLimit | null {
  const number = casOf(cas);
  const named = method?.toUpperCase() ?? '';
  return (
    (number === null ? undefined : list.find(({ analytes }) => analytes.includes(number))) ??
    list.find(({ methods }) => methods.some((name) => named.includes(name))) ??
    null
  );
}
