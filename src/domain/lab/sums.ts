import { groupBy } from '../group';
import type { NamedUnit } from './amount-work';
import {
  amountIn,
  exactAmountIn,
  exactAmountOf,
  unitOf,
  type ConcentrationDimension,
} from './concentration-units';
import {
  addDecimals,
  compareDecimals,
  decimalOf,
  multiplyDecimals,
  numberOf,
  type Decimal,
} from './decimal';
import type { Level } from './level';
import { FLAG } from './qualifiers';
import { limitOf, type DecidingLimit } from './limit';
import { valueOf, type Reading } from './reading';
import type { SumRule, SumRulePart } from './sum-rules';
import type { Verdict } from './verdict';

/**
 * What a non-detect adds to a sum. `range`: nothing at least and its limit at
 * most, so that a sum can be one that cannot be told. The others put one number
 * in its place, and the sum says which.
 */
export type NonDetectRule = 'range' | 'zero' | 'half the limit' | 'the limit';

/** A part of a sum as it went in; `missing` where it was not reported in a way that counts. */
export type SumPart = {
  readonly name: string;
  readonly readings: readonly Reading[];
  readonly state: 'detected' | 'not detected' | 'missing';
  readonly estimated: boolean;
};

export type Sum = {
  readonly rule: SumRule;
  readonly nonDetects: NonDetectRule;
  /** In the order of the rule's. */
  readonly parts: readonly SumPart[];
  readonly level: Level | null;
  /** Unit of the next two: the level's; none for an index; without a level µg/L. */
  readonly unit: NamedUnit | null;
  /** Least and most it can be; the most is null where nothing bounds it. */
  readonly low: number;
  readonly high: number | null;
  readonly verdict: Verdict;
  readonly why: string;
};

/** The readings that are the sum itself, reported by the laboratory: then nothing need be added. */
export const reportedAsSuch = (rule: SumRule, readings: readonly Reading[]) =>
  readings.filter(({ key, state }) => key === rule.key && state !== 'none');

const ZERO: Decimal = { digits: 0n, exponent: 0 };
const ONE: Decimal = { digits: 1n, exponent: 0 };
const HALF: Decimal = { digits: 5n, exponent: -1 };

const product = (numbers: readonly Decimal[]) => numbers.reduce(multiplyDecimals, ONE);

/**
 * A sum of analytes of one sample and fraction against its level, added and
 * compared exactly. The parts of an index are brought over one denominator.
 *
 * @param readings  of one sample, with the runs chosen
 * @param level     for the sum; an index brings its own
 */
export function sumVerdict(
  rule: SumRule,
  readings: readonly Reading[],
  level: Level | null,
  nonDetects: NonDetectRule = 'range',
): Sum {
  const dimension = level?.value?.unit.dimension ?? 'mass per volume';
  const decides = level?.decides ?? 'reporting limit';
  const counts = (reading: Reading) => boundsOf(reading, dimension, decides, nonDetects) !== null;
  const parts = rule.parts.map((part) => partOf(part, readings, counts));

  const per = unitOf(rule.index?.unit ?? null);
  const divisors = rule.parts.map(({ divisor }) => {
    const number = decimalOf(divisor ?? '1') ?? ONE;
    return per === null ? ONE : exactAmountIn(number, per);
  });
  const denominator = product(divisors);
  const bounds = parts.map((part, i) => {
    const weight = product(divisors.filter((_, j) => j !== i));
    return part.readings.map((reading) => {
      const of = boundsOf(reading, dimension, decides, nonDetects) ?? { low: ZERO, high: null };
      return {
        low: multiplyDecimals(of.low, weight),
        high: of.high && multiplyDecimals(of.high, weight),
        estimated: part.estimated,
      };
    });
  });
  const each = bounds.flat();
  const sumOf = (numbers: readonly Decimal[]) => numbers.reduce(addDecimals, ZERO);
  const highs = each.map(({ high }) => high).filter((high) => high !== null);
  const missing = parts.filter(({ state }) => state === 'missing');
  const bounded = missing.length === 0 && highs.length === each.length;

  const weighed: Weighed = {
    low: sumOf(each.map(({ low }) => low)),
    certain: sumOf(each.filter(({ estimated }) => !estimated).map(({ low }) => low)),
    high: bounded ? sumOf(highs) : null,
    target: targetOf(rule, level, denominator),
  };
  const unit = unitFor(rule, level);
  const shown = (sum: Decimal) =>
    numberOf(sum) / numberOf(denominator) / (unit === null ? 1 : amountIn(1, unit.unit));
  return {
    rule,
    nonDetects,
    parts,
    level,
    unit,
    low: shown(weighed.low),
    high: weighed.high && shown(weighed.high),
    ...decided(rule, parts, weighed, level),
  };
}

