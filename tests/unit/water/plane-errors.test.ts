import { Matrix, inverse } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { metres } from '../../../src/domain/units';
import { azimuthOf, fitMany, gradientOf, outcomeOf } from '../../../src/domain/water/fit-many';
import { fitPlane, type HeadPoint } from '../../../src/domain/water/plane';
import { confidenceOf } from '../../../src/domain/water/plane-confidence';
import { off, SIX_IN_FEET, valueOf, well } from './wells';

/** Seven wells of very unequal survey, invented: two by tape, four levelled, one by handheld receiver. */
const UNEQUAL = [
  well('1', 0, 0, 12.4, 0.02),
  well('2', 140, 25, 11.93, 0.005),
  well('3', 60, 130, 11.71, 0.004),
  well('4', 210, 160, 11.02, 0.006),
  well('5', -40, 90, 12.21, 0.05),
  well('6', 150, 110, 11.42, 0.005),
  well('7', 90, 40, 11.95, 0.15),
];

/**
 * The plane and its covariance by the matrices of the textbook, with another
 * library: N = (XᵀWX)⁻¹, β = NXᵀWh, C = NXᵀW·diag(σ²)·WXN (H. White, 1980, with the
 * variances known), in the order c, a, b about the weighted middle.
 */
function byMatrices(wells: readonly HeadPoint[], weights: readonly number[]) {
  const total = weights.reduce((sum, w) => sum + w);
  const middle = (pick: (w: HeadPoint) => number) =>
    wells.reduce((sum, one, i) => sum + weights[i]! * pick(one), 0) / total;
  const [mx, my] = [middle((w) => w.x), middle((w) => w.y)];
  const X = new Matrix(wells.map(({ x, y }) => [1, x - mx, y - my]));
  const W = Matrix.diag([...weights]);
  const N = inverse(X.transpose().mmul(W).mmul(X));
  const half = N.mmul(X.transpose()).mmul(W);
  const [, a, b] = half.mmul(Matrix.columnVector(wells.map(({ head }) => head))).to1DArray();
  const S = Matrix.diag(wells.map(({ sigma }) => sigma ** 2));
  const C = half.mmul(S).mmul(half.transpose());
  return { a: a!, b: b!, C };
}

