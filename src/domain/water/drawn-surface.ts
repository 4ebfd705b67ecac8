import { fail, ok, type Result } from '../result';
import { allAtOnce } from '../steps';
import { metres, type Metres } from '../units';
import { gridContours, lineLength, tinContours, withinHull } from './surface/contour';
import type { ContourLine } from './surface/contour';
import { contourLevels, honestInterval, intervalVerdict } from './surface/contour-interval';
import type { HonestInterval, IntervalVerdict } from './surface/contour-interval';
import { farFromWells, labelPlaces, piecesOf, unsure } from './surface/contour-pieces';
import type { ContourPiece, Inferred, LabelPlace } from './surface/contour-pieces';
import { krigingLeftOut, tinLeftOut, type CrossValidation } from './surface/cross-validation';
import { flowLine, localArrows, placesWithin } from './surface/flow-lines';
import type { FlowLine, LocalArrow } from './surface/flow-lines';
import { convexHull, type Hull, type XY } from './surface/hull';
import { estimateAt, headAt, krigedInSteps, slopeAt, type KrigedSurface } from './surface/kriging';
import { krigedGrid } from './surface/kriging-grid';
import { frameOver, type SurfaceGrid } from './surface/surface-grid';
import type { SurfacePoint } from './surface/surface-point';
import { slopeOnTin, triangulate, withoutTrianglesAcross, type Tin } from './surface/tin';
import { tinFlowLines } from './surface/tin-flow';
import type { VariogramModel } from './surface/variogram-model';
import { surfaceProblemWords } from './surface-words';

/** How the surface is drawn between the wells. */
export type SurfaceMethod = 'triangulated' | 'kriged' | 'kriged about a plane';

/** What is asked of a surface; x and y in ground metres about the middle of the wells. */
export type SurfaceQuestion = {
  readonly points: readonly SurfacePoint[];
  readonly method: SurfaceMethod;
  /** Null only when triangulated. */
  readonly model: VariogramModel | null;
  readonly interval: Metres;
  /** A contour is inferred further than this from every well. */
  readonly reach: Metres;
  /** Or, kriged, where the error is over half the interval. */
  readonly byError: boolean;
  /** Lines no head is carried across; only triangles heed them. */
  readonly noFlow: readonly (readonly XY[])[];
};

/** A surface ready to be painted; places in the coordinates of the question. */
export type DrawnSurface = {
  readonly method: SurfaceMethod;
  readonly hull: Hull;
  readonly pieces: readonly ContourPiece[];
  readonly labels: readonly LabelPlace[];
  readonly levels: number;
  readonly flowLines: readonly FlowLine[];
  readonly arrows: readonly LocalArrow[];
  /** Kriged heads and variances over the outline; null when triangulated. */
  readonly grid: SurfaceGrid | null;
  readonly validation: CrossValidation;
  /** Null where no error is stated. */
  readonly honest: HonestInterval | null;
  readonly verdict: IntervalVerdict | null;
};

/** Nodes along the longer side of the outline. */
const NODES = 61;

/** Seeds of flow lines, and local arrows, along the longer side. */
const SEEDS = 5;

/** Whole surface: contours clipped to the wells' outline, flow lines square to them, errors. */
export function* drawnSurfaceInSteps(
  question: SurfaceQuestion,
): Generator<number, Result<DrawnSurface, string>> {
  const { points, interval } = question;
  const hull = convexHull(points.map(({ x, y }) => [x, y]));
  if (!hull)
    return fail(
      points.length < 3
        ? 'Three heads are needed for a surface.'
        : 'The wells are in a line: no surface lies between them.',
    );
  const heads = points.map(({ head }) => head);
  const levels = contourLevels(metres(Math.min(...heads)), metres(Math.max(...heads)), interval);
  const honest = honestInterval(points);
  const common = {
    method: question.method,
    hull,
    levels: levels.length,
    honest,
    verdict: honest && intervalVerdict(interval, honest),
  };
  if (question.method === 'triangulated') {
    const tin = triangulate(points);
    if (!tin.ok) return fail(surfaceProblemWords(tin.problem));
    return ok({ ...common, ...overTriangles(question, hull, levels, tin.value) });
  }
  if (!question.model) return fail('The heads are all alike: they give no variogram.');
  const surface = yield* krigedInSteps(points, {
    model: question.model,
    drift: question.method === 'kriged' ? 'none' : 'linear',
    errors: 'stated',
  });
  if (!surface.ok) return fail(surfaceProblemWords(surface.problem));
  const grid = yield* krigedGrid(surface.value, frameOver(hull, NODES), {
    variance: true,
    mask: null,
  });
  return ok({ ...common, ...overGrid(question, hull, levels, surface.value, grid) });
}

/** The whole of it at once. */
export const drawnSurface = (question: SurfaceQuestion): Result<DrawnSurface, string> =>
  allAtOnce(drawnSurfaceInSteps(question));

type Painted = Pick<
  DrawnSurface,
  'pieces' | 'labels' | 'flowLines' | 'arrows' | 'grid' | 'validation'
>;

function overTriangles(
  { points, reach, noFlow }: SurfaceQuestion,
  hull: Hull,
  levels: readonly Metres[],
  whole: Tin,
): Painted {
  const tin = noFlow.length > 0 ? withoutTrianglesAcross(whole, noFlow) : whole;
  const lines = levels.flatMap((level) => tinContours(tin, level));
  const across = acrossOf(hull);
  return {
    ...painted(lines, farFromWells(points, reach), across),
    flowLines: tinFlowLines(
      tin,
      placesWithin(hull, metres(across / SEEDS)),
      'downstream',
      metres(3 * across),
    ).flatMap((line) => line ?? []),
    arrows: localArrows(([x, y]) => slopeOnTin(tin, x, y), hull, metres(across / (2 * SEEDS))),
    grid: null,
    validation: tinLeftOut(points),
  };
}

function overGrid(
  { points, reach, byError, interval }: SurfaceQuestion,
  hull: Hull,
  levels: readonly Metres[],
  surface: KrigedSurface,
  grid: SurfaceGrid,
): Painted {
  const lines = levels.flatMap((level) => withinHull(gridContours(grid, level), hull));
  const far = farFromWells(points, reach);
  const sigmaAt = ([x, y]: XY) => estimateAt(surface, x, y).sigma;
  const across = acrossOf(hull);
  const slope = ([x, y]: XY) => slopeAt(surface, x, y);
  return {
    ...painted(lines, byError ? unsure(sigmaAt, metres(interval / 2)) : far, across),
    flowLines: placesWithin(hull, metres(across / SEEDS)).flatMap(
      (seed) =>
        flowLine(slope, ([x, y]) => headAt(surface, x, y), seed, hull, {
          way: 'downstream',
          step: metres(across / 100),
          longest: metres(3 * across),
        }) ?? [],
    ),
    arrows: localArrows(slope, hull, metres(across / (2 * SEEDS))),
    grid,
    validation: krigingLeftOut(surface),
  };
}

function painted(lines: readonly ContourLine[], inferred: Inferred, across: number) {
  return {
    pieces: lines.flatMap((line) => piecesOf(line, inferred, metres(across / 100))),
    labels: lines
      .filter(({ points }) => lineLength(points) > 0)
      .flatMap((line) => labelPlaces(line, metres(across), metres(across / 12))),
  };
}

/** The longer side of the box around an outline. */
function acrossOf(hull: Hull): number {
  const side = (k: 0 | 1) => {
    const values = hull.map((corner) => corner[k]);
    return Math.max(...values) - Math.min(...values);
  };
  return Math.max(side(0), side(1));
}
