import { groupBy } from '../group';
import type { Screen } from '../site/schema';
import type { JudgedResult } from './site-results';
import { isOver } from './verdict';
import { worseResultFirst } from './worst';

/** A screen whose samples of one event disagree on whether a level is exceeded. */
export type SamplesApart = {
  readonly screen: Screen;
  /** One an analyte: the worst that exceeds, and the least that does not. */
  readonly pairs: readonly { readonly over: JudgedResult; readonly under: JudgedResult }[];
};

const isUnder = ({ judged: { outcome } }: JudgedResult) =>
  outcome.verdict === 'does-not-exceed' || outcome.verdict === 'not-detected';

/**
 * Screens where one sample exceeds and another of the same analyte, fraction and
 * depth does not. In the order of the results.
 * @param results  field samples of one event, judged against one set of levels
 */
export function samplesApart(results: readonly JudgedResult[]): SamplesApart[] {
  const sameWater = groupBy(results, ({ screen, sample, reading, row }) =>
    [
      screen?.id ?? '',
      sample.top_depth?.value ?? '',
      sample.base_depth?.value ?? '',
      reading.key,
      row.fraction ?? '',
    ].join('\n'),
  );
  const apart = [...sameWater.values()].flatMap((all) => {
    const worstFirst = all.toSorted((a, b) => worseResultFirst(a.judged, b.judged));
    const over = worstFirst.find(({ judged }) => isOver(judged.outcome.verdict));
    const under = worstFirst.findLast((one) => isUnder(one) && one.sample !== over?.sample);
    const { screen } = worstFirst[0] ?? {};
    return screen && over && under ? [{ screen, over, under }] : [];
  });
  return [...groupBy(apart, ({ screen }) => screen)].map(([screen, pairs]) => ({ screen, pairs }));
}
