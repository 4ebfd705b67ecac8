import { invertLower } from './cholesky';
import { addWeighted, blockOf, covariances, rowFrom, type Wells } from './covariance-block';
import { driftAt, estimateAt, type KrigedSurface } from './kriging';
import { skeletonFor, tileForms, type Skeleton, type Tile } from './kriging-skeleton';
import { fourProducts, panelsOf, triangleTimes, wholeFours, type Panels } from './panels';
import { copyTile, tilesOf, type TileFrame } from './kriging-tiles';
import { SAME_PLACE } from './surface-point';
import { nodeAt, type GridFrame, type SurfaceGrid } from './surface-grid';

/** Fewer wells than this, and every node is worked out by itself. */
const SKELETON_FROM = 80;

/** Nor are the variances of fewer nodes than this ever approximated: all that is drawn on a screen. */
const EXACT_UP_TO = 64 * 64;

/**
 * The kriged heads at the nodes of a grid, and their variances if asked for.
 * Yields the share done, from 0 to 1, before each tile of about a thousand
 * nodes, so that a worker can report it, and stop; the grid comes at the end.
 *
 * Heads are as `headAt` gives them. Variances are as `estimateAt` gives them on
 * grids of up to 64 by 64 nodes, or with fewer than 80 wells; on larger ones with
 * more wells, to a few millionths of the sill (see `kriging-skeleton`).
 *
 * @param mask  1 for each node wanted; the others get NaN. All where null.
 */
export function* krigedGrid(
  surface: KrigedSurface,
  frame: GridFrame,
  wanted: { readonly variance: boolean; readonly mask: Uint8Array | null },
): Generator<number, SurfaceGrid> {
  const count = frame.columns * frame.rows;
  const heads = new Float64Array(count).fill(NaN);
  const variances = wanted.variance ? new Float64Array(count).fill(NaN) : null;
  const tiles = tilesOf(frame, wanted.mask);
  const largest = tiles.reduce((most, { width, height }) => Math.max(most, width * height), 0);
  const work = variances ? yield* varianceWork(surface, largest, count) : null;
  const into = new Float64Array(largest);
  for (const [done, tile] of tiles.entries()) {
    yield done / tiles.length;
    tileHeads(surface, frame, tile, into);
    copyTile(into, tile, frame, wanted.mask, heads);
    if (!work || !variances) continue;
    tileVariances(surface, frame, tile, work, into);
    copyTile(into, tile, frame, wanted.mask, variances);
  }
  correctWells(surface, frame, wanted.mask, heads, variances);
  return { frame, heads, variances };
}

function tileHeads(
  surface: KrigedSurface,
  frame: GridFrame,
  { column, row, width, height }: TileFrame,
  into: Float64Array,
): void {
  const block = blockOf(surface.u.length);
  for (let r = 0; r < height; r++) {
    const [x, y] = nodeAt(frame, column, row + r);
    const along = rowFrom(surface, x, y, frame.step);
    const [constant = 0, east = 0, north = 0] = surface.drift;
    const [, east0 = 0, north0 = 0] = driftAt(surface, x, y);
    const step = surface.choice.drift === 'linear' ? frame.step / surface.spread : 0;
    for (let c = 0; c < width; c++)
      into[r * width + c] = constant + east * (east0 + c * step) + north * north0;
    for (let c = 0; c < width; c += 4) {
      covariances(surface, along, c, block);
      addWeighted(surface.weights, block, into, r * width + c);
    }
  }
}

type VarianceWork = {
  readonly inverse: Float64Array;
  readonly panels: Panels;
  readonly skeleton: Skeleton | null;
};

function* varianceWork(
  surface: KrigedSurface,
  nodes: number,
  inAll: number,
): Generator<number, VarianceWork> {
  const n = surface.u.length;
  const steps = invertLower(surface.lower, n);
  let step = steps.next();
  for (; !step.done; step = steps.next()) yield 0;
  const inverse = step.value;
  // Within its range a spherical variogram has no smoothness to use, beyond it nothing to add.
  const smooth = surface.choice.model.shape !== 'spherical';
  return {
    inverse,
    panels: panelsOf(inverse, n),
    skeleton:
      smooth && n >= SKELETON_FROM && inAll > EXACT_UP_TO ? skeletonFor(surface, nodes) : null,
  };
}

function tileVariances(
  surface: KrigedSurface,
  frame: GridFrame,
  tile: TileFrame,
  work: VarianceWork,
  into: Float64Array,
): void {
  const count = tile.width * tile.height;
  const squares = new Float64Array(count);
  const drifts = new Float64Array(count * surface.drift.length);
  const { skeleton, panels } = work;
  const done =
    skeleton !== null &&
    tileForms(skeleton, panels, tileNodes(surface, frame, tile), squares, drifts);
  if (!done) oneByOne(surface, frame, tile, work, squares, drifts);

  addDriftError(surface, frame, tile, squares, drifts, into);
}

