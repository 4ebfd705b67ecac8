/**
 * The incomplete gamma and beta functions, from which every distribution the
 * plane needs follows. Written here because the kept-up packages that have them
 * bring some hundreds of others with them.
 */

/** Terms at most; near the middle of a distribution about √(degrees of freedom) are needed. */
const MOST_TERMS = 100_000;

/** A term smaller than this part of the sum changes nothing. */
const NEGLIGIBLE = 1e-16;

/** Stands for a zero denominator in a continued fraction. */
const TINY = 1e-300;

/** Lanczos coefficients for g = 7, n = 9, as computed by P. Godfrey, 2001 (values from memory, tested). */
const LANCZOS_FIRST = 0.99999999999980993;
const LANCZOS: readonly number[] = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** ln Γ(x), for x > 0. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const z = x - 1;
  const base = z + 7.5;
  const sum = LANCZOS.reduce((so, c, i) => so + c / (z + i + 1), LANCZOS_FIRST);
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(base) - base + Math.log(sum);
}

/**
 * The two parts of the gamma distribution of shape a, below and above x:
 * P(a, x) and Q(a, x) = 1 − P, each to its own full accuracy. Series below the
 * middle, continued fraction above it: Abramowitz and Stegun, 1964, 6.5.29 and
 * 6.5.31; the fraction by W. J. Lentz, 1976 (values from memory).
 */
export function gammaParts(a: number, x: number): readonly [below: number, above: number] {
  if (x <= 0) return [0, 1];
  if (x === Infinity) return [1, 0];
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let k = 1; k < MOST_TERMS && term > sum * NEGLIGIBLE; k++) {
      term *= x / (a + k);
      sum += term;
    }
    const below = front * sum;
    return [below, 1 - below];
  }
  const above = front / fraction(x + 1 - a, (k) => [-k * (k - a), x + 1 - a + 2 * k]);
  return [1 - above, above];
}

/**
 * The two parts of the beta distribution of shapes a and b, below and above x:
 * I_x(a, b) and 1 − I_x(a, b), each to its own full accuracy. Continued
 * fraction of Abramowitz and Stegun, 1964, 26.5.8 (value from memory).
 *
 * @param rest 1 − x, given by the caller because it may be known better than by subtraction
 */
export function betaParts(
  a: number,
  b: number,
  x: number,
  rest: number,
): readonly [below: number, above: number] {
  if (x <= 0) return [0, 1];
  if (rest <= 0) return [1, 0];
  const belowMiddle = x <= (a + 1) / (a + b + 2);
  if (belowMiddle) {
    const below = betaFraction(a, b, x, rest);
    return [below, 1 - below];
  }
  const above = betaFraction(b, a, rest, x);
  return [1 - above, above];
}

function betaFraction(a: number, b: number, x: number, rest: number): number {
  const front = Math.exp(
    a * Math.log(x) + b * Math.log(rest) + logGamma(a + b) - logGamma(a) - logGamma(b),
  );
  const numerator = (k: number) => {
    const m = k >> 1;
    return k % 2 === 0
      ? (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
      : (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
  };
  return front / (a * fraction(1, (k) => [numerator(k), 1]));
}

/** first + n₁/(d₁ + n₂/(d₂ + …)), by Lentz's method. `part(k)` gives [nₖ, dₖ], k from 1. */
function fraction(
  first: number,
  part: (k: number) => readonly [numerator: number, denominator: number],
): number {
  let value = first === 0 ? TINY : first;
  let c = value;
  let d = 0;
  for (let k = 1; k < MOST_TERMS; k++) {
    const [numerator, denominator] = part(k);
    d = 1 / (denominator + numerator * d || TINY);
    c = denominator + numerator / c || TINY;
    value *= c * d;
    if (Math.abs(c * d - 1) < NEGLIGIBLE * 2) break;
  }
  return value;
}
