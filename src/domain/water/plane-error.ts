import { degrees, type Degrees } from '../units';
import type { PlaneWorkspace } from './plane-solver';

/**
 * Covariances of a plane's three numbers: c, the head at the centre of the
 * wells (metres), and a and b, its slopes toward east and north (no unit).
 */
export type Covariance = {
  readonly aa: number;
  readonly ab: number;
  readonly bb: number;
  readonly ca: number;
  readonly cb: number;
  readonly cc: number;
};

/** How far off a plane may be, one standard error, from one idea of the error of its heads. */
export type PlaneError = {
  readonly covariance: Covariance;
  /** σ_i, of the gradient; null for a level surface. */
  readonly gradient: number | null;
  /**
   * σ_θ, of the direction, to first order; null for a level surface. Means
   * little past `FIRST_ORDER_LIMIT` of plane-confidence.ts.
   */
  readonly azimuth: Degrees | null;
  /**
   * gᵀC⁻¹g, the slopes squared against their error: χ² with 2 degrees of
   * freedom if there is no slope. Null where the wells leave nothing over but
   * rounding, so that there is no error to hold the slope against.
   */
  readonly signal: number | null;
};

/**
 * The error of a solved plane whose i-th head, scaled by its root weight, has
 * `variance(i)`.
 *
 * First-order propagation with p = (b, −a): σ_i² = gᵀCg/i², σ_θ² = pᵀCp/i⁴. It
 * is done on the two uncorrelated columns the plane was solved in, not on C
 * itself, whose terms cancel when the wells are nearly in a line. With unequal
 * variances and equal weights this is the covariance of H. White, 1980,
 * Econometrica 48(4), 817–838 (pages from memory), with the variances known.
 */
export function planeError(
  solved: PlaneWorkspace,
  roots: Float64Array,
  variance: (i: number) => number,
  level: boolean,
): PlaneError {
  const { u, v, uu, vv, skew, alone, b, weight } = solved;
  const a = alone - skew * b;

  let [one, ofU, ofV, oneU, oneV, uv] = [0, 0, 0, 0, 0, 0];
  for (let i = 0; i < roots.length; i++) {
    const [root, ui, vi] = [roots[i] ?? 0, u[i] ?? 0, v[i] ?? 0];
    const w = variance(i);
    one += w * root * root;
    ofU += w * ui * ui;
    ofV += w * vi * vi;
    oneU += w * root * ui;
    oneV += w * root * vi;
    uv += w * ui * vi;
  }
  // Of `alone`, of b, and between them and c.
  const alones = ofU / uu ** 2;
  const bb = ofV / vv ** 2;
  const both = uv / (uu * vv);
  const cAlone = oneU / (weight * uu);
  const cb = oneV / (weight * vv);

  const covariance = {
    aa: alones - 2 * skew * both + skew ** 2 * bb,
    ab: both - skew * bb,
    bb,
    ca: cAlone - skew * cb,
    cb,
    cc: one / weight ** 2,
  };
  if (level) return { covariance, gradient: null, azimuth: null, signal: 0 };

  const square = (p: number, q: number) => p * p * alones + 2 * p * q * both + q * q * bb;
  const gradient = Math.hypot(a, b);
  const determinant = alones * bb - both * both;
  return {
    covariance,
    gradient: Math.sqrt(square(a, b - skew * a)) / gradient,
    azimuth: degrees((Math.sqrt(square(b, -alone)) / gradient ** 2) * (180 / Math.PI)),
    signal: (alone * alone * bb - 2 * alone * b * both + b * b * alones) / determinant,
  };
}
