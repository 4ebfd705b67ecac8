import { metres, type Metres } from '../../units';
import { LEAST_SLOPE, type FlowEnd, type FlowLine } from './flow-lines';
import { between, type XY } from './hull';
import { nextSide, standing, triangleAt, triangleSlope, type Tin } from './tin';

type Way = FlowLine['way'];

/** A direction of steepest way on, of length one, and how steep. */
type Heading = { readonly to: XY; readonly steep: number };

/** Where a line goes next: through some places, to go on from a triangle or a well, or to end. */
type Onward = {
  readonly through: readonly XY[];
  readonly from:
    { readonly triangle: number } | { readonly well: number } | { readonly end: FlowEnd };
};

/**
 * Flow lines on a triangulated surface, exactly square to its contours: straight
 * down each triangle's slope from side to side. Where two triangles fall towards
 * their common side the line runs along the side to the well at its end, and on
 * from there the steepest way down. Upstream is the same up the slope.
 *
 * @returns one for each seed; null where it stands outside the triangles or on a level one
 */
export function tinFlowLines(
  tin: Tin,
  seeds: readonly XY[],
  way: Way,
  longest: Metres,
): (FlowLine | null)[] {
  const sidesAt = sidesFromWells(tin);
  return seeds.map((seed) => {
    const triangle = triangleAt(tin, seed);
    if (triangle === null || !headingIn(tin, triangle, way)) return null;
    const points: XY[] = [seed];
    let [from, length]: [Onward['from'], number] = [{ triangle }, 0];
    while (!('end' in from)) {
      const at = points.at(-1) ?? seed;
      const onward: Onward =
        'triangle' in from
          ? acrossTriangle(tin, from.triangle, at, way)
          : fromWell(tin, from.well, sidesAt[from.well] ?? [], way);
      for (const place of onward.through) {
        const last = points.at(-1) ?? seed;
        const step = Math.hypot(place[0] - last[0], place[1] - last[1]);
        if (length + step > longest) {
          points.push(between(last, place, (longest - length) / step));
          return { points, way, end: 'length', length: longest };
        }
        if (step > 0) points.push(place);
        length += step;
      }
      from = onward.from;
    }
    return { points, way, end: from.end, length: metres(length) };
  });
}

/** For each well, the sides that start from it. */
function sidesFromWells(tin: Tin): number[][] {
  const sides: number[][] = Array.from({ length: tin.x.length }, () => []);
  tin.corners.forEach((well, k) => sides[well]?.push(k));
  return sides;
}

function headingIn(tin: Tin, triangle: number, way: Way): Heading | null {
  const [east, north] = triangleSlope(tin, triangle);
  const steep = Math.hypot(east, north);
  if (!(steep >= LEAST_SLOPE)) return null;
  const sign = way === 'downstream' ? -1 : 1;
  return { to: [(sign * east) / steep, (sign * north) / steep], steep };
}

const cross = ([ax, ay]: XY, [bx, by]: XY) => ax * by - ay * bx;
const less = ([ax, ay]: XY, [bx, by]: XY): XY => [ax - bx, ay - by];

const endsOf = (tin: Tin, k: number): readonly [number, number] => [
  tin.corners[k] as number,
  tin.corners[nextSide(k)] as number,
];

/** Straight on to the side it leaves by, and what lies beyond. */
function acrossTriangle(tin: Tin, triangle: number, at: XY, way: Way): Onward {
  const heading = headingIn(tin, triangle, way);
  if (!heading) return { through: [], from: { end: 'level' } };
  let [out, distance] = [-1, Infinity];
  for (let k = 3 * triangle; k < 3 * triangle + 3; k++) {
    const [a, b] = endsOf(tin, k).map((well) => standing(tin, well)) as [XY, XY];
    const approach = cross(heading.to, less(b, a));
    if (approach <= 0) continue;
    const away = Math.max(0, cross(less(a, at), less(b, a)) / approach);
    if (away < distance) [out, distance] = [k, away];
  }
  const place: XY = [at[0] + distance * heading.to[0], at[1] + distance * heading.to[1]];
  const across = tin.across[out] as number;
  if (across === -1) return { through: [place], from: { end: 'outline' } };

  const beyond = Math.floor(across / 3);
  const next = headingIn(tin, beyond, way);
  const [i, j] = endsOf(tin, out);
  const along = less(standing(tin, j), standing(tin, i));
  if (next && cross(next.to, along) > 0) return { through: [place], from: { triangle: beyond } };
  return alongSide(tin, i, j, place, way);
}

/** Both triangles fall to their common side: along it, to the well at its lower (or higher) end. */
function alongSide(tin: Tin, i: number, j: number, place: XY, way: Way): Onward {
  const rise = (tin.heads[j] as number) - (tin.heads[i] as number);
  if (rise === 0) return { through: [place], from: { end: endAt(way) } };
  const well = rise > 0 === (way === 'upstream') ? j : i;
  return { through: [place, standing(tin, well)], from: { well } };
}

const endAt = (way: Way): FlowEnd => (way === 'downstream' ? 'hollow' : 'top');

/** From a well the steepest way on: into one of its triangles, or along one of its sides. */
function fromWell(tin: Tin, well: number, sides: readonly number[], way: Way): Onward {
  const at = standing(tin, well);
  let [steepest, best]: [number, Onward] = [
    LEAST_SLOPE,
    { through: [], from: { end: isOnOutline(tin, sides) ? 'outline' : endAt(way) } },
  ];
  const consider = (steep: number, onward: Onward) => {
    if (steep > steepest) [steepest, best] = [steep, onward];
  };
  const alongTo = (other: number, isOutline: boolean) => {
    const place = standing(tin, other);
    const rise = (tin.heads[other] as number) - (tin.heads[well] as number);
    const steep =
      (way === 'downstream' ? -rise : rise) / Math.hypot(place[0] - at[0], place[1] - at[1]);
    consider(
      steep,
      isOutline
        ? { through: [], from: { end: 'outline' } }
        : { through: [place], from: { well: other } },
    );
  };
  for (const k of sides) {
    const last = nextSide(nextSide(k));
    const [b, c] = [tin.corners[nextSide(k)] as number, tin.corners[last] as number];
    alongTo(b, tin.across[k] === -1);
    alongTo(c, tin.across[last] === -1);
    const triangle = Math.floor(k / 3);
    const heading = headingIn(tin, triangle, way);
    if (!heading) continue;
    const [toB, toC] = [less(standing(tin, b), at), less(standing(tin, c), at)];
    if (cross(toB, heading.to) >= 0 && cross(heading.to, toC) >= 0)
      consider(heading.steep, { through: [], from: { triangle } });
  }
  return best;
}

/** Whether a side that starts from the well, or one that ends there, has nothing across it. */
const isOnOutline = (tin: Tin, sides: readonly number[]): boolean =>
  sides.some((k) => tin.across[k] === -1 || tin.across[nextSide(nextSide(k))] === -1);
