import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/domain/arithmetic';
import {
  mannKendall,
  MOST_FOR_EXACT,
  senLimits,
  senSlope,
  senSlopes,
  type TimedValue,
} from '../../../src/domain/lab/mann-kendall';
import { fitLognormal, LEAST_DETECTIONS } from '../../../src/domain/lab/lognormal';
import { kaplanMeier, kaplanMeierQuantile } from '../../../src/domain/lab/kaplan-meier';
import { median, percentile } from '../../../src/domain/lab/percentile';
import { trendOf, trendSentence, USUAL_TREND_RULES } from '../../../src/domain/lab/trend';
import { mannKendallWork, senSlopeWork } from '../../../src/domain/lab/trend-work';

const series = (times: readonly number[], values: readonly number[]): TimedValue[] =>
  values.map((value, i) => ({ time: times[i]!, value }));

/** Every order of the numbers. */
function orders(of: readonly number[]): number[][] {
  if (of.length < 2) return [[...of]];
  return of.flatMap((one, i) =>
    orders([...of.slice(0, i), ...of.slice(i + 1)]).map((rest) => [one, ...rest]),
  );
}

/** Mean of S² over every order of the values, counted out: its variance, since S averages nothing. */
const varianceCounted = (times: readonly number[], values: readonly number[]) => {
  const all = orders(values);
  const square = (order: readonly number[]) => {
    let s = 0;
    for (let i = 0; i < order.length; i++)
      for (let j = 0; j < i; j++)
        s += Math.sign(times[i]! - times[j]!) * Math.sign(order[i]! - order[j]!);
    return s * s;
  };
  return all.reduce((sum, order) => sum + square(order), 0) / all.length;
};

describe('the variance of S is that of every order counted out', () => {
  test.each([
    ['no ties', [1, 2, 3, 4, 5], [3, 1, 4, 9, 5]],
    ['pairs alike in value', [1, 2, 3, 4, 5, 6], [3, 3, 4, 9, 9, 1]],
    ['pairs taken on one day', [1, 1, 3, 4, 4, 6], [3, 2, 4, 9, 8, 1]],
    ['a pair and a triple in both', [1, 1, 1, 4, 4, 6], [5, 5, 5, 2, 2, 7]],
    ['a triple of days, a triple of values', [1, 1, 1, 2, 3, 4], [5, 5, 5, 2, 1, 7]],
    ['four alike in both', [1, 1, 1, 1, 2, 3], [5, 5, 5, 5, 2, 7]],
    ['all but one alike', [1, 2, 2, 2, 2, 2], [5, 5, 5, 5, 5, 7]],
    ['three results', [1, 2, 2], [5, 5, 7]],
    ['two results', [1, 2], [5, 7]],
  ])('%s', (_, times, values) => {
    expect(mannKendall(series(times, values)).variance).toBeCloseTo(
      varianceCounted(times, values),
      9,
    );
  });

  test('all alike, or all of one day, have none', () => {
    const flat = mannKendall(series([1, 2, 3, 4, 5], [7, 7, 7, 7, 7]));
    expect(flat).toMatchObject({ s: 0, variance: 0, z: null, p: null, pExactTwoSided: null });
    const day = mannKendall(series([3, 3, 3, 3], [1, 2, 3, 4]));
    expect(day).toMatchObject({ s: 0, variance: 0, z: null, p: null });
  });
});

