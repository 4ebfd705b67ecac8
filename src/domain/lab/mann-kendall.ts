import { groupBy } from '../group';
import { normalAbove, normalQuantile } from '../water/distributions';
import { median } from './percentile';

/** A value at a time; times in any unit, and slopes then per that unit. */
export type TimedValue = { readonly time: number; readonly value: number };

export type MannKendall = {
  readonly n: number;
  /** Pairs that rise and pairs that fall with time; pairs of one time are neither. */
  readonly rising: number;
  readonly falling: number;
  /** The first less the second. */
  readonly s: number;
  readonly variance: number;
  /** Continuity-corrected; null where every value, or every time, is the same. */
  readonly z: number | null;
  /** Two-sided, from the normal distribution; null with z. */
  readonly p: number | null;
  /** Chance of an S as far out on its side, without ties and up to `MOST_FOR_EXACT` values. */
  readonly pExactOneSided: number | null;
  readonly pExactTwoSided: number | null;
  /** S over the number of pairs. */
  readonly tau: number | null;
};

/** The exact distribution of S is worked out for no more values than this. */
export const MOST_FOR_EXACT = 60;

/**
 * Mann–Kendall test for a trend, with ties in value and in time (Gilbert 1987,
 * Statistical Methods for Environmental Pollution Monitoring, eq. 16.4 and 16.5).
 * The order of the series does not matter.
 */
export function mannKendall(series: readonly TimedValue[]): MannKendall {
  const n = series.length;
  let rising = 0;
  let falling = 0;
  series.forEach((a, i) => {
    for (const b of series.slice(i + 1)) {
      const turn = Math.sign(b.time - a.time) * Math.sign(b.value - a.value);
      if (turn > 0) rising++;
      else if (turn < 0) falling++;
    }
  });
  const s = rising - falling;

  const values = tieSizes(series.map(({ value }) => value));
  const times = tieSizes(series.map(({ time }) => time));
  const variance = varianceOfS(n, values, times);
  const z =
    variance > 0 ? Math.sign(s) * (Math.max(0, Math.abs(s) - 1) / Math.sqrt(variance)) : null;
  const noTies = values.length === 0 && times.length === 0 && n >= 2;
  const oneSided = noTies && n <= MOST_FOR_EXACT ? chanceOfAtLeast(n, Math.abs(s)) : null;
  return {
    n,
    rising,
    falling,
    s,
    variance,
    z: z === null ? null : z + 0,
    p: z === null ? null : 2 * normalAbove(Math.abs(z)),
    pExactOneSided: oneSided,
    pExactTwoSided: oneSided === null ? null : Math.min(1, 2 * oneSided),
    tau: n < 2 ? null : s / ((n * (n - 1)) / 2),
  };
}

/** Sizes of the groups of equal numbers, of two and more. */
const tieSizes = (numbers: readonly number[]): number[] =>
  [...groupBy(numbers, (x) => x).values()].map((of) => of.length).filter((size) => size > 1);

function varianceOfS(n: number, values: readonly number[], times: readonly number[]): number {
  if (n < 2) return 0;
  const sum = (sizes: readonly number[], of: (size: number) => number) =>
    sizes.reduce((total, size) => total + of(size), 0);
  const whole = (t: number) => t * (t - 1) * (2 * t + 5);
  const triples = (t: number) => t * (t - 1) * (t - 2);
  const pairs = (t: number) => t * (t - 1);

  const first = (whole(n) - sum(values, whole) - sum(times, whole)) / 18;
  const second =
    n > 2 ? (sum(values, triples) * sum(times, triples)) / (9 * n * (n - 1) * (n - 2)) : 0;
  const third = (sum(values, pairs) * sum(times, pairs)) / (2 * n * (n - 1));
  const variance = first + second + third;
  return variance > 1e-9 ? variance : 0; // exact zero when all are tied, less rounding
}

/**
 * P(S ≥ s) for n values in random order without ties, from the number of ways
 * to so many inversions (Kendall 1975, Rank Correlation Methods, ch. 5).
 */
export function chanceOfAtLeast(n: number, s: number): number {
  const pairs = (n * (n - 1)) / 2;
  let chances = [1];
  for (let size = 2; size <= n; size++) {
    const fewer = chances;
    chances = Array.from({ length: fewer.length + size - 1 }, (_, inversions) =>
      fewer
        .slice(Math.max(0, inversions - size + 1), inversions + 1)
        .reduce((sum, chance) => sum + chance / size, 0),
    );
  }
  // S = pairs − 2 × inversions
  const most = Math.floor((pairs - s) / 2);
  return chances.slice(0, Math.max(0, most + 1)).reduce((sum, chance) => sum + chance, 0);
}

export type SenSlope = {
  /** Value per unit of time: the median of the slopes of all pairs. */
  readonly slope: number;
  /** Of the line through the medians of value and time. */
  readonly intercept: number;
  /** Number of pairs with different times. */
  readonly pairs: number;
};

/** Slopes of all pairs at different times, ascending; none for fewer than two times. */
export function senSlopes(series: readonly TimedValue[]): number[] {
  const slopes: number[] = [];
  series.forEach((a, i) => {
    for (const b of series.slice(i + 1))
      if (b.time !== a.time) slopes.push((b.value - a.value) / (b.time - a.time));
  });
  return slopes.sort((a, b) => a - b);
}

/** Sen's slope (Sen 1968; Gilbert 1987, ch. 16.5); null without two different times. */
export function senSlope(series: readonly TimedValue[]): SenSlope | null {
  const slopes = senSlopes(series);
  const slope = median(slopes);
  const time = median(series.map((point) => point.time));
  const value = median(series.map((point) => point.value));
  if (slope === null || time === null || value === null) return null;
  return { slope, intercept: value - slope * time, pairs: slopes.length };
}

/**
 * Limits of Sen's slope: the slopes at ranks (N − C)/2 and (N + C)/2 + 1, with C
 * the normal quantile times the root of the variance of S, interpolated between
 * ranks (Gilbert 1987, ch. 16.5). Null where there are too few slopes.
 *
 * @param confidence  two-sided, such as 0.95
 */
export function senLimits(
  series: readonly TimedValue[],
  confidence: number,
): { readonly lower: number; readonly upper: number } | null {
  const slopes = senSlopes(series);
  const { variance } = mannKendall(series);
  if (variance === 0) return null;
  const c = normalQuantile((1 + confidence) / 2) * Math.sqrt(variance);
  const lower = atRank(slopes, (slopes.length - c) / 2);
  const upper = atRank(slopes, (slopes.length + c) / 2 + 1);
  return lower === null || upper === null ? null : { lower, upper };
}

/** The value at a rank counted from 1, between two ranks in proportion; null outside them. */
function atRank(sorted: readonly number[], rank: number): number | null {
  if (!(rank >= 1 && rank <= sorted.length)) return null;
  const low = Math.floor(rank);
  const [a, b] = [sorted[low - 1], sorted[low] ?? sorted[low - 1]];
  return a === undefined || b === undefined ? null : a + (rank - low) * (b - a);
}
