import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inUnits, metres, turn } from '../../../src/domain/units';
import { fitPlane, type HeadPoint } from '../../../src/domain/water/plane';
import {
  fixture,
  noise,
  off,
  ORACLE,
  oracleCase,
  oracleWells,
  scattered,
  SIX_IN_FEET,
  slope,
  valueOf,
  well,
  type OraclePlane,
} from './wells';

const plane = (points: readonly HeadPoint[], weighted = false) =>
  valueOf(fitPlane(points, { weighted }));
const oraclePlane = (set: OraclePlane) => plane(oracleWells(set), set.weights !== null);

const solved = ORACLE.cases.filter(({ expected }) => expected.status === 'ok');
const level = ORACLE.cases.filter(({ expected }) => expected.status.startsWith('flat'));
const refused = ORACLE.cases.filter(({ expected }) => expected.status.startsWith('undefined'));

/** 1e-9 of the reference; 1e-6 where the wells are nearly in a line. */
const tolerance = ({ expected }: OraclePlane) => (expected.collinearity_ratio < 1e-5 ? 1e-6 : 1e-9);

describe('68 planes by exact rational arithmetic (Python, mpmath; numpy and R agree)', () => {
  test('all of them are here: 57 with a direction, 3 level, 8 without a plane', () => {
    expect([ORACLE.cases.length, solved.length, level.length, refused.length]).toEqual([
      68, 57, 3, 8,
    ]);
  });

  test.each(solved)('$id, $kind: slopes, gradient, direction, R² and residuals', (set) => {
    const { expected } = set;
    const found = oraclePlane(set);
    const most = tolerance(set);
    expect(off(found.a, expected.b)).toBeLessThan(most);
    expect(off(found.b, expected.c)).toBeLessThan(most);
    expect(off(found.c, expected.a_at_centroid)).toBeLessThan(1e-12);
    expect(off(found.centre.x, expected.x_c)).toBeLessThan(1e-14);
    expect(off(found.centre.y, expected.y_c)).toBeLessThan(1e-14);
    expect(off(found.gradient, expected.gradient)).toBeLessThan(most);
    expect(off(found.azimuth, expected.azimuth_deg!)).toBeLessThan(most);
    expect(off(found.rSquared, expected.r2!)).toBeLessThan(most);
    expect(found.degreesOfFreedom).toBe(expected.dof);
    found.residuals.forEach((residual, i) => {
      expect(residual).toBeCloseTo(expected.residuals[i]!, 11);
    });
  });

  test.each([...solved, ...level])('$id, $kind: spread of the wells, sum of squares', (set) => {
    const { expected } = set;
    const found = oraclePlane(set);
    const most = tolerance(set);
    // With weights the oracle's own are 1/σ²; ours are 1 on average, and say the same.
    const scale = set.weights ? set.weights.reduce((a, b) => a + b) / set.weights.length : 1;
    expect(off(found.spread.ratio, expected.collinearity_ratio)).toBeLessThan(most);
    expect(off(found.spread.major * Math.sqrt(scale), expected.spread_major)).toBeLessThan(1e-12);
    expect(found.spread.places).toBe(expected.distinct_xy);
    expect(off(found.sumOfSquares * scale, expected.rss)).toBeLessThan(1e-9);
  });

  test.each([...solved, ...level])('$id, $kind: errors of slopes, gradient, direction', (set) => {
    const { expected } = set;
    const { unscaled, stated, fromResiduals } = oraclePlane(set);
    const most = 2 * tolerance(set); // variances: twice the slopes' own
    const scale = set.weights ? set.weights.reduce((a, b) => a + b) / set.weights.length : 1;
    expect(off(unscaled.aa / scale, expected.unit_cov.bb)).toBeLessThan(most);
    expect(off(unscaled.bb / scale, expected.unit_cov.cc)).toBeLessThan(most);
    expect(off(unscaled.ab / scale, expected.unit_cov.bc)).toBeLessThan(most);
    const pairs = [
      [stated, expected.from_stated_sigma],
      [fromResiduals, expected.from_residuals],
    ] as const;
    for (const [found, reference] of pairs) {
      if (!reference) continue;
      expect(off(found && Math.sqrt(found.covariance.aa), reference.se_b)).toBeLessThan(most);
      expect(off(found && Math.sqrt(found.covariance.bb), reference.se_c)).toBeLessThan(most);
      expect(off(found?.covariance.ab, reference.cov_bc)).toBeLessThan(most);
      const { se_azimuth_deg_delta: direction, se_gradient_delta: gradient } = reference;
      if (direction === undefined || gradient === undefined) continue;
      expect(off(found?.azimuth, direction)).toBeLessThan(most);
      expect(off(found?.gradient, gradient)).toBeLessThan(most);
    }
  });

  test('with stated errors as weights, (XᵀWX)⁻¹ of the 1/σ² is the covariance', () => {
    for (const set of ORACLE.cases.filter(({ weights }) => weights)) {
      const { aa, bb, ab } = oraclePlane(set).stated.covariance;
      expect(off(aa, set.expected.unit_cov.bb)).toBeLessThan(1e-9);
      expect(off(bb, set.expected.unit_cov.cc)).toBeLessThan(1e-9);
      expect(off(ab, set.expected.unit_cov.bc)).toBeLessThan(1e-9);
    }
  });

  test.each(level)('$id, $kind: a gradient of 0 and no direction, with the reason', (set) => {
    const found = oraclePlane(set);
    expect(found).toMatchObject({ gradient: 0, a: 0, b: 0, azimuth: null });
    expect(found.level?.kind).toBe('level');
    expect(found.rSquared).toBe(set.expected.r2);
    expect(found.stated.azimuth).toBeNull();
    expect(found.stated.gradient).toBeNull();
  });

  test.each(refused)('$id, $kind: $expected.status', (set) => {
    const found = fitPlane(oracleWells(set), { weighted: false });
    expect(found.ok).toBe(false);
    if (found.ok) return;
    if (set.expected.n < 3)
      expect(found.problem).toEqual({ kind: 'too-few-wells', have: set.expected.n, need: 3 });
    else
      expect(found.problem).toMatchObject({
        kind: 'wells-in-a-line',
        least: 1e-9,
        spread: { places: set.expected.distinct_xy },
      });
  });

  test('35 overdetermined planes by lm of R 4.2.2 agree to the digits R prints', () => {
    const { cases } = fixture<{ cases: Record<string, number | string>[] }>(
      'oracles/b_planes_R_lm.json',
    );
    expect(cases).toHaveLength(35);
    for (const r of cases) {
      const set = oracleCase(String(r.id));
      const found = oraclePlane(set);
      // R makes a gradient of 8e-18 of the level saddle, and an error of 7e16 degrees.
      if (level.includes(set)) {
        expect(Number(r.gradient)).toBeLessThan(1e-17);
        continue;
      }
      const close = (value: number | null | undefined, name: string, most = 1e-9) =>
        expect(off(value, Number(r[name])), `${r.id} ${name}`).toBeLessThan(most);
      close(found.gradient, 'gradient');
      close(found.azimuth, 'azimuth');
      close(Math.sqrt(found.fromResiduals?.covariance.aa ?? NaN), 'se_b');
      close(Math.sqrt(found.fromResiduals?.covariance.bb ?? NaN), 'se_c');
      close(found.fromResiduals?.azimuth, 'se_az');
      close(found.rSquared, 'r2');
    }
  });
});

