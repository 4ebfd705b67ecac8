import { orient2d } from 'robust-predicates';
import { metres, type Metres } from '../../units';

/** East and north, in metres. */
export type XY = readonly [x: number, y: number];

/** The outline of the wells: corners counter-clockwise, the first not repeated. */
export type Hull = readonly XY[];

/**
 * Which side of the line from a to b the point c lies on: positive on the left,
 * negative on the right, zero exactly on it. Exact in sign whatever the
 * coordinates (J. R. Shewchuk, 1997, Adaptive precision floating-point
 * arithmetic and fast robust geometric predicates).
 */
export const side = ([ax, ay]: XY, [bx, by]: XY, [cx, cy]: XY): number =>
  -orient2d(ax, ay, bx, by, cx, cy);

/**
 * The smallest convex outline around points; null where they are fewer than
 * three or all in a line. A surface is drawn inside it and no further.
 * (A. M. Andrew, 1979, Another efficient algorithm for convex hulls in two
 * dimensions, Information Processing Letters 9(5).)
 */
export function convexHull(points: readonly XY[]): Hull | null {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (along: readonly XY[]): XY[] => {
    const chain: XY[] = [];
    for (const point of along) {
      for (;;) {
        const [before, last] = [chain.at(-2), chain.at(-1)];
        if (!before || !last || side(before, last, point) > 0) break;
        chain.pop();
      }
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  const hull = [...half(sorted), ...half(sorted.reverse())];
  return hull.length < 3 ? null : hull;
}

/** The sides of an outline, each from corner to corner, counter-clockwise. */
export const sidesOf = (hull: Hull): (readonly [XY, XY])[] =>
  hull.map((corner, i) => [corner, hull[(i + 1) % hull.length] ?? corner]);

/** Whether a point lies inside the outline or on it. */
export const isInside = (hull: Hull, point: XY): boolean =>
  sidesOf(hull).every(([a, b]) => side(a, b, point) >= 0);

/** Distance from a point to the nearest part of the piece from a to b. */
function distanceToPiece(point: XY, a: XY, b: XY): Metres {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const [px, py] = [point[0] - a[0], point[1] - a[1]];
  const squared = dx * dx + dy * dy;
  const t = squared > 0 ? Math.min(1, Math.max(0, (px * dx + py * dy) / squared)) : 0;
  return metres(Math.hypot(px - t * dx, py - t * dy));
}

/** Distance to the outline itself, from inside or outside. */
export const distanceToHull = (hull: Hull, point: XY): Metres =>
  metres(Math.min(...sidesOf(hull).map(([a, b]) => distanceToPiece(point, a, b))));

/**
 * The part of the piece from a to b that lies inside the outline, as fractions
 * along it; null where none does. (M. Cyrus and J. Beck, 1978, Generalized
 * two- and three-dimensional clipping.)
 */
export function fractionsInside(hull: Hull, a: XY, b: XY): readonly [number, number] | null {
  let [from, to] = [0, 1];
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  for (const [p, q] of sidesOf(hull)) {
    const [ex, ey] = [q[0] - p[0], q[1] - p[1]];
    const atStart = ex * (a[1] - p[1]) - ey * (a[0] - p[0]);
    const gain = ex * dy - ey * dx;
    if (gain === 0) {
      if (atStart < 0) return null;
      continue;
    }
    const crossing = -atStart / gain;
    if (gain > 0) from = Math.max(from, crossing);
    else to = Math.min(to, crossing);
    if (from > to) return null;
  }
  return [from, to];
}

/** A place part of the way from a to b. */
export const between = (a: XY, b: XY, t: number): XY =>
  t === 0 ? a : t === 1 ? b : [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];

/** The parts of a line that lie inside the outline, in order along it. */
export function clipToHull(line: readonly XY[], hull: Hull): XY[][] {
  const parts: XY[][] = [];
  let part: XY[] = [];
  const close = () => {
    if (part.length > 1) parts.push(part);
    part = [];
  };
  line.slice(1).forEach((b, i) => {
    const a = line[i] ?? b;
    const inside = fractionsInside(hull, a, b);
    if (!inside) return close();
    const [from, to] = inside;
    if (from > 0) close();
    if (part.length === 0) part.push(between(a, b, from));
    if (to > from) part.push(between(a, b, to));
    if (to < 1) close();
  });
  close();
  return parts;
}
