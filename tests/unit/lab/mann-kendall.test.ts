import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  chanceOfAtLeast,
  mannKendall,
  senLimits,
  senSlope,
  type TimedValue,
} from '../../../src/domain/lab/mann-kendall';
import { normalAbove } from '../../../src/domain/water/distributions';
import { trendOf, trendSentence } from '../../../src/domain/lab/trend';
import { mannKendallWork, senSlopeWork } from '../../../src/domain/lab/trend-work';
import oracle from '../../fixtures/oracles/e_mann_kendall.json';
import { expectToWorkOut, printed } from './printed-lines';

const series = (times: readonly number[], values: readonly number[]): TimedValue[] =>
  values.map((value, i) => ({ time: times[i] ?? i + 1, value }));

const inOrder = (...values: number[]) => series([], values);

/** Equal to so many parts of their size. */
const near = (a: number | null, b: number | null, relative: number) => {
  if (a === null || b === null) return expect(a).toBe(b);
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.max(Math.abs(b), 1e-300));
};

describe('published examples', () => {
  // Gilbert (1987), Statistical Methods for Environmental Pollution Monitoring, example 16.1:
  // S as quoted; the exact chance computed independently (his table A18: 0.167, from memory).
  test('Gilbert 16.1: 10, 15, 14, 20 gives S 4, with a chance of 0.167', () => {
    const { s, variance, pExactOneSided } = mannKendall(inOrder(10, 15, 14, 20));
    expect(s).toBe(4);
    expect(variance).toBeCloseTo(8.6667, 4);
    expect(pExactOneSided).toBeCloseTo(0.1667, 4);
  });

  // Gilbert (1987), example 16.3: S as quoted, limits 2.6 and 9.3 from memory; the rest computed independently.
  test('Gilbert 16.3: several values at one time', () => {
    const data = series([1, 1, 1, 2, 3, 3, 4, 5], [10, 22, 21, 30, 22, 30, 40, 40]);
    const { s, variance } = mannKendall(data);
    expect(s).toBe(19);
    expect(variance).toBeCloseTo(58.095, 3);
    expect(senSlope(data)).toMatchObject({ pairs: 24, slope: 5.5 });
    // Worked with z = 1.645, as from a printed table; 1.644854 puts the lower limit at 2.572.
    const limits = senLimits(data, 1 - 2 * normalAbove(1.645));
    expect(limits?.lower).toBeCloseTo(2.571, 3);
    expect(limits?.upper).toBeCloseTo(9.269, 3);
    expect(senLimits(data, 0.9)?.lower).toBeCloseTo(2.572, 3);
  });

  // van Belle & Hughes (1984), Water Resources Research 20, p. 129: variance as quoted.
  test('van Belle & Hughes: ties in value', () => {
    const { s, variance } = mannKendall(inOrder(10, 14, 14, 14, 17, 22, 22, 23, 27, 27));
    expect(variance).toBeCloseTo(119.33, 2);
    expect(s).toBe(40);
  });

  // Gilbert (1987), example 17.1, station 1: as quoted.
  test('Gilbert 17.1, station 1', () => {
    const { s, variance } = mannKendall(series([1, 1, 2, 3], [8, 10, 12, 15]));
    expect(s).toBe(5);
    expect(variance).toBeCloseTo(7.667, 3);
  });

  // EPA 530/R-09-007 (2009), Unified Guidance, example 17-7, p. 17-36: results as quoted, data
  // from memory and re-derived. Its dates have the month in the tenths, and are used as printed.
  test('EPA Unified Guidance 17-7: sodium', () => {
    const times = [89.6, 90.1, 90.8, 91.1, 92.1, 93.1, 94.1, 95.6, 96.1, 96.3];
    const data = series(times, [56, 53, 51, 55, 52, 60, 62, 59, 61, 63]);
    const { s, variance, z, tau } = mannKendall(data);
    expect([s, variance]).toEqual([25, 125]);
    expect(tau).toBeCloseTo(0.5555556, 7);
    expect(z).toBeCloseTo(2.146625, 6);
    const sen = senSlope(data);
    expect(sen?.slope).toBeCloseTo(1.3333333, 7);
    expect(sen?.intercept).toBeCloseTo(-65.9666667, 7);
    const limits = senLimits(data, 0.95);
    expect(limits?.lower).toBeCloseTo(0.3992083, 7);
    expect(limits?.upper).toBeCloseTo(2.3333333, 7);
  });
});

