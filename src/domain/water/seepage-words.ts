import type { SeepageProblem } from './seepage';

/** Why there is no velocity, in a sentence. */
export function seepageProblemWords(problem: SeepageProblem): string {
  switch (problem.kind) {
    case 'no-conductivity':
      return 'Hydraulic conductivity must be above zero.';
    case 'no-gradient':
      return 'There is no gradient to work from.';
    case 'no-porosity':
      return 'Effective porosity is a part of one, above zero.';
    case 'range-upside-down':
      return `The range of ${problem.part} runs from more to less.`;
  }
}
