import { azimuth, degrees, metres, type Azimuth, type Degrees, type Metres } from '../units';
import type { HeadPoint } from './plane';
import { roundingOf, THINNEST_SPREAD } from './plane-solver';

/**
 * A triangle passes the shape rule with a base no more than this many times its
 * height. McKenna and Wahi (2006, Ground Water 44(5); issue number from memory)
 * give base to height from 0.5 to 5.0 for the most accurate estimates, but not,
 * in what we have read, how the base is chosen. Here it is the longest side, so
 * that base/height = base²/(2·area): never below 1.155, the equilateral, and
 * only the upper bound can bind. Smallest angle is shown beside it.
 */
export const MOST_BASE_TO_HEIGHT = 5;

/**
 * Error of a head over the drop across the triangle: below this, with the shape
 * rule, the estimates are the most accurate. McKenna and Wahi (2006), abstract.
 * In the best-shaped triangle it stands for a σ_θ of 3.5° to 4.1°.
 */
export const MOST_RELATIVE_HEAD_ERROR = 0.05;

/**
 * Every three of a set of wells, in columns because 60 wells make 34,220. In
 * the order 012, 013, … as the wells were given. Columns hold NaN where there is
 * no answer; `triangleAt` reads them with null.
 */
export type Triangles = {
  readonly wells: readonly HeadPoint[];
  readonly count: number;
  /** Index of each corner among the wells, first < second < third. */
  readonly first: Uint16Array;
  readonly second: Uint16Array;
  readonly third: Uint16Array;
  /** NaN for three in a line. */
  readonly gradient: Float64Array;
  /** Of flow, 0 to 360 from grid north; NaN for three in a line or level. */
  readonly azimuth: Float64Array;
  /** Longest side over the height on it; Infinity for three in a line. */
  readonly baseToHeight: Float64Array;
  /** Metres between the highest and the lowest head. */
  readonly drop: Float64Array;
};

export type Triangle = {
  readonly ids: readonly [string, string, string];
  readonly gradient: number | null;
  /** Of flow, clockwise from grid north; null for three in a line or level. */
  readonly azimuth: Azimuth | null;
  /** Why there is no direction; null when there is. */
  readonly none: 'in-a-line' | 'level' | null;
  /** Longest side over the height on it; null for three in a line. */
  readonly baseToHeight: number | null;
  /** `baseToHeight` is no more than 5. */
  readonly wellShaped: boolean;
  readonly smallestAngle: Degrees;
  /** Root mean square of the three stated errors over the drop; null without a drop. */
  readonly relativeHeadError: number | null;
  /** Between the highest and the lowest head. */
  readonly drop: Metres;
};

/**
 * The exact plane of every three wells: many local answers, whose spread shows
 * errors and where one plane is wrong (S. E. Silliman and C. Frost, 1998,
 * Monitoring hydraulic gradient using three-point estimator).
 */
