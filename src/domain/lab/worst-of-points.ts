import { groupBy } from '../group';
import { distinct } from './column-writer';
import { judgedAt, worseRowFirst, worstRowsBy, type JudgedSelection } from './judged-selection';
import { sampleRows } from './sample-rows';
import type { JudgedResult } from './site-results';

/** The samples of a selection taken at one point, by their places in the columns. */
export type SampledPoint = {
  /** The location's id. */
  readonly who: string;
  readonly samples: readonly number[];
};

/** The points of a selection, the one with the worst result first; of equals the first to appear. */
export function pointsWorstFirst(of: JudgedSelection): SampledPoint[] {
  const { sample, samples } = of.columns;
  const { all, place } = distinct<string>((id) => id);
  const pointOf = Int32Array.from(samples, ({ location }) => (location ? place(location.id) : -1));
  const { met, worst } = worstRowsBy(of, all.length, (row) => pointOf[sample[row] ?? 0] ?? -1);
  const taken = groupBy(sampleRows(of).samples, (which) => pointOf[which] ?? -1);
  const worse = worseRowFirst(of);
  return met
    .toSorted((a, b) => worse(worst[a] ?? 0, worst[b] ?? 0))
    .map((point) => ({ who: all[point] ?? '', samples: taken.get(point) ?? [] }));
}

/**
 * The worst result of each analyte in each sample of a point, the worst first.
 * @param most  so many at most; the others are counted
 */
export function worstOfPoint(
  of: JudgedSelection,
  { samples }: SampledPoint,
  most: number,
): { readonly worst: readonly JudgedResult[]; readonly more: number } {
  const { sample, kind, kinds } = of.columns;
  const { rowsOf } = sampleRows(of);
  const worse = worseRowFirst(of);
  const worst = new Map<string, number>();
  for (const row of samples.flatMap((which) => [...rowsOf(which)]).toSorted((a, b) => a - b)) {
    const what = `${sample[row]}|${kinds[kind[row] ?? 0]?.key}`;
    const before = worst.get(what);
    if (before === undefined || worse(row, before) < 0) worst.set(what, row);
  }
  const rows = [...worst.values()].toSorted(worse);
  return {
    worst: rows.slice(0, most).map((row) => judgedAt(of, row)),
    more: Math.max(0, rows.length - most),
  };
}
