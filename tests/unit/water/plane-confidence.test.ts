import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { metres } from '../../../src/domain/units';
import { fitPlane, type HeadPoint } from '../../../src/domain/water/plane';
import { confidenceOf, FIRST_ORDER_LIMIT } from '../../../src/domain/water/plane-confidence';
import { noise, off, ORACLE, oracleWells, scattered, SIX_IN_FEET, valueOf, well } from './wells';

const plane = (points: readonly HeadPoint[], weighted = false) =>
  valueOf(fitPlane(points, { weighted }));
const at95 = (points: readonly HeadPoint[]) => confidenceOf(plane(points), 0.95);

describe('six wells, computed independently (basis, case 3.1)', () => {
  const sure = at95(SIX_IN_FEET);

  test('direction ±15.26° and gradient ±0.000909, by the scatter and t(0.975, 3) = 3.182446', () => {
    expect(sure.fromResiduals?.factor).toBeCloseTo(3.182446, 6);
    expect(sure.fromResiduals?.azimuth).toBeCloseTo(15.26, 2);
    expect(sure.fromResiduals?.gradient).toBeCloseTo(0.000909, 6);
  });

  test('F = 91.7842 exceeds F(0.95; 2, 3) = 9.5521: resolved', () => {
    const scatter = sure.slopeTests.find(({ kind }) => kind === 'slope-by-scatter');
    expect(scatter).toMatchObject({ distribution: 'F', degreesOfFreedom: [2, 3], exceeded: true });
    expect(scatter?.statistic).toBeCloseTo(91.7842, 4);
    expect(scatter?.critical).toBeCloseTo(9.5521, 4);
    expect(sure.resolved).toBe(true);
    expect(sure.unresolved).toEqual([]);
  });

  test('at 0.01 ft it is not a plane: Σr²/σ² = 100.07 exceeds 7.81', () => {
    expect(sure.isPlane).toBe(false);
    expect(sure.lackOfFit).toMatchObject({ degreesOfFreedom: [3], exceeded: true });
    expect(sure.lackOfFit?.statistic).toBeCloseTo(100.07, 2);
    expect(sure.lackOfFit?.critical).toBeCloseTo(7.81, 2);
  });

  test('so ±15° is printed, not the false confidence of the stated 0.01 ft', () => {
    expect(sure.governing).toBe('fromResiduals');
    expect(sure.stated.azimuth).toBeCloseTo(1.959964 * 0.830031, 5);
  });
});

test('Masters’ triangle with 0.01 m (basis, case 3.2, computed independently)', () => {
  const found = plane([well('1', 0, 0, 0), well('2', 100, 0, -0.2), well('3', 100, 100, -0.1)]);
  const { covariance, gradient, azimuth } = found.stated;
  expect(covariance.aa).toBeCloseTo(2e-8, 17);
  expect(covariance.ab).toBeCloseTo(-1e-8, 17);
  expect(covariance.bb).toBeCloseTo(2e-8, 17);
  expect(gradient).toBeCloseTo(0.000167332, 9);
  expect(azimuth).toBeCloseTo(2.80691, 5);
  const sure = confidenceOf(found, 0.95);
  expect(sure).toMatchObject({
    resolved: true,
    isPlane: null,
    lackOfFit: null,
    fromResiduals: null,
  });
});

const equilateral = (side: number, gradient: number, toward: number, sigma = 0.01) => {
  const [east, north] = [Math.sin((toward * Math.PI) / 180), Math.cos((toward * Math.PI) / 180)];
  return (
    [
      [0, 0],
      [side, 0],
      [side / 2, (side * Math.sqrt(3)) / 2],
    ] as const
  ).map(([x, y], i) => well(`${i}`, x, y, 20 - gradient * (x * east + y * north), sigma));
};

describe('equilateral triangle, error 0.01: σ_θ = √2·σ/(L·i), exact (basis, case 3.3)', () => {
  test.each([
    [100, 0.005, 1.621, 3],
    [200, 0.002, 2.026, 3],
    [50, 0.001, 16.2, 1],
  ])('side %d, gradient %d: %d°', (side, gradient, degrees, decimals) => {
    for (const toward of [0, 37, 90, 211]) {
      const { stated } = plane(equilateral(side, gradient, toward));
      expect(stated.azimuth).toBeCloseTo(degrees, decimals);
      const exact = (Math.SQRT2 * 0.01) / (side * gradient);
      expect(off((stated.azimuth! * Math.PI) / 180, exact)).toBeLessThan(1e-9);
      expect(off(stated.gradient! / gradient, exact)).toBeLessThan(1e-9);
    }
  });

  test('16.2° stands just under the limit of 17°, and its half-width is still drawn', () => {
    expect(FIRST_ORDER_LIMIT).toBeCloseTo(17.19, 2);
    expect(at95(equilateral(50, 0.001, 37))).toMatchObject({ simulate: false });
  });

  test('a little less gradient and first order no longer holds: simulate', () => {
    const sure = at95(equilateral(50, 0.0009, 37));
    expect(sure).toMatchObject({ simulate: true, stated: { firstOrder: false, azimuth: null } });
    expect(sure.stated.gradient).not.toBeNull();
  });
});

