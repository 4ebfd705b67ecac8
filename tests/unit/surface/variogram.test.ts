import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  detrended,
  experimentalVariogram,
  usualLags,
  type Lag,
  type LagChoice,
} from '../../../src/domain/water/surface/variogram';
import {
  fittedVariogram,
  startingVariogram,
  type FittedVariogram,
} from '../../../src/domain/water/surface/variogram-fit';
import {
  reach,
  semivariance,
  VARIOGRAM_SHAPES,
  type VariogramModel,
} from '../../../src/domain/water/surface/variogram-model';
import { azimuth, degrees, metres } from '../../../src/domain/units';
import { number, oracleRows, oracleText, point, siteHeads, SIX_WELLS } from './oracle';

const model = (over: object = {}): VariogramModel => ({
  shape: 'spherical',
  sill: 0.15,
  range: metres(400),
  nugget: 0.01,
  anisotropy: null,
  ...over,
});

describe('the models', () => {
  test.each([
    ['spherical', 400, 0.16],
    ['spherical', 200, 0.01 + 0.15 * 0.6875],
    ['exponential', 400, 0.01 + 0.15 * (1 - Math.exp(-1))],
    ['gaussian', 400, 0.01 + 0.15 * (1 - Math.exp(-1))],
    ['gaussian', 200, 0.01 + 0.15 * (1 - Math.exp(-0.25))],
  ])('%s at %d m', (shape, h, expected) => {
    expect(semivariance(model({ shape }), h, 0)).toBeCloseTo(expected, 15);
    expect(semivariance(model({ shape }), 0, -h)).toBeCloseTo(expected, 15);
  });

  test('no difference at no distance, the nugget just beside', () => {
    for (const shape of VARIOGRAM_SHAPES) {
      const any = model({ shape, slope: 0.0008 });
      expect(semivariance(any, 0, 0)).toBe(0);
      expect(semivariance(any, 1e-9, 0)).toBeCloseTo(0.01, 9);
    }
  });

  test('long axis N 30° E, a fifth across: 100 m across is like 500 m along', () => {
    const any = model({ anisotropy: { longAxis: azimuth(30), ratio: 0.2 } });
    const [sin, cos] = [Math.sin(Math.PI / 6), Math.cos(Math.PI / 6)];
    expect(semivariance(any, 70 * cos, -70 * sin)).toBeCloseTo(
      semivariance(any, 350 * sin, 350 * cos),
      14,
    );
    expect(semivariance(any, 350 * sin, 350 * cos)).toBeCloseTo(semivariance(model(), 350, 0), 14);
  });

  test('are within 5 % of their sill at their reach; a line has none', () => {
    for (const shape of ['spherical', 'exponential', 'gaussian']) {
      const any = model({ shape, nugget: 0 });
      expect(semivariance(any, reach(any)!, 0) / 0.15).toBeGreaterThanOrEqual(0.95);
    }
    expect(reach(model({ shape: 'linear', slope: 1 }))).toBeNull();
  });
});

// numpy, all pairs at once.
describe('the experimental variogram of 60 wells is the reference’s', () => {
  const reference = JSON.parse(oracleText('c_variogram_siteE.json'));
  const wells = siteHeads('siteE');
  const usual = usualLags(wells);
  const along = (direction: number): LagChoice => ({
    ...usual,
    along: { direction: azimuth(direction), tolerance: degrees(22.5) },
  });
  const same = (lags: readonly Lag[], expected: [number, number, number][]) => {
    expect(lags.map(({ pairs }) => pairs)).toEqual(expected.map(([pairs]) => pairs));
    lags.forEach(({ distance, semivariance: gamma }, i) => {
      expect(distance / expected[i]![1]).toBeCloseTo(1, 12);
      expect(gamma / expected[i]![2]).toBeCloseTo(1, 10);
    });
  };

  test('in fifteen lags to a third of the diagonal', () => {
    expect(usual.cutoff).toBeCloseTo(reference.cutoff, 9);
    same(experimentalVariogram(wells, usual), reference.omni);
  });

  test('of the heads less their plane', () => {
    same(experimentalVariogram(detrended(wells)!, usual), reference.detrended);
  });

  test('in lags of 50 to 600', () => {
    const choice = { cutoff: metres(600), width: metres(50), along: null };
    same(experimentalVariogram(wells, choice), reference.custom_600_50);
  });

  test.each([30, 120])('along %d°, and the same along the opposite direction', (direction) => {
    const lags = experimentalVariogram(wells, along(direction));
    same(lags, reference[`along_${direction}`]);
    expect(experimentalVariogram(wells, along(direction + 180))).toEqual(lags);
  });

  test('is flat zero for a level surface, and for a plane once detrended', () => {
    const level = wells.map((p) => ({ ...p, head: metres(12) }));
    for (const lag of experimentalVariogram(level, usual)) expect(lag.semivariance).toBe(0);
    const plane = wells.map((p) => ({ ...p, head: metres(12 + 0.003 * p.x - 0.001 * p.y) }));
    for (const lag of experimentalVariogram(detrended(plane)!, usual))
      expect(lag.semivariance).toBeLessThan(1e-20);
  });

  test('wells in a line have no plane to take off', () => {
    expect(detrended([0, 1, 2].map((k) => point(`${k}`, k, 2 * k, k)))).toBeNull();
  });
});

