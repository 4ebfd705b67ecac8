import { fail, ok, type Result } from '../result';
import { metres } from '../units';
import { normalAbove } from '../water/distributions';
import { surfaceProblemWords } from '../water/surface-words';
import { gridContours, withinHull, type ContourLine } from '../water/surface/contour';
import {
  farFromWells,
  labelPlaces,
  piecesOf,
  usualReach,
  type ContourPiece,
  type LabelPlace,
} from '../water/surface/contour-pieces';
import { krigingLeftOut } from '../water/surface/cross-validation';
import { convexHull, distanceToHull, type Hull, type XY } from '../water/surface/hull';
import { krigedInSteps } from '../water/surface/kriging';
import { krigedGrid } from '../water/surface/kriging-grid';
import { frameOver, type SurfaceGrid } from '../water/surface/surface-grid';
import type { SurfacePoint } from '../water/surface/surface-point';
import { startingVariogram } from '../water/surface/variogram-fit';
import type { VariogramModel } from '../water/surface/variogram-model';
import { bandPolygons, isInBand, type Polygon } from './extent-bands';
import type { ExtentPoint } from './extent-points';

/** How the chance of passing a level is carried from points to the ground between them. */
export const EXTENT_METHODS = ['indicator kriging', 'log kriging'] as const;
export type ExtentMethod = (typeof EXTENT_METHODS)[number];

export type ExtentQuestion = {
  readonly points: readonly ExtentPoint[];
  readonly level: number;
  readonly method: ExtentMethod;
  /** A variogram of a person's own, of the indicator or of the logarithms; null: what the points give. */
  readonly model?: VariogramModel | null;
};

/** Chances that part the bands of the picture; the outline runs along the middle one. */
export const BAND_EDGES = [0.1, 0.5, 0.9] as const;
export const OUTLINE = 0.5;

/** A point on the wrong side of the outline as it is drawn. */
export type Contradiction = { readonly point: ExtentPoint; readonly kept: 'inside' | 'outside' };

/** Where a level is likely to be passed, inside the outline of the points and nowhere else. */
export type Extent = {
  readonly method: ExtentMethod;
  readonly hull: Hull;
  /** Chance of passing, 0 to 1, at the nodes of a grid. */
  readonly grid: SurfaceGrid;
  /** The ground of each band, the least likely first: under, between and over `BAND_EDGES`. */
  readonly bands: readonly (readonly Polygon[])[];
  /** The outline: dashed where no point is near. */
  readonly outline: readonly ContourPiece[];
  /** The other edges of bands, and where each is labelled; `level` is the chance. */
  readonly edges: readonly ContourLine[];
  readonly labels: readonly LabelPlace[];
  readonly contradictions: readonly Contradiction[];
  /** Points that exceed on the edge of the data: beyond them the extent is open. */
  readonly open: readonly ExtentPoint[];
  readonly model: VariogramModel;
  readonly how: 'fitted' | 'assumed' | 'given';
  /** Points told rightly by the others when each is left out in turn, of those that could be. */
  readonly toldRightly: number;
  readonly toldOf: number;
};

/** Fewer points than this say nothing of the ground between them. Common practice, no source. */
export const FEWEST_POINTS = 6;
/** Below this a variogram is chance, and the picture is a sketch. Common practice, no source. */
export const FEW_POINTS = 20;
/** Nodes along the longer side of the outline. */
const NODES = 81;

/**
 * The extent of what passes a level.
 *
 * Indicator kriging: 1 where a point exceeds and 0 where it does not; what
 * ordinary kriging makes of these between the points is taken as the chance of
 * passing, cut to 0 to 1 (A. G. Journel, 1983, Nonparametric estimation of
 * spatial distributions, Mathematical Geology 15(3), 445-468; C. V. Deutsch and
 * A. G. Journel, 1998, GSLIB, for the cutting; values from memory). It asks
 * nothing of how concentrations are distributed, and a non-detect needs no number.
 *
 * Log kriging: ordinary kriging of the logarithms; the chance is that of a normal
 * distribution with the kriged mean and its error, so that the outline is where
 * the median stands at the level (A. G. Journel and C. J. Huijbregts, 1978, Mining
 * geostatistics, on lognormal kriging; value from memory). A non-detect stands at
 * its limit: the most it can be.
 */
