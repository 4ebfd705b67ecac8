import { rowStart } from './cholesky';
import { toCovariances } from './covariance-block';
import type { KrigedSurface } from './kriging';
import {
  fourProducts,
  panelsOf,
  sixteenProducts,
  subtractColumns,
  triangleTimes,
  wholeFours,
  wholePanels,
  type Panels,
} from './panels';

/**
 * Kriging variance over a tile of neighbouring nodes for the price of a few of
 * them. Neighbours see distant wells almost alike, so the covariances of all
 * wells with all nodes of a tile, A, are a sum of few products: A ≈ U·V with
 * some 60 columns for 500 wells and 1,000 nodes. The n²/2 multiplications of a
 * variance are then made for the columns of U instead of for every node.
 *
 * U and V come from rows and columns of A itself (adaptive cross approximation
 * with pivoting: M. Bebendorf, 2000, Approximation of boundary element
 * matrices, Numerische Mathematik 86, 565-589; value from memory). They are
 * taken until what is left out is below `LEFT_OUT` of the sill wherever one
 * looks; each well is looked at where it matters most, at the node nearest to
 * it. The variances are then right to a few millionths of the sill: a picture of
 * them is, and a single place is asked of `estimateAt`, which leaves out nothing.
 */
export type Skeleton = {
  readonly surface: KrigedSurface;
  readonly wells: number;
  /** Most nodes of a tile, and most columns of U. */
  readonly nodes: number;
  readonly most: number;
  /** By columns: U over the wells, V over the nodes. */
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly column: Float64Array;
  readonly row: Float64Array;
  readonly coefficients: Float64Array;
  /** U and L⁻¹U, four columns interleaved after the other four. */
  readonly columns: Float64Array;
  readonly solved: Float64Array;
};

/** Covariance left out, as part of the base. */
const LEFT_OUT = 1e-6;

/** More columns than this part of the wells, and the straight way is as quick. */
const MOST_COLUMNS = 1 / 2;

export function skeletonFor(surface: KrigedSurface, nodes: number): Skeleton {
  const wells = surface.u.length;
  const most = wholeFours(wells * MOST_COLUMNS);
  return {
    surface,
    wells,
    nodes: wholeFours(nodes),
    most,
    u: new Float64Array(most * wells),
    v: new Float64Array(most * wholeFours(nodes)),
    column: new Float64Array(wholeFours(wells)),
    row: new Float64Array(wholeFours(nodes)),
    coefficients: new Float64Array(most),
    columns: new Float64Array(most * wholePanels(wells)),
    solved: new Float64Array(most * wholePanels(wells)),
  };
}

/** Nodes of a tile, in stretched coordinates, and for each well the node nearest to it. */
export type Tile = {
  readonly count: number;
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly nearest: Int32Array;
};

/**
 * c·C⁻¹·c at each node of the tile, and C⁻¹F·c for each drift function (one
 * after the other, `count` apart), c being the node's covariances.
 *
 * @param inverse  L⁻¹ in panels
 * @returns false where so few columns do not suffice; then nothing is filled
 */
export function tileForms(
  skeleton: Skeleton,
  inverse: Panels,
  tile: Tile,
  squares: Float64Array,
  drifts: Float64Array,
): boolean {
  const rank = crossed(skeleton, tile);
  if (rank === null) return false;
  const fours = Math.ceil(rank / 4);
  interleaved(skeleton, rank, inverse.rows);
  triangleTimes(inverse, skeleton.columns, skeleton.solved, fours);
  const form = panelsOf(formOf(skeleton.solved, fours, inverse.rows), 4 * fours);
  tileSquares(skeleton, form, rank, tile.count, squares);
  driftForms(skeleton, rank, tile.count, drifts);
  return true;
}

/** U with its columns four by four. */
function interleaved({ u, wells, columns }: Skeleton, rank: number, rows: number): void {
  columns.fill(0, 0, 4 * rows * Math.ceil(rank / 4));
  for (let j = 0; j < rank; j++) {
    const to = 4 * rows * (j >> 2) + (j & 3);
    for (let i = 0; i < wells; i++) columns[to + 4 * i] = u[j * wells + i] as number;
  }
}

/** Uᵀ·C⁻¹·U: its lower triangle, with the other half added to it. */
function formOf(solved: Float64Array, fours: number, rows: number): Float64Array {
  const form = new Float64Array(rowStart(4 * fours));
  const products = new Float64Array(16);
  for (let g = 0; g < fours; g++)
    for (let h = 0; h <= g; h++) {
      sixteenProducts(solved, 4 * rows * g, solved, 4 * rows * h, rows, products);
      for (let k = 0; k < 16; k++) {
        const [i, j] = [4 * g + (k >> 2), 4 * h + (k & 3)];
        if (j <= i) form[rowStart(i) + j] = (products[k] as number) * (i === j ? 1 : 2);
      }
    }
  return form;
}

