import { CONFLICT, needsBasis } from './basis';
import { amountIn, compareAmounts, exactAmountOf, type Amount } from './concentration-units';
import { apartAsDoubles, compareDecimals, roundedToMultiple, type Order } from './decimal';
import type { Level, Match, Misfit } from './level';
import { decidingNumber } from './limit';
import { FLAG } from './qualifiers';
import type { Reading, ReadingState } from './reading';
import { OUTCOME, type Outcome } from './verdict';

const MISFIT: Readonly<Record<Misfit, Outcome>> = {
  fraction: OUTCOME['different fraction'],
  matrix: OUTCOME['different matrix'],
};

/**
 * One result against the level found for it. Decided in this order: no level;
 * rejected; no result; not comparable; then the numbers, on exact decimals
 * where they are within a hair of each other.
 */
export function outcomeOf(reading: Reading, match: Match): Outcome {
  const { level } = match;
  if (level === null) return OUTCOME['no level'];
  const { state, flags, unit } = reading;
  const without = outcomeWithoutNumber(reading) ?? misfitOutcome(match);
  if (without !== null) return without;
  if (state === 'tentative') return OUTCOME['identity not confirmed'];
  const apart = incomparable(reading, level);
  if (apart !== null || unit === null || level.value === null)
    return apart ?? OUTCOME['unit not known'];

  const number =
    state === 'not detected' ? decidingNumber(reading, level.decides) : reading.written;
  if (number === null) return OUTCOME['limit not given'];
  const amount = amountIn(number.number, unit);
  const rounds = level.rules.roundToLevel && state !== 'not detected';
  const against =
    !rounds && apartAsDoubles(amount, level.amount)
      ? orderAsDoubles(amount, level.amount)
      : exactOrder({ text: number.text, unit }, level.value, rounds ? level.place : null);
  return outcomeByOrder(state, flags, against, level);
}

/** What is decided before any level is looked at: rejected, or no result; null otherwise. */
export function outcomeWithoutNumber({ state, why }: Reading): Outcome | null {
  if (state === 'rejected') return OUTCOME.rejected;
  if (state !== 'none' && state !== 'unreadable') return null;
  return OUTCOME[why?.kind ?? 'blank'];
}

export const misfitOutcome = ({ misfit }: Match): Outcome | null =>
  misfit === null ? null : MISFIT[misfit];

/** Why a result cannot be compared with a level, whatever its number; null where it can. */
export function incomparable({ unit, basis, key }: Reading, level: Level): Outcome | null {
  if (unit === null) return OUTCOME['unit not known'];
  if (level.value === null) return OUTCOME['level not readable'];
  if (unit.dimension !== level.value.unit.dimension) return OUTCOME['different dimensions'];
  if (basis !== level.basis || basis === CONFLICT)
    return OUTCOME[basis === null || level.basis === null ? 'basis not stated' : 'different basis'];
  return basis === null && needsBasis(key) ? OUTCOME['basis not stated'] : null;
}

export const orderAsDoubles = (a: number, b: number): Order => (a < b ? -1 : 1);

/**
 * The order of an amount and a level as decimals.
 * @param place  round the amount first to this power of ten of the level's unit
 */
export function exactOrder(amount: Amount, level: Amount, place: number | null): Order {
  if (place === null) return compareAmounts(amount, level);
  const { times, power } = level.unit;
  const lastPlace = { digits: BigInt(times), exponent: power + place };
  return compareDecimals(roundedToMultiple(exactAmountOf(amount), lastPlace), exactAmountOf(level));
}

/** What the order of a result's number and the level comes to. */
export function outcomeByOrder(
  state: ReadingState,
  flags: number,
  against: Order,
  { rules: { equalExceeds } }: Level,
): Outcome {
  if (state === 'not detected')
    return OUTCOME[against > 0 ? 'limit above level' : 'limit at or below level'];
  const above = against > 0 || (against === 0 && equalExceeds);
  const estimated = (flags & FLAG.estimated) !== 0;
  if (state === 'more than') {
    if (flags & FLAG.overRange)
      return OUTCOME[above ? 'over range, above level' : 'over range, not above level'];
    if (!above) return OUTCOME['at least a value not above level'];
    return OUTCOME[estimated ? 'estimated value above level' : 'at least a value above level'];
  }
  if (!above) return OUTCOME[against === 0 ? 'value equal to level' : 'value below level'];
  if (estimated) return OUTCOME['estimated value above level'];
  return OUTCOME[against === 0 ? 'equal counts as above' : 'value above level'];
}