describe('few results', () => {
  test('none and one: nothing to compare', () => {
    for (const [times, values] of [
      [[], []],
      [[1], [5]],
    ] as const)
      expect(mannKendall(series(times, values))).toMatchObject({
        s: 0,
        variance: 0,
        z: null,
        tau: null,
        pExactOneSided: null,
        pExactTwoSided: null,
      });
  });

  test('two that rise: tau 1, and a chance of one half that says nothing', () => {
    expect(mannKendall(series([1, 2], [5, 7]))).toMatchObject({
      s: 1,
      tau: 1,
      z: 0,
      pExactOneSided: 0.5,
      pExactTwoSided: 1,
    });
  });

  test('S of nothing is Z of nothing, not of minus nothing', () => {
    const { s, z } = mannKendall(series([1, 2, 3, 4], [1, 4, 3, 2]));
    expect([s, Object.is(z, 0)]).toEqual([0, true]);
  });

  test('the exact chance is worked out to sixty results and left at sixty-one', () => {
    const rise = (n: number) =>
      mannKendall(Array.from({ length: n }, (_, i) => ({ time: i, value: (i * 37) % 61 })));
    expect(MOST_FOR_EXACT).toBe(60);
    expect(rise(60).pExactTwoSided).not.toBeNull();
    expect(rise(61).pExactTwoSided).toBeNull();
  });

  test('with ties there is no exact chance', () => {
    expect(mannKendall(series([1, 2, 3, 4], [1, 2, 2, 3])).pExactOneSided).toBeNull();
    expect(mannKendall(series([1, 2, 2, 4], [1, 2, 3, 4])).pExactOneSided).toBeNull();
  });
});

describe('limits of Sen’s slope', () => {
  test('four results have six slopes, too few to reach to 95 %', () => {
    const four = series([1, 2, 3, 4], [10, 15, 14, 20]);
    // C = 1.96 · √8.667 = 5.77: ranks 0.115 and 6.885 of 6.
    expect(senLimits(four, 0.95)).toBeNull();
    // At 80 %, C = 1.2816 · 2.944 = 3.773: ranks 1.1136 and 5.8864 of −1, 2, 2.5, 3.33, 5, 6.
    const limits = senLimits(four, 0.8)!;
    expect(senSlopes(four)).toEqual([-1, 2, 2.5, 10 / 3, 5, 6].map((x) => expect.closeTo(x, 12)));
    expect(limits.lower).toBeCloseTo(-1 + 0.1136 * 3, 3);
    expect(limits.upper).toBeCloseTo(5 + 0.8864, 3);
  });

  test('none where every value is alike, and none of a single time', () => {
    expect(senLimits(series([1, 2, 3], [4, 4, 4]), 0.95)).toBeNull();
    expect(senSlope(series([2, 2, 2], [4, 5, 6]))).toBeNull();
    expect(senSlope([])).toBeNull();
  });
});

