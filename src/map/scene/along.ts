import { azimuthTo } from './plain';
import type { Place } from './scene';

/** Words beside or in a line: where, and how far turned from level, so that they are read from below. */
export type Along = { readonly at: Place; readonly turned: number };

export const lengthOf = ([[e0, n0], [e1, n1]]: readonly [Place, Place]) =>
  Math.hypot(e1 - e0, n1 - n0);

/** The straight stretches of a line, in order. */
export function stretches(path: readonly Place[]): (readonly [from: Place, to: Place])[] {
  return path.flatMap((from, i) => {
    const to = path[i + 1];
    return to ? [[from, to] as const] : [];
  });
}

/** The middle of the longest straight stretch of a line; null when it has none. */
export function longestStretch(path: readonly Place[]): Along | null {
  const [longest] = stretches(path).toSorted((a, b) => lengthOf(b) - lengthOf(a));
  if (!longest || lengthOf(longest) === 0) return null;
  const [from, to] = longest;
  return {
    at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
    turned: upright(azimuthTo(from, to) - 90),
  };
}

/** An angle turned half round where words would stand on their head; in (−90, 90]. */
export function upright(degrees: number): number {
  const angle = ((degrees % 180) + 180) % 180;
  return angle > 90 ? angle - 180 : angle;
}

/** Middle of a ring weighed by its area; of its corners where it has none. */
export function centroid(ring: readonly Place[]): Place {
  const [e0, n0] = ring[0] ?? [0, 0];
  let [area, e, n] = [0, 0, 0];
  for (const [a, b] of stretches(ring)) {
    const [x0, y0, x1, y1] = [a[0] - e0, a[1] - n0, b[0] - e0, b[1] - n0];
    const cross = x0 * y1 - x1 * y0;
    area += cross;
    e += (x0 + x1) * cross;
    n += (y0 + y1) * cross;
  }
  if (area !== 0) return [e0 + e / (3 * area), n0 + n / (3 * area)];
  const mean = (pick: (place: Place) => number) =>
    ring.reduce((sum, place) => sum + pick(place), 0) / Math.max(1, ring.length);
  return [mean(([east]) => east), mean(([, north]) => north)];
}
