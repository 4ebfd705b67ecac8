import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  fitControl,
  fromLocal,
  localFacts,
  toLocal,
  type ControlPoint,
  type LocalTie,
} from '../../../src/domain/local-grid';
import { degrees, metres } from '../../../src/domain/units';

const at = (east: number, north: number) => ({ east: metres(east), north: metres(north) });
const mark = (name: string, local: [number, number], grid: [number, number]): ControlPoint => ({
  name,
  local: at(...local),
  grid: at(...grid),
});
const tie: LocalTie = {
  local: at(1000, 1000),
  grid: at(951_318, 4_218_800),
  rotation: degrees(30),
  scale: 2,
};

describe('a plant grid turned 30° clockwise, at twice the scale', () => {
  test('by pencil: its north goes to (sin 30°, cos 30°), its east to (cos 30°, −sin 30°)', () => {
    const north = fromLocal(at(1000, 1100), tie);
    expect(north.east - 951_318).toBeCloseTo(100, 9);
    expect(north.north - 4_218_800).toBeCloseTo(173.2051, 4);
    const east = fromLocal(at(1100, 1000), tie);
    expect(east.east - 951_318).toBeCloseTo(173.2051, 4);
    expect(east.north - 4_218_800).toBeCloseTo(-100, 9);
  });

  test('and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5000, max: 5000, noNaN: true }),
        fc.double({ min: -5000, max: 5000, noNaN: true }),
        (x, y) => {
          const back = toLocal(fromLocal(at(x, y), tie), tie);
          expect(back.east).toBeCloseTo(x, 7);
          expect(back.north).toBeCloseTo(y, 7);
        },
      ),
    );
  });
});

