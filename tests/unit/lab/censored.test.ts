import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { kaplanMeier, kaplanMeierQuantile } from '../../../src/domain/lab/kaplan-meier';
import {
  fitLognormal,
  lognormalDeviation,
  lognormalMean,
  lognormalQuantile,
} from '../../../src/domain/lab/lognormal';
import { percentile, type PercentileType } from '../../../src/domain/lab/percentile';
import oracle from '../../fixtures/oracles/f_censored.json';

// Oracle f_censored: R 4.2.2, survival 3.5.3. It prints thirteen figures.
describe.each(oracle.sets)(
  '$name: $n values, $n_nd not detected',
  ({ n, n_nd, rows, ...theirs }) => {
    const values = rows.map(({ value, nd }) => ({ value, detected: !nd }));
    const found = kaplanMeier(values);

    test('Kaplan–Meier: shares, errors, mean and quantiles', () => {
      const { km } = theirs;
      if (km === null) return expect(found).toBeNull();
      if (found === null) throw new Error('no answer');
      expect(found).toMatchObject({ n, notDetected: n_nd });
      expect(found.rows).toHaveLength(km.table.length);
      found.rows.forEach((row, i) => {
        const expected = km.table[i]!;
        expect(row.value).toBe(expected.value);
        expect(row.below).toBeCloseTo(expected.p_below, 12);
        if (expected.se === null) expect(row.standardError).toBeNull();
        else expect(row.standardError).toBeCloseTo(expected.se, 12);
      });
      expect(found.belowLowest).toBeCloseTo(km.mass_below_lowest_detect, 12);
      expect(found.mean / km.mean_efron).toBeCloseTo(1, 11);
      expect(found.variance / km.variance_population).toBeCloseTo(1, 11);
      expect(km.quantiles.p.map((p) => kaplanMeierQuantile(found, p))).toEqual(km.quantiles.value);
    });

    test('lognormal by maximum likelihood', () => {
      const { mle_lognormal: mle } = theirs;
      const fit = fitLognormal(values);
      if (mle === null) return expect(fit).toBeNull();
      if (fit === null) throw new Error('no answer');
      // Their own optimiser stops at about 1e-8; the two agree that far.
      expect(fit.mu / mle.mu_log).toBeCloseTo(1, 7);
      expect(fit.sigma / mle.sigma_log).toBeCloseTo(1, 7);
      expect(fit.logLikelihood / mle.loglik).toBeCloseTo(1, 9);
      expect(fit.standardErrorOfMu / mle.se_mu).toBeCloseTo(1, 6);
      expect(lognormalMean(fit) / mle.mean).toBeCloseTo(1, 7);
      expect(lognormalDeviation(fit) / mle.sd).toBeCloseTo(1, 6);
      expect(lognormalQuantile(fit, 0.5) / mle.median).toBeCloseTo(1, 7);
      expect(lognormalQuantile(fit, 0.95) / mle.p95).toBeCloseTo(1, 7);
    });
  },
);

describe('percentiles by nine definitions', () => {
  test.each(oracle.percentiles.map((set) => [set.x.length, set] as const))(
    'of %i values',
    (_, set) => {
      const sorted = [...set.x].sort((a, b) => a - b);
      for (const [name, expected] of Object.entries(set.type)) {
        const type = Number(name.slice(4)) as PercentileType;
        set.p.forEach((p, i) =>
          expect(percentile(sorted, p, type), `${name} at ${p}`).toBeCloseTo(expected[i]!, 9),
        );
      }
    },
  );
  test('of none there is none', () => {
    expect(percentile([], 0.5)).toBeNull();
  });
});

test('no set of the oracle was passed over', () => {
  expect([oracle.sets.length, oracle.percentiles.length]).toEqual([9, 8]);
});

test('a non-detect below everything seen says where it lies, not what it is', () => {
  const set = kaplanMeier([
    { value: 1, detected: false },
    { value: 4, detected: true },
    { value: 9, detected: true },
    { value: 9, detected: true },
  ]);
  expect(set).toMatchObject({ belowLowest: 0.25, lowestPutAt: 1 });
  expect(kaplanMeierQuantile(set!, 0.2)).toBeNull();
  expect(kaplanMeierQuantile(set!, 0.5)).toBe(4);
});

test('with everything detected it is the plain distribution', () => {
  const numbers = fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 1, maxLength: 30 });
  fc.assert(
    fc.property(numbers, (all) => {
      const found = kaplanMeier(all.map((value) => ({ value, detected: true })))!;
      for (const { value, below } of found.rows)
        expect(below).toBeCloseTo(all.filter((x) => x < value).length / all.length, 12);
      expect(found.mean).toBeCloseTo(all.reduce((sum, x) => sum + x, 0) / all.length, 9);
    }),
  );
});
