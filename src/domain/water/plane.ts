import { fail, ok, type Result } from '../result';
import { azimuth, metres, type Azimuth, type Metres } from '../units';
import { planeError, type Covariance, type PlaneError } from './plane-error';
import {
  planeWorkspace,
  roundingOf,
  solvePlane,
  THINNEST_SPREAD,
  type PlaneWorkspace,
} from './plane-solver';

/** A water level at a place. */
export type HeadPoint = {
  readonly id: string;
  /** Ground metres east and north, in any frame parallel to the grid. */
  readonly x: Metres;
  readonly y: Metres;
  readonly head: Metres;
  /** One standard error of the head, more than 0. */
  readonly sigma: Metres;
};

/** How the wells lie about their centre. */
export type WellSpread = {
  /** Root sum of squares along the line they lie nearest to, and across it: singular values. */
  readonly major: Metres;
  readonly minor: Metres;
  /** Minor over major: 1 as broad as long, 0 in a line. */
  readonly ratio: number;
  /** The way that line runs, 0 to 180; null where the wells spread alike every way. */
  readonly trend: Azimuth | null;
  /** Different places among the wells. */
  readonly places: number;
};

export type PlaneProblem =
  | { readonly kind: 'too-few-wells'; readonly have: number; readonly need: number }
  /** All in one line, or in one place, to within rounding: `spread.ratio` is under `least`. */
  | { readonly kind: 'wells-in-a-line'; readonly spread: WellSpread; readonly least: number }
  | { readonly kind: 'not-a-number'; readonly ids: readonly string[] }
  | { readonly kind: 'no-error-stated'; readonly ids: readonly string[] };

/** The heads do not differ: whatever fall the plane has is rounding in the sums. */
export type LevelSurface = {
  readonly kind: 'level';
  /** Root mean square of the fall found across the wells, and the most that rounding can make. */
  readonly fall: Metres;
  readonly rounding: Metres;
};

/** The plane h = c + a(x − x̄) + b(y − ȳ) of a set of wells. */
export type Plane = {
  /** The wells; every array below is in their order. */
  readonly ids: readonly string[];
  readonly weighted: boolean;
  /** (x̄, ȳ), the (weighted) middle of the wells. */
  readonly centre: { readonly x: Metres; readonly y: Metres };
  /** Head at the centre. */
  readonly c: Metres;
  /** Rise of the head per ground distance toward east and toward north. */
  readonly a: number;
  readonly b: number;
  /** √(a² + b²), drop per ground distance, never negative. */
  readonly gradient: number;
  /** Where the water goes, clockwise from grid north: down the plane, (−a, −b). Null when level. */
  readonly azimuth: Azimuth | null;
  readonly level: LevelSurface | null;
  readonly fitted: readonly Metres[];
  /** Measured minus fitted. */
  readonly residuals: readonly Metres[];
  /** 1 on average; all 1 when not weighted. */
  readonly weights: readonly number[];
  /** Share of its own fitted head that a well decides, 0 to 1; they sum to 3. */
  readonly leverage: readonly number[];
  /** Wells less the three numbers fitted. */
  readonly degreesOfFreedom: number;
  /** Σ w·r², metres². */
  readonly sumOfSquares: number;
  /** √(Σ w·r²/(n − 3)): the error of a head of weight 1, as the scatter shows it. Null with three wells. */
  readonly s: Metres | null;
  /** √(Σ w·r²/n). */
  readonly rmse: Metres;
  /** Share of the heads' (weighted) variation that the plane accounts for; null when they are all equal. */
  readonly rSquared: number | null;
  readonly spread: WellSpread;
  /** (XᵀWX)⁻¹: covariances per variance of a head of weight 1. */
  readonly unscaled: Covariance;
  /** Errors from the stated error of each head. */
  readonly stated: PlaneError;
  /** Errors from the scatter, s; null with three wells. */
  readonly fromResiduals: PlaneError | null;
  /**
   * Least Σ (r/σ)² any plane can have: χ² with n − 3 degrees of freedom if the
   * heads lie on a plane to within their stated errors. Null with three wells.
   */
  readonly lackOfFit: number | null;
};

/**
 * The plane that best fits the heads of three wells or more, by least squares:
 * exact for three, the three-point problem. With `weighted`, a head counts by
 * the inverse square of its stated error, the default in practice. Thin sets of
 * wells are solved; only those in a line as near as numbers can tell are refused.
 *
 * Method and errors: J. F. Devlin, 2003, Ground Water 41(3), 316–320 (pages
 * from memory), in centred coordinates and by an orthogonal method.
 */