describe('how S, Z and the slope were worked', () => {
  const times = [1, 2, 3, 4, 5];

  test('a fall: one is added to S, so that it comes nearer to nothing', () => {
    const { s, z } = mannKendallWork(mannKendall(series(times, [9, 7, 5, 3, 1])));
    expect([s.answer.value, z?.formula]).toEqual([-10, '(S + 1) / sqrt(variance)']);
    const symbols = new Map(z!.terms.map(({ symbol, value }) => [symbol, value]));
    expect(evaluate(z!.formula, symbols)).toBeCloseTo(-9 / Math.sqrt(50 / 3), 12);
    expect(z?.terms[0]?.from).toEqual({ kind: 'work', work: s });
    expect(z?.terms[1]?.from).toEqual({
      kind: 'citation',
      text: expect.stringContaining('Gilbert'),
    });
  });

  test('a rise: one is taken from S', () => {
    const { z } = mannKendallWork(mannKendall(series(times, [1, 3, 5, 7, 9])));
    expect(z?.formula).toBe('(S - 1) / sqrt(variance)');
    expect(z?.answer.value).toBeCloseTo(9 / Math.sqrt(50 / 3), 12);
  });

  test('as many rise as fall, or all alike: no Z is worked', () => {
    expect(mannKendallWork(mannKendall(series([1, 2, 3, 4], [1, 4, 3, 2]))).z).toBeNull();
    expect(mannKendallWork(mannKendall(series([1, 2, 3], [4, 4, 4]))).z).toBeNull();
  });

  test('of ten slopes the fifth and the sixth decide, and all ten are listed by rank', () => {
    const work = senSlopeWork(series(times, [2, 3, 7, 8, 15]), 'µg/L a year')!;
    const slopes = senSlopes(series(times, [2, 3, 7, 8, 15]));
    expect(work.terms.map(({ name, value }) => [name, value])).toEqual([
      ['slope 5 of 10 in order', slopes[4]],
      ['slope 6 of 10 in order', slopes[5]],
    ]);
    expect(work.answer.value).toBe((slopes[4]! + slopes[5]!) / 2);
    expect(work.table?.columns.map(({ name, dimension }) => [name, dimension])).toEqual([
      ['rank', 'number'],
      ['slope, µg/L a year', 'number'],
    ]);
    expect(work.table?.rows).toEqual(slopes.map((slope, i) => [i + 1, slope]));
  });

  test('of three slopes the second decides', () => {
    const work = senSlopeWork(series([1, 2, 3], [2, 3, 7]), 'm a year')!;
    expect(work.formula).toBe('middle');
    expect(work.terms.map(({ name, value }) => [name, value])).toEqual([
      ['slope 2 of 3 in order', 2.5],
    ]);
    expect(work.answer.value).toBe(2.5);
  });

  test('more than sixty slopes are not listed; without two times there is no slope', () => {
    const rise = (n: number) =>
      senSlopeWork(
        Array.from({ length: n }, (_, i) => ({ time: i, value: i * i })),
        'm a year',
      );
    expect(rise(11)?.table?.rows).toHaveLength(55);
    expect(rise(12)?.table).toBeUndefined(); // 66
    const sixty = series([1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2], [...Array(16).keys()]);
    expect(senSlopeWork(sixty, 'm a year')?.table?.rows).toHaveLength(60);
    expect(senSlopeWork(series([2, 2], [4, 5]), 'm a year')).toBeNull();
    expect(senSlopeWork([], 'm a year')).toBeNull();
  });
});

describe('a trend told or not', () => {
  const results = (values: readonly (number | string)[]) =>
    values.map((value, i) => ({
      time: i,
      value: typeof value === 'number' ? value : Number(value.slice(1)),
      detected: typeof value === 'number',
    }));

  test('a detection just at the highest limit stands above the non-detects', () => {
    // <5 counts under a 5 that was seen: 5 and <5 differ, 4 and <5 do not.
    const { test: found, commonLimit } = trendOf(results(['<5', 4, 5, 6]));
    expect(commonLimit).toBe(5);
    expect(found).toMatchObject({ rising: 5, falling: 0, s: 5 });
  });

  test('the significance asked for is met where p equals it', () => {
    // Four in a row that rise: one order of 24, two-sided 1/12.
    const rising = results([1, 2, 3, 4]);
    const at = (alpha: number) => trendOf(rising, { ...USUAL_TREND_RULES, alpha });
    expect(at(1 / 12).p).toBeCloseTo(1 / 12, 12);
    expect(at(at(0.05).p!).direction).toBe('rising');
    expect(at(0.08).direction).toBe('none told');
    expect(at(0.05)).toMatchObject({ exact: true, commonLimit: null, notDetected: 0 });
  });

  test('three are too few, four are not; why is said', () => {
    expect(trendOf(results([1, 2, 3])).why).toBe('the test needs at least 4 results');
    expect(trendOf(results([1, 2, 3, 4])).why).toBeNull();
    expect(trendOf(results([7, 7, 7, 7])).why).toBe('all values are equal, or all of one time');
    expect(trendOf(results(['<9', '<9', 7, 8])).why).toBe(
      'all results count as equal under the highest limit',
    );
  });

  test('a slope is given where the non-detects do not touch it, and withheld where they do', () => {
    const apart = trendOf(results([90, 80, 70, 60, 50, 40, 30, 20, 10, '<1']));
    expect(apart.slope?.slope).toBeCloseTo(-10, 9);
    expect(apart.exact).toBe(true);
    const hangs = trendOf(results([50, 40, 35, 31, '<30', '<30']));
    expect(hangs).toMatchObject({ slope: null, limits: null, exact: false });
    expect(trendSentence(hangs, 'µg/L a year')).toContain(
      'No slope is given: it hangs on what stands for the non-detects.',
    );
    expect(trendSentence(hangs, 'µg/L a year')).toContain('2 of 6 not detected');
  });

  test('in words: how many, S, chance, slope and limits with their signs', () => {
    const falling = trendOf(results([90, 80, 70, 60, 50, 40, 30, 20]));
    expect(trendSentence(falling, 'µg/L a year')).toBe(
      'Falling, from 8 results (Mann–Kendall S −28, exact two-sided p under 0.001). ' +
        'Sen’s slope −10.0 µg/L a year, 95 % limits −10.0 to −10.0.',
    );
    const rising = trendOf(results([1, 2, 3, 4, 5]));
    expect(trendSentence(rising, 'µg/L a year')).toBe(
      'Rising, from 5 results (Mann–Kendall S 10, exact two-sided p 0.017). ' +
        'Sen’s slope +1.00 µg/L a year. ' + // of ten slopes the first is reached at 94.9 %
        'Fewer than 8 results say little.',
    );
    expect(trendSentence(trendOf(results([5])), 'µg/L a year')).toBe(
      'No trend can be told from 1 result: the test needs at least 4 results.',
    );
  });
});

