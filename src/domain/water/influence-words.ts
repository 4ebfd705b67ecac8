import { fixed, length, significant, usualDecimals } from '../show';
import type { LengthUnit } from '../units';
import type { Culprit, LeaveOneOut } from './leave-one-out';

/** Which well drives the direction, in a sentence. */
export function driverWords({ driver, wells }: LeaveOneOut): string {
  const shift = wells.find(({ id }) => id === driver)?.shift;
  return driver === null || shift === undefined || shift === null
    ? 'No direction comes of it, so none can turn.'
    : `${driver} drives the answer: without it the direction turns ${fixed(Math.abs(shift), 1)}° ${shift < 0 ? 'anticlockwise' : 'clockwise'}.`;
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