// Oracle e_mann_kendall: exact rationals; R cor.test agrees on Z and the exact chances.
describe.each(oracle.series)('$id $name', ({ t, x, expected }) => {
  const data = series(t, x);
  const found = mannKendall(data);

  test('S is exact, the variance and Z agree to 1e-9', () => {
    expect(found.n).toBe(expected.n);
    expect(found.s).toBe(expected.S);
    near(found.variance, expected.var_S, 1e-9);
    near(found.z, expected.Z, 1e-9);
    near(found.p, expected.p_two_sided_normal, 1e-9);
  });
  test('the exact chance, where there are no ties', () => {
    const { p_one_sided_exact: one, p_two_sided_exact: two } = expected as {
      p_one_sided_exact?: number;
      p_two_sided_exact?: number;
    };
    if (one === undefined || two === undefined) {
      const tied = expected.tie_groups.length + expected.time_tie_groups.length > 0;
      if (tied) expect(found.pExactOneSided).toBeNull();
      return;
    }
    near(found.pExactOneSided, one, 1e-9);
    near(found.pExactTwoSided, two, 1e-9);
  });
  test('Sen’s slope, and its limits by interpolated ranks', () => {
    const sen = senSlope(data);
    expect(sen?.pairs).toBe(expected.n_slopes);
    expect(sen?.slope).toBeCloseTo(expected.sen_slope, 12);
    near(sen?.intercept ?? null, expected.sen_intercept_median, 1e-9);
    for (const ci of expected.sen_ci) {
      const limits = senLimits(data, ci.confidence);
      const { lower_interpolated: lower, upper_interpolated: upper } = ci;
      if (lower === null || upper === null) expect(limits).toBeNull();
      else {
        expect(limits?.lower).toBeCloseTo(lower, 9);
        expect(limits?.upper).toBeCloseTo(upper, 9);
      }
    }
  });
});

test('no series of the oracle was passed over', () => {
  expect(oracle.series).toHaveLength(23);
});

// Table of P(S ≥ s) for 4 to 10 values, from the same oracle.
test('the exact chances of small series', () => {
  const file = new URL('../../fixtures/oracles/e_mk_exact_table.csv', import.meta.url);
  const rows = readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => /^\d/.test(line));
  expect(rows.length).toBeGreaterThan(80);
  for (const row of rows) {
    const [n = 0, s = 0, p = 0] = row.split(',').map(Number);
    near(chanceOfAtLeast(n, s), p, 1e-12);
  }
});

describe('for any series', () => {
  const points = fc.array(
    fc.record({ time: fc.integer({ min: 0, max: 12 }), value: fc.integer({ min: 1, max: 40 }) }),
    { minLength: 2, maxLength: 15 },
  );
  test('the order of the rows does not matter', () => {
    fc.assert(
      fc.property(points, fc.integer(), (data, seed) => {
        const turned = [...data].sort(
          (a, b) => ((a.value * 7 + a.time + seed) % 5) - ((b.value * 7 + b.time + seed) % 5),
        );
        expect(mannKendall(turned)).toEqual(mannKendall(data));
      }),
    );
  });
  test('run backwards, what rose falls by as much', () => {
    fc.assert(
      fc.property(points, (data) => {
        const back = data.map(({ time, value }) => ({ time: -time, value }));
        expect(mannKendall(back).s + mannKendall(data).s).toBe(0);
        const [there, again] = [senSlope(data), senSlope(back)];
        if (there && again) expect(again.slope).toBeCloseTo(-there.slope, 9);
        else expect(there).toBe(again);
      }),
    );
  });
  test('only the order of values matters to the test', () => {
    fc.assert(
      fc.property(points, (data) => {
        const squeezed = data.map(({ time, value }) => ({ time, value: Math.log(value) - 3 }));
        expect(mannKendall(squeezed)).toEqual(mannKendall(data));
      }),
    );
  });
});