describe('errors that differ from well to well (mpmath at 50 digits)', () => {
  type Sandwich = Record<
    'cc' | 'ca' | 'cb' | 'aa' | 'ab' | 'bb' | 'signal' | 'lack_of_fit',
    number
  >;
  const { sandwich } = fixture<{ sandwich: Record<string, Sandwich> }>('planes/influence.json');

  test.each(Object.entries(sandwich))('%s, not weighted: covariance, χ², lack of fit', (id, e) => {
    const points = oracleWells(oracleCase(id)).map((point, k) => ({
      ...point,
      sigma: metres(0.01 * (1 + (k % 4))),
    }));
    const found = plane(points);
    for (const key of ['cc', 'ca', 'cb', 'aa', 'ab', 'bb'] as const)
      expect(off(found.stated.covariance[key], e[key]), key).toBeLessThan(1e-9);
    expect(off(found.stated.signal, e.signal)).toBeLessThan(1e-9);
    expect(off(found.lackOfFit, e.lack_of_fit)).toBeLessThan(1e-9);
    expect(off(plane(points, true).lackOfFit, e.lack_of_fit)).toBeLessThan(1e-9);
  });
});

describe('six wells, worked by hand and independently (basis, case 3.1)', () => {
  const found = plane(SIX_IN_FEET);

  test('centre, slopes, gradient and direction', () => {
    expect(inUnits(found.centre.x, 'ft')).toBeCloseTo(1175, 9);
    expect(inUnits(found.centre.y, 'ft')).toBeCloseTo(5085, 9);
    expect(inUnits(found.c, 'ft')).toBeCloseTo(92.2533333, 7);
    expect(found.a).toBeCloseTo(-0.0025212167, 10);
    expect(found.b).toBeCloseTo(0.0020355186, 10);
    expect(found.gradient).toBeCloseTo(0.0032403502, 10);
    expect(found.azimuth).toBeCloseTo(128.91587, 5);
  });

  test('scatter: s, root mean square, R², sum of squares', () => {
    expect(inUnits(found.s!, 'ft')).toBeCloseTo(0.0577553846, 10);
    expect(inUnits(found.rmse, 'ft')).toBeCloseTo(0.040839224, 9);
    expect(found.rSquared).toBeCloseTo(0.9839201071, 10);
    expect(found.sumOfSquares / 0.3048 ** 2).toBeCloseTo(0.0100070533, 10);
  });

  test('covariances, and one standard error of gradient and direction', () => {
    const { covariance, gradient, azimuth } = found.fromResiduals!;
    expect(off(covariance.aa, 3.699313755e-8)).toBeLessThan(1e-9);
    expect(off(covariance.ab, -1.2919238837e-8)).toBeLessThan(1e-9);
    expect(off(covariance.bb, 1.1816376985e-7)).toBeLessThan(1e-9);
    expect(gradient).toBeCloseTo(0.000285749, 9);
    expect(azimuth).toBeCloseTo(4.79387, 5);
    expect(found.stated.gradient).toBeCloseTo(4.94758e-5, 10);
    expect(found.stated.azimuth).toBeCloseTo(0.830031, 6);
  });

  test('leverages are shares of three', () => {
    expect(found.leverage.reduce((a, b) => a + b)).toBeCloseTo(3, 12);
    for (const h of found.leverage) expect(h > 0 && h < 1).toBe(true);
  });
});