describe('fitted to control points', () => {
  const fitted = (points: ControlPoint[], scale?: 'free' | 'held') => {
    const fit = fitControl(points, scale);
    if (!fit.ok) throw new Error(fit.problem.kind);
    return fit.value;
  };

  test('by pencil: a 100 m square turned a quarter clockwise', () => {
    const { tie, residuals, standardError, spare } = fitted([
      mark('A', [0, 0], [500, 800]),
      mark('B', [0, 100], [600, 800]), // plant north points east
      mark('C', [100, 100], [600, 700]),
      mark('D', [100, 0], [500, 700]),
    ]);
    expect(tie.rotation).toBeCloseTo(90, 10);
    expect(tie.scale).toBeCloseTo(1, 12);
    expect(spare).toBe(4);
    expect(standardError).toBeCloseTo(0, 9);
    for (const r of residuals) expect(r.distance).toBeCloseTo(0, 9);
  });

  test('one corner 0.4 m out in easting keeps half of it as its residual; all residuals sum to nothing', () => {
    // Worked by hand. About the centre the corners are (±50, ±50) and Σr² = 20,000. Moving A by
    // +0.4 in easting shifts the fit by 0.1 and changes a by −50·0.4/20,000 = −0.001 and b by
    // +50·0.4/20,000 = +0.001, which at A gives 0.05 each: A is left with 0.4 − 0.1 − 0.05 − 0.05.
    const { tie, residuals, standardError } = fitted([
      mark('A', [0, 0], [0.4, 0]),
      mark('B', [100, 0], [100, 0]),
      mark('C', [100, 100], [100, 100]),
      mark('D', [0, 100], [0, 100]),
    ]);
    expect(residuals[0]?.east).toBeCloseTo(0.2, 9);
    expect(residuals[0]?.north).toBeCloseTo(0, 9);
    expect(residuals.reduce((sum, r) => sum + r.east, 0)).toBeCloseTo(0, 9);
    expect(residuals.reduce((sum, r) => sum + r.north, 0)).toBeCloseTo(0, 9);
    expect(tie.scale).toBeCloseTo(Math.hypot(0.999, 0.001), 9);
    expect(tie.rotation).toBeCloseTo((-Math.atan2(0.001, 0.999) * 180) / Math.PI, 7);
    // Squares: 0.4² = 0.16, less 4·0.1² by the shift, 0.001²·20,000 by a and as much by b,
    // leaves 0.08 over 8 − 4 to spare.
    expect(standardError).toBeCloseTo(Math.sqrt(0.02), 9);
  });

  test('two points fit exactly and leave nothing to check, and say so', () => {
    const fit = fitted([mark('A', [0, 0], [10, 10]), mark('B', [0, 50], [10, 60.5])]);
    expect(fit).toMatchObject({
      spare: 0,
      standardError: null,
      rotationError: null,
      scaleError: null,
    });
    expect(fit.tie.scale).toBeCloseTo(1.01, 12);
  });

  test('with the scale held at 1 the same two points disagree by half a metre, shared between them', () => {
    const fit = fitted([mark('A', [0, 0], [10, 10]), mark('B', [0, 50], [10, 60.5])], 'held');
    expect(fit.tie.scale).toBe(1);
    expect(fit.residuals.map((r) => r.north)).toEqual([
      expect.closeTo(-0.25, 9),
      expect.closeTo(0.25, 9),
    ]);
    expect(fit.spare).toBe(1);
    expect(fit.scaleError).toBeNull();
  });

  test('residuals come in the order of the points given, known minus fitted', () => {
    const points = [
      mark('far', [900, 0], [900, 0.3]),
      mark('near', [0, 0], [0, 0]),
      mark('up', [0, 900], [0, 900]),
    ];
    const { residuals, tie } = fitted(points);
    expect(residuals.map((r) => r.name)).toEqual(['far', 'near', 'up']);
    const first = fromLocal(points[0]!.local, tie);
    expect(residuals[0]?.north).toBeCloseTo(0.3 - first.north, 9);
  });

  test('the transformation that made the points is found again, at State Plane coordinates', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -179, max: 180, noNaN: true }),
        fc.double({ min: 0.2, max: 4, noNaN: true }),
        fc.array(
          fc.tuple(fc.integer({ min: -900, max: 900 }), fc.integer({ min: -900, max: 900 })),
          { minLength: 2, maxLength: 9 },
        ),
        (rotation, scale, places) => {
          const made: LocalTie = { ...tie, rotation: degrees(rotation), scale };
          const points = places.map(([x, y], i): ControlPoint => ({
            name: `${i}`,
            local: at(x, y),
            grid: fromLocal(at(x, y), made),
          }));
          const fit = fitControl(points);
          fc.pre(fit.ok);
          if (!fit.ok) return;
          const probe = fromLocal(at(321, -123), fit.value.tie);
          const expected = fromLocal(at(321, -123), made);
          const spread = Math.max(
            ...places.map(([x, y]) => Math.hypot(x - places[0]![0], y - places[0]![1])),
          );
          // Rounding of 1e-9 m in the marks grows with the distance of the probe over their spread.
          expect(Math.hypot(probe.east - expected.east, probe.north - expected.north)).toBeLessThan(
            1e-4 / spread + 1e-6,
          );
          expect(fit.value.mirrored).toBe(false);
        },
      ),
    );
  });

  test('turning or moving the other grid leaves the residuals as long as they were', () => {
    const points = [
      mark('A', [0, 0], [0.1, -0.2]),
      mark('B', [80, 5], [80, 5.1]),
      mark('C', [40, 70], [39.8, 70]),
    ];
    const turned: LocalTie = {
      local: at(0, 0),
      grid: at(5000, 9000),
      rotation: degrees(37),
      scale: 1,
    };
    const moved = points.map((p) => ({ ...p, grid: fromLocal(p.grid, turned) }));
    const [before, after] = [fitted(points), fitted(moved)];
    before.residuals.forEach((r, i) =>
      expect(after.residuals[i]?.distance).toBeCloseTo(r.distance, 8),
    );
    expect(after.tie.rotation - before.tie.rotation).toBeCloseTo(37, 8);
  });

  test('marks with x and y swapped fit badly, and the fit says that they look swapped', () => {
    const places: [number, number][] = [
      [0, 0],
      [120, 10],
      [60, 90],
      [15, 60],
    ];
    const swapped = places.map(([x, y], i) => mark(`${i}`, [y, x], [x + 700, y + 300]));
    expect(fitted(swapped).mirrored).toBe(true);
    expect(Math.max(...fitted(swapped).residuals.map((r) => r.distance))).toBeGreaterThan(10);
    const straight = places.map(([x, y], i) => mark(`${i}`, [x, y], [x + 700.02, y + 300]));
    expect(fitted(straight).mirrored).toBe(false);
  });

  test.each([
    ['one point', [mark('A', [0, 0], [1, 1])], { kind: 'too-few-points', have: 1 }],
    ['no point', [], { kind: 'too-few-points', have: 0 }],
    [
      'one place twice on the plant grid',
      [mark('A', [5, 5], [1, 1]), mark('B', [5, 5], [9, 9])],
      { kind: 'all-in-one-place', on: 'local' },
    ],
    [
      'one place twice on the other grid',
      [mark('A', [5, 5], [1, 1]), mark('B', [6, 5], [1, 1])],
      { kind: 'all-in-one-place', on: 'grid' },
    ],
    [
      'a blank coordinate',
      [mark('A', [5, 5], [1, 1]), mark('B', [6, NaN], [2, 1])],
      { kind: 'not-a-position', name: 'B' },
    ],
    [
      'a figure that agrees with none',
      [
        mark('A', [1, 0], [1, 0]),
        mark('B', [-1, 0], [1, 0]),
        mark('C', [0, 1], [-1, 0]),
        mark('D', [0, -1], [-1, 0]),
      ],
      { kind: 'no-one-rotation' },
    ],
  ])('%s can’t be fitted', (_, points, problem) => {
    expect(fitControl(points)).toEqual({ ok: false, problem });
  });
});

describe('facts of a plant grid', () => {
  const on = { name: 'NAD83 / UTM zone 15N', unit: 'm', conformal: true, convergence: degrees(1), pointScale: 0.9997, combinedFactor: 0.9996, elevation: metres(100), caution: null } as const; // prettier-ignore

  test('a plant grid in ground distances on a grid of combined factor 0.9996 has a factor of 1', () => {
    const facts = localFacts('Plant', 'ft', metres(100), { tie: { ...tie, scale: 0.9996 }, on });
    expect(facts.combinedFactor).toBeCloseTo(1, 12);
    expect(facts.convergence).toBe(31);
    expect(facts.unit).toBe('ft');
  });

  test('tied to nothing: distances as they are, no true north, and it says so', () => {
    const facts = localFacts('Plant', 'ft', metres(100), null);
    expect(facts).toMatchObject({ convergence: null, combinedFactor: null, conformal: true });
    expect(facts.caution).toContain('true north is not known');
  });
});
