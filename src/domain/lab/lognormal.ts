import type { CensoredValue } from './kaplan-meier';
import { normalAbove, normalQuantile } from '../water/distributions';

export type Lognormal = {
  /** Mean and standard deviation of the natural logarithms. */
  readonly mu: number;
  readonly sigma: number;
  readonly standardErrorOfMu: number;
  readonly logLikelihood: number;
};

/** Fewer detections than this fix no distribution (common practice, no source). */
export const LEAST_DETECTIONS = 3;

const MOST_STEPS = 100;

const normalDensity = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

type Slope = {
  readonly likelihood: number;
  /** First and second derivatives by mu and by the logarithm of sigma. */
  readonly mu: number;
  readonly s: number;
  readonly muMu: number;
  readonly muS: number;
  readonly ss: number;
};

/**
 * Lognormal distribution fitted by maximum likelihood to values some of which
 * are only known to be below a limit (Helsel 2012, Statistics for Censored
 * Environmental Data, ch. 6). Null with too few detections, values at or below
 * zero, or no maximum.
 */
export function fitLognormal(values: readonly CensoredValue[]): Lognormal | null {
  const seen = values.filter(({ detected }) => detected);
  if (seen.length < LEAST_DETECTIONS || values.some(({ value }) => !(value > 0))) return null;
  const logs = values.map(({ value, detected }) => ({ y: Math.log(value), detected }));
  const mean = logs.reduce((sum, { y }) => sum + y, 0) / logs.length;
  const spread = Math.sqrt(logs.reduce((sum, { y }) => sum + (y - mean) ** 2, 0) / logs.length);
  if (spread === 0) return null;

  let [mu, s] = [mean, Math.log(spread)];
  for (let step = 0; step < MOST_STEPS; step++) {
    const at = likelihood(logs, mu, s);
    const det = at.muMu * at.ss - at.muS ** 2;
    // Newton's step where the surface is a hilltop, else a short walk uphill.
    const hill = at.muMu < 0 && det > 0;
    let up = hill
      ? {
          mu: (at.muS * at.s - at.ss * at.mu) / det,
          s: (at.muS * at.mu - at.muMu * at.s) / det,
        }
      : { mu: at.mu / logs.length, s: at.s / logs.length };
    while (
      !(likelihood(logs, mu + up.mu, s + up.s).likelihood >= at.likelihood - 1e-12) &&
      Math.hypot(up.mu, up.s) > 1e-14
    )
      up = { mu: up.mu / 2, s: up.s / 2 };
    mu += up.mu;
    s += up.s;
    if (hill && Math.hypot(up.mu, up.s) < 1e-12) {
      const variance = -at.ss / det;
      return {
        mu,
        sigma: Math.exp(s),
        standardErrorOfMu: Math.sqrt(variance),
        logLikelihood: at.likelihood,
      };
    }
  }
  return null;
}

function likelihood(
  logs: readonly { readonly y: number; readonly detected: boolean }[],
  mu: number,
  s: number,
): Slope {
  const sigma = Math.exp(s);
  const sum = { likelihood: 0, mu: 0, s: 0, muMu: 0, muS: 0, ss: 0 };
  for (const { y, detected } of logs) {
    const z = (y - mu) / sigma;
    if (detected) {
      sum.likelihood += Math.log(normalDensity(z)) - s - y;
      sum.mu += z / sigma;
      sum.s += z * z - 1;
      sum.muMu -= 1 / sigma ** 2;
      sum.muS -= (2 * z) / sigma;
      sum.ss -= 2 * z * z;
    } else {
      const under = normalAbove(-z);
      const h = normalDensity(z) / under;
      const slope = -h * (z + h);
      sum.likelihood += Math.log(under);
      sum.mu -= h / sigma;
      sum.s -= h * z;
      sum.muMu += slope / sigma ** 2;
      sum.muS += (slope * z + h) / sigma;
      sum.ss += slope * z * z + h * z;
    }
  }
  return sum;
}

export const lognormalMean = ({ mu, sigma }: Lognormal) => Math.exp(mu + sigma ** 2 / 2);

export const lognormalDeviation = (fit: Lognormal) =>
  lognormalMean(fit) * Math.sqrt(Math.exp(fit.sigma ** 2) - 1);

/** The value a share p of the fitted distribution lies below. */
export const lognormalQuantile = ({ mu, sigma }: Lognormal, p: number) =>
  Math.exp(mu + normalQuantile(p) * sigma);
