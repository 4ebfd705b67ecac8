import { distanceBetween } from './compass';
import { twiceSignedArea } from './inside';
import {
  piecesOfLine,
  sidesOfRing,
  type Area,
  type Line,
  type Ring,
  type Shape,
  type XY,
} from './shape';

/** Length along a line, in the grid's unit. */
export const lineLength = (line: Line): number =>
  piecesOfLine(line).reduce((sum, [a, b]) => sum + distanceBetween(a, b), 0);

/** Length around a ring. */
const ringLength = (ring: Ring): number =>
  sidesOfRing(ring).reduce((sum, [a, b]) => sum + distanceBetween(a, b), 0);

/** Ground within a ring, in the grid's unit squared; never negative. */
export const ringArea = (ring: Ring): number => Math.abs(twiceSignedArea(ring)) / 2;

/** Ground within the outer ring less its holes. */
export const areaOf = ([outer, ...holes]: Area): number =>
  (outer ? ringArea(outer) : 0) - holes.reduce((sum, hole) => sum + ringArea(hole), 0);

/** Ground within a shape: nothing for points and lines. Overlapping areas count twice. */
export const shapeArea = (shape: Shape): number =>
  shape.kind === 'areas' ? shape.areas.reduce((sum, area) => sum + areaOf(area), 0) : 0;

/** Length along lines, or around areas with their holes; nothing for points. */
export function shapeLength(shape: Shape): number {
  switch (shape.kind) {
    case 'points':
      return 0;
    case 'lines':
      return shape.lines.reduce((sum, line) => sum + lineLength(line), 0);
    case 'areas':
      return shape.areas.flat().reduce((sum, ring) => sum + ringLength(ring), 0);
  }
}

type Weighed = { readonly at: XY; readonly weight: number };

/**
 * Middle of a shape by its ground, of lines by their length, of points by their
 * number. It can lie outside a bent shape. Null when nothing is drawn.
 */
export function centroid(shape: Shape): XY | null {
  switch (shape.kind) {
    case 'points':
      return mean(shape.points.map((at) => ({ at, weight: 1 })));
    case 'lines':
      return (
        mean(
          shape.lines.flatMap(piecesOfLine).map(([a, b]) => ({
            at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2],
            weight: distanceBetween(a, b),
          })),
        ) ?? mean(shape.lines.flat().map((at) => ({ at, weight: 1 })))
      );
    case 'areas':
      return mean(
        shape.areas.flatMap((area) =>
          area.map((ring, i) => {
            const { at, weight } = ringCentroid(ring);
            return { at, weight: i === 0 ? weight : -weight };
          }),
        ),
      );
  }
}

/** Centroid and area of a ring, reckoned from its first corner so that large coordinates lose nothing. */
function ringCentroid(ring: Ring): Weighed {
  const [ox, oy] = ring[0] ?? [0, 0];
  let [twice, east, north] = [0, 0, 0];
  for (const [a, b] of sidesOfRing(ring)) {
    const [ax, ay, bx, by] = [a[0] - ox, a[1] - oy, b[0] - ox, b[1] - oy];
    const cross = ax * by - bx * ay;
    twice += cross;
    east += (ax + bx) * cross;
    north += (ay + by) * cross;
  }
  if (twice === 0) return { at: [ox, oy], weight: 0 };
  return { at: [ox + east / (3 * twice), oy + north / (3 * twice)], weight: Math.abs(twice) / 2 };
}

function mean(parts: readonly Weighed[]): XY | null {
  const [first] = parts;
  const total = parts.reduce((sum, { weight }) => sum + weight, 0);
  if (!first || total === 0) return null;
  const [ox, oy] = first.at;
  const of = (pick: (at: XY) => number) =>
    parts.reduce((sum, { at, weight }) => sum + pick(at) * weight, 0) / total;
  return [ox + of(([x]) => x - ox), oy + of(([, y]) => y - oy)];
}
