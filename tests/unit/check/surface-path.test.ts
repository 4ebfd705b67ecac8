import { describe, expect, test } from 'vitest';
import type { Shape } from '../../../src/domain/geometry/shape';
import { metres } from '../../../src/domain/units';
import { END_WORDS, pathOf, surfacePath } from '../../../src/domain/water/surface-path';
import type { SurfacePoint } from '../../../src/domain/water/surface/surface-point';

/** Wells on h = 30 − 0.004·x, 100 m apart. */
const PLANE: SurfacePoint[] = [0, 100, 200, 300].flatMap((x) =>
  [-100, 0, 100].map((y) => ({
    id: `W${x}/${y}`,
    x: metres(x - 150),
    y: metres(y),
    head: metres(30 - 0.004 * x),
    sigma: metres(0.003),
  })),
);
const ditch: Shape = { kind: 'lines', lines: [[[100, -500], [100, 500]]] }; // prettier-ignore

const found = (method: 'triangulated' | 'kriged about a plane', receptor: Shape | null) => {
  const path = surfacePath(
    {
      points: PLANE,
      method,
      model:
        method === 'triangulated'
          ? null
          : { shape: 'linear', slope: 0.0005, nugget: 0, anisotropy: null },
    },
    [-120, 13],
    receptor,
  );
  if (!path.ok) throw new Error(path.problem);
  return path.value;
};

describe.each(['triangulated', 'kriged about a plane'] as const)('down a plane, %s', (method) => {
  test('from 30 m in to a ditch at 250 m: 220 m at 0.004', () => {
    const path = found(method, ditch);
    expect(path.end).toBe('receptor');
    expect(path.short).toBe(0);
    expect(path.length).toBeCloseTo(220, 3);
    expect(path.gradient).toBeCloseTo(0.004, 6);
    expect(path.points.at(-1)?.[1]).toBeCloseTo(13, 3);
  });

  test('a ditch beyond the wells is not reached, and how far short is said', () => {
    const beyond: Shape = { kind: 'lines', lines: [[[210, -500], [210, 500]]] }; // prettier-ignore
    const path = found(method, beyond);
    expect(path.end).toBe('outline');
    expect(path.length).toBeCloseTo(270, 2);
    expect(path.short).toBeCloseTo(60, 2);
  });
});

test('a well as receptor is met within a metre, and passed by at two', () => {
  const at = (y: number): Shape => ({ kind: 'points', points: [[50, y]] });
  expect(found('triangulated', at(13.5)).end).toBe('receptor');
  expect(found('triangulated', at(15)).end).toBe('outline');
});

// Under a head of −c·x²/2 the gradient is c·x: t = n/K ∫ dx/(c·x) = n/(K·c)·ln(x₁/x₀).
test('where the gradient grows along the way, the time is that of the integral', () => {
  const c = 1e-5;
  const line = Array.from({ length: 2001 }, (_, i) => [100 + (400 * i) / 2000, 0] as const);
  const path = pathOf(line, 'outline', ([x]) => (-c * x * x) / 2, null);
  expect(path.length / (path.gradient ?? NaN)).toBeCloseTo(Math.log(5) / c, -1);
  const mean = (c * (100 + 500)) / 2;
  expect(path.gradient).toBeLessThan(mean);
});

test('outside the wells there is no path, and why is said', () => {
  const path = surfacePath({ points: PLANE, method: 'triangulated', model: null }, [900, 0], ditch);
  expect(path).toEqual({
    ok: false,
    problem: 'It stands outside the wells, or where the surface is level.',
  });
});

