import {
  compareAmounts,
  exactAmountOf,
  type Amount,
  type ConcentrationUnit,
} from './concentration-units';
import { compareDecimals, compareNearly, roundedToMultiple, type Order } from './decimal';
import { CONFLICT, needsBasis } from './basis';
import type { Level, Match, Misfit } from './level';
import { FLAG } from './qualifiers';
import type { Reading } from './reading';

/** What one result says of one level. The codes are kept in files and never change. */
export const VERDICTS = [
  'exceeds',
  'exceeds-estimated',
  'does-not-exceed',
  'not-detected',
  'cannot-tell',
  'rejected',
  'not-comparable',
  'no-level',
  'no-result',
] as const;

export type Verdict = (typeof VERDICTS)[number];

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  exceeds: 'exceeds',
  'exceeds-estimated': 'exceeds, estimated',
  'does-not-exceed': 'does not exceed',
  'not-detected': 'not detected, limit at or below the level',
  'cannot-tell': 'limit exceeds level (cannot tell)',
  rejected: 'rejected',
  'not-comparable': 'not comparable',
  'no-level': 'no level',
  'no-result': 'no result',
};

/** Each reason belongs to one verdict. */
const VERDICT_OF = {
  'value above level': 'exceeds',
  'equal counts as above': 'exceeds',
  'at least a value above level': 'exceeds',
  'estimated value above level': 'exceeds-estimated',
  'over range, above level': 'exceeds-estimated',
  'value below level': 'does-not-exceed',
  'value equal to level': 'does-not-exceed',
  'limit at or below level': 'not-detected',
  'limit above level': 'cannot-tell',
  'limit not given': 'cannot-tell',
  'at least a value not above level': 'cannot-tell',
  'over range, not above level': 'cannot-tell',
  rejected: 'rejected',
  'identity not confirmed': 'not-comparable',
  'unit not known': 'not-comparable',
  'level not readable': 'not-comparable',
  'different dimensions': 'not-comparable',
  'different basis': 'not-comparable',
  'basis not stated': 'not-comparable',
  'different fraction': 'not-comparable',
  'different matrix': 'not-comparable',
  'no level': 'no-level',
  blank: 'no-result',
  'detected without a value': 'no-result',
  'zero reported': 'no-result',
  unreadable: 'no-result',
} as const satisfies Readonly<Record<string, Verdict>>;

export type Reason = keyof typeof VERDICT_OF;

/** A verdict and why. The same few objects serve every result. */
export type Outcome = { readonly verdict: Verdict; readonly reason: Reason };

const OUTCOME = Object.fromEntries(
  Object.entries(VERDICT_OF).map(([reason, verdict]) => [reason, { verdict, reason }]),
) as Readonly<Record<Reason, Outcome>>;

const MISFIT: Readonly<Record<Misfit, Outcome>> = {
  fraction: OUTCOME['different fraction'],
  matrix: OUTCOME['different matrix'],
};

/**
 * One result against the level found for it. Decided in this order: no level;
 * rejected; no result; not comparable; then the numbers, on exact decimals
 * where they are within a hair of each other.
 */
export function outcomeOf(reading: Reading, { level, misfit }: Match): Outcome {
  if (level === null) return OUTCOME['no level'];
  const without = withoutNumber(reading);
  if (without !== null) return without;
  if (misfit !== null) return MISFIT[misfit];
  if (reading.state === 'tentative') return OUTCOME['identity not confirmed'];
  if (reading.unit === null) return OUTCOME['unit not known'];
  if (level.value === null) return OUTCOME['level not readable'];
  const apart = incomparable(reading, reading.unit, level, level.value.unit);
  if (apart !== null) return apart;

  if (reading.state === 'not detected') {
    const limit = reading.limit[level.decides];
    if (limit === null) return OUTCOME['limit not given'];
    return order(limit, limit.amount, level.value, level.amount) > 0
      ? OUTCOME['limit above level']
      : OUTCOME['limit at or below level'];
  }
  if (reading.value === null) throw new Error(`a ${reading.state} result without a value`);
  const against = level.rules.roundToLevel
    ? roundedOrder(reading.value, level.value, level.place)
    : order(reading.value, reading.amount, level.value, level.amount);
  return reading.state === 'more than'
    ? moreThan(reading, against, level)
    : detected(reading, against, level);
}

function withoutNumber({ state, why }: Reading): Outcome | null {
  if (state === 'rejected') return OUTCOME.rejected;
  if (state !== 'none' && state !== 'unreadable') return null;
  if (why?.kind === 'zero') return OUTCOME['zero reported'];
  return OUTCOME[why?.kind ?? 'blank'];
}

function incomparable(
  reading: Reading,
  unit: ConcentrationUnit,
  level: Level,
  levelUnit: ConcentrationUnit,
): Outcome | null {
  if (unit.dimension !== levelUnit.dimension) return OUTCOME['different dimensions'];
  if (reading.basis !== level.basis || reading.basis === CONFLICT)
    return reading.basis === null || level.basis === null
      ? OUTCOME['basis not stated']
      : OUTCOME['different basis'];
  return reading.basis === null && needsBasis(reading.key) ? OUTCOME['basis not stated'] : null;
}

const order = (a: Amount, inA: number, b: Amount, inB: number): Order =>
  compareNearly(inA, inB, () => compareAmounts(a, b));

/** The order after rounding the first to the last place the second is written to. */
function roundedOrder(value: Amount, level: Amount, place: number): Order {
  const { times, power } = level.unit;
  const lastPlace = { digits: BigInt(times), exponent: power + place };
  return compareDecimals(roundedToMultiple(exactAmountOf(value), lastPlace), exactAmountOf(level));
}

function detected({ flags }: Reading, against: Order, { rules }: Level): Outcome {
  if (against < 0) return OUTCOME['value below level'];
  if (against === 0 && !rules.equalExceeds) return OUTCOME['value equal to level'];
  if (flags & FLAG.estimated) return OUTCOME['estimated value above level'];
  return OUTCOME[against === 0 ? 'equal counts as above' : 'value above level'];
}

function moreThan({ flags }: Reading, against: Order, { rules }: Level): Outcome {
  const overRange = (flags & FLAG.overRange) !== 0;
  if (against < 0 || (against === 0 && !rules.equalExceeds))
    return OUTCOME[overRange ? 'over range, not above level' : 'at least a value not above level'];
  if (overRange) return OUTCOME['over range, above level'];
  return OUTCOME[
    flags & FLAG.estimated ? 'estimated value above level' : 'at least a value above level'
  ];
}