describe('sets nobody should draw an arrow from', () => {
  test('two wells', () => {
    expect(fitPlane([well('1', 0, 0, 10), well('2', 10, 0, 9)], { weighted: false })).toEqual({
      ok: false,
      problem: { kind: 'too-few-wells', have: 2, need: 3 },
    });
  });

  test('wells in a line are refused with the way the line runs', () => {
    const line = [well('1', 0, 0, 10), well('2', 10, 10, 9), well('3', 20, 20, 8.5)];
    expect(fitPlane(line, { weighted: false })).toMatchObject({
      problem: { kind: 'wells-in-a-line', spread: { ratio: 0, places: 3, trend: 45 } },
    });
  });

  test('a thin triangle is solved, and its spread says how thin', () => {
    const thin = plane([well('1', 0, 0, 10), well('2', 50, 1e-6, 9.9), well('3', 100, 0, 9.8)]);
    expect(thin.spread.ratio).toBeGreaterThan(1e-9);
    expect(thin.spread.ratio).toBeLessThan(1e-7);
    expect(thin.azimuth).not.toBeNull();
  });

  const triangle = (heads: readonly number[]) =>
    plane(heads.map((head, i) => well(`${i}`, [0, 90, 20][i]!, [0, 10, 70][i]!, head)));
  const mean = (readings: readonly number[]) => readings.reduce((a, b) => a + b) / readings.length;

  /** Equal by arithmetic on paper; unequal in their last bits. */
  const equalOnPaper: [string, number[]][] = [
    ['one elevation by three subtractions', [93 - 0.47, 93.07 - 0.54, 102.35 - 9.82]],
    [
      'one mean of five readings, added up in three orders',
      [
        mean([92.11, 92.23, 92.37, 92.44, 92.05]),
        mean([92.11, 92.23, 92.44, 92.37, 92.05]),
        mean([92.05, 92.44, 92.37, 92.23, 92.11]),
      ],
    ],
    ['sea level by subtraction', [10.1 - 10.1, 0.1 + 0.2 - 0.3, 1.1 + 2.2 - 3.3]],
  ];

  test.each([['the same number three times', [92.53, 92.53, 92.53]], ...equalOnPaper] as [
    string,
    number[],
  ][])('three equal heads draw no arrow: %s', (_, heads) => {
    expect(triangle(heads)).toMatchObject({ gradient: 0, azimuth: null, level: { kind: 'level' } });
  });

  test.each(equalOnPaper)('%s: not equal to the last bit, or it would be no test', (_, heads) => {
    expect(new Set(heads).size).toBeGreaterThan(1);
  });

  test('a micrometre of fall is a fall, not rounding', () => {
    expect(triangle([92.53, 92.53, 92.530001]).azimuth).not.toBeNull();
  });

  test('a coordinate that is no number names its well', () => {
    const points = [well('A', 0, 0, 1), well('B', NaN, 0, 1), well('C', 0, 5, 2)];
    expect(fitPlane(points, { weighted: false })).toMatchObject({
      problem: { kind: 'not-a-number', ids: ['B'] },
    });
  });

  test('a well without an error names itself', () => {
    const points = [well('A', 0, 0, 1), well('B', 9, 0, 1), well('C', 0, 5, 2, 0)];
    expect(fitPlane(points, { weighted: true })).toMatchObject({
      problem: { kind: 'no-error-stated', ids: ['C'] },
    });
  });
});