describe('is there a direction at all', () => {
  test('three wells: χ² with the stated error against 5.991', () => {
    const [steep, slight] = [equilateral(50, 0.001, 10), equilateral(50, 0.0006, 10)].map(at95);
    // gᵀC⁻¹g = (L·i)²/(2σ²): 12.5 and 4.5
    expect(steep?.slopeTests[0]?.statistic).toBeCloseTo(12.5, 9);
    expect(steep?.resolved).toBe(true);
    expect(slight).toMatchObject({
      resolved: false,
      unresolved: [{ kind: 'slope-by-stated-error', distribution: 'chi-squared', exceeded: false }],
    });
    expect(slight?.unresolved[0]).toMatchObject({
      statistic: expect.closeTo(4.5, 9),
      critical: expect.closeTo(5.991, 3),
      probability: expect.closeTo(Math.exp(-4.5 / 2), 12), // χ²(2) in closed form
    });
  });

  const four = (head: number) => [
    well('1', 0, 0, 10),
    well('2', 100, 0, 9.8),
    well('3', 0, 100, 9.9),
    well('4', 100, 100, head),
  ];

  test('four wells are not held to F with one degree of freedom, 199.5', () => {
    const sure = at95(four(9.75));
    expect(sure.slopeTests).toHaveLength(1);
    expect(sure.resolved).toBe(true);
  });

  test('nor is t with one degree of freedom, 12.706, printed where the stated error fits', () => {
    const sure = at95(four(9.71));
    expect(sure).toMatchObject({ isPlane: true, governing: 'stated' });
    expect(sure.fromResiduals?.factor).toBeCloseTo(12.706, 3);
    expect(sure.fromResiduals!.gradient!).toBeGreaterThan(sure.stated.gradient!);
  });

  test('a half-width past a right angle is no half-width, however small its standard error', () => {
    const small = plane(four(9.75));
    const sigma = small.fromResiduals!.azimuth!;
    expect(sigma).toBeLessThan(FIRST_ORDER_LIMIT);
    expect(sigma * 12.706).toBeGreaterThan(90);
    expect(confidenceOf(small, 0.95).fromResiduals).toMatchObject({
      firstOrder: false,
      azimuth: null,
    });
  });

  test('four wells: not a plane is said apart from not resolved', () => {
    const sure = at95(four(9.6));
    expect(sure).toMatchObject({ resolved: true, isPlane: false, governing: 'fromResiduals' });
  });

  test('five wells scattered beyond their slope: the stated error alone does not resolve them', () => {
    const heads = [10, 9.8, 10.1, 9.7, 10.2];
    const places = [
      [0, 0],
      [100, 0],
      [0, 100],
      [100, 100],
      [50, 150],
    ] as const;
    const sure = at95(heads.map((h, i) => well(`${i}`, places[i]![0], places[i]![1], h)));
    expect(sure.slopeTests.map(({ kind, exceeded }) => [kind, exceeded])).toEqual([
      ['slope-by-stated-error', true],
      ['slope-by-scatter', false],
    ]);
    expect(sure.resolved).toBe(false);
    expect(sure.unresolved).toMatchObject([{ kind: 'slope-by-scatter', degreesOfFreedom: [2, 2] }]);
  });

  test('the three noise-dominated oracles are not resolved by their scatter', () => {
    const noisy = ORACLE.cases.filter(({ kind }) => kind === 'noise dominated');
    expect(noisy).toHaveLength(3);
    for (const set of noisy) {
      const sure = at95(oracleWells(set, 0.02));
      expect(sure.slopeTests.at(-1)).toMatchObject({ kind: 'slope-by-scatter' });
      expect(sure.resolved, set.id).toBe(false);
    }
  });

  test('a level surface is not resolved because it is level', () => {
    const sure = at95([well('1', 0, 0, 5), well('2', 80, 0, 5), well('3', 0, 90, 5)]);
    expect(sure).toMatchObject({
      resolved: false,
      simulate: false,
      unresolved: [{ kind: 'level' }],
      stated: { azimuth: null, gradient: null },
    });
  });

  test('five equal heads: level, and no slope to hold against the scatter', () => {
    const places = [
      [0, 0],
      [64, 0],
      [0, 64],
      [64, 64],
      [32, 16],
    ] as const;
    const sure = at95(places.map(([x, y], i) => well(`${i}`, x, y, 7.3)));
    expect(sure).toMatchObject({ resolved: false, unresolved: [{ kind: 'level' }] });
    expect(sure.slopeTests.map(({ statistic, exceeded }) => [statistic, exceeded])).toEqual([
      [0, false],
      [0, false],
    ]);
  });

  test('heads on a plane to the last bit leave no scatter to test against', () => {
    const places = [
      [0, 0],
      [64, 0],
      [0, 64],
      [64, 64],
      [32, 16],
    ] as const;
    const sure = at95(places.map(([x, y], i) => well(`${i}`, x, y, 10 - x / 64 - y / 128)));
    expect(sure.resolved).toBe(true);
    expect(sure.slopeTests[1]).toMatchObject({
      statistic: null,
      probability: null,
      exceeded: true,
    });
    expect(sure).toMatchObject({ governing: 'stated', isPlane: true });
  });
});

