import { decimalsIn } from '../show';
import type { Term, Work } from '../work';
import { amountIn, amountOf, type Amount, type ConcentrationUnit } from './concentration-units';
import { limitOf, reportingLimitOf } from './limit';
import { valueOf, type Reading } from './reading';

/** How well a field duplicate must agree with its parent. */
export type DuplicateLimits = {
  /** Largest relative percent difference, in percent. */
  readonly rpd: number;
  /** Both must be at least this many times the reporting limit for the RPD to be used. */
  readonly farFromLimit: number;
  /** Nearer to the limit: largest difference, in reporting limits. */
  readonly differenceInLimits: number;
};

/** Limits seen run from 10 % (USGS) to 30 % (a sampling plan of 2025); five limits is common practice. */
export const USUAL_DUPLICATE_LIMITS: DuplicateLimits = {
  rpd: 30,
  farFromLimit: 5,
  differenceInLimits: 1,
};

export type Agreement =
  | {
      readonly kind: 'rpd' | 'difference';
      readonly value: number;
      /** % for `rpd`; for `difference` the parent's unit as reported. */
      readonly unit: string;
      readonly allowed: number;
      readonly agrees: boolean;
      readonly why: string;
      readonly work: Work;
    }
  /** Nothing was seen in either: agreement that says little. */
  | { readonly kind: 'neither detected' }
  | { readonly kind: 'not compared'; readonly why: string };

/** |a − b| over their mean, in percent; null where both are zero. */
export const relativePercentDifference = (a: number, b: number): number | null =>
  a + b === 0 ? null : (Math.abs(a - b) / ((a + b) / 2)) * 100;

/**
 * A sample and its field duplicate. Relative percent difference where both are
 * well above the limit; near it, and where only one was detected, the absolute
 * difference in its place, the non-detect taken at its limit: the least the
 * difference can be. (The split is common practice, no source.)
 */
export function duplicateAgreement(
  parent: Reading,
  duplicate: Reading,
  limits: DuplicateLimits = USUAL_DUPLICATE_LIMITS,
): Agreement {
  const unusable = whyNot(parent, duplicate);
  if (unusable !== null) return { kind: 'not compared', why: unusable };
  if (parent.state === 'not detected' && duplicate.state === 'not detected')
    return { kind: 'neither detected' };

  const [left, right] = [judgedBy(parent), judgedBy(duplicate)];
  if (left === null || right === null)
    return { kind: 'not compared', why: 'One is a non-detect without a limit.' };
  const unit = left.unit;
  const a = inUnit(left, unit);
  const b = inUnit(right, unit);
  const limit = Math.max(
    ...[parent, duplicate].map((reading) => {
      const stated = reportingLimitOf(reading) ?? limitOf(reading, 'reporting limit');
      return stated === null ? 0 : inUnit(stated, unit);
    }),
  );
  const bothSeen = parent.state === 'detected' && duplicate.state === 'detected';
  const terms = [term('a', parent, left, a), term('b', duplicate, right, b)];
  const unitText = parent.result.unit?.trim() ?? '';
  return bothSeen && Math.min(a, b) >= limits.farFromLimit * limit
    ? byPercent(a, b, limit, limits, terms)
    : byDifference(a, b, limit, limits, terms, unitText, bothSeen);
}

function whyNot(a: Reading, b: Reading): string | null {
  if (a.key !== b.key) return 'They are not of one analyte.';
  if (a.result.fraction !== b.result.fraction) return 'One is filtered and the other is not.';
  if (a.unit === null || b.unit === null) return 'A unit is not known.';
  if (a.unit.dimension !== b.unit.dimension || a.basis !== b.basis)
    return 'Their units cannot be compared.';
  const odd = [a, b].find(({ state }) => state !== 'detected' && state !== 'not detected');
  return odd ? `One of them is not a plain result: ${odd.state}.` : null;
}

/** The value of a detection, the limit of a non-detect. */
const judgedBy = (reading: Reading): Amount | null =>
  reading.state === 'detected' ? valueOf(reading) : limitOf(reading, 'reporting limit');

const inUnit = (amount: Amount, unit: ConcentrationUnit) =>
  sameSize(amount.unit, unit) ? Number(amount.text) : amountOf(amount) / amountIn(1, unit);

const sameSize = (a: ConcentrationUnit, b: ConcentrationUnit) =>
  a.power === b.power && a.times === b.times;

const term = (symbol: string, { result, state }: Reading, amount: Amount, value: number): Term => ({
  symbol,
  name: `${state === 'detected' ? 'result' : 'limit'} of ${result.sample}, ${amount.text} ${result.unit?.trim() ?? ''}`,
  value,
  dimension: 'number',
  ...(Number(amount.text) === value ? { text: amount.text } : {}),
  from:
    result.row === undefined
      ? { kind: 'citation', text: 'as reported' }
      : { kind: 'cell', table: 'results', row: result.row, column: 'value' },
});

function byPercent(
  a: number,
  b: number,
  limit: number,
  limits: DuplicateLimits,
  terms: readonly Term[],
): Agreement {
  const value = relativePercentDifference(a, b);
  if (value === null) return { kind: 'not compared', why: 'Both are zero.' };
  return {
    kind: 'rpd',
    value,
    unit: '%',
    allowed: limits.rpd,
    agrees: value <= limits.rpd,
    why:
      limit === 0
        ? 'No reporting limit is given; taken as far from it.'
        : `Both are at least ${limits.farFromLimit} times the reporting limit.`,
    work: {
      title: 'Relative percent difference, %',
      symbol: 'rpd',
      formula: 'abs(a - b) / ((a + b) / 2) * 100',
      terms,
      answer: { value, dimension: 'number' },
      decimals: 1,
      note: `Limit ${limits.rpd} %`,
    },
  };
}

function byDifference(
  a: number,
  b: number,
  limit: number,
  limits: DuplicateLimits,
  terms: readonly Term[],
  unit: string,
  bothSeen: boolean,
): Agreement {
  const value = Math.abs(a - b);
  const allowed = limits.differenceInLimits * limit;
  return {
    kind: 'difference',
    value,
    unit,
    allowed,
    agrees: value <= allowed * (1 + ROUNDING),
    why: bothSeen
      ? `One is under ${limits.farFromLimit} times the reporting limit.`
      : 'One was not detected and is taken at its limit: the least the difference can be.',
    work: {
      title: `Difference of duplicates, ${unit}`,
      symbol: 'difference',
      formula: 'abs(a - b)',
      terms,
      answer: { value, dimension: 'number' },
      decimals: Math.max(...terms.map(({ text }) => decimalsIn(text ?? ''))),
      note: `Allowed: ${limits.differenceInLimits} × the reporting limit`,
    },
  };
}

/** 1.3 − 0.3 is a hair over 1 in binary. */
const ROUNDING = 1e-12;
