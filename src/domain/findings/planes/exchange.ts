import type { FlowPoint } from '../../water/flow-points';
import { fitPlane, rootWeights, type Plane } from '../../water/plane';
import { planeWorkspace, solvePlane } from '../../water/plane-solver';

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
  if (points.length < FEWEST) return null;
  const all = fitPlane(points, { weighted: true });
  if (!all.ok) return null;
  const residual = new Map(points.map((p, i) => [p, Math.abs(all.value.residuals[i] ?? 0)]));
  const looked = points
    .filter(({ gauged }) => gauged.reading.depth_to_water && !gauged.reading.depth_to_product)
    .toSorted((a, b) => (residual.get(b) ?? 0) - (residual.get(a) ?? 0))
    .slice(0, MOST_LOOKED_AT);

  const isLikely = screened(points);
  let best: (Exchange & { readonly misfit: number }) | null = null;
  for (const [i, one] of looked.entries())
    for (const other of looked.slice(i + 1)) {
      const fits = isLikely(one, other) ? fitOf(points, one, other) : null;
      if (fits && (!best || fits.misfit < best.misfit)) best = fits;
    }
  return best && { one: best.one, other: best.other, apart: best.apart, others: best.others };
}

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
  if (apart === 0) return null;
  const rest = fitPlane(
    points.filter((point) => point !== one && point !== other),
    { weighted: true },
  );
  if (!rest.ok) return null;
  const [a, b] = [against(rest.value, one), against(rest.value, other)];
  const least = SHOWS * Math.max(a.error, b.error);
  if (Math.abs(apart) < least) return null;
  const misfit = Math.max(Math.abs(a.off - apart) / a.error, Math.abs(b.off + apart) / b.error);
  return misfit <= FITS
    ? { one, other, apart: Math.abs(apart), others: points.length - 2, misfit }
    : null;
}

/** A head against a plane it is not part of: measured less fitted, and one standard error of that. */
export function against(plane: Plane, { x, y, head, sigma }: FlowPoint) {
  const [east, north] = [x - plane.centre.x, y - plane.centre.y];
  const off = head - (plane.c + plane.a * east + plane.b * north);
  const { aa, ab, bb } = plane.stated.covariance;
  const slope = east * east * aa + 2 * east * north * ab + north * north * bb;
  const stated = Math.sqrt(sigma ** 2 * (1 + 1 / plane.ids.length) + slope);
  // Where the scatter is larger than the stated errors make it, they are too small.
  const wider =
    plane.lackOfFit === null ? 1 : Math.max(1, Math.sqrt(plane.lackOfFit / plane.degreesOfFreedom));
  return { off, error: stated * wider };
}
