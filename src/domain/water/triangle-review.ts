import type { Azimuth } from '../units';
import {
  MOST_BASE_TO_HEIGHT,
  MOST_RELATIVE_HEAD_ERROR,
  triangleAt,
  type Triangle,
  type Triangles,
} from './triangles';

/** How the shape of a triangle is measured here, against what is published. */
export const SHAPE_RULE_WORDS = `A triangle is kept with a base of at most ${MOST_BASE_TO_HEIGHT} times its height. Here the base is the longest side and the height the distance from it to the third well, so that the ratio is base²/(2·area), never under 1.155. The published bounds are 0.5 to 5.0 (McKenna and Wahi, 2006, Ground Water; as its abstract has them); how they choose the base is not stated there, so only the upper bound is used.`;

/** What a relative head error is, and its published bound. */
export const HEAD_ERROR_WORDS = `The relative head error is the error of a head over the drop across the triangle; under ${MOST_RELATIVE_HEAD_ERROR} is the published bound for the most accurate estimates (McKenna and Wahi, 2006).`;

/** What every three wells say, for the page. */
export type TriangleReview = {
  readonly count: number;
  /** Directions of triangles whose shape passes, and of those that fail. */
  readonly kept: readonly Azimuth[];
  readonly failing: readonly Azimuth[];
  /** In a line or level: no direction. */
  readonly none: number;
  /** Of all with a direction, how many have a relative head error over the bound. */
  readonly overHeadError: number;
  /** Those listed: by base to height, the worst shaped first; at most as many as asked for. */
  readonly listed: readonly Triangle[];
  /** The narrowest sector, in degrees, that holds the directions kept; null with fewer than two. */
  readonly spread: number | null;
};

/** The triangles of a set of wells, sorted by whether their shape lets them speak. */
export function triangleReview(triangles: Triangles, most = 40): TriangleReview {
  const kept: Azimuth[] = [];
  const failing: Azimuth[] = [];
  let [none, overHeadError] = [0, 0];
  const order = Array.from({ length: triangles.count }, (_, k) => k).sort(
    (a, b) => (triangles.baseToHeight[b] ?? 0) - (triangles.baseToHeight[a] ?? 0),
  );
  for (let k = 0; k < triangles.count; k++) {
    const triangle = triangleAt(triangles, k);
    if (!triangle || triangle.azimuth === null) {
      none++;
      continue;
    }
    (triangle.wellShaped ? kept : failing).push(triangle.azimuth);
    if ((triangle.relativeHeadError ?? 1) >= MOST_RELATIVE_HEAD_ERROR) overHeadError++;
  }
  return {
    count: triangles.count,
    kept,
    failing,
    none,
    overHeadError,
    listed: order.slice(0, most).flatMap((k) => triangleAt(triangles, k) ?? []),
    spread: narrowest(kept),
  };
}

/** Degrees of the narrowest sector that holds all directions: 360 less the widest gap. */
function narrowest(azimuths: readonly number[]): number | null {
  if (azimuths.length < 2) return null;
  const sorted = azimuths.toSorted((a, b) => a - b);
  const gaps = sorted.map((at, i) => ((sorted[i + 1] ?? (sorted[0] ?? 0) + 360) - at + 360) % 360);
  return 360 - Math.max(...gaps);
}
