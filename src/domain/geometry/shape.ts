/** East and north, in the grid's unit as written. */
export type XY = readonly [x: number, y: number];

/** Places one after the other. */
export type Line = readonly XY[];

/** Corners of a closed outline, the first not repeated at the end, either way round. */
export type Ring = readonly XY[];

/** The outer ring, then its holes. What lies inside is decided by counting crossings (even-odd). */
export type Area = readonly Ring[];

/**
 * Something drawn on the ground, flat, in the grid's unit as written. One or
 * several of a kind: a gas line in two pieces is one shape.
 */
export type Shape =
  | { readonly kind: 'points'; readonly points: readonly XY[] }
  | { readonly kind: 'lines'; readonly lines: readonly Line[] }
  | { readonly kind: 'areas'; readonly areas: readonly Area[] };

/** A piece of a line or a side of a ring, from its first end to its second. */
export type Piece = readonly [from: XY, to: XY];

/** The pieces of a line, in order along it. */
export const piecesOfLine = (line: Line): Piece[] =>
  line.slice(1).map((to, i) => [line[i] ?? to, to]);

/** The sides of a ring, in order around it, the closing side last. */
export const sidesOfRing = (ring: Ring): Piece[] =>
  ring.map((from, i) => [from, ring[(i + 1) % ring.length] ?? from]);

/** Every piece of a shape; a point is a piece with both ends in one place. */
export function piecesOf(shape: Shape): Piece[] {
  switch (shape.kind) {
    case 'points':
      return shape.points.map((point) => [point, point]);
    case 'lines':
      return shape.lines.flatMap(piecesOfLine);
    case 'areas':
      return shape.areas.flatMap((area) => area.flatMap(sidesOfRing));
  }
}

export type Bounds = {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
};

/** The upright rectangle around places; null when there are none. */
export function boundsOf(places: Iterable<XY>): Bounds | null {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of places) {
    west = Math.min(west, x);
    east = Math.max(east, x);
    south = Math.min(south, y);
    north = Math.max(north, y);
  }
  return west <= east ? { west, south, east, north } : null;
}

/** Every corner of a shape, in the order written. */
export function cornersOf(shape: Shape): readonly XY[] {
  switch (shape.kind) {
    case 'points':
      return shape.points;
    case 'lines':
      return shape.lines.flat();
    case 'areas':
      return shape.areas.flat(2);
  }
}

/** The same shape with every corner put through `move`: another unit, another grid. */
export function moved(shape: Shape, move: (at: XY) => XY): Shape {
  switch (shape.kind) {
    case 'points':
      return { kind: 'points', points: shape.points.map(move) };
    case 'lines':
      return { kind: 'lines', lines: shape.lines.map((line) => line.map(move)) };
    case 'areas':
      return {
        kind: 'areas',
        areas: shape.areas.map((area) => area.map((ring) => ring.map(move))),
      };
  }
}

/** The least and the greatest of numbers; null when there are none. */
export function spread(
  numbers: Iterable<number>,
): readonly [least: number, greatest: number] | null {
  let [least, greatest] = [Infinity, -Infinity];
  for (const number of numbers) {
    least = Math.min(least, number);
    greatest = Math.max(greatest, number);
  }
  return least <= greatest ? [least, greatest] : null;
}