describe('wells of unequal error: covariances by matrices, with another library', () => {
  test.each([
    ['weighed by their errors', true],
    ['all weighed alike', false],
  ])('%s', (_, weighted) => {
    const plane = valueOf(fitPlane(UNEQUAL, { weighted }));
    const { a, b, C } = byMatrices(
      UNEQUAL,
      UNEQUAL.map(({ sigma }) => (weighted ? sigma ** -2 : 1)),
    );
    expect(off(plane.a, a)).toBeLessThan(1e-10);
    expect(off(plane.b, b)).toBeLessThan(1e-10);
    const { covariance, gradient, azimuth, signal } = plane.stated;
    const scale = (i: number, j: number) => Math.sqrt(C.get(i, i) * C.get(j, j));
    const same = (found: number, i: number, j: number) =>
      expect(Math.abs(found - C.get(i, j)) / scale(i, j)).toBeLessThan(1e-10);
    same(covariance.cc, 0, 0);
    same(covariance.ca, 0, 1);
    same(covariance.cb, 0, 2);
    same(covariance.aa, 1, 1);
    same(covariance.ab, 1, 2);
    same(covariance.bb, 2, 2);

    // First order, by hand: σᵢ² = gᵀCg/i², σ_θ² = pᵀCp/i⁴ with p = (b, −a).
    const [aa, ab, bb] = [C.get(1, 1), C.get(1, 2), C.get(2, 2)];
    const i2 = a * a + b * b;
    const gradientError = Math.sqrt((a * a * aa + 2 * a * b * ab + b * b * bb) / i2);
    const directionError = Math.sqrt(b * b * aa - 2 * a * b * ab + a * a * bb) / i2;
    expect(off(gradient, gradientError)).toBeLessThan(1e-9);
    expect(off(azimuth, (directionError * 180) / Math.PI)).toBeLessThan(1e-9);
    const held = (a * a * bb - 2 * a * b * ab + b * b * aa) / (aa * bb - ab * ab);
    expect(off(signal, held)).toBeLessThan(1e-9);
  });

  test('weighed by their errors, the head at the middle is not tied to the slope', () => {
    const { covariance } = valueOf(fitPlane(UNEQUAL, { weighted: true })).stated;
    const { ca, cb, cc, aa, bb } = covariance;
    expect(Math.abs(ca) / Math.sqrt(cc * aa)).toBeLessThan(1e-12);
    expect(Math.abs(cb) / Math.sqrt(cc * bb)).toBeLessThan(1e-12);
  });

  test('Σ(r/σ)² is the least any plane leaves, weighed or not', () => {
    const [by, alike] = [true, false].map((weighted) => valueOf(fitPlane(UNEQUAL, { weighted })));
    const { a, b } = by!;
    const left = UNEQUAL.reduce((sum, { x, y, head, sigma }) => {
      const fit = by!.c + a * (x - by!.centre.x) + b * (y - by!.centre.y);
      return sum + ((head - fit) / sigma) ** 2;
    }, 0);
    expect(off(by!.lackOfFit, left)).toBeLessThan(1e-9);
    expect(off(alike!.lackOfFit, left)).toBeLessThan(1e-9);
  });

  test('leverages are the diagonal of X(XᵀWX)⁻¹XᵀW and make three', () => {
    const plane = valueOf(fitPlane(UNEQUAL, { weighted: true }));
    const weights = UNEQUAL.map(({ sigma }) => sigma ** -2);
    const X = new Matrix(UNEQUAL.map(({ x, y }) => [1, x - plane.centre.x, y - plane.centre.y]));
    const W = Matrix.diag(weights);
    const hat = X.mmul(inverse(X.transpose().mmul(W).mmul(X)))
      .mmul(X.transpose())
      .mmul(W);
    plane.leverage.forEach((part, i) => expect(off(part, hat.get(i, i))).toBeLessThan(1e-9));
    expect(plane.leverage.reduce((sum, part) => sum + part)).toBeCloseTo(3, 9);
    // Weights are 1 on average.
    expect(plane.weights.reduce((sum, w) => sum + w)).toBeCloseTo(UNEQUAL.length, 9);
  });
});

describe('what a fit leaves over', () => {
  test('measured is fitted and residual, and the fitted lie on the plane', () => {
    for (const weighted of [true, false]) {
      const plane = valueOf(fitPlane(UNEQUAL, { weighted }));
      UNEQUAL.forEach(({ x, y, head }, i) => {
        const on = plane.c + plane.a * (x - plane.centre.x) + plane.b * (y - plane.centre.y);
        expect(plane.fitted[i]).toBeCloseTo(on, 10);
        expect(plane.residuals[i]).toBeCloseTo(head - on, 10);
      });
    }
  });

  test('three wells leave nothing over and nothing to judge it by', () => {
    const plane = valueOf(fitPlane(UNEQUAL.slice(0, 3), { weighted: true }));
    expect(plane).toMatchObject({
      degreesOfFreedom: 0,
      sumOfSquares: 0,
      residuals: [0, 0, 0],
      s: null,
      rmse: 0,
      fromResiduals: null,
      lackOfFit: null,
      rSquared: 1,
    });
  });

  test('the misfit by a stated error of all alike is Σr² over its square', () => {
    const alike = UNEQUAL.map((one) => ({ ...one, sigma: metres(0.02) }));
    const plane = valueOf(fitPlane(alike, { weighted: true }));
    expect(off(plane.lackOfFit, plane.sumOfSquares / 0.02 ** 2)).toBeLessThan(1e-12);
  });

  test('an error without end states none', () => {
    const endless = UNEQUAL.map((one, i) => (i === 1 ? { ...one, sigma: metres(Infinity) } : one));
    expect(fitPlane(endless, { weighted: true })).toEqual({
      ok: false,
      problem: { kind: 'no-error-stated', ids: ['2'] },
    });
  });

  test('heads on a plane to the last bit leave no scatter to hold the slope against', () => {
    const exact = [
      well('1', 0, 0, 10),
      well('2', 64, 0, 9),
      well('3', 0, 64, 9.5),
      well('4', 64, 64, 8.5),
      well('5', 32, 16, 9.375),
    ];
    const plane = valueOf(fitPlane(exact, { weighted: false }));
    expect(plane.fromResiduals?.signal).toBeNull();
    expect(plane.stated.signal).toBeGreaterThan(1000);
    const off1 = exact.map((one, i) => (i === 4 ? { ...one, head: metres(9.4) } : one));
    expect(valueOf(fitPlane(off1, { weighted: false })).fromResiduals?.signal).toBeGreaterThan(0);
  });
});

