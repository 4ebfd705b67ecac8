import { fixed, length, significant, usualDecimals } from '../show';
import type { LengthUnit } from '../units';
import type { Culprit, LeaveOneOut } from './leave-one-out';

/** A turn under this is not worth calling a well the one that drives the answer. A judgement, no source. */
const WORTH_SAYING = 1; // degree

/** The well without which the direction turns furthest, where that is worth saying; null where none does. */
export function driving({ driver, wells }: Pick<LeaveOneOut, 'driver' | 'wells'>): string | null {
  const shift = wells.find(({ id }) => id === driver)?.shift ?? 0;
  return Math.abs(shift) >= WORTH_SAYING ? driver : null;
}

/** Which well drives the direction, in a sentence. */
export function driverWords(left: LeaveOneOut): string {
  const { driver, wells } = left;
  const shift = wells.find(({ id }) => id === driver)?.shift;
  if (driver === null || shift === undefined || shift === null)
    return 'No direction comes of it, so none can turn.';
  const turned = `the direction turns ${fixed(Math.abs(shift), 1)}° ${shift < 0 ? 'anticlockwise' : 'clockwise'}`;
  return driving(left) === null
    ? `No one well drives the answer: without ${driver}, which turns it most, ${turned}.`
    : `Of single wells ${driver} drives the answer: without it ${turned}.`;
}

/** Whether one well can be named that does not fit the others, in a sentence. */
export function culpritWords(culprit: Culprit, unit: LengthUnit): string {
  if (culprit.kind === 'cannot-be-named')
    return `With ${culprit.have} wells no one of them can be named as wrong; ${culprit.need} are needed.`;
  const { id, probability, predictionResidual } = culprit;
  const off = length(predictionResidual, unit, usualDecimals(unit) + 1);
  return culprit.kind === 'named'
    ? `${id} does not fit the others: it is ${off} off them, which chance does ${chanceWords(probability)}.`
    : `No well stands out: the furthest off is ${id} by ${off}, as chance does ${chanceWords(probability)}.`;
}

const chanceWords = (probability: number) =>
  probability < 0.001
    ? 'less than once in 1000'
    : `with a probability of ${significant(probability, 2)}`;