/** Variance at each node: all there is, less what the wells explain, and the error of the mean or plane. */
function addDriftError(
  { base, choice, centre, spread, driftLower }: KrigedSurface,
  frame: GridFrame,
  tile: TileFrame,
  squares: Float64Array,
  drifts: Float64Array,
  into: Float64Array,
): void {
  const total = base + choice.model.nugget;
  const count = tile.width * tile.height;
  const linear = choice.drift === 'linear';
  const x0 = frame.x + tile.column * frame.step - centre[0];
  const y0 = frame.y + tile.row * frame.step - centre[1];
  const [l00 = 1, l10 = 0, l11 = 1, l20 = 0, l21 = 0, l22 = 1] = driftLower;
  for (let r = 0, t = 0; r < tile.height; r++)
    for (let c = 0; c < tile.width; c++, t++) {
      const a = (1 - (drifts[t] as number)) / l00;
      let error = a * a;
      if (linear) {
        const x = (x0 + c * frame.step) / spread - (drifts[count + t] as number);
        const y = (y0 + r * frame.step) / spread - (drifts[2 * count + t] as number);
        const b = (x - l10 * a) / l11;
        const d = (y - l20 * a - l21 * b) / l22;
        error += b * b + d * d;
      }
      into[t] = Math.max(0, total - (squares[t] as number) + error);
    }
}

/** The tile's nodes in stretched coordinates, and the node nearest to each well. */
function tileNodes(surface: KrigedSurface, frame: GridFrame, tile: TileFrame): Tile {
  const { column, row, width, height } = tile;
  const count = width * height;
  const u = new Float64Array(wholeFours(count));
  const v = new Float64Array(wholeFours(count));
  for (let r = 0; r < height; r++) {
    const [x, y] = nodeAt(frame, column, row + r);
    const along = rowFrom(surface, x, y, frame.step);
    for (let c = 0; c < width; c++) {
      u[r * width + c] = along.u + c * along.stepU;
      v[r * width + c] = along.v + c * along.stepV;
    }
  }
  const within = (value: number, most: number) => Math.min(most, Math.max(0, Math.round(value)));
  const nearest = Int32Array.from(surface.places, (place) => {
    const c = within((place.x - frame.x) / frame.step - column, width - 1);
    const r = within((place.y - frame.y) / frame.step - row, height - 1);
    return r * width + c;
  });
  return { count, u, v, nearest };
}

function oneByOne(
  surface: KrigedSurface,
  frame: GridFrame,
  tile: TileFrame,
  work: VarianceWork,
  squares: Float64Array,
  drifts: Float64Array,
): void {
  const { column, row, width, height } = tile;
  const { wells, panels, solvedDrift } = reaching(surface, frame, tile, work);
  const n = wells.u.length;
  const block = blockOf(n);
  const product = new Float64Array(4 * panels.rows);
  for (let r = 0; r < height; r++) {
    const [x, y] = nodeAt(frame, column, row + r);
    const along = rowFrom(surface, x, y, frame.step);
    for (let c = 0; c < width; c += 4) {
      covariances(wells, along, c, block);
      triangleTimes(panels, block, product);
      fourProducts(product, product, panels.rows, squares, r * width + c);
      solvedDrift.forEach((solved, k) =>
        addWeighted(solved, block, drifts, k * width * height + r * width + c),
      );
    }
  }
}

/** What a tile's variances are worked from: the wells whose covariance with it is not nothing. */
function reaching(
  surface: KrigedSurface,
  frame: GridFrame,
  tile: TileFrame,
  { inverse, panels }: VarianceWork,
): { wells: Wells; panels: Panels; solvedDrift: readonly Float64Array[] } {
  const { u, v, base, choice } = surface;
  const n = u.length;
  const solvedDrift = Array.from(surface.drift, (_, k) =>
    surface.solvedDrift.subarray(k * n, (k + 1) * n),
  );
  if (choice.model.shape !== 'spherical') return { wells: surface, panels, solvedDrift };

  const nodes = tileNodes(surface, frame, tile);
  const chosen = Int32Array.from({ length: n }, (_, i) => i).filter((i) => {
    for (let t = 0; t < nodes.count; t++) {
      const a = (u[i] as number) - (nodes.u[t] as number);
      const b = (v[i] as number) - (nodes.v[t] as number);
      if (a * a + b * b < 1) return true;
    }
    return false;
  });
  const pick = (all: Float64Array) => Float64Array.from(chosen, (i) => all[i] as number);
  return {
    wells: { u: pick(u), v: pick(v), base, choice },
    panels: panelsOf(inverse, n, chosen),
    solvedDrift: solvedDrift.map(pick),
  };
}

/** Nodes that stand in a well get what is known there, which the nugget keeps from their neighbours. */
function correctWells(
  surface: KrigedSurface,
  frame: GridFrame,
  mask: Uint8Array | null,
  heads: Float64Array,
  variances: Float64Array | null,
): void {
  for (const place of surface.places) {
    const column = Math.round((place.x - frame.x) / frame.step);
    const row = Math.round((place.y - frame.y) / frame.step);
    if (column < 0 || column >= frame.columns || row < 0 || row >= frame.rows) continue;
    const node = row * frame.columns + column;
    const [x, y] = nodeAt(frame, column, row);
    if (mask?.[node] === 0 || Math.hypot(place.x - x, place.y - y) > SAME_PLACE) continue;
    const { head, variance } = estimateAt(surface, x, y);
    heads[node] = head;
    if (variances) variances[node] = variance;
  }
}