export function trianglesOf(wells: readonly HeadPoint[]): Triangles {
  const n = wells.length;
  const count = n < 3 ? 0 : (n * (n - 1) * (n - 2)) / 6;
  const triangles = {
    wells,
    count,
    first: new Uint16Array(count),
    second: new Uint16Array(count),
    third: new Uint16Array(count),
    gradient: new Float64Array(count),
    azimuth: new Float64Array(count),
    baseToHeight: new Float64Array(count),
    drop: new Float64Array(count),
  };
  const origin = wells[0];
  if (!origin) return triangles;
  const x = Float64Array.from(wells, (well) => well.x - origin.x);
  const y = Float64Array.from(wells, (well) => well.y - origin.y);
  const head = Float64Array.from(wells, (well) => well.head);
  // The plane of three is level, as in plane.ts, when its mean square fall is rounding; that is
  // a ninth of the sum of the squared differences.
  const rounding = roundingOf(Math.max(...wells.map((well) => Math.abs(well.head))));

  let at = 0;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) {
      const east = (x[j] as number) - (x[i] as number);
      const north = (y[j] as number) - (y[i] as number);
      const rise = (head[j] as number) - (head[i] as number);
      const side = east * east + north * north;
      for (let k = j + 1; k < n; k++, at++) {
        const east2 = (x[k] as number) - (x[i] as number);
        const north2 = (y[k] as number) - (y[i] as number);
        const rise2 = (head[k] as number) - (head[i] as number);
        const side2 = east2 * east2 + north2 * north2;
        const side3 = (east2 - east) ** 2 + (north2 - north) ** 2;
        const twiceArea = east * north2 - east2 * north;

        triangles.first[at] = i;
        triangles.second[at] = j;
        triangles.third[at] = k;
        const drop = Math.max(0, rise, rise2) - Math.min(0, rise, rise2);
        triangles.drop[at] = drop;
        const inLine = !(spreadRatio(side + side2 + side3, twiceArea) >= THINNEST_SPREAD);
        const area = Math.abs(twiceArea);
        triangles.baseToHeight[at] = inLine ? Infinity : Math.max(side, side2, side3) / area;
        const unlike = rise * rise + rise2 * rise2 + (rise2 - rise) ** 2;
        if (inLine || unlike <= 9 * rounding * rounding) {
          triangles.gradient[at] = inLine ? NaN : 0;
          triangles.azimuth[at] = NaN;
          continue;
        }
        const a = (rise * north2 - rise2 * north) / twiceArea;
        const b = (east * rise2 - east2 * rise) / twiceArea;
        triangles.gradient[at] = Math.sqrt(a * a + b * b);
        const angle = (Math.atan2(-a, -b) * 180) / Math.PI;
        triangles.azimuth[at] = angle < 0 ? angle + 360 : angle;
      }
    }
  return triangles;
}

/**
 * Smaller over larger singular value of three points about their centre, from
 * the sum of their sides' squares: their scatter has trace sides/3 and
 * determinant (2·area)²/3.
 */
function spreadRatio(sides: number, twiceArea: number): number {
  const half = sides / 6;
  const determinant = (twiceArea * twiceArea) / 3;
  const larger = half + Math.sqrt(Math.max(0, half * half - determinant));
  return Math.sqrt(determinant) / larger;
}

/** Triangle k of a set; null past the last. */
export function triangleAt(triangles: Triangles, k: number): Triangle | null {
  const wellOf = (corner: Uint16Array) => triangles.wells[corner[k] ?? -1];
  const [first, second, third] = [
    wellOf(triangles.first),
    wellOf(triangles.second),
    wellOf(triangles.third),
  ];
  const drop = triangles.drop[k];
  const baseToHeight = triangles.baseToHeight[k];
  const gradient = triangles.gradient[k];
  const direction = triangles.azimuth[k];
  if (!first || !second || !third || drop === undefined || baseToHeight === undefined) return null;

  const inLine = baseToHeight === Infinity;
  const level = gradient === 0;
  const error = Math.sqrt((first.sigma ** 2 + second.sigma ** 2 + third.sigma ** 2) / 3);
  return {
    ids: [first.id, second.id, third.id],
    gradient: inLine || gradient === undefined ? null : gradient,
    azimuth: inLine || level || direction === undefined ? null : azimuth(direction),
    none: inLine ? 'in-a-line' : level ? 'level' : null,
    baseToHeight: inLine ? null : baseToHeight,
    wellShaped: baseToHeight <= MOST_BASE_TO_HEIGHT,
    smallestAngle: degrees(
      Math.min(
        angleAt(first, second, third),
        angleAt(second, third, first),
        angleAt(third, first, second),
      ),
    ),
    relativeHeadError: level || drop === 0 ? null : error / drop,
    drop: metres(drop),
  };
}

/** Angle at a corner, 0 to 180. */
function angleAt(corner: HeadPoint, one: HeadPoint, other: HeadPoint): number {
  const [x1, y1] = [one.x - corner.x, one.y - corner.y];
  const [x2, y2] = [other.x - corner.x, other.y - corner.y];
  return (Math.atan2(Math.abs(x1 * y2 - x2 * y1), x1 * x2 + y1 * y2) * 180) / Math.PI;
}