export function fitPlane(
  points: readonly HeadPoint[],
  { weighted }: { readonly weighted: boolean },
): Result<Plane, PlaneProblem> {
  const n = points.length;
  if (n < 3) return fail({ kind: 'too-few-wells', have: n, need: 3 });
  const strange = points.filter(({ x, y, head }) => !Number.isFinite(x + y + head));
  if (strange.length > 0) return fail({ kind: 'not-a-number', ids: idsOf(strange) });
  const errorless = points.filter(({ sigma }) => !(sigma > 0 && sigma < Infinity));
  if (errorless.length > 0) return fail({ kind: 'no-error-stated', ids: idsOf(errorless) });

  const roots = weighted ? rootWeights(points) : new Float64Array(n).fill(1);
  const solved = solvedWith(points, roots);
  const spread = spreadOf(solved, points);
  if (!(spread.ratio >= THINNEST_SPREAD))
    return fail({ kind: 'wells-in-a-line', spread, least: THINNEST_SPREAD });

  const rounding = roundingOf(Math.max(...points.map(({ head }) => Math.abs(head))));
  const within = solved.weight * rounding ** 2;
  const isLevel = solved.explained <= within;
  const level: LevelSurface | null = isLevel
    ? {
        kind: 'level',
        fall: metres(Math.sqrt(solved.explained / solved.weight)),
        rounding: metres(rounding),
      }
    : null;
  const [a, b] = level ? [0, 0] : [solved.a, solved.b];
  const total = solved.explained + solved.left;
  const degreesOfFreedom = n - 3;
  // Three wells leave nothing over; what the sums leave is rounding.
  const exact = degreesOfFreedom === 0;
  const sumOfSquares = exact ? 0 : level ? total : solved.left;
  const residuals = points.map(({ head }, i) => {
    if (exact) return metres(0);
    return metres(level ? head - solved.head : (solved.e[i] ?? 0) / (roots[i] ?? 1));
  });
  const variance = degreesOfFreedom > 0 ? sumOfSquares / degreesOfFreedom : null;
  const scatter = variance === null ? null : planeError(solved, roots, () => variance, isLevel);

  return ok({
    ids: idsOf(points),
    weighted,
    centre: { x: metres(solved.x), y: metres(solved.y) },
    c: metres(solved.head),
    a,
    b,
    gradient: Math.hypot(a, b),
    azimuth: level ? null : azimuth((Math.atan2(-a, -b) * 180) / Math.PI),
    level,
    fitted: points.map(({ head }, i) => metres(head - (residuals[i] ?? 0))),
    residuals,
    weights: Array.from(roots, (root) => root ** 2),
    leverage: leverageOf(solved, roots),
    degreesOfFreedom,
    sumOfSquares,
    s: variance === null ? null : metres(Math.sqrt(variance)),
    rmse: metres(Math.sqrt(sumOfSquares / n)),
    rSquared: total <= within ? null : 1 - sumOfSquares / total,
    spread,
    unscaled: planeError(solved, roots, () => 1, isLevel).covariance,
    stated: planeError(
      solved,
      roots,
      (i) => ((points[i]?.sigma ?? 0) * (roots[i] ?? 0)) ** 2,
      isLevel,
    ),
    fromResiduals:
      scatter && !isLevel && sumOfSquares <= within ? { ...scatter, signal: null } : scatter,
    lackOfFit: degreesOfFreedom > 0 ? leastChiSquared(points, solved, weighted) : null,
  });
}

const idsOf = (points: readonly HeadPoint[]) => points.map(({ id }) => id);

/** Mean of 1/σ²: what a weight of 1 stands for. */
const meanPrecision = (points: readonly HeadPoint[]) =>
  points.reduce((sum, { sigma }) => sum + sigma ** -2, 0) / points.length;

/** Root weights in proportion to 1/σ, the weights being 1 on average. In the order of the points. */
export function rootWeights(points: readonly HeadPoint[]): Float64Array {
  const mean = Math.sqrt(meanPrecision(points));
  return Float64Array.from(points, ({ sigma }) => 1 / (sigma * mean));
}

function solvedWith(points: readonly HeadPoint[], roots: Float64Array): PlaneWorkspace {
  const column = (pick: (point: HeadPoint) => number) => Float64Array.from(points, pick);
  const [x, y, head] = [column((p) => p.x), column((p) => p.y), column((p) => p.head)];
  const solved = planeWorkspace(points.length);
  solvePlane(x, y, head, roots, 0, points.length, solved);
  return solved;
}

function spreadOf(solved: PlaneWorkspace, points: readonly HeadPoint[]): WellSpread {
  const { uu, vv, skew, major, ratio } = solved;
  const across = 2 * skew * uu;
  const along = uu - (skew * skew * uu + vv);
  // Half the angle, counter-clockwise from east, of the axis of the scatter.
  const axis = (Math.atan2(across, along) * 90) / Math.PI;
  return {
    major: metres(major),
    minor: metres(major * ratio),
    ratio,
    trend: across === 0 && along === 0 ? null : azimuth((90 - axis + 180) % 180),
    places: new Set(points.map(({ x, y }) => `${x} ${y}`)).size,
  };
}

const leverageOf = (solved: PlaneWorkspace, roots: Float64Array): number[] =>
  Array.from(
    roots,
    (root, i) =>
      root ** 2 / solved.weight +
      (solved.u[i] ?? 0) ** 2 / solved.uu +
      (solved.v[i] ?? 0) ** 2 / solved.vv,
  );

/** Only the plane weighted by the stated errors has a Σ (r/σ)² distributed as χ². */
function leastChiSquared(
  points: readonly HeadPoint[],
  solved: PlaneWorkspace,
  weighted: boolean,
): number {
  const first = points[0]?.sigma ?? 1;
  if (points.every(({ sigma }) => sigma === first)) return solved.left / first ** 2;
  const best = weighted ? solved : solvedWith(points, rootWeights(points));
  return best.left * meanPrecision(points);
}