describe('a lognormal distribution', () => {
  const seen = (...values: number[]) => values.map((value) => ({ value, detected: true }));
  const unseen = (...values: number[]) => values.map((value) => ({ value, detected: false }));

  // With everything seen the fit is in closed form: mean and root mean square of the logarithms.
  test('everything seen: mean and deviation of the logarithms', () => {
    const values = [0.4, 3, 11, 12, 90, 0.02];
    const logs = values.map(Math.log);
    const mu = logs.reduce((sum, y) => sum + y, 0) / logs.length;
    const sigma = Math.sqrt(logs.reduce((sum, y) => sum + (y - mu) ** 2, 0) / logs.length);
    const fit = fitLognormal(seen(...values))!;
    expect(fit.mu).toBeCloseTo(mu, 10);
    expect(fit.sigma).toBeCloseTo(sigma, 10);
    expect(fit.standardErrorOfMu).toBeCloseTo(sigma / Math.sqrt(logs.length), 10);
  });

  test('three detections fix one, two do not; nothing at zero is lognormal', () => {
    expect(LEAST_DETECTIONS).toBe(3);
    expect(fitLognormal([...seen(1, 2, 5), ...unseen(1)])).not.toBeNull();
    expect(fitLognormal([...seen(1, 2), ...unseen(1, 1)])).toBeNull();
    expect(fitLognormal([...seen(1, 2, 5), ...unseen(0)])).toBeNull();
    expect(fitLognormal(seen(1, 2, 5, -3))).toBeNull();
    expect(fitLognormal(seen(4, 4, 4, 4))).toBeNull();
  });

  // Limits far above what was seen: the likelihood is no hilltop where the search begins.
  // Computed independently (scipy 1.17.1, Nelder–Mead on the same likelihood).
  test.each([
    [
      [1.74, 0.382, 0.183, 0.298, 0.843],
      [261, 0.494, 7760, 5750],
      -0.81170881,
      0.79783808,
      -3.11722004,
    ],
    [[2.29, 2.22, 1.36], [17, 4990, 11.9, 1.34, 0.178, 32.2], -0.31230847, 1.31175611, -8.73034665],
    [
      [1.31, 0.158, 0.97],
      [18.3, 367, 10300, 93.4, 723, 8.04, 751, 7100],
      -0.53767655,
      0.93083153,
      -2.45016815,
    ],
  ])('seen %j, not seen under %j', (values, limits, mu, sigma, likelihood) => {
    const fit = fitLognormal([...seen(...values), ...unseen(...limits)])!;
    expect(fit.mu).toBeCloseTo(mu, 6);
    expect(fit.sigma).toBeCloseTo(sigma, 6);
    expect(fit.logLikelihood).toBeCloseTo(likelihood, 7);
  });

  test('at its maximum any small step makes the values less likely, however many are not seen', () => {
    const sets = [
      [...seen(10, 11, 12), ...unseen(0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1)],
      [...seen(0.5, 700, 3), ...unseen(1000, 1000, 0.01)],
      [...seen(1e-6, 2e-6, 1e6), ...unseen(1, 10, 100)],
      [...seen(5, 5, 5.0001), ...unseen(1, 2, 3, 4)],
    ];
    // Φ and φ by the alternating series of erf, none of the project's own.
    const phi = (z: number) => {
      let [term, sum] = [z, z];
      for (let k = 1; k < 400; k++) {
        term *= (-z * z) / (2 * k);
        sum += term / (2 * k + 1);
      }
      return 0.5 + sum / Math.sqrt(2 * Math.PI);
    };
    for (const set of sets) {
      const fit = fitLognormal(set);
      if (fit === null) continue;
      const likelihood = (mu: number, sigma: number) =>
        set.reduce((sum, { value, detected }) => {
          const z = (Math.log(value) - mu) / sigma;
          if (!detected) return sum + Math.log(Math.max(phi(Math.max(z, -5)), 1e-300));
          return sum - (z * z) / 2 - Math.log(sigma * Math.sqrt(2 * Math.PI)) - Math.log(value);
        }, 0);
      const { mu, sigma } = fit;
      const here = likelihood(mu, sigma);
      expect(here).toBeCloseTo(fit.logLikelihood, 6);
      for (const [dMu, dSigma] of [
        [0.01, 0],
        [-0.01, 0],
        [0, 0.01],
        [0, -0.01],
      ] as const)
        expect(likelihood(mu + dMu * sigma, sigma * (1 + dSigma))).toBeLessThan(here);
    }
    expect(sets.filter((set) => fitLognormal(set) !== null).length).toBeGreaterThanOrEqual(3);
  });
});