describe('how the wells lie', () => {
  const spread = (...places: (readonly [number, number])[]) => {
    const fitted = fitPlane(
      places.map(([x, y], i) => well(`${i}`, x, y, 10 - x / 100 - y / 300)),
      { weighted: false },
    );
    return fitted.ok
      ? fitted.value.spread
      : 'spread' in fitted.problem
        ? fitted.problem.spread
        : null;
  };

  test('a rectangle 200 by 100: along east, half as broad as long', () => {
    const found = spread([0, 0], [200, 0], [0, 100], [200, 100]);
    expect(found).toMatchObject({ trend: 90, places: 4 });
    expect(found?.major).toBeCloseTo(200, 9); // √(4 · 100²)
    expect(found?.minor).toBeCloseTo(100, 9);
    expect(found?.ratio).toBeCloseTo(0.5, 12);
  });

  test('a rectangle along north', () => {
    expect(spread([0, 0], [100, 0], [0, 200], [100, 200])?.trend).toBe(0);
  });

  test('a square spreads alike every way and has no trend', () => {
    expect(spread([0, 0], [128, 0], [0, 128], [128, 128])).toMatchObject({ ratio: 1, trend: null });
  });

  test('a row of wells due north: no breadth at all, and the row named', () => {
    const found = spread([5, 0], [5, 40], [5, 100]);
    expect(found).toMatchObject({ ratio: 0, trend: 0, minor: 0 });
    expect(found?.major).toBeCloseTo(Math.hypot(140 / 3, 20 / 3, 160 / 3), 9);
  });

  test('three readings in one place', () => {
    expect(spread([7, 7], [7, 7], [7, 7])).toMatchObject({ major: 0, ratio: 0, places: 1 });
  });
});

describe('a difference of heads under the rounding of the sums is none', () => {
  const rounded = (base: number, by: number) => [
    well('A', 0, 0, base),
    well('B', 100, 0, base + by),
    well('C', 0, 100, base),
    well('D', 100, 100, base),
  ];
  // At 100 m the least difference a number can hold is 1.4e-14 m; 64 of 2.2e-16 · 100 are 1.4e-12 m.
  const LEAST = 2 ** -46;

  test('ten last bits apart at 100 m: level, and how much fall was found is said', () => {
    const wells = rounded(100, 10 * LEAST);
    const plane = valueOf(fitPlane(wells, { weighted: false }));
    // Slopes ±d/200 over ±50 m each way: the plane falls by d/4 either way, root mean square d/√8.
    expect(plane.level?.fall).toBeCloseTo((10 * LEAST) / Math.sqrt(8), 14);
    expect(plane.level?.rounding).toBeCloseTo(64 * 2 ** -52 * 100, 20);
    expect(plane).toMatchObject({ gradient: 0, azimuth: null, rSquared: null });
    for (const each of plane.residuals) expect(Math.abs(each)).toBeLessThan(1e-12);
    for (const each of plane.fitted) expect(each).toBeCloseTo(100, 12);
    expect(plane.s).toBeLessThan(1e-12);
  });

  test('a micrometre apart is a slope', () => {
    const plane = valueOf(fitPlane(rounded(100, 1e-6), { weighted: false }));
    expect(plane.level).toBeNull();
    expect(plane.gradient).toBeCloseTo(Math.SQRT2 * (1e-6 / 200), 15);
  });

  test('among many sets the rounding is that of each set’s own heads', () => {
    const sets = [
      rounded(100, 10 * LEAST),
      rounded(100, 1e-9),
      rounded(9e6, 0.5), // heads counted from the ellipsoid’s centre, as no one would
      rounded(9e6, 1e-8),
    ];
    const wells = sets.flat();
    const fitted = fitMany({
      starts: Uint32Array.from([0, 4, 8, 12, 16]),
      x: Float64Array.from(wells, (w) => w.x),
      y: Float64Array.from(wells, (w) => w.y),
      head: Float64Array.from(wells, (w) => w.head),
      weight: null,
    });
    const outcomes = sets.map((_, k) => outcomeOf(fitted, k));
    expect(outcomes).toEqual(['level', 'plane', 'plane', 'level']);
    expect(gradientOf(fitted, 0)).toBe(0);
    expect(azimuthOf(fitted, 1)).toBeCloseTo(315, 3); // high in the south-east
    sets.forEach((set, k) =>
      expect(valueOf(fitPlane(set, { weighted: false })).level === null).toBe(
        outcomes[k] === 'plane',
      ),
    );
  });
});