function tileSquares(
  { v, nodes }: Skeleton,
  form: Panels,
  rank: number,
  count: number,
  squares: Float64Array,
): void {
  const here = new Float64Array(4 * form.rows);
  const product = new Float64Array(4 * form.rows);
  for (let t = 0; t < count; t += 4) {
    for (let j = 0; j < rank; j++) {
      const from = j * nodes + t;
      here[4 * j] = v[from] as number;
      here[4 * j + 1] = v[from + 1] as number;
      here[4 * j + 2] = v[from + 2] as number;
      here[4 * j + 3] = v[from + 3] as number;
    }
    triangleTimes(form, here, product);
    fourProducts(here, product, form.rows, squares, t);
  }
}

function driftForms(
  { surface, u, v, wells, nodes, coefficients }: Skeleton,
  rank: number,
  count: number,
  drifts: Float64Array,
): void {
  surface.drift.forEach((_, k) => {
    for (let j = 0; j < rank; j++) {
      let sum = 0;
      for (let i = 0; i < wells; i++)
        sum += (surface.solvedDrift[k * wells + i] as number) * (u[j * wells + i] as number);
      coefficients[j] = -sum;
    }
    const form = drifts.subarray(k * count, (k + 1) * count).fill(0);
    subtractColumns(form, count, v, nodes, coefficients, rank);
  });
}

/** Fills U and V; the number of their columns, or null where it would be too many. */
function crossed(skeleton: Skeleton, tile: Tile): number | null {
  const { surface, wells, nodes, most, u, v, column, row, coefficients } = skeleton;
  const least = LEFT_OUT * surface.base;
  const wellUsed = new Uint8Array(wells);
  const nodeUsed = new Uint8Array(tile.count);
  // What is still left out of each well at the node nearest to it, where it matters most.
  const left = nearestCovariances(surface, tile);
  let rank = 0;

  const columnAt = (node: number) => {
    squaresTo(tile.u[node] as number, tile.v[node] as number, surface.u, surface.v, wells, column);
    toCovariances(surface.choice.model, surface.base, wells, column);
    for (let j = 0; j < rank; j++) coefficients[j] = v[j * nodes + node] as number;
    subtractColumns(column, wells, u, wells, coefficients, rank);
  };
  const rowAt = (well: number) => {
    squaresTo(
      surface.u[well] as number,
      surface.v[well] as number,
      tile.u,
      tile.v,
      tile.count,
      row,
    );
    toCovariances(surface.choice.model, surface.base, tile.count, row);
    for (let j = 0; j < rank; j++) coefficients[j] = u[j * wells + well] as number;
    subtractColumns(row, tile.count, v, nodes, coefficients, rank);
  };

  for (let node: number | null = tile.count >> 1, done = -1; node !== null && rank > done;) {
    done = rank === 0 ? -1 : rank;
    while (node !== null) {
      columnAt(node);
      const well = largest(column, wellUsed, least);
      if (well === null) break;
      if (rank === most) return null;
      rowAt(well);
      const scale = 1 / (column[well] as number);
      for (let i = 0; i < wells; i++) {
        column[i] = (column[i] as number) * scale;
        left[i] =
          (left[i] as number) - (column[i] as number) * (row[tile.nearest[i] as number] as number);
      }
      u.set(column.subarray(0, wells), rank * wells);
      v.set(row.subarray(0, tile.count), rank * nodes);
      wellUsed[well] = 1;
      nodeUsed[node] = 1;
      rank += 1;
      node = largest(row, nodeUsed, least);
    }
    const worst = largest(left, wellUsed, least);
    node = worst === null ? null : (tile.nearest[worst] as number);
  }
  return rank;
}

/** Squared distances of places to one place. */
function squaresTo(
  u: number,
  v: number,
  us: Float64Array,
  vs: Float64Array,
  count: number,
  into: Float64Array,
): void {
  for (let i = 0; i < count; i++) {
    const a = (us[i] as number) - u;
    const b = (vs[i] as number) - v;
    into[i] = a * a + b * b;
  }
}

/** Where the largest number stands that is not yet used and not below the least; null if none. */
function largest(numbers: Float64Array, used: Uint8Array, least: number): number | null {
  let [size, at]: [number, number | null] = [least, null];
  for (let i = 0; i < used.length; i++) {
    const candidate = Math.abs(numbers[i] as number);
    if (candidate > size && used[i] === 0) {
      size = candidate;
      at = i;
    }
  }
  return at;
}

/** Covariance of each well with the node of the tile nearest to it. */
function nearestCovariances(surface: KrigedSurface, tile: Tile): Float64Array {
  const wells = surface.u.length;
  const covariances = new Float64Array(wholeFours(wells));
  for (let i = 0; i < wells; i++) {
    const node = tile.nearest[i] as number;
    const a = (surface.u[i] as number) - (tile.u[node] as number);
    const b = (surface.v[i] as number) - (tile.v[node] as number);
    covariances[i] = a * a + b * b;
  }
  toCovariances(surface.choice.model, surface.base, wells, covariances);
  return covariances;
}
