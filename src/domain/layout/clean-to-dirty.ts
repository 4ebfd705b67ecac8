import { distanceBetween } from '../geometry/compass';
import { distanceToOutline, prepare, whereInPrepared } from '../geometry/prepared';
import type { XY } from '../geometry/shape';
import { readShape } from '../geometry/wkt';
import type { DrawnResult } from '../lab/drawn-results';
import { worseFirst, worstOf } from '../lab/worst';
import type { Verdict } from '../lab/verdict';
import type { Feature } from '../site/schema';
import type { Site } from '../site/site';
import { groupBy } from '../group';
import type { PlannedPoint } from './field-plan';
import { placeIn } from './replan';

/** What is expected at a point: the worst verdict at the nearest point sampled, and how far the source is. */
export type Expected = {
  readonly verdict: Verdict | null;
  /** The point that verdict is of; null where nothing near was sampled. */
  readonly like: string | null;
  /** From the nearest drawn source area, in the grid's unit; 0 in it, null where none is drawn. */
  readonly toSource: number | null;
};

const isSource = ({ kind }: Feature) => kind === 'source area';

/** Source areas a place lies in: whatever is driven there is pushed through them. */
export function sourcesAt(features: readonly Feature[], at: XY): readonly Feature[] {
  return features.filter((feature) => {
    const read = isSource(feature) ? readShape(feature.shape) : null;
    return read?.ok && whereInPrepared(prepare(read.value), at) !== 'outside';
  });
}

/** What is expected at planned points, by results judged against a set of levels and by what is drawn. */
export function expectedAt(
  site: Site,
  results: readonly DrawnResult[],
): (point: PlannedPoint) => Expected {
  const { unit } = site.settings.grid;
  const judged = groupBy(results, ({ screen }) => screen?.location ?? null);
  const sampled = [...judged].flatMap(([id, all]) => {
    const location = id === null ? undefined : site.locations.get(id);
    const at = location && placeIn(location, unit);
    const verdict = worstOf(all.map((one) => one.judged.outcome.verdict));
    return at && id !== null && verdict ? [{ id, at, verdict }] : [];
  });
  const sources = site.features.filter(isSource).flatMap(({ shape }) => {
    const read = readShape(shape);
    return read.ok ? [prepare(read.value)] : [];
  });
  return ({ at }) => {
    const [near] = sampled
      .map((one) => ({ ...one, apart: distanceBetween(one.at, at) }))
      .toSorted((a, b) => a.apart - b.apart);
    const away = sources.map((source) =>
      whereInPrepared(source, at) === 'inside' ? 0 : distanceToOutline(source, at),
    );
    return {
      verdict: near?.verdict ?? null,
      like: near?.id ?? null,
      toSource: away.length > 0 ? Math.min(...away) : null,
    };
  };
}

/**
 * Points from clean to dirty, so that tools carry nothing to a cleaner point: by
 * the worst verdict at the nearest point sampled, the least first, then by the
 * distance from the drawn source areas, the farthest first. What nothing is
 * known of stands between. (Order of work from clean to dirty: common practice.)
 */
export function cleanToDirty(
  points: readonly PlannedPoint[],
  expected: (point: PlannedPoint) => Expected,
): PlannedPoint[] {
  return points
    .map((point) => ({ point, ...expected(point) }))
    .toSorted(
      (a, b) =>
        worseFirst(b.verdict ?? 'no-result', a.verdict ?? 'no-result') ||
        (b.toSource ?? 0) - (a.toSource ?? 0),
    )
    .map(({ point }) => point);
}