describe('a line as far as what it meets', () => {
  const falls = ([x]: readonly [number, number]) => 30 - 0.01 * x;
  const lines = (...of: [number, number][][]): Shape => ({ kind: 'lines', lines: of });
  const points = (...of: [number, number][]): Shape => ({ kind: 'points', points: of });
  const bent = [[0, 0], [40, 0], [40, 30], [90, 30]] as const; // prettier-ignore
  const met = (receptor: Shape | null) => {
    const { points: way, length, end, short } = pathOf(bent, 'outline', falls, receptor);
    return [
      way.at(-1)!.map((c) => Math.round(c * 1e6) / 1e6),
      Math.round(length * 1e6) / 1e6,
      end,
      short,
    ];
  };

  test('nothing to meet: the whole of it, and nothing is short', () => {
    expect(met(null)).toEqual([[90, 30], 120, 'outline', null]);
  });

  test('a slanting ditch is met where it is crossed, on any stretch', () => {
    expect(met(lines([[20, -10], [30, 10]]))).toEqual([[25, 0], 25, 'receptor', 0]); // prettier-ignore
    expect(met(lines([[30, 10], [50, 20]]))).toEqual([[40, 15], 55, 'receptor', 0]); // prettier-ignore
    expect(met(lines([[60, 20], [80, 40]]))).toEqual([[70, 30], 100, 'receptor', 0]); // prettier-ignore
  });

  test('of two on one stretch the first is met, however they are listed', () => {
    const [near, far] = [[[10, -5], [10, 5]], [[30, -5], [30, 5]]] as [number, number][][]; // prettier-ignore
    expect(met(lines(near!, far!))[1]).toBe(10);
    expect(met(lines(far!, near!))[1]).toBe(10);
  });

  test('one that is touched at its end or at a corner is met; one that stops short is not', () => {
    expect(met(lines([[25, 0], [25, 50]]))).toEqual([[25, 0], 25, 'receptor', 0]); // prettier-ignore
    expect(met(lines([[25, -50], [25, 0]]))).toEqual([[25, 0], 25, 'receptor', 0]); // prettier-ignore
    expect(met(lines([[90, 0], [90, 60]]))).toEqual([[90, 30], 120, 'receptor', 0]); // prettier-ignore
    expect(met(lines([[0, -5], [0, 5]]))).toEqual([[0, 0], 0, 'receptor', 0]); // prettier-ignore
    expect(met(lines([[25, 0.5], [25, 20]]))[2]).toBe('outline'); // prettier-ignore
    expect(met(lines([[25, -20], [25, -0.5]]))[2]).toBe('outline'); // prettier-ignore
    expect(met(lines([[95, 0], [95, 60]]))).toEqual([[90, 30], 120, 'outline', 5]); // prettier-ignore
    expect(met(lines([[0, -5], [90, -5]]))[2]).toBe('outline'); // prettier-ignore
  });

  test('a well is met where the line comes nearest, to a metre, also on a slanting stretch', () => {
    expect(met(points([10, 1]))).toEqual([[10, 0], 10, 'receptor', 0]);
    expect(met(points([10, 1.01]))[2]).toBe('outline');
    expect(met(points([40.5, 20]))).toEqual([[40, 20], 60, 'receptor', 0]);
    expect(met(points([90.8, 30.5]))).toEqual([[90, 30], 120, 'receptor', 0]);
    expect(met(points([-0.5, 0]))).toEqual([[0, 0], 0, 'receptor', 0]);
    expect(met(points([93, 34]))).toEqual([[90, 30], 120, 'outline', 5]);
    const slanting = pathOf([[10, 20], [40, 60]], 'outline', falls, points([25, 40])); // prettier-ignore
    expect(slanting.length).toBeCloseTo(25, 9);
    const still = pathOf([[10, 20], [10, 20]], 'outline', falls, points([10, 20.5])); // prettier-ignore
    expect(still).toMatchObject({ end: 'receptor', length: 0 });
  });

  test('the gradient is that of the whole way by its stretches; a rounding outside the wells counts for nothing', () => {
    const way = [[0, 0], [50, 0], [100, 0]] as const; // prettier-ignore
    const broken = ([x]: readonly [number, number]) =>
      x <= 50 ? 10 - 0.01 * x : 9.5 - 0.001 * (x - 50);
    // 50 m at 0.01 and 50 m at 0.001: 100 / (5000 + 50000).
    expect(pathOf(way, 'outline', broken, null).gradient).toBeCloseTo(100 / 55_000, 12);
    const corner = [...way, [100 + 1e-9, 0]] as const;
    const inside = (place: readonly [number, number]) => (place[0] > 100 ? null : broken(place));
    expect(pathOf(corner, 'outline', inside, null).gradient).toBeCloseTo(100 / 55_000, 12);
    // Where there is no head for longer than that, there is no gradient.
    const off = [...way, [110, 0]] as const;
    expect(pathOf(off, 'outline', inside, null).gradient).toBeNull();
    expect(pathOf([[110, 0], ...way], 'outline', inside, null).gradient).toBeNull();
    expect(pathOf([[0, 0]], 'level', falls, null)).toMatchObject({
      gradient: null,
      length: 0,
      end: 'level',
    });
  });
});

describe('no path, and why', () => {
  const spherical = {
    shape: 'spherical',
    sill: 0.1,
    range: metres(100),
    nugget: 0,
    anisotropy: null,
  } as const;
  const problem = (
    points: readonly SurfacePoint[],
    method: 'triangulated' | 'kriged' | 'kriged about a plane',
    model: object | null,
  ) => {
    const made = surfacePath({ points, method, model: model as never }, [-120, 13], null);
    return made.ok ? null : made.problem;
  };
  test('wells in a line, heads all alike, a variogram that cannot be', () => {
    const line = PLANE.filter(({ y }) => y === 0);
    expect(problem(line, 'triangulated', null)).toBe('The wells span no surface.');
    expect(problem(PLANE, 'kriged', null)).toBe('The heads are all alike: they give no variogram.');
    expect(problem(PLANE, 'kriged', { ...spherical, sill: -1 })).toContain(
      'of the variogram is not a number it can be',
    );
    expect(problem(PLANE, 'kriged', spherical)).toBeNull();
    expect(problem(PLANE, 'kriged about a plane', spherical)).toBeNull();
  });

  test('what ends a line is said of each end', () => {
    for (const words of Object.values(END_WORDS)) expect(words).toMatch(/^It .*\.$/);
    expect(END_WORDS.receptor).toBe('It meets the receptor.');
  });
});
