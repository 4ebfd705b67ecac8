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
  const { count, azimuth: directions, baseToHeight, drop, wells } = triangles;
  const kept: Azimuth[] = [];
  const failing: Azimuth[] = [];
  let [none, overHeadError] = [0, 0];
  const squares = Float64Array.from(wells, ({ sigma }) => sigma ** 2 / 3);
  for (let k = 0; k < count; k++) {
    const direction = directions[k] as Azimuth;
    if (Number.isNaN(direction)) {
      none++;
      continue;
    }
    ((baseToHeight[k] as number) <= MOST_BASE_TO_HEIGHT ? kept : failing).push(direction);
    const square =
      (squares[triangles.first[k] as number] as number) +
      (squares[triangles.second[k] as number] as number) +
      (squares[triangles.third[k] as number] as number);
    const bound = MOST_RELATIVE_HEAD_ERROR * (drop[k] as number);
    if (square >= bound * bound) overHeadError++;
  }
  return {
    count,
    kept,
    failing,
    none,
    overHeadError,
    listed: worstShaped(baseToHeight, most).flatMap((k) => triangleAt(triangles, k) ?? []),
    spread: narrowest(kept),
  };
}

/** The triangles with the largest ratios, the largest first; of equal ones the first. */
function worstShaped(ratios: Float64Array, most: number): number[] {
  if (most === 0) return [];
  const least = ratios.slice().sort()[Math.max(0, ratios.length - most)] ?? 0;
  const among: number[] = [];
  for (let k = 0; k < ratios.length; k++) if ((ratios[k] as number) >= least) among.push(k);
  // Infinities, those in a line, compare as equals.
  return among
    .sort((a, b) => {
      const [one, other] = [ratios[a] as number, ratios[b] as number];
      return one === other ? a - b : other - one;
    })
    .slice(0, most);
}

/** Degrees of the narrowest sector that holds all directions: 360 less the widest gap. */
function narrowest(azimuths: readonly number[]): number | null {
  if (azimuths.length < 2) return null;
  const sorted = Float64Array.from(azimuths).sort();
  let [widest, before] = [0, (sorted.at(-1) ?? 0) - 360];
  for (const at of sorted) {
    widest = Math.max(widest, at - before);
    before = at;
  }
  return 360 - widest;
}