test('the stated error is right and there is no slope: resolved in about one set of twenty', () => {
  // 400 seeded sets of six wells with no gradient and normal errors of the stated size.
  let resolved = 0;
  let notAPlane = 0;
  const deviates = normals(7);
  for (let k = 0; k < 400; k++) {
    const set = SIX_IN_FEET.map((w) => ({ ...w, head: metres(20 + w.sigma * deviates()) }));
    const sure = at95(set);
    if (sure.slopeTests[0]?.exceeded) resolved++;
    if (sure.isPlane === false) notAPlane++;
  }
  // Binomial with n = 400 and p = 0.05: 20 ± 4.4; four standard errors allowed.
  expect(Math.abs(resolved - 20)).toBeLessThan(17.5);
  expect(Math.abs(notAPlane - 20)).toBeLessThan(17.5);
});

/** Normal deviates by Box and Müller from a Lehmer generator: none of the project's own. */
function normals(seed: number) {
  let state = seed;
  const uniform = () => (state = (state * 48271) % 2147483647) / 2147483647;
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

describe('the ellipse of the flow vector', () => {
  test('a circle for an equilateral triangle, of √5.991·√2·σ/L', () => {
    const { ellipse } = at95(equilateral(100, 0.005, 37)).stated;
    const radius = (Math.sqrt(5.991464547) * Math.SQRT2 * 0.01) / 100;
    expect(ellipse.major).toBeCloseTo(radius, 10);
    expect(ellipse.minor).toBeCloseTo(radius, 10);
  });

  test('wells in a band: the slope across the band is the least sure', () => {
    const band = [well('1', 0, 0, 9), well('2', 100, 100, 8), well('3', 45, 55, 8.4)];
    const { ellipse } = at95(band).stated;
    expect(ellipse.trend).toBeCloseTo(135, 0);
    expect(ellipse.major / ellipse.minor).toBeGreaterThan(10);
  });

  test('it reaches the origin exactly where the test stops resolving, by either error', () => {
    fc.assert(
      fc.property(
        scattered(5, 9),
        noise,
        noise,
        fc.array(noise, { minLength: 9, maxLength: 9 }),
        (places, a, b, scatter) => {
          const found = fitPlane(
            places.map(([x, y], i) =>
              well(`${i}`, x, y, 5 + (a * x + b * y) / 1000 + scatter[i]! / 10),
            ),
            { weighted: false },
          );
          fc.pre(found.ok && found.value.gradient > 1e-5 && found.value.spread.ratio > 0.01);
          fc.pre(valueOf(found).s! > 1e-3);
          const { azimuth, gradient } = valueOf(found);
          const sure = confidenceOf(valueOf(found), 0.95);
          [sure.stated, sure.fromResiduals!].forEach(({ ellipse }, k) => {
            const angle = ((azimuth! - ellipse.trend) * Math.PI) / 180;
            const inside =
              ((gradient * Math.cos(angle)) / ellipse.major) ** 2 +
              ((gradient * Math.sin(angle)) / ellipse.minor) ** 2;
            const { statistic, critical } = sure.slopeTests[k]!;
            expect(off(inside, statistic! / critical)).toBeLessThan(1e-6);
          });
        },
      ),
    );
  });
});

test('more confidence, wider', () => {
  const found = plane(SIX_IN_FEET);
  const [two, three] = [confidenceOf(found, 0.9), confidenceOf(found, 0.99)];
  expect(three.fromResiduals!.factor).toBeGreaterThan(two.fromResiduals!.factor);
  expect(three.stated.ellipse.major).toBeGreaterThan(two.stated.ellipse.major);
  expect(three.slopeTests[0]!.critical).toBeGreaterThan(two.slopeTests[0]!.critical);
});
