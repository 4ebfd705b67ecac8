import { metres, type Metres } from '../../units';
import { isInside, type Hull, type XY } from './hull';

/** Where the nodes of a grid of heads stand: square meshes, rows from south to north. */
export type GridFrame = {
  /** The south-western node. */
  readonly x: Metres;
  readonly y: Metres;
  readonly step: Metres;
  readonly columns: number;
  readonly rows: number;
};

/** A surface sampled at the nodes of a grid; node (column, row) at row·columns + column. */
export type SurfaceGrid = {
  readonly frame: GridFrame;
  /** Metres. NaN where there is no surface; never shown. */
  readonly heads: Float64Array;
  /** Kriging variance, m²; null where it was not asked for. */
  readonly variances: Float64Array | null;
};

/** Where a node stands, in ground metres; columns count to the east, rows to the north. */
export const nodeAt = ({ x, y, step }: GridFrame, column: number, row: number): XY => [
  x + column * step,
  y + row * step,
];

/**
 * A frame that covers the outline of the wells with about so many nodes along
 * its longer side.
 */
export function frameOver(hull: Hull, nodes: number): GridFrame {
  const range = (k: 0 | 1) => {
    const values = hull.map((corner) => corner[k]);
    const least = Math.min(...values);
    return { least, length: Math.max(...values) - least };
  };
  const [x, y] = [range(0), range(1)];
  const step = Math.max(x.length, y.length) / Math.max(1, nodes - 1);
  const count = (length: number) => Math.max(2, Math.ceil(length / step - 1e-9) + 1);
  return {
    x: metres(x.least),
    y: metres(y.least),
    step: metres(step),
    columns: count(x.length),
    rows: count(y.length),
  };
}

/** For each node, 1 inside the outline or on it and 0 outside. */
export function insideMask(frame: GridFrame, hull: Hull): Uint8Array {
  const mask = new Uint8Array(frame.columns * frame.rows);
  for (let row = 0; row < frame.rows; row++)
    for (let column = 0; column < frame.columns; column++)
      if (isInside(hull, nodeAt(frame, column, row))) mask[row * frame.columns + column] = 1;
  return mask;
}
