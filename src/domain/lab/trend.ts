import { fixed, significant } from '../show';
import {
  mannKendall,
  senLimits,
  senSlope,
  type MannKendall,
  type SenSlope,
  type TimedValue,
} from './mann-kendall';

/** A concentration over time: a value seen, or a limit it was not seen above. */
export type TimedResult = {
  readonly time: number;
  readonly value: number;
  readonly detected: boolean;
};

export type TrendRules = {
  /** Below this the test is not made. */
  readonly least: number;
  /** Below this its answer comes with a warning. */
  readonly leastToMeanMuch: number;
  /** Two-sided level of significance. */
  readonly alpha: number;
  readonly confidence: number;
};

/** Four is where the test begins to exist, eight where it begins to mean something (common practice, no source). */
export const USUAL_TREND_RULES: TrendRules = {
  least: 4,
  leastToMeanMuch: 8,
  alpha: 0.05,
  confidence: 0.95,
};

export type Trend = {
  readonly n: number;
  readonly notDetected: number;
  /** All results at or below it were taken as equal; null where everything was detected. */
  readonly commonLimit: number | null;
  readonly test: MannKendall;
  /** Exact where there are no ties, else from the normal distribution; null where neither exists. */
  readonly p: number | null;
  readonly exact: boolean;
  readonly direction: 'rising' | 'falling' | 'none told' | null;
  /** Null where it hangs on what stands for the non-detects. */
  readonly slope: SenSlope | null;
  readonly limits: { readonly lower: number; readonly upper: number } | null;
  /** Why there is no answer; null where there is one. */
  readonly why: string | null;
};

/**
 * Trend of a series with non-detects. They get one common limit, the highest
 * among them, and every result at or under it counts as equal to every other:
 * only the order matters to the test, and nothing is put in their place. Sen's
 * slope is given where it is the same with the non-detects at nothing and at
 * the limit.
 */
export function trendOf(
  results: readonly TimedResult[],
  rules: TrendRules = USUAL_TREND_RULES,
): Trend {
  const unseen = results.filter(({ detected }) => !detected);
  const commonLimit = unseen.length === 0 ? null : Math.max(...unseen.map(({ value }) => value));
  const isUnder = ({ value, detected }: TimedResult) =>
    commonLimit !== null && (!detected || value < commonLimit);
  const withUnderAt = (under: number): TimedValue[] =>
    results.map((result) => ({
      time: result.time,
      value: isUnder(result) ? under : result.value,
    }));

  // Any number under the limit gives the same order; zero is not reported anywhere.
  const series = withUnderAt(0);
  const test = mannKendall(series);
  const p = test.pExactTwoSided ?? test.p;
  const base = {
    n: results.length,
    notDetected: unseen.length,
    commonLimit,
    test,
    p,
    exact: test.pExactTwoSided !== null,
  };
  const none = (why: string): Trend => ({
    ...base,
    direction: null,
    slope: null,
    limits: null,
    why,
  });
  if (results.length < rules.least) return none(`the test needs at least ${rules.least} results`);
  if (test.variance === 0 || p === null)
    return none(
      unseen.length > 0
        ? 'all results count as equal under the highest limit'
        : 'all values are equal, or all of one time',
    );

  const atLimit = withUnderAt(commonLimit ?? 0);
  const slope = same(senSlope(series), senSlope(atLimit), ({ slope }) => [slope]);
  const limits =
    slope &&
    same(
      senLimits(series, rules.confidence),
      senLimits(atLimit, rules.confidence),
      ({ lower, upper }) => [lower, upper],
    );
  const told = p <= rules.alpha;
  return {
    ...base,
    direction: told ? (test.s > 0 ? 'rising' : 'falling') : 'none told',
    slope,
    limits,
    why: null,
  };
}

/** The first, where both are there and give the same numbers. */
function same<T>(a: T | null, b: T | null, numbers: (of: T) => readonly number[]): T | null {
  if (a === null || b === null) return null;
  const others = numbers(b);
  const near = (x: number, y = NaN) => Math.abs(x - y) <= 1e-12 * Math.abs(x);
  return numbers(a).every((x, i) => near(x, others[i])) ? a : null;
}

/**
 * The trend in plain words.
 * @param unit  of the slope: "µg/L a year"
 */
export function trendSentence(
  trend: Trend,
  unit: string,
  rules: TrendRules = USUAL_TREND_RULES,
): string {
  const { n, notDetected, test, p, direction, slope, limits } = trend;
  const results = n === 1 ? '1 result' : `${n} results`;
  if (direction === null || p === null)
    return `No trend can be told from ${results}: ${trend.why ?? 'there is no answer'}.`;

  const chance = p < 0.001 ? 'p under 0.001' : `p ${fixed(p, 3)}`;
  const basis = `Mann–Kendall S ${fixed(test.s, 0)}, ${trend.exact ? 'exact ' : ''}two-sided ${chance}`;
  const told =
    direction === 'none told'
      ? `No trend is told from ${results} (${basis}); that does not show there is none.`
      : `${direction === 'rising' ? 'Rising' : 'Falling'}, from ${results} (${basis}).`;
  const parts = [told];
  if (slope !== null) {
    const between = limits
      ? `, ${Math.round(rules.confidence * 100)} % limits ${signed(limits.lower)} to ${signed(limits.upper)}`
      : '';
    parts.push(`Sen’s slope ${signed(slope.slope)} ${unit}${between}.`);
  } else parts.push('No slope is given: it hangs on what stands for the non-detects.');
  if (notDetected > 0)
    parts.push(
      `${notDetected} of ${n} not detected; all under the highest limit counted as equal.`,
    );
  if (n < rules.leastToMeanMuch)
    parts.push(`Fewer than ${rules.leastToMeanMuch} results say little.`);
  return parts.join(' ');
}

const signed = (value: number) => `${value > 0 ? '+' : ''}${significant(value, 3)}`;