const fitted = (lags: readonly Lag[], ...rest: [VariogramModel['shape'], object?]) => {
  const fit = fittedVariogram(lags, ...rest);
  if (!fit.ok) throw new Error(JSON.stringify(fit.problem));
  return fit.value;
};

// gstat 2.1.0, fit.variogram with weights N/h² (fit.method 7) on a published set of 155 samples.
describe('a fitted variogram is gstat’s, and no worse', () => {
  const misfitOf = (any: VariogramModel, lags: readonly Lag[]) =>
    lags.reduce(
      (sum, { pairs, distance, semivariance: gamma }) =>
        sum + (pairs / distance ** 2) * (gamma - semivariance(any, distance, 0)) ** 2,
      0,
    );

  test.each([
    ['omni', 0.05066242682, 0.59060780221, 897.0209098],
    ['omni_detrended_ols', 0.08234267062, 0.38866630679, 1098.58099],
  ])('%s: nugget %d, sill %d, range %d', (set, nugget, sill, range) => {
    const lags = oracleRows('c_variogram.csv')
      .filter((row) => row.set === set)
      .map((row) => ({
        pairs: number(row, 'np'),
        distance: metres(number(row, 'dist')),
        semivariance: number(row, 'gamma'),
      }));
    expect(lags).toHaveLength(15);
    const fit = fitted(lags, 'spherical');
    if (fit.model.shape === 'linear') throw new Error('not spherical');
    // gstat stops once a step changes little; the minimum lies a ten-thousandth further.
    expect(fit.model.nugget / nugget).toBeCloseTo(1, 3);
    expect(fit.model.sill / sill).toBeCloseTo(1, 4);
    expect(fit.model.range / range).toBeCloseTo(1, 3);
    const theirs = model({ nugget, sill, range: metres(range) });
    expect(fit.misfit).toBeCloseTo(misfitOf(fit.model, lags), 15);
    expect(fit.misfit).toBeLessThanOrEqual(misfitOf(theirs, lags));
    expect(fit.remark).toBeNull();
  });
});

describe('fitting', () => {
  const lagsOf = (any: VariogramModel) =>
    Array.from({ length: 12 }, (_, i) => ({
      pairs: 20 + 7 * i,
      distance: metres(50 * (i + 1)),
      semivariance: semivariance(any, 50 * (i + 1), 0),
    }));

  test('finds the model that made the lags', () => {
    const shape = fc.constantFrom('spherical', 'exponential', 'gaussian');
    const part = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(shape, part, part, fc.integer({ min: 120, max: 500 }), (s, nugget, sill, a) => {
        const { model: found } = fitted(
          lagsOf(model({ shape: s, nugget, sill, range: metres(a) })),
          s,
        );
        if (found.shape === 'linear') throw new Error('not bounded');
        expect(found.range / a).toBeCloseTo(1, 5);
        expect(found.sill / sill).toBeCloseTo(1, 5);
        expect(found.nugget).toBeCloseTo(nugget, 5);
      }),
    );
  });

  test('a line is found as a line, a nugget set by hand is kept', () => {
    const line = lagsOf(model({ shape: 'linear', slope: 0.0008, nugget: 0.02 }));
    expect(fitted(line, 'linear').model).toMatchObject({
      slope: expect.closeTo(0.0008, 12),
      nugget: expect.closeTo(0.02, 12),
    });
    expect(fitted(line, 'linear', { nugget: 0 }).model.nugget).toBe(0);
  });

  test('lags that rise to the end say so: there is no range in them', () => {
    const line = lagsOf(model({ shape: 'linear', slope: 0.0008, nugget: 0 }));
    expect(fitted(line, 'spherical').remark).toBe('no-sill-reached');
  });

  test('lags that fall say that the heads show no likeness of neighbours', () => {
    const falling = lagsOf(model()).map((lag, i) => ({ ...lag, semivariance: 1 - i / 20 }));
    const fit: FittedVariogram = fitted(falling, 'spherical');
    expect(fit.remark).toBe('no-rise');
    expect(fit.model.nugget).toBeGreaterThan(0.4);
  });

  test('two lags are too few', () => {
    expect(fittedVariogram(lagsOf(model()).slice(0, 2), 'spherical')).toEqual({
      ok: false,
      problem: { kind: 'too-few-lags', have: 2, need: 3 },
    });
  });
});

describe('to begin with', () => {
  test('60 wells are fitted, six are given a line', () => {
    const many = startingVariogram(siteHeads('siteE'), 'linear');
    expect(many).toMatchObject({ how: 'fitted', model: { shape: 'spherical' } });
    const few = startingVariogram(SIX_WELLS, 'linear');
    expect(few).toMatchObject({ how: 'assumed', model: { shape: 'linear', nugget: 0 } });
  });

  test('a level surface has no variogram', () => {
    const level = SIX_WELLS.map((p) => ({ ...p, head: metres(90) }));
    expect(startingVariogram(level, 'none')).toBeNull();
  });
});
