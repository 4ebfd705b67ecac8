import { fail, ok, type Result } from '../result';
import type { NamedStake } from './lay-points';
import { namingProblemWords, patternProblemWords } from './layout-words';
import { inWalkingOrder, namesFor, readPattern, type WalkingOrder } from './numbering';
import type { Stake } from './stakes';

/**
 * Stakes in the order they are walked, named by a pattern; why not, in words.
 *
 * @param taken  names in use on the site
 */
export function nameStakes(
  stakes: readonly Stake[],
  text: string,
  order: WalkingOrder,
  taken: Iterable<string>,
): Result<readonly NamedStake[], string> {
  const ordered = inWalkingOrder(stakes, order);
  const words = ['number', ...Object.keys(stakes[0]?.counts ?? {})];
  const pattern = readPattern(text, words);
  if (!pattern.ok) return fail(patternProblemWords(pattern.problem));
  const names = namesFor(
    ordered.map(({ counts }) => ({ name: null, keepsName: false, counts })),
    pattern.value,
    taken,
  );
  if (!names.ok) return fail(namingProblemWords(names.problem));
  return ok(ordered.map((stake, i) => ({ ...stake, name: names.value[i] ?? '' })));
}
