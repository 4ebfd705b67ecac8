import { metres, turn, type Azimuth, type Degrees, type Metres } from '../../units';
import { convexHull } from './hull';
import { placesOf, type SurfacePoint } from './surface-point';

/** Pairs of wells about so far apart, taken together. */
export type Lag = {
  readonly pairs: number;
  /** Mean distance of the pairs. */
  readonly distance: Metres;
  /** Half the mean square difference of their heads, m². */
  readonly semivariance: number;
};

/** Which pairs are taken, and how they are put together. */
export type LagChoice = {
  /** Pairs further apart are not used. */
  readonly cutoff: Metres;
  /** Width of a lag. A pair at a boundary counts with the nearer pairs. */
  readonly width: Metres;
  /** Only pairs within so many degrees of a direction or its opposite; null for all. */
  readonly along: { readonly direction: Azimuth; readonly tolerance: Degrees } | null;
};

/** Lags to the cutoff, where nothing else is asked. */
const USUAL_LAGS = 15;

/**
 * Cutoff a third of the diagonal of the box around the wells, in fifteen lags:
 * the usual choice of E. J. Pebesma's gstat (Computers & Geosciences 30, 2004).
 */
export function usualLags(points: readonly SurfacePoint[]): LagChoice {
  const side = (pick: (p: SurfacePoint) => number) =>
    Math.max(...points.map(pick)) - Math.min(...points.map(pick));
  const cutoff = metres(
    Math.hypot(
      side((p) => p.x),
      side((p) => p.y),
    ) / 3,
  );
  return { cutoff, width: metres(cutoff / USUAL_LAGS), along: null };
}

/**
 * How unlike heads are, against how far apart: the experimental variogram, by
 * the classical estimator (G. Matheron, 1962). Lags without pairs are left out.
 * Where the surface is to be kriged about a plane, give it `detrended` heads.
 */
export function experimentalVariogram(
  points: readonly SurfacePoint[],
  { cutoff, width, along }: LagChoice,
): Lag[] {
  const sums = new Map<number, { pairs: number; distance: number; squares: number }>();
  points.forEach((p, i) => {
    for (const q of points.slice(0, i)) {
      const [dx, dy] = [p.x - q.x, p.y - q.y];
      const distance = Math.hypot(dx, dy);
      if (distance > cutoff || (along && !isAlong(dx, dy, along))) continue;
      const lag = Math.max(0, Math.ceil(distance / width) - 1);
      const sum = sums.get(lag) ?? { pairs: 0, distance: 0, squares: 0 };
      sum.pairs += 1;
      sum.distance += distance;
      sum.squares += (p.head - q.head) ** 2;
      sums.set(lag, sum);
    }
  });
  return [...sums.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, { pairs, distance, squares }]) => ({
      pairs,
      distance: metres(distance / pairs),
      semivariance: squares / pairs / 2,
    }));
}

function isAlong(
  dx: number,
  dy: number,
  { direction, tolerance }: NonNullable<LagChoice['along']>,
) {
  const apart = Math.abs(turn(direction, (Math.atan2(dx, dy) * 180) / Math.PI));
  return Math.min(apart, 180 - apart) <= tolerance;
}

/**
 * The heads less the plane that best fits them: what the variogram of a surface
 * about a plane is worked from. Null for fewer than three places or places in a
 * line. (The residuals of least squares vary a little less than the true ones:
 * N. Cressie, 1993, Statistics for spatial data, §3.4.3, value from memory.)
 */
export function detrended(points: readonly SurfacePoint[]): SurfacePoint[] | null {
  const outline = convexHull(placesOf(points).map(({ x, y }) => [x, y]));
  if (!outline) return null;
  const n = points.length;
  const mean = (pick: (p: SurfacePoint) => number) =>
    points.reduce((sum, p) => sum + pick(p) / n, 0);
  const [x0, y0, h0] = [mean((p) => p.x), mean((p) => p.y), mean((p) => p.head)];
  const product = (a: (p: SurfacePoint) => number, b: (p: SurfacePoint) => number) =>
    points.reduce((sum, p) => sum + a(p) * b(p), 0);
  const [x, y, h] = [
    (p: SurfacePoint) => p.x - x0,
    (p: SurfacePoint) => p.y - y0,
    (p: SurfacePoint) => p.head - h0,
  ];
  const [xx, xy, yy] = [product(x, x), product(x, y), product(y, y)];
  const [xh, yh] = [product(x, h), product(y, h)];
  const det = xx * yy - xy * xy;
  const [a, b] = [(xh * yy - yh * xy) / det, (yh * xx - xh * xy) / det];
  return points.map((p) => ({ ...p, head: metres(h(p) - a * x(p) - b * y(p)) }));
}
