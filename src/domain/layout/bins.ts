import type { Bounds } from '../geometry/shape';

/**
 * Rectangles sorted into the squares of a coarse net, so that those near a
 * place are found without asking all.
 */
export type Bins = {
  readonly west: number;
  readonly south: number;
  readonly size: number;
  readonly columns: number;
  readonly rows: number;
  /** Rectangles (by their place in the list given) that touch each square, row by row from the south-west. */
  readonly squares: readonly (readonly number[])[];
};

/** Squares a side of the net: enough that a square holds few, few enough to build at once. */
const SIDE = 32;

/** A rectangle that is null is in no square. */
export function binsOf(rectangles: readonly (Bounds | null)[]): Bins {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const box of rectangles) {
    if (!box) continue;
    west = Math.min(west, box.west);
    south = Math.min(south, box.south);
    east = Math.max(east, box.east);
    north = Math.max(north, box.north);
  }
  if (!(west <= east)) return { west: 0, south: 0, size: 1, columns: 0, rows: 0, squares: [] };

  const size = Math.max(east - west, north - south) / SIDE || 1;
  const columns = Math.floor((east - west) / size) + 1;
  const rows = Math.floor((north - south) / size) + 1;
  const squares = Array.from({ length: columns * rows }, (): number[] => []);
  rectangles.forEach((box, i) => {
    if (!box) return;
    const [left, right] = [box.west, box.east].map((x) => Math.floor((x - west) / size));
    const [low, high] = [box.south, box.north].map((y) => Math.floor((y - south) / size));
    for (let row = low ?? 0; row <= (high ?? -1); row++)
      for (let column = left ?? 0; column <= (right ?? -1); column++)
        squares[row * columns + column]?.push(i);
  });
  return { west, south, size, columns, rows, squares };
}

const NONE: readonly number[] = [];

/** The rectangles that may hold a place, in the order given; all that do, and some more. */
export function binAt(bins: Bins, x: number, y: number): readonly number[] {
  const column = Math.floor((x - bins.west) / bins.size);
  const row = Math.floor((y - bins.south) / bins.size);
  if (column < 0 || row < 0 || column >= bins.columns || row >= bins.rows) return NONE;
  return bins.squares[row * bins.columns + column] ?? NONE;
}
