import { azimuth, metres, type Azimuth, type Metres } from '../../units';
import { between, fractionsInside, isInside, type Hull, type XY } from './hull';

/** Slope of a water level: head per metre east and north; null where there is none. */
export type Slope = (place: XY) => readonly [east: number, north: number] | null;

/** Why a flow line ends. */
export type FlowEnd =
  /** At the outline of the wells, beyond which nothing is known. */
  | 'outline'
  /** On ground so level that it has no direction. */
  | 'level'
  /** In a hollow, or upstream on a top: a place the heads make, worth a look. */
  | 'hollow'
  | 'top'
  /** It grew longer than was asked for. */
  | 'length';

export type FlowLine = {
  /** From the seed on, the way it was followed. */
  readonly points: readonly XY[];
  readonly way: 'downstream' | 'upstream';
  readonly end: FlowEnd;
  readonly length: Metres;
};

/** Less slope than this has no direction: a tenth of a millimetre in a hundred metres. */
export const LEAST_SLOPE = 1e-6;

/** A step that gets less far than this part of itself is turning in a hollow. */
const LEAST_ADVANCE = 0.5;

export type FlowChoice = {
  readonly way: 'downstream' | 'upstream';
  /** Length of a step: a fraction of the distance between wells, such as a fiftieth. */
  readonly step: Metres;
  readonly longest: Metres;
};

/**
 * A line square to the contours of a smooth surface, from a seed, by steps of
 * the classical fourth-order method (W. Kutta, 1901) along the direction of
 * steepest fall or rise. It shows the direction of flow in ground alike in all
 * directions, and neither speed nor where anything carried by the water is.
 *
 * @param headAt  the head at a place, so that a line never runs up where it should run down
 * @returns null where the seed is outside the outline or on level ground
 */
export function flowLine(
  slope: Slope,
  headAt: (place: XY) => number | null,
  seed: XY,
  hull: Hull,
  { way, step, longest }: FlowChoice,
): FlowLine | null {
  const sign = way === 'downstream' ? -1 : 1;
  const heading = (place: XY): XY | null => {
    const fall = slope(place);
    const size = fall ? Math.hypot(...fall) : 0;
    return fall && size >= LEAST_SLOPE ? [(sign * fall[0]) / size, (sign * fall[1]) / size] : null;
  };
  const start = headAt(seed);
  if (!isInside(hull, seed) || start === null || !heading(seed)) return null;

  const points: XY[] = [seed];
  let [at, head, length] = [seed, start, 0];
  const ended = (end: FlowEnd): FlowLine => ({ points, way, end, length: metres(length) });
  while (length < longest) {
    const wanted = Math.min(step, longest - length);
    const next = stepFrom(at, heading, wanted);
    if (!next) return ended('level');
    // Round a hollow the directions within one step cancel.
    if (Math.hypot(next[0] - at[0], next[1] - at[1]) < wanted * LEAST_ADVANCE)
      return ended(way === 'downstream' ? 'hollow' : 'top');
    const inside = fractionsInside(hull, at, next);
    if (!isInside(hull, next)) {
      const edge = between(at, next, inside?.[1] ?? 0);
      length += Math.hypot(edge[0] - at[0], edge[1] - at[1]);
      if (inside && inside[1] > 0) points.push(edge);
      return ended('outline');
    }
    const nextHead = headAt(next);
    if (nextHead === null) return ended('outline');
    if (sign * (nextHead - head) <= 0) return ended(way === 'downstream' ? 'hollow' : 'top');
    length += Math.hypot(next[0] - at[0], next[1] - at[1]);
    points.push(next);
    [at, head] = [next, nextHead];
  }
  return ended('length');
}

function stepFrom(at: XY, heading: (place: XY) => XY | null, step: number): XY | null {
  const ahead = (to: XY | null, by: number): XY | null =>
    to && [at[0] + by * to[0], at[1] + by * to[1]];
  const a = heading(at);
  const toB = ahead(a, step / 2);
  const b = toB && heading(toB);
  const toC = ahead(b, step / 2);
  const c = toC && heading(toC);
  const toD = ahead(c, step);
  const d = toD && heading(toD);
  if (!a || !b || !c || !d) return null;
  return [
    at[0] + (step * (a[0] + 2 * b[0] + 2 * c[0] + d[0])) / 6,
    at[1] + (step * (a[1] + 2 * b[1] + 2 * c[1] + d[1])) / 6,
  ];
}

/** A place with the way the water moves there. */
export type LocalArrow = {
  readonly at: XY;
  /** Clockwise from grid north; null on level ground. */
  readonly direction: Azimuth | null;
  /** Fall per metre. */
  readonly gradient: number;
};

/** Direction and size of a slope: water moves down it. */
export function arrowOf(at: XY, [east, north]: readonly [number, number]): LocalArrow {
  const gradient = Math.hypot(east, north);
  const direction =
    gradient < LEAST_SLOPE ? null : azimuth((Math.atan2(-east, -north) * 180) / Math.PI);
  return { at, direction, gradient };
}

/** Arrows at every so many metres inside the outline, in rows from the south-west, for where one plane is wrong. */
export function localArrows(slope: Slope, hull: Hull, spacing: Metres): LocalArrow[] {
  return placesWithin(hull, spacing).flatMap((at) => {
    const fall = slope(at);
    return fall ? [arrowOf(at, fall)] : [];
  });
}

/** Places inside the outline in a square pattern about its middle: seeds of flow lines, or of arrows. */
export function placesWithin(hull: Hull, spacing: Metres): XY[] {
  if (!(spacing > 0)) return [];
  const along = (k: 0 | 1) => {
    const values = hull.map((corner) => corner[k]);
    const [least, most] = [Math.min(...values), Math.max(...values)];
    const count = Math.floor((most - least) / spacing);
    const from = (least + most - count * spacing) / 2;
    return Array.from({ length: count + 1 }, (_, i) => from + i * spacing);
  };
  const xs = along(0);
  return along(1).flatMap((y) => xs.map((x): XY => [x, y]).filter((at) => isInside(hull, at)));
}