describe('a trend in plain words', () => {
  const results = (...values: (number | string)[]) =>
    values.map((value, time) =>
      typeof value === 'number'
        ? { time, value, detected: true }
        : { time, value: Number(value.slice(1)), detected: false },
    );
  const words = (...values: (number | string)[]) =>
    trendSentence(trendOf(results(...values)), 'µg/L a year');

  test('a clear rise', () => {
    expect(words(0.77, 2.46, 3.19, 3.92, 5.22, 5.33, 7.17, 9.16)).toBe(
      'Rising, from 8 results (Mann–Kendall S 28, exact two-sided p under 0.001). Sen’s slope +1.06 µg/L a year, 95 % limits +0.730 to +1.31.',
    );
  });
  test('no trend told is not no trend', () => {
    expect(words(27.7, 28.6, 26.8, 27.3, 21.2, 30.6, 31.8, 30.8)).toMatch(
      /^No trend is told from 8 results \(Mann–Kendall S 10, exact two-sided p 0\.275\); that does not show there is none\./,
    );
  });
  test('three results tell nothing, one neither', () => {
    expect(words(5, 4, 3)).toBe(
      'No trend can be told from 3 results: the test needs at least 4 results.',
    );
    expect(words(5)).toBe('No trend can be told from 1 result: the test needs at least 4 results.');
    expect(trendOf([]).direction).toBeNull();
  });
  test('five are tested, with a warning', () => {
    expect(words(9, 7, 6, 4, 2)).toMatch(
      /^Falling, from 5 results .* Fewer than 8 results say little\.$/,
    );
  });
  test('all equal: no test', () => {
    expect(words(5, 5, 5, 5, 5)).toBe(
      'No trend can be told from 5 results: all values are equal, or all of one time.',
    );
    expect(words('<1', '<5', '<2', 3, 4)).toMatch(
      /all results count as equal under the highest limit/,
    );
  });
  test('non-detects get one common limit: falling limits alone are no trend', () => {
    const falling = trendOf(results('<25', '<10', '<5', '<2', '<1', '<0.5', '<0.2', '<0.1'));
    expect(falling.direction).toBeNull();
    expect(falling.commonLimit).toBe(25);
  });
  test('what stands for a non-detect does not change the test, and a slope that hangs on it is withheld', () => {
    // Series OMK18 of the oracle, where the non-detects stand at 1.0.
    const omk18 = oracle.series.find(({ id }) => id === 'OMK18')!;
    const trend = trendOf(
      results(...omk18.raw!.map((raw) => (raw.startsWith('<') ? raw : Number(raw)))),
    );
    expect(trend.test.s).toBe(omk18.expected.S);
    expect(trend.test.variance).toBeCloseTo(omk18.expected.var_S, 9);
    expect(trend.test.z).toBeCloseTo(omk18.expected.Z!, 9);
    expect(trend.slope).toBeNull();
    expect(trendSentence(trend, 'µg/L a year')).toContain('No slope is given');
  });
  test('a slope that does not hang on them is given', () => {
    const trend = trendOf(results(20, 18, 16, 14, 12, 10, 8, 6, 4, '<2'));
    expect(trend.slope?.slope).toBe(-2);
    expect(trend.direction).toBe('falling');
  });
});

describe('a trend opens into its arithmetic', () => {
  test('Gilbert 16.1: 5 pairs rise and 1 falls', () => {
    const { s, z } = mannKendallWork(mannKendall(inOrder(10, 15, 14, 20)));
    expect(printed(s)[0]).toMatchObject({ formula: 'S = rising - falling', line: '5 - 1 = 4' });
    expect(printed(z!)[0]).toMatchObject({
      formula: 'Z = (S - 1) / sqrt(variance)',
      line: '(4 - 1) / sqrt(8.6667) = 1.019',
    });
  });
  test.each(oracle.series)('$id: every line works out', ({ t, x, expected }) => {
    const data = series(t, x);
    const { s, z } = mannKendallWork(mannKendall(data));
    expectToWorkOut(s);
    if (expected.Z === null || expected.S === 0) expect(z).toBeNull();
    else expectToWorkOut(z!);
    const sen = senSlopeWork(data, 'a year')!;
    expect(sen.answer.value).toBeCloseTo(expected.sen_slope, 12);
    expectToWorkOut(sen);
  });
  test('one result has no slope', () => {
    expect(senSlopeWork(inOrder(5), 'a year')).toBeNull();
  });
});