describe('shares and percentiles at their edges', () => {
  test('the share below the lowest detection is under it, and no more can be said', () => {
    const set = kaplanMeier([
      { value: 2, detected: false },
      { value: 7, detected: false },
      { value: 4, detected: true },
      { value: 9, detected: true },
    ])!;
    // By hand: 9 leaves 3/4 below; of the two at or under 4, one is 4: 3/8.
    expect(set.belowLowest).toBeCloseTo(3 / 8, 12);
    // <7 says nothing of what lies under 4; <2 does.
    expect(set.lowestPutAt).toBe(2);
    expect(kaplanMeierQuantile(set, 3 / 8)).toBeNull();
    expect(kaplanMeierQuantile(set, 0.376)).toBe(4);
    expect(kaplanMeierQuantile(set, 0.75)).toBe(4);
    expect(kaplanMeierQuantile(set, 0.751)).toBe(9);
    expect(kaplanMeierQuantile(set, 1)).toBe(9);
  });

  test('a limit equal to the lowest detection lies under it', () => {
    const at = kaplanMeier([
      { value: 4, detected: false },
      { value: 4, detected: true },
    ])!;
    expect(at).toMatchObject({ lowestPutAt: 4, belowLowest: 0.5, mean: 4 });
    const over = kaplanMeier([
      { value: 5, detected: false },
      { value: 4, detected: true },
    ])!;
    expect(over).toMatchObject({ lowestPutAt: 4, belowLowest: 0 });
  });

  test('0.1 of thirty is the third to the last bit', () => {
    const thirty = Array.from({ length: 30 }, (_, i) => i + 1);
    expect(percentile(thirty, 0.1, 1)).toBe(3);
    expect(percentile(thirty, 0.7, 2)).toBe(21.5);
    expect(percentile(thirty, 0.7, 4)).toBe(21);
  });

  test('the median of 3, 1, 2 is 2; of none there is none', () => {
    expect([median([3, 1, 2]), median([]), median([4, 1])]).toEqual([2, null, 2.5]);
  });
});
