import { betaParts, gammaParts } from './special-functions';

/**
 * Normal, Student's t, χ² and F: how likely a value is to be exceeded, and the
 * value exceeded with a given chance. Checked against 40-digit arithmetic.
 *
 * `…Above(x)` is the chance of more than x, exact to its own last digits even
 * where it is tiny; `…Quantile(p)` is the value that is not exceeded with
 * chance p, 0 < p < 1. Degrees of freedom are positive and need not be whole.
 */

/** Chance that a standard normal deviate is more than z. */
export const normalAbove = (z: number): number => {
  const [below, above] = gammaParts(0.5, (z * z) / 2);
  return z >= 0 ? above / 2 : (1 + below) / 2;
};

/** Standard deviations from the mean: 1.96 for p = 0.975. */
export const normalQuantile = (p: number): number =>
  symmetric(p, (tail) => solvedFor((z) => normalAbove(z), tail));

/** Chance that Student's t is more than `t`. */
export const tAbove = (t: number, freedom: number): number => {
  const whole = freedom + t * t;
  const [outside, inside] = betaParts(freedom / 2, 0.5, freedom / whole, (t * t) / whole);
  return t >= 0 ? outside / 2 : (1 + inside) / 2;
};

/** 3.182 for p = 0.975 and 3 degrees of freedom. */
export const tQuantile = (p: number, freedom: number): number =>
  symmetric(p, (tail) => solvedFor((t) => tAbove(t, freedom), tail));

/** Chance that χ² is more than `x`. */
export const chiSquaredAbove = (x: number, freedom: number): number =>
  gammaParts(freedom / 2, x / 2)[1];

/** 5.991 for p = 0.95 and 2 degrees of freedom. */
export const chiSquaredQuantile = (p: number, freedom: number): number =>
  fromNearerTail(p, (x) => gammaParts(freedom / 2, x / 2));

const fParts = (f: number, over: number, under: number) => {
  const whole = over * f + under;
  return betaParts(over / 2, under / 2, (over * f) / whole, under / whole);
};

/** Chance that F is more than `f`, with `over` degrees of freedom above the line and `under` below. */
export const fAbove = (f: number, over: number, under: number): number =>
  f <= 0 ? 1 : f === Infinity ? 0 : fParts(f, over, under)[1];

/** 9.552 for p = 0.95, 2 degrees of freedom over 3. */
export const fQuantile = (p: number, over: number, under: number): number =>
  fromNearerTail(p, (f) => fParts(f, over, under));

/** A distribution about zero, from its upper half. */
const symmetric = (p: number, exceededWith: (tail: number) => number): number =>
  p === 0.5 ? 0 : p > 0.5 ? exceededWith(1 - p) : -exceededWith(p);

/** A positive quantile, worked from whichever tail is the smaller and so the better known. */
const fromNearerTail = (
  p: number,
  parts: (x: number) => readonly [below: number, above: number],
): number =>
  p > 0.5
    ? solvedFor((x) => parts(x)[1], 1 - p)
    : // 1/x, so that the chance falls as the unknown grows
      1 / solvedFor((inverse) => parts(1 / inverse)[0], p);

/**
 * The positive x at which a falling function has a given value: doubled or
 * halved until it lies between, then halved to the last bit.
 */
function solvedFor(falling: (x: number) => number, wanted: number): number {
  let high = 1;
  while (falling(high) > wanted && high < Number.MAX_VALUE / 2) high *= 2;
  let low = high / 2;
  while (falling(low) <= wanted && low > Number.MIN_VALUE) [low, high] = [low / 2, low];
  for (;;) {
    const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) return middle;
    if (falling(middle) > wanted) low = middle;
    else high = middle;
  }
}
