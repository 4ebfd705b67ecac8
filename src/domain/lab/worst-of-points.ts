import { NO_SCREEN } from './column-writer';
import { judgedAt, worseRowFirst, type JudgedSelection } from './judged-selection';
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
  const { sample, samples, screen } = of.columns;
  const worse = worseRowFirst(of);
  const who = samples.map(({ location }) => location?.id ?? null);
  const points = new Map<string, { worst: number; readonly samples: Set<number> }>();
  for (const row of of.rows) {
    const which = sample[row] ?? 0;
    const id = who[which] ?? null;
    if (screen[which] === NO_SCREEN || id === null) continue;
    const point = points.get(id);
    if (!point) points.set(id, { worst: row, samples: new Set([which]) });
    else {
      if (worse(row, point.worst) < 0) point.worst = row;
      point.samples.add(which);
    }
  }
  return [...points]
    .toSorted(([, a], [, b]) => worse(a.worst, b.worst))
    .map(([id, point]) => ({ who: id, samples: [...point.samples] }));
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
