import { length, unitText } from '../show';
import type { LengthUnit } from '../units';
import type { NoAdjustment } from './adjustment';
import type { LoopProblem } from './level-loop';
import type { Suspect } from './misclosure';

/** Why a level book cannot be reduced, and at which line. */
export function loopProblemWords(problem: LoopProblem): string {
  if (problem.kind === 'too-few-shots')
    return `The book has ${problem.have} line${problem.have === 1 ? '' : 's'}: two are the least.`;
  const at = `line ${problem.order}, ${problem.point}`;
  switch (problem.kind) {
    case 'no-start-elevation':
      return `The start has no known elevation (${at}).`;
    case 'no-start-backsight':
      return `The start has no backsight (${at}).`;
    case 'foresight-at-start':
      return `The start has a foresight, which nothing leads to (${at}).`;
    case 'no-foresight':
      return `No foresight leads to this point (${at}).`;
    case 'ends-on-backsight':
      return `The book ends on a backsight that leads nowhere (${at}).`;
  }
}

export function noAdjustmentWords(problem: NoAdjustment, unit: LengthUnit): string {
  switch (problem.kind) {
    case 'open':
      return 'The line closes on nothing known: it is not checked and not adjusted.';
    case 'no-distance':
      return 'A leg was not measured: it cannot be shared out by distance.';
    case 'misclosure-exceeds':
      return `The misclosure of ${length(problem.misclosure, unit, 3)} is over the ${length(problem.limit, unit, 3)} allowed. It is a mistake and is not shared out: level it again, or find it in the book.`;
  }
}

/** A mistake that would explain the misclosure, in words. */
export function suspectWords(suspect: Suspect): string {
  switch (suspect.kind) {
    case 'columns swapped':
      return `backsight and foresight of line ${suspect.order}, ${suspect.point}, in each other’s column`;
    case 'set-up turned round':
      return `the set-up from ${suspect.from} to ${suspect.to} read the wrong way round`;
    case 'whole units':
      return `a reading off by ${Math.abs(suspect.units)} whole ${unitText(suspect.unit)}`;
  }
}
