import { along, offset } from '../geometry/compass';
import { moved, piecesOf, spread, type Piece, type Shape, type XY } from '../geometry/shape';
import type { Azimuth } from '../units';
import type { Random } from './seeded';

/**
 * How points repeat, in the grid's unit. `spacing` is from point to point along
 * a row; rows of a triangular grid are √3/2 of it apart, each set over by half.
 */
export type Repeat =
  | { readonly pattern: 'square' | 'triangular'; readonly spacing: number }
  | { readonly pattern: 'rectangular'; readonly spacing: number; readonly between: number };

export type Pattern = Repeat['pattern'];

/** A regular grid over all ground: where one node stands and which way its rows run. */
export type Lattice = Repeat & {
  /** Azimuth the rows run along. 90: rows run east, as on a sheet. */
  readonly rows: Azimuth;
  readonly start: XY;
};

/** A node: so many steps along the rows and so many rows to the left of them, from the start. */
export type Node = { readonly column: number; readonly row: number; readonly at: XY };

const HALF_ROOT_3 = Math.sqrt(3) / 2;

/** From row to row, square to the rows. */
export function betweenRows(repeat: Repeat): number {
  switch (repeat.pattern) {
    case 'square':
      return repeat.spacing;
    case 'triangular':
      return HALF_ROOT_3 * repeat.spacing;
    case 'rectangular':
      return repeat.between;
  }
}

/** Ground for each point, in the grid's unit squared. */
export const areaPerPoint = (repeat: Repeat): number => repeat.spacing * betweenRows(repeat);

/**
 * The spacing at which a grid has about so many points on so much ground:
 * √(A/n) for a square grid, √(2A/(√3·n)) for a triangular one, √(A/(k·n)) for a
 * rectangular one with rows k spacings apart. How many fall within a boundary
 * depends on where the grid starts: lay it and count.
 *
 * @param ratio  distance between rows over spacing, for a rectangular grid
 * @returns null where there is no ground or no points are wanted
 */
export function repeatFor(pattern: Pattern, area: number, count: number, ratio = 1): Repeat | null {
  if (!(area > 0 && count > 0 && ratio > 0)) return null;
  switch (pattern) {
    case 'square':
      return { pattern, spacing: Math.sqrt(area / count) };
    case 'triangular':
      return { pattern, spacing: Math.sqrt(area / (HALF_ROOT_3 * count)) };
    case 'rectangular': {
      const spacing = Math.sqrt(area / (ratio * count));
      return { pattern, spacing, between: ratio * spacing };
    }
  }
}

/** The two steps of a lattice: along a row, and to the next row on its left. */
export function stepsOf(lattice: Repeat & { readonly rows: Azimuth }): readonly [XY, XY] {
  const [east, north] = along(lattice.rows);
  const { spacing } = lattice;
  const between = betweenRows(lattice);
  const over = lattice.pattern === 'triangular' ? spacing / 2 : 0;
  return [
    [east * spacing, north * spacing],
    [east * over - north * between, north * over + east * between],
  ];
}

/** Where a node stands. */
export function nodeAt(lattice: Lattice, column: number, row: number): Node {
  const [[ux, uy], [vx, vy]] = stepsOf(lattice);
  const [x, y] = lattice.start;
  return { column, row, at: [x + column * ux + row * vx, y + column * uy + row * vy] };
}

/**
 * A start drawn at random within one cell, so that no place was favoured. The
 * grid turns about `around`: the middle of the site, say.
 */
export function randomStart(
  repeat: Repeat & { readonly rows: Azimuth },
  around: XY,
  random: Random,
): XY {
  const [u, v] = stepsOf(repeat);
  return offset(offset(around, u, random()), v, random());
}

/**
 * The nodes on or near a shape, row by row, each row in the order of its
 * columns: all that stand within `fringe` of the shape, and some beyond. Null
 * when there would be more than `most`, or the spacing cannot be laid.
 */
export function nodesAround(
  lattice: Lattice,
  shape: Shape,
  fringe: number,
  most: number,
): Node[] | null {
  const [[ux, uy], [vx, vy]] = stepsOf(lattice);
  const [x, y] = lattice.start;
  const cell = ux * vy - uy * vx;
  if (!(cell > 0 && Number.isFinite(cell) && fringe >= 0)) return null;

  // The shape's sides in steps of the lattice: so many columns, so many rows.
  const inSteps = ([east, north]: XY): XY => {
    const [dx, dy] = [east - x, north - y];
    return [(dx * vy - dy * vx) / cell, (ux * dy - uy * dx) / cell];
  };
  const sides = piecesOf(moved(shape, inSteps));
  const rows = spread(sides.flatMap(([a, b]) => [a[1], b[1]]));
  if (!rows) return null;
  // The fringe is so many steps, at most; rounding must not lose a node on the outermost corner.
  const across = (fringe * Math.hypot(vx, vy)) / cell + SLACK;
  const up = (fringe * Math.hypot(ux, uy)) / cell + SLACK;
  const [first, last] = [Math.ceil(rows[0] - up), Math.floor(rows[1] + up)];
  if (!(last - first < most)) return null;

  const nodes: Node[] = [];
  for (let row = first; row <= last; row++) {
    const columns = columnsWithin(sides, row - up, row + up);
    if (!columns) continue;
    const [from, to] = [Math.ceil(columns[0] - across), Math.floor(columns[1] + across)];
    if (!(nodes.length + to - from < most)) return null;
    for (let column = from; column <= to; column++)
      nodes.push({ column, row, at: [x + column * ux + row * vx, y + column * uy + row * vy] });
  }
  return nodes;
}

const SLACK = 1e-9;

/** The leftmost and rightmost that sides reach between two rows; null where none comes there. */
function columnsWithin(
  sides: readonly Piece[],
  low: number,
  high: number,
): readonly [number, number] | null {
  let [least, most] = [Infinity, -Infinity];
  for (const [[ax, ay], [bx, by]] of sides) {
    if ((ay < low && by < low) || (ay > high && by > high)) continue;
    const columnAt = (y: number) => (by === ay ? ax : ax + ((y - ay) / (by - ay)) * (bx - ax));
    const [start, end] = [clamp(ay, low, high), clamp(by, low, high)];
    for (const column of [start === ay ? ax : columnAt(start), end === by ? bx : columnAt(end)]) {
      least = Math.min(least, column);
      most = Math.max(most, column);
    }
  }
  return least <= most ? [least, most] : null;
}

const clamp = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));
