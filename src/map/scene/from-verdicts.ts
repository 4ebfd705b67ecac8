import { VERDICT_WORDS, type Verdict } from '../../domain/lab/verdict';
import type { Place, SymbolItem } from './scene';
import { verdictColour } from './symbols';

/** What the results of one point say, an entry for each screen sampled, the shallowest first. */
export type VerdictsAt = {
  /** The location's id. */
  readonly who: string;
  readonly at: Place;
  readonly verdicts: readonly Verdict[];
};

const SIZE = 15;
/** From one mark of a stack to the next, px. */
const STEP = 17;
/** From the point to its marks, px. */
const BESIDE = 18;

/**
 * Marks to the right of each point, one for each screen, standing over one
 * another as the screens do in the ground.
 */
export const verdictItems = (points: readonly VerdictsAt[]): SymbolItem[] =>
  points.flatMap(({ who, at, verdicts }) =>
    verdicts.map((verdict, i): SymbolItem => ({
      kind: 'symbol',
      layer: 'verdicts',
      who,
      at,
      shape: `verdict ${verdict}`,
      size: SIZE,
      colour: verdictColour(verdict),
      offset: [BESIDE, (i - (verdicts.length - 1) / 2) * STEP],
      means: sentence(VERDICT_WORDS[verdict]),
    })),
  );

const sentence = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