function unitFor(rule: SumRule, level: Level | null): NamedUnit | null {
  if (rule.index) return null;
  const text = level?.input.unit.trim() ?? 'µg/L';
  const unit = level?.value?.unit ?? unitOf('µg/L');
  return unit === null ? null : { unit, text };
}

function targetOf(rule: SumRule, level: Level | null, denominator: Decimal): Decimal | null {
  if (rule.index) return multiplyDecimals(denominator, decimalOf(rule.index.limit) ?? ONE);
  return level?.value ? exactAmountOf(level.value) : null;
}

function partOf(
  { name, either }: SumRulePart,
  readings: readonly Reading[],
  counts: (reading: Reading) => boolean,
): SumPart {
  const byKey = groupBy(readings.filter(counts), ({ key }) => key);
  for (const keys of either) {
    const found = keys.flatMap((key) => largest(byKey.get(key) ?? []));
    if (found.length < keys.length) continue;
    const seen = found.some(({ state }) => state !== 'not detected');
    const estimated = found.some(({ flags }) => (flags & FLAG.estimated) !== 0);
    return { name, readings: found, state: seen ? 'detected' : 'not detected', estimated };
  }
  return { name, readings: [], state: 'missing', estimated: false };
}

/** Of several results for one part, the one that can be most. */
const largest = (readings: readonly Reading[]): Reading[] =>
  [...readings].sort((a, b) => mostOf(b) - mostOf(a)).slice(0, 1);

const mostOf = (reading: Reading) =>
  Math.max(reading.amount, limitOf(reading, 'reporting limit')?.amount ?? 0);

type Bounds = { readonly low: Decimal; readonly high: Decimal | null };

/** Least and most a result can be; null where it does not count. */
function boundsOf(
  reading: Reading,
  dimension: ConcentrationDimension,
  decides: DecidingLimit,
  nonDetects: NonDetectRule,
): Bounds | null {
  if (reading.unit?.dimension !== dimension) return null;
  if (reading.state === 'not detected') {
    const limit = limitOf(reading, decides);
    if (limit === null) return nonDetects === 'zero' ? { low: ZERO, high: ZERO } : null;
    const most = exactAmountOf(limit);
    if (nonDetects === 'range') return { low: ZERO, high: most };
    const put = { zero: ZERO, 'half the limit': HALF, 'the limit': ONE }[nonDetects];
    const value = multiplyDecimals(most, put);
    return { low: value, high: value };
  }
  const reported = valueOf(reading);
  if (reported === null) return null;
  const value = exactAmountOf(reported);
  return { low: value, high: reading.state === 'more than' ? null : value };
}

type Weighed = {
  readonly low: Decimal;
  /** `low` without the parts that are only estimated. */
  readonly certain: Decimal;
  readonly high: Decimal | null;
  readonly target: Decimal | null;
};

function decided(
  rule: SumRule,
  parts: readonly SumPart[],
  { low, certain, high, target }: Weighed,
  level: Level | null,
): { verdict: Verdict; why: string } {
  const missing = parts.filter(({ state }) => state === 'missing').map(({ name }) => name);
  const seen = parts.filter(({ state }) => state === 'detected').length;
  if (level === null && rule.index === null)
    return { verdict: 'no-level', why: 'No level has been chosen for this sum.' };
  if (target === null)
    return { verdict: 'not-comparable', why: 'The level is not one number in a unit we know.' };
  if (missing.length === parts.length)
    return { verdict: 'no-result', why: 'None of its parts has a result that counts.' };

  const above = (sum: Decimal) => {
    const order = compareDecimals(sum, target);
    return order > 0 || (order === 0 && level?.rules.equalExceeds === true);
  };
  if (rule.index && seen < rule.index.leastDetected && (high === null || above(high)))
    return above(low)
      ? { verdict: 'not-comparable', why: 'The index is for two or more of its parts together.' }
      : {
          verdict: 'cannot-tell',
          why: 'Fewer than two of its parts were detected, and the limits of the others leave room.',
        };
  if (above(low))
    return above(certain)
      ? { verdict: 'exceeds', why: 'What was detected is above the level by itself.' }
      : {
          verdict: 'exceeds-estimated',
          why: 'Above the level only with parts that are estimated.',
        };
  if (missing.length > 0)
    return { verdict: 'cannot-tell', why: `No result that counts for ${missing.join(', ')}.` };
  if (high === null || above(high))
    return {
      verdict: 'cannot-tell',
      why: 'The level lies between the least and the most it can be.',
    };
  return seen === 0
    ? {
        verdict: 'not-detected',
        why: 'No part was detected; the limits together are not above the level.',
      }
    : { verdict: 'does-not-exceed', why: 'The most it can be is not above the level.' };
}
