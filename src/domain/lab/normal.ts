/** The standard normal distribution, to about thirteen figures. */

const SQRT_2PI = Math.sqrt(2 * Math.PI);

export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / SQRT_2PI;

/** Beyond this the continued fraction converges faster than the series. */
const FAR = 3;

/**
 * Chance of a value above z. A power series near the middle and a continued
 * fraction in the tail, so that small chances keep their figures (Abramowitz &
 * Stegun, 1964, 26.2.11 and 26.2.14).
 */
export function upperTail(z: number): number {
  if (z < 0) return 1 - upperTail(-z);
  if (z > FAR) return normalDensity(z) / fraction(z);
  let term = z;
  let sum = z;
  for (let n = 3; term > sum * 1e-17; n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return 0.5 - normalDensity(z) * sum;
}

/** z + 1/(z + 2/(z + 3/(z + …))), from far enough down. */
function fraction(z: number): number {
  let value = z;
  for (let n = 200; n > 0; n--) value = z + n / value;
  return value;
}

/** Chance of a value at or below z. */
export const normalCumulative = (z: number): number => upperTail(-z);

/** The z that a share p of values lies below, for p between 0 and 1, both excluded. */
export function normalQuantile(p: number): number {
  if (p > 0.5) return -normalQuantile(1 - p);
  // Abramowitz & Stegun 26.2.23 to start from (within 4.5e-4), then Newton's steps.
  const t = Math.sqrt(-2 * Math.log(p));
  let z =
    (2.515517 + 0.802853 * t + 0.010328 * t * t) /
      (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t * t * t) -
    t;
  for (let step = 0; step < 4; step++) z -= (upperTail(-z) - p) / normalDensity(z);
  return z;
}
