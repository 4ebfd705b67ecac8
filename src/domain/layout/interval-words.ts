import { length } from '../show';
import type { LengthUnit } from '../units';
import type { GapProblem, SettingProblem } from './setting-rules';

/** Why a screen cannot be set as asked, in words. */
export function intervalWords(problem: SettingProblem, unit: LengthUnit): string {
  const says = (value: Parameters<typeof length>[0]) => length(value, unit);
  switch (problem.kind) {
    case 'no-ground':
      return 'the ground is not known';
    case 'no-water':
      return 'no water is expected here: no heads around it';
    case 'no-layer':
      return 'that layer was not met here';
    case 'no-boring-depth':
      return 'the depth of the boring is not given';
    case 'does-not-straddle':
      return `${says(problem.above)} above the water leaves nothing of ${says(problem.exposed)} below it`;
    case 'no-tip-depth':
      return 'no tip depth';
    case 'no-exposed-length':
      return 'no exposed length';
    case 'top-below-base':
      return 'the exposed length is not above zero';
    case 'base-above-ground':
      return 'the screen would stand above ground';
    case 'screen-above-ground':
      return `the top of the screen would stand ${says(problem.depth)} below ground: above it`;
    case 'exposed-over-retraction':
      return `${says(problem.exposed)} exposed, but pulled back ${says(problem.retraction)}`;
    case 'retraction-over-screen':
      return `pulled back ${says(problem.retraction)}, over the screen’s ${says(problem.screen)}`;
    case 'exposed-over-screen':
      return `${says(problem.exposed)} exposed of a screen of ${says(problem.screen)}`;
  }
}

/** Two screens too near each other, in words. */
export const gapWords = ({ upper, lower, gap, least }: GapProblem, unit: LengthUnit): string =>
  `screens ${upper + 1} and ${lower + 1} are ${length(gap, unit)} apart, ${length(least, unit)} is the least`;