describe('directions read off by eye', () => {
  test.each([
    ['high in the south, so north', [9, 9, 10, 10], 0],
    ['high in the west, so east', [10, 9, 10, 9], 90],
    ['high in the north, so south', [10, 10, 9, 9], 180],
    ['high in the east, so west', [9, 10, 9, 10], 270],
  ])('%s', (_, [nw, ne, sw, se], expected) => {
    const found = plane([
      well('nw', 0, 100, nw!),
      well('ne', 100, 100, ne!),
      well('sw', 0, 0, sw!),
      well('se', 100, 0, se!),
    ]);
    expect(found.gradient).toBeCloseTo(0.01, 12);
    expect(turn(found.azimuth!, expected)).toBeCloseTo(0, 9);
  });
});

describe('for any plane, any wells and any scatter', () => {
  const site = scattered(3, 14).chain((places) =>
    fc.record({
      places: fc.constant(places),
      a: slope,
      b: slope,
      scatter: fc.array(noise, { minLength: places.length, maxLength: places.length }),
    }),
  );
  type Site = typeof site extends fc.Arbitrary<infer S> ? S : never;
  const heads = ({ places, a, b, scatter }: Site) =>
    places.map(([x, y], i) => Math.round(1e4 * (30 + a * x + b * y + 0.1 * scatter[i]!)) / 1e4);
  const wellsOf = (s: Site, moveX = 0, moveY = 0, raise = 0) =>
    heads(s).map((h, i) =>
      well(`${i}`, s.places[i]![0] + moveX, s.places[i]![1] + moveY, h + raise),
    );
  const fair = (points: readonly HeadPoint[]) => {
    const found = fitPlane(points, { weighted: false });
    fc.pre(found.ok && found.value.gradient > 1e-4 && found.value.spread.ratio > 1e-3);
    return valueOf(found);
  };

  test('moving the site to State Plane millions loses nothing, to the last bit of the slopes', () => {
    fc.assert(
      fc.property(site, (s) => {
        const [here, there] = [fair(wellsOf(s)), plane(wellsOf(s, 2_963_503, 4_218_800))];
        expect([there.a, there.b, there.azimuth]).toEqual([here.a, here.b, here.azimuth]);
      }),
    );
  });

  test('raising the datum changes no slope', () => {
    fc.assert(
      fc.property(site, fc.integer({ min: -400, max: 4000 }), (s, raise) => {
        const [here, there] = [fair(wellsOf(s)), plane(wellsOf(s, 0, 0, raise))];
        expect(off(there.gradient, here.gradient)).toBeLessThan(1e-8);
        expect(turn(here.azimuth!, there.azimuth!)).toBeCloseTo(0, 6);
      }),
    );
  });

  test('turned, the direction turns with it, and nothing else changes', () => {
    fc.assert(
      fc.property(site, fc.integer({ min: 0, max: 359 }), (s, angle) => {
        const [cos, sin] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
        const before = fair(wellsOf(s));
        const after = plane(
          wellsOf(s).map(({ id, x, y, head }) =>
            well(id, x * cos + y * sin, y * cos - x * sin, head),
          ),
        );
        expect(turn(before.azimuth! + angle, after.azimuth!)).toBeCloseTo(0, 7);
        expect(off(after.gradient, before.gradient)).toBeLessThan(1e-9);
        expect(off(after.spread.ratio, before.spread.ratio)).toBeLessThan(1e-9);
        expect(off(after.stated.azimuth, before.stated.azimuth!)).toBeLessThan(1e-7);
      }),
    );
  });

  test('the order of the wells does not matter', () => {
    fc.assert(
      fc.property(site, (s) => {
        const [before, after] = [fair(wellsOf(s)), plane(wellsOf(s).toReversed())];
        expect(off(after.gradient, before.gradient)).toBeLessThan(1e-10);
        expect(turn(before.azimuth!, after.azimuth!)).toBeCloseTo(0, 8);
      }),
    );
  });

  test('in feet or in metres: one gradient, one direction, one error of it', () => {
    fc.assert(
      fc.property(site, (s) => {
        const before = fair(wellsOf(s));
        const after = plane(wellsOf(s).map((w) => well(w.id, w.x, w.y, w.head, w.sigma, 'us-ft')));
        expect(off(after.gradient, before.gradient)).toBeLessThan(1e-10);
        expect(turn(before.azimuth!, after.azimuth!)).toBeCloseTo(0, 8);
        expect(off(after.stated.azimuth, before.stated.azimuth!)).toBeLessThan(1e-9);
      }),
    );
  });

  test('the plane that made the heads is found again', () => {
    fc.assert(
      fc.property(site, (s) => {
        const exact = s.places.map(([x, y], i) => well(`${i}`, x, y, 30 + s.a * x + s.b * y));
        const found = fitPlane(exact, { weighted: false });
        fc.pre(found.ok);
        expect(found.value.a).toBeCloseTo(s.a, 10);
        expect(found.value.b).toBeCloseTo(s.b, 10);
      }),
    );
  });

  test('a level surface has no direction, at whatever height', () => {
    fc.assert(
      fc.property(site, fc.double({ min: -100, max: 5000, noNaN: true }), (s, height) => {
        const found = fitPlane(
          s.places.map(([x, y], i) => well(`${i}`, x, y, height)),
          { weighted: false },
        );
        fc.pre(found.ok);
        expect(found.value).toMatchObject({ azimuth: null, gradient: 0 });
      }),
    );
  });

  test('equal errors: weighting changes nothing', () => {
    fc.assert(
      fc.property(site, (s) => {
        const [without, withWeights] = [fair(wellsOf(s)), plane(wellsOf(s), true)];
        expect(off(withWeights.gradient, without.gradient)).toBeLessThan(1e-10);
        expect(off(withWeights.stated.azimuth, without.stated.azimuth!)).toBeLessThan(1e-9);
      }),
    );
  });

  test('a well of enormous error weighs nothing: the plane is that of the others', () => {
    fc.assert(
      fc.property(site, (s) => {
        const points = wellsOf(s);
        const others = fair(points);
        const stray = well('stray', 60, 60, 500, 1e6);
        const found = plane([...points, stray], true);
        expect(off(found.gradient, others.gradient)).toBeLessThan(1e-5);
      }),
    );
  });

  test('residuals sum to nothing, and so do they times east and north', () => {
    fc.assert(
      fc.property(site, (s) => {
        const found = fair(wellsOf(s));
        const sum = (times: (i: number) => number) =>
          found.residuals.reduce((total, r, i) => total + r * times(i), 0);
        expect(sum(() => 1)).toBeCloseTo(0, 10);
        expect(sum((i) => s.places[i]![0])).toBeCloseTo(0, 8);
        expect(sum((i) => s.places[i]![1])).toBeCloseTo(0, 8);
      }),
    );
  });
});