describe('which of two errors is printed, from five wells on', () => {
  /** Nine wells on a grid, exact plane, with alternate heads off by `by`. */
  const nine = (by: number) =>
    [0, 1, 2].flatMap((i) =>
      [0, 1, 2].map((j) =>
        well(
          `${i}${j}`,
          50 * i,
          50 * j,
          20 - 0.5 * i - 0.2 * j + by * (i === 1 && j === 1 ? -2 : 1),
        ),
      ),
    );
  const sure = (by: number) => confidenceOf(valueOf(fitPlane(nine(by), { weighted: true })), 0.95);
  // The misfit of the middle well by 3b leaves Σr² = (3b)²·8/9, s² = that over 6 = 4b²/3.
  // t(0.975, 6) = 2.447 against 1.960: the scatter is the wider where s exceeds 0.801 σ.

  test('heads scattered by nine tenths of their stated error: the scatter, for its t is wider', () => {
    const found = sure(0.0078);
    expect(found.isPlane).toBe(true);
    expect(found.governing).toBe('fromResiduals');
    expect(found.fromResiduals!.azimuth!).toBeGreaterThan(found.stated.azimuth!);
  });

  test('scattered by seven tenths of it: the stated error', () => {
    const found = sure(0.006);
    expect(found.governing).toBe('stated');
    expect(found.fromResiduals!.azimuth!).toBeLessThan(found.stated.azimuth!);
    expect(found.fromResiduals!.factor).toBeCloseTo(2.446912, 6); // any table of t
    expect(found.stated.factor).toBeCloseTo(1.959964, 6);
  });

  test('the chance that error alone makes such a scatter or slope is stated with each test', () => {
    const [byStated, byScatter] = sure(0.006).slopeTests;
    expect(byStated?.probability).toBeLessThan(1e-9);
    // F(2, 6) in closed form: P(F > f) = (1 + f/3)⁻³.
    expect(off(byScatter?.probability, (1 + byScatter!.statistic! / 3) ** -3)).toBeLessThan(1e-9);
  });
});

test('six wells in feet or metres: the same direction, and errors in proportion', () => {
  const inFeet = SIX_IN_FEET.map((w) => ({
    ...w,
    x: metres(w.x / 0.3048),
    y: metres(w.y / 0.3048),
    head: metres(w.head / 0.3048),
    sigma: metres(w.sigma / 0.3048),
  }));
  const [one, other] = [SIX_IN_FEET, inFeet].map((set) =>
    valueOf(fitPlane(set, { weighted: true })),
  );
  expect(other!.azimuth).toBeCloseTo(one!.azimuth!, 9);
  expect(off(other!.stated.azimuth, one!.stated.azimuth!)).toBeLessThan(1e-9);
  expect(off(other!.s, one!.s! / 0.3048)).toBeLessThan(1e-9);
});
