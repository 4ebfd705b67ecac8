import { fail, ok, type Result } from '../../result';
import { metres } from '../../units';
import type { SurfacePoint } from './surface-point';
import { detrended, experimentalVariogram, usualLags, type Lag } from './variogram';
import {
  growth,
  type Anisotropy,
  type VariogramModel,
  type VariogramShape,
} from './variogram-model';

export type FittedVariogram = {
  readonly model: VariogramModel;
  /** Σ w·(γ − model)², w = pairs / distance². Comparable between shapes on the same lags. */
  readonly misfit: number;
  /**
   * What the person should know of it: the lags rise to the end without
   * levelling off, or do not rise at all, so that neither a range nor a surface
   * between the wells is known from these heads.
   */
  readonly remark: 'no-sill-reached' | 'no-rise' | null;
};

export type FitProblem = {
  readonly kind: 'too-few-lags';
  readonly have: number;
  readonly need: number;
};

/** Unknowns are two or three: a nugget, a sill and a range. */
const FEWEST_LAGS = 3;

/** Ranges tried before the best is narrowed down, evenly in proportion. */
const RANGES_TRIED = 60;

/** The ranges looked at, in shortest and longest lag distances. */
const SHORTEST_RANGE = 0.1;
const LONGEST_RANGE = 10;

/**
 * The model of a shape that comes closest to the lags by least squares weighted
 * with pairs / distance² (the usual weights of gstat; after N. Cressie, 1985,
 * Fitting variogram models by weighted least squares). For a given range the
 * nugget and the sill follow directly; the best range is searched for among all
 * there are, so that no first guess decides the answer.
 *
 * @param keep  what the person has set by hand: the nugget, the anisotropy
 */
export function fittedVariogram(
  lags: readonly Lag[],
  shape: VariogramShape,
  keep: { readonly nugget?: number; readonly anisotropy?: Anisotropy | null } = {},
): Result<FittedVariogram, FitProblem> {
  const used = lags.filter(({ pairs, distance }) => pairs > 0 && distance > 0);
  if (used.length < FEWEST_LAGS)
    return fail({ kind: 'too-few-lags', have: used.length, need: FEWEST_LAGS });

  const modelWith = (range: number): VariogramModel => {
    const common = { nugget: 0, anisotropy: keep.anisotropy ?? null };
    return shape === 'linear'
      ? { ...common, shape, slope: 1 }
      : { ...common, shape, sill: 1, range: metres(range) };
  };
  const fitAt = (range: number) => {
    const unit = modelWith(range);
    const stretched = shape === 'linear' ? 1 : range;
    return linearFit(used, (h) => growth(unit, h / stretched), keep.nugget);
  };
  const distances = used.map(({ distance }) => distance);
  const [shortest, longest] = [
    SHORTEST_RANGE * Math.min(...distances),
    LONGEST_RANGE * Math.max(...distances),
  ];
  const range = shape === 'linear' ? 1 : leastOf((r) => fitAt(r).misfit, shortest, longest);
  const { nugget, scale, misfit } = fitAt(range);
  const unit = modelWith(range);
  const model: VariogramModel =
    unit.shape === 'linear' ? { ...unit, nugget, slope: scale } : { ...unit, nugget, sill: scale };
  const rising = shape !== 'linear' && range > 0.999 * longest;
  return ok({ model, misfit, remark: scale === 0 ? 'no-rise' : rising ? 'no-sill-reached' : null });
}

/** Nugget and scale of a given curve, neither below zero, and what they leave. */
function linearFit(lags: readonly Lag[], curve: (h: number) => number, kept?: number) {
  // prettier-ignore
  let w = 0, wf = 0, wff = 0, wg = 0, wfg = 0;
  for (const { pairs, distance, semivariance } of lags) {
    const weight = pairs / distance ** 2;
    const f = curve(distance);
    w += weight;
    wf += weight * f;
    wff += weight * f * f;
    wg += weight * semivariance;
    wfg += weight * f * semivariance;
  }
  const given = (nugget: number) => ({ nugget, scale: Math.max(0, (wfg - nugget * wf) / wff) });
  const free = (wg * wff - wf * wfg) / (w * wff - wf * wf);
  const fit =
    kept !== undefined
      ? given(kept)
      : free >= 0 && given(free).scale > 0
        ? given(free)
        : free < 0
          ? given(0)
          : { nugget: wg / w, scale: 0 };
  const misfit = lags.reduce(
    (sum, { pairs, distance, semivariance }) =>
      sum +
      (pairs / distance ** 2) * (semivariance - fit.nugget - fit.scale * curve(distance)) ** 2,
    0,
  );
  return { ...fit, misfit };
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Where a function of a positive number is least: the best of many, narrowed by golden section. */
function leastOf(misfit: (range: number) => number, shortest: number, longest: number): number {
  const ratio = (longest / shortest) ** (1 / (RANGES_TRIED - 1));
  const tried = Array.from({ length: RANGES_TRIED }, (_, i) => shortest * ratio ** i);
  const misfits = tried.map(misfit);
  const best = tried[misfits.indexOf(Math.min(...misfits))] ?? shortest;
  let [low, high] = [Math.max(shortest, best / ratio), Math.min(longest, best * ratio)];
  while (high - low > 1e-9 * high) {
    const [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (misfit(a) <= misfit(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}

/** A variogram to begin with, and whether the heads themselves gave it. */
export type StartingVariogram = {
  readonly model: VariogramModel;
  readonly how: 'fitted' | 'assumed';
  readonly lags: readonly Lag[];
};

/** Wells below which a fitted variogram is chance: common practice asks for 30 and more; this is a floor. */
const FEWEST_WELLS_TO_FIT = 12;

/**
 * A variogram to begin with, for the person to adjust. From twelve wells on the
 * spherical model that best fits the heads (less their plane, if the surface is
 * to have one). With fewer, or where the heads show no rise or no sill, a line
 * through the lags: a surface as stiff as the heads allow, with an error that
 * grows with distance from the wells. Null where all heads are alike.
 */
export function startingVariogram(
  points: readonly SurfacePoint[],
  drift: 'none' | 'linear',
): StartingVariogram | null {
  const heads = drift === 'linear' ? detrended(points) : points;
  if (!heads) return null;
  const lags = experimentalVariogram(heads, usualLags(points));
  if (points.length >= FEWEST_WELLS_TO_FIT) {
    const fitted = fittedVariogram(lags, 'spherical');
    if (fitted.ok && fitted.value.remark === null)
      return { model: fitted.value.model, how: 'fitted', lags };
  }
  const slope = slopeThrough(heads);
  if (slope === null) return null;
  return { model: { shape: 'linear', slope, nugget: 0, anisotropy: null }, how: 'assumed', lags };
}

/** Slope of the line from zero through all pairs of wells, each pair counting alike per distance. */
function slopeThrough(points: readonly SurfacePoint[]): number | null {
  let [squares, distances] = [0, 0];
  points.forEach((p, i) => {
    for (const q of points.slice(0, i)) {
      squares += (p.head - q.head) ** 2 / 2;
      distances += Math.hypot(p.x - q.x, p.y - q.y);
    }
  });
  return squares > 0 && distances > 0 ? squares / distances : null;
}
