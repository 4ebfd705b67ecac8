import { groupBy } from '../group';
import type { DrawnResult } from './drawn-results';
import type { Verdict } from './verdict';
import { worstOf } from './worst';

/** The worst verdict of each screen sampled, by its id. */
export function worstByScreen(results: Iterable<DrawnResult>): ReadonlyMap<string, Verdict> {
  const groups = groupBy(results, ({ screen }) => screen?.id ?? null);
  return new Map(
    [...groups].flatMap(([id, judged]) => {
      const worst = worstOf(judged.map((one) => one.judged.outcome.verdict));
      return id === null || worst === null ? [] : [[id, worst] as const];
    }),
  );
}