export function* extentInSteps({
  points,
  level,
  method,
  model = null,
}: ExtentQuestion): Generator<number, Result<Extent, string>> {
  const exceeding = points.filter(({ exceeds }) => exceeds).length;
  if (points.length < FEWEST_POINTS)
    return fail(
      `${points.length} points can be told; an outline needs ${FEWEST_POINTS} that exceed or do not.`,
    );
  if (exceeding === 0) return fail('No point exceeds, so there is nothing to outline.');
  if (exceeding === points.length)
    return fail('Every point exceeds: the edge lies beyond the data, on every side.');
  const hull = convexHull(points.map(({ x, y }) => [x, y]));
  if (!hull) return fail('The points are in a line: no ground lies between them.');

  const placed = points.map((point) => surfacePoint(point, method));
  const variogram = model ? { model, how: 'given' as const } : startingVariogram(placed, 'none');
  if (!variogram) return fail('The points are all alike: they give no variogram.');
  // The nugget as an error of the points: the same between them, and no lone spike where one stands.
  const { nugget } = variogram.model;
  const uneven = placed.map((one) => ({ ...one, sigma: metres(Math.sqrt(nugget)) }));
  const surface = yield* krigedInSteps(uneven, {
    model: { ...variogram.model, nugget: 0 },
    drift: 'none',
    errors: 'stated',
  });
  if (!surface.ok) return fail(surfaceProblemWords(surface.problem));
  const kriged = yield* krigedGrid(surface.value, frameOver(hull, NODES), {
    variance: method === 'log kriging',
    mask: null,
  });
  const chance = chanceFrom(method, level);
  const grid = {
    frame: kriged.frame,
    heads: kriged.heads.map((value, node) =>
      chance(value, (kriged.variances?.[node] ?? 0) + nugget),
    ),
    variances: null,
  };
  const bands = bandPolygons(grid, hull, BAND_EDGES);
  const within = (at: number): ContourLine[] => withinHull(gridContours(grid, metres(at)), hull);
  const across = Math.max(kriged.frame.columns, kriged.frame.rows) * kriged.frame.step;
  const reach = usualReach(placed) ?? metres(across);
  const outline = within(OUTLINE);
  const edges = BAND_EDGES.filter((at) => at !== OUTLINE).flatMap(within);
  const validation = krigingLeftOut(surface.value).places.flatMap(({ place, predicted, sigma }) => {
    const point = points.find(({ id }) => place.ids.includes(id));
    if (predicted === null || !point) return [];
    return [chance(predicted, (sigma ?? 0) ** 2) >= OUTLINE === point.exceeds];
  });
  return ok({
    method,
    hull,
    grid,
    bands,
    outline: outline.flatMap((line) =>
      piecesOf(line, farFromWells(placed, reach), metres(across / 100)),
    ),
    edges,
    labels: [...outline, ...edges].flatMap((line) =>
      labelPlaces(line, metres(across), metres(across / 14)),
    ),
    contradictions: contradictionsIn(points, hull, bands),
    open: points.filter(
      ({ exceeds, x, y }) => exceeds && distanceToHull(hull, [x, y]) < across / NODES / 2,
    ),
    model: variogram.model,
    how: variogram.how,
    toldRightly: validation.filter(Boolean).length,
    toldOf: validation.length,
  });
}

const surfacePoint = (
  { id, x, y, exceeds, amount }: ExtentPoint,
  method: ExtentMethod,
): SurfacePoint => ({
  id,
  x,
  y,
  head: metres(method === 'indicator kriging' ? Number(exceeds) : Math.log(amount)),
  sigma: metres(0),
});

/** The chance of passing from what was kriged and its variance. */
const chanceFrom = (method: ExtentMethod, level: number) => (value: number, variance: number) => {
  if (method === 'indicator kriging') return Math.min(1, Math.max(0, value));
  const over = value - Math.log(level);
  return variance > 0 ? normalAbove(-over / Math.sqrt(variance)) : Number(over > 0);
};

/** Share of the way to the middle that a point is looked for from: those on the outline lie in it. */
const INWARD = 1e-6;

/** Points that exceed outside of the outline as drawn, and points that do not exceed within it. */
function contradictionsIn(
  points: readonly ExtentPoint[],
  hull: Hull,
  bands: Extent['bands'],
): Contradiction[] {
  const likely = bands.slice(BAND_EDGES.indexOf(OUTLINE) + 1).flat();
  const middle = (k: 0 | 1) => hull.reduce((sum, corner) => sum + corner[k] / hull.length, 0);
  const [mx, my] = [middle(0), middle(1)];
  return points.flatMap((point): Contradiction[] => {
    const at: XY = [point.x + (mx - point.x) * INWARD, point.y + (my - point.y) * INWARD];
    const inside = likely.some((polygon) => isInBand(polygon, at));
    return inside === point.exceeds ? [] : [{ point, kept: inside ? 'inside' : 'outside' }];
  });
}
