import type { FlowPoint } from '../../water/flow-points';
import { against } from '../../water/off-plane';
import { fitPlane, rootWeights } from '../../water/plane';
import { planeWorkspace, solvePlane } from '../../water/plane-solver';
import { metres } from '../../units';

/** Two depths that seem to have been written in each other's rows. */
export type Exchange = {
  readonly one: FlowPoint;
  readonly other: FlowPoint;
  /** What the two depths differ by, metres. */
  readonly apart: number;
  readonly others: number;
};

/** Fewest wells in which an exchange can be seen: three to make a plane, and the two. */
const FEWEST = 5;

/** Pairs are looked for among this many wells with the largest residuals. */
const MOST_LOOKED_AT = 9;

/** An exchange is looked for where it would show this many standard errors, and must fit within so many. */
const SHOWS = 5;
const FITS = 3;

/**
 * The pair of wells whose depths, exchanged, put both heads where the others put
 * them; null if there is none. Each must then be off by the difference of the
 * two depths, one up and one down. A judgement, no source.
 */
export function exchanged(points: readonly FlowPoint[]): Exchange | null {
  const isLikely = screened(points);
  const fitting = pairsOf(points)
    .filter(([one, other]) => isLikely(one, other))
    .flatMap(([one, other]) => fitOf(points, one, other) ?? []);
  const [best] = fitting.toSorted((a, b) => a.misfit - b.misfit);
  return best ? exchangeOf(points, best.one, best.other) : null;
}

/**
 * The one pair whose exchange makes the heads a plane, where no other pair's
 * does: for wells so placed that the plane of the others says little of the two.
 */
export function mendingExchange(
  points: readonly FlowPoint[],
  isPlane: (points: readonly FlowPoint[]) => boolean,
): Exchange | null {
  const mending = pairsOf(points).filter(([one, other]) => {
    const apart = metres(depthOf(other) - depthOf(one));
    return isPlane(
      points.map((point) =>
        point === one
          ? { ...point, head: metres(point.head - apart) }
          : point === other
            ? { ...point, head: metres(point.head + apart) }
            : point,
      ),
    );
  });
  const [only] = mending;
  return only && mending.length === 1 ? exchangeOf(points, ...only) : null;
}

type Pair = readonly [one: FlowPoint, other: FlowPoint];

/** Pairs of different depths among the wells with the largest residuals; none where the wells are too few. */
function pairsOf(points: readonly FlowPoint[]): Pair[] {
  const all = fitPlane(points, { weighted: true });
  if (points.length < FEWEST || !all.ok) return [];
  const residual = new Map(points.map((p, i) => [p, Math.abs(all.value.residuals[i] ?? 0)]));
  const looked = points
    .filter(({ gauged }) => gauged.reading.depth_to_water && !gauged.reading.depth_to_product)
    .toSorted((a, b) => (residual.get(b) ?? 0) - (residual.get(a) ?? 0))
    .slice(0, MOST_LOOKED_AT);
  return looked.flatMap((one, i) =>
    looked
      .slice(i + 1)
      .filter((other) => depthOf(other) !== depthOf(one))
      .map((other): Pair => [one, other]),
  );
}

const exchangeOf = (points: readonly FlowPoint[], one: FlowPoint, other: FlowPoint): Exchange => ({
  one,
  other,
  apart: Math.abs(depthOf(other) - depthOf(one)),
  others: points.length - 2,
});

const depthOf = ({ gauged }: FlowPoint): number => gauged.reading.depth_to_water?.value ?? 0;

/**
 * Whether the plane of the others puts a pair off by about what their depths
 * differ by: a quick look before the errors are worked out. FITS errors are at
 * most this part of a difference of SHOWS errors.
 */
function screened(points: readonly FlowPoint[]) {
  const column = (pick: (point: FlowPoint) => number) => Float64Array.from(points, pick);
  const [x, y, head] = [column((p) => p.x), column((p) => p.y), column((p) => p.head)];
  const all = rootWeights(points);
  const roots = new Float64Array(all);
  const rest = planeWorkspace(points.length);
  const place = new Map(points.map((point, i) => [point, i]));
  return (one: FlowPoint, other: FlowPoint): boolean => {
    const [i, j] = [place.get(one) ?? 0, place.get(other) ?? 0];
    roots.set(all);
    roots[i] = roots[j] = 0;
    solvePlane(x, y, head, roots, 0, points.length, rest);
    const off = (p: FlowPoint) =>
      p.head - (rest.head + rest.a * (p.x - rest.x) + rest.b * (p.y - rest.y));
    const apart = depthOf(other) - depthOf(one);
    const slack = (FITS / SHOWS) * Math.abs(apart);
    return Math.abs(off(one) - apart) <= slack && Math.abs(off(other) + apart) <= slack;
  };
}

function fitOf(points: readonly FlowPoint[], one: FlowPoint, other: FlowPoint) {
  const apart = depthOf(other) - depthOf(one);
  const rest = fitPlane(
    points.filter((point) => point !== one && point !== other),
    { weighted: true },
  );
  if (!rest.ok) return null;
  const [a, b] = [against(rest.value, one), against(rest.value, other)];
  if (Math.abs(apart) < SHOWS * Math.max(a.error, b.error)) return null;
  const misfit = Math.max(Math.abs(a.off - apart) / a.error, Math.abs(b.off + apart) / b.error);
  return misfit <= FITS ? { one, other, misfit } : null;
}
