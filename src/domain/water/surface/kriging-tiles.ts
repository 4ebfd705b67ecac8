import { wholeFours } from './panels';
import type { GridFrame } from './surface-grid';

/** Nodes along the side of a tile, about; one is done between two reports of progress. */
const TILE = 34;

/** The part of a grid that is worked on in one go. */
export type TileFrame = {
  readonly column: number;
  readonly row: number;
  /** Filled up to whole blocks of four, of which the last may stand outside the grid. */
  readonly width: number;
  readonly height: number;
};

/** Tiles with a wanted node in them, from the south-west on. */
export function tilesOf({ columns, rows }: GridFrame, mask: Uint8Array | null): TileFrame[] {
  const all = partsOf(rows).flatMap(([row, height]) =>
    partsOf(columns).map(([column, length]) => ({
      column,
      row,
      width: wholeFours(length),
      height,
    })),
  );
  return all.filter(({ column, row, width, height }) => {
    for (let r = row; r < row + height; r++)
      for (let c = column; c < Math.min(column + width, columns); c++)
        if (mask?.[r * columns + c] !== 0) return true;
    return false;
  });
}

/** A number of nodes in parts of about a tile, as even as whole blocks of four allow. */
function partsOf(nodes: number): (readonly [from: number, length: number])[] {
  const count = Math.max(1, Math.round(nodes / TILE));
  const ends = Array.from({ length: count + 1 }, (_, i) =>
    i === count ? nodes : 4 * Math.round((i * nodes) / count / 4),
  );
  return ends.slice(1).map((end, i) => [ends[i] ?? 0, end - (ends[i] ?? 0)] as const);
}

/** A tile's numbers into their places in the grid, but for nodes outside it or not wanted. */
export function copyTile(
  from: Float64Array,
  { column, row, width, height }: TileFrame,
  { columns }: GridFrame,
  mask: Uint8Array | null,
  to: Float64Array,
): void {
  for (let r = 0; r < height; r++)
    for (let c = 0; c < width && column + c < columns; c++) {
      const node = (row + r) * columns + column + c;
      if (mask?.[node] !== 0) to[node] = from[r * width + c] as number;
    }
}
