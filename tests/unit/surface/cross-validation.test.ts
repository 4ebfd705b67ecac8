import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { krigingLeftOut, tinLeftOut } from '../../../src/domain/water/surface/cross-validation';
import { estimateAt, kriged } from '../../../src/domain/water/surface/kriging';
import { headOnTin, triangulate } from '../../../src/domain/water/surface/tin';
import { groupBy } from '../../../src/domain/group';
import { metres } from '../../../src/domain/units';
import { jobSurface, surfaceOf } from './gstat';
import { number, oracleRows, point, siteHeads, SIX_WELLS } from './oracle';

const answers = groupBy(
  oracleRows('c_kriging_loo.csv'),
  (row) => `${row.dataset} ${row.model} ${row.kriging}`,
);

// R 4.2.2, gstat 2.1.0, krige.cv.
describe('gstat leaves out each well alike', () => {
  test('in twelve jobs', () => expect(answers.size).toBe(12));

  test.each([...answers])('%s', (job, rows) => {
    const { places, predicted, squareRatio, rootMeanSquare } = krigingLeftOut(jobSurface(job));
    expect(places).toHaveLength(rows.length);
    expect(predicted).toBe(rows.length);
    for (const [i, row] of rows.entries()) {
      expect(places[i]?.predicted).toBeCloseTo(number(row, 'pred'), 9);
      expect(places[i]?.residual).toBeCloseTo(number(row, 'residual'), 9);
      expect((places[i]?.sigma ?? NaN) ** 2).toBeCloseTo(number(row, 'var'), 9);
    }
    const mean = (pick: (row: Record<string, string>) => number) =>
      rows.reduce((sum, row) => sum + pick(row), 0) / rows.length;
    expect(squareRatio).toBeCloseTo(
      mean((row) => number(row, 'zscore') ** 2),
      8,
    );
    expect(rootMeanSquare! ** 2).toBeCloseTo(
      mean((row) => number(row, 'residual') ** 2),
      9,
    );
  });
});

test('is what kriging the others says, well by well, errors stated or not', () => {
  const wells = siteHeads('siteB').map((p, i) => ({ ...p, sigma: metres(0.01 + 0.002 * i) }));
  const model = {
    shape: 'exponential',
    sill: 0.005,
    range: metres(30),
    nugget: 0.0001,
    anisotropy: null,
  } as const;
  for (const errors of ['ignored', 'stated'] as const) {
    const choice = { model, drift: 'linear', errors } as const;
    const { places } = krigingLeftOut(surfaceOf(wells, choice));
    for (const [i, well] of wells.entries()) {
      const others = surfaceOf(
        wells.filter((_, k) => k !== i),
        choice,
      );
      const estimate = estimateAt(others, well.x, well.y);
      const own = errors === 'stated' ? well.sigma ** 2 : 0;
      expect(places[i]?.predicted).toBeCloseTo(estimate.head, 10);
      expect((places[i]?.sigma ?? NaN) ** 2).toBeCloseTo(estimate.variance + own, 12);
    }
  }
});

test('three wells about a plane: none can be predicted from the other two', () => {
  const model = { shape: 'linear', slope: 0.001, nugget: 0, anisotropy: null } as const;
  const surface = kriged(SIX_WELLS.slice(0, 3), { model, drift: 'linear', errors: 'ignored' });
  expect(surface.ok && krigingLeftOut(surface.value)).toMatchObject({
    predicted: 0,
    meanError: null,
    rootMeanSquare: null,
    squareRatio: null,
  });
});

test('triangles: a well among others is predicted, a well on the outline is not', () => {
  const wells = [
    point('A', 0, 0, 10),
    point('B', 10, 0, 9),
    point('C', 10, 10, 8),
    point('D', 0, 10, 9),
    point('E', 4, 3, 9.5),
  ];
  const { places, predicted, rootMeanSquare } = tinLeftOut(wells);
  expect(predicted).toBe(1);
  expect(places[4]?.predicted).toBeCloseTo(9.3, 12);
  expect(places[4]?.residual).toBeCloseTo(0.2, 12);
  expect(rootMeanSquare).toBeCloseTo(0.2, 12);
  expect(places[0]).toMatchObject({ predicted: null, residual: null });
});

test('wells on a plane leave nothing over, however they stand', () => {
  const coordinate = fc.integer({ min: -500, max: 500 });
  const wells = fc.uniqueArray(fc.tuple(coordinate, coordinate), {
    minLength: 5,
    maxLength: 12,
    selector: ([x, y]) => `${x} ${y}`,
  });
  const model = { shape: 'linear', slope: 0.001, nugget: 0.0001, anisotropy: null } as const;
  fc.assert(
    fc.property(wells, (places) => {
      const heads = places.map(([x, y], i) => point(`${i}`, x, y, 20 + 0.01 * x - 0.02 * y));
      const [surface, tin] = [
        kriged(heads, { model, drift: 'linear', errors: 'ignored' }),
        triangulate(heads),
      ];
      fc.pre(surface.ok && tin.ok);
      for (const { residual } of krigingLeftOut(surface.value).places)
        if (residual !== null) expect(residual).toBeCloseTo(0, 6);
      for (const { residual } of tinLeftOut(heads).places)
        if (residual !== null) expect(residual).toBeCloseTo(0, 8);
      for (const { x, y, head } of heads) expect(headOnTin(tin.value, x, y)).toBeCloseTo(head, 9);
    }),
  );
});
