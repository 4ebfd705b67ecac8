import { describe, expect, test } from 'vitest';
import type { Shape } from '../../../src/domain/geometry/shape';
import { metres } from '../../../src/domain/units';
import { pathOf, surfacePath } from '../../../src/domain/water/surface-path';
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
