import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lineLength, tinContours } from '../../../src/domain/water/surface/contour';
import type { XY } from '../../../src/domain/water/surface/hull';
import type { SurfacePoint } from '../../../src/domain/water/surface/surface-point';
import {
  cornersOf,
  headOnTin,
  triangleAt,
  triangleCount,
  slopeOnTin,
  triangulate,
  withoutTrianglesAcross,
  type Tin,
} from '../../../src/domain/water/surface/tin';
import { metres } from '../../../src/domain/units';
import { oracleText, point, SIX_WELLS } from './oracle';

const tinOf = (points: readonly SurfacePoint[]): Tin => {
  const tin = triangulate(points);
  if (!tin.ok) throw new Error(JSON.stringify(tin.problem));
  return tin.value;
};

type OracleSet = {
  name: string;
  vertices: { id: string; x: number; y: number; z: number }[];
  triangles: [number, number, number][];
  hull_edges: [number, number][];
  unique: boolean;
  targets: { x: number; y: number; value: number | null; triangle: number | null }[];
  contours: {
    level: number;
    crossings: [number, number, number, number, boolean][];
    vertices_on_level: number[];
    segments: number;
    total_length: number;
  }[];
};

const sets = (JSON.parse(oracleText('d_tin.json')) as { sets: OracleSet[] }).sets;
const unique = sets.filter((set) => set.unique);
const tinOfSet = ({ vertices }: OracleSet) =>
  tinOf(vertices.map(({ id, x, y, z }) => point(id, x, y, z)));

// Exact rational in-circle tests and barycentric values; scipy 1.10 agrees to 2e-13.
describe('the reference triangulates, interpolates and contours alike', () => {
  test('in four sets with one right answer each', () => {
    expect(unique.map(({ name }) => name)).toEqual(['siteA', 'siteB', 'siteE', 'topo']);
  });

  test.each(unique)('$name: the same triangles', (set) => {
    const tin = tinOfSet(set);
    const triangles = Array.from({ length: triangleCount(tin) }, (_, t) => {
      const [a, b, c] = cornersOf(tin, t);
      const least = Math.min(a, b, c);
      return least === a ? [a, b, c] : least === b ? [b, c, a] : [c, a, b];
    });
    const sorted = (list: readonly (readonly number[])[]) => list.map(String).sort();
    expect(sorted(triangles)).toEqual(sorted(set.triangles));
    const outer = [...tin.across].flatMap((across, k) => {
      const [a, b] = [tin.corners[k]!, tin.corners[k - (k % 3) + ((k + 1) % 3)]!];
      return across === -1 ? [[Math.min(a, b), Math.max(a, b)]] : [];
    });
    expect(sorted(outer)).toEqual(sorted(set.hull_edges));
  });

  test.each(unique)('$name: the same head at 156 places, none outside the outline', (set) => {
    const tin = tinOfSet(set);
    expect(set.targets).toHaveLength(156);
    for (const { x, y, value } of set.targets) {
      const head = headOnTin(tin, x, y);
      if (value === null) expect(head).toBeNull();
      else expect(Math.abs((head ?? NaN) / value - 1)).toBeLessThan(1e-9);
    }
  });

  test.each(unique)('$name: contours through the same points, and as long', (set) => {
    const tin = tinOfSet(set);
    for (const { level, crossings, vertices_on_level, total_length } of set.contours) {
      const lines = tinContours(tin, metres(level));
      const places = lines.flatMap(({ points, closed }) => (closed ? points.slice(1) : points));
      const others = vertices_on_level.map((i) => [set.vertices[i]!.x, set.vertices[i]!.y]);
      const expected = [...crossings.map(([, , x, y]) => [x, y]), ...others];
      const apart = ([x, y]: readonly number[], [u, v]: readonly number[]) =>
        Math.hypot(x! - u!, y! - v!);
      const scale = Math.abs(set.vertices[0]!.x) + Math.abs(set.vertices[0]!.y);
      for (const place of expected.slice(0, crossings.length))
        expect(Math.min(...places.map((p) => apart(p, place)))).toBeLessThan(1e-9 * scale);
      for (const place of places)
        expect(Math.min(...expected.map((p) => apart(p, place)))).toBeLessThan(1e-9 * scale);
      const length = lines.reduce((sum, { points }) => sum + lineLength(points), 0);
      expect(Math.abs(length - total_length)).toBeLessThan(1e-9 * scale);
    }
  });

  test('a regular grid of wells on a plane: any diagonal gives the plane', () => {
    const set = sets.find(({ name }) => name === 'degenerate_plane')!;
    const tin = tinOfSet(set);
    expect(triangleCount(tin)).toBe(set.triangles.length);
    for (const { x, y, value } of set.targets) {
      const head = headOnTin(tin, x, y);
      if (value === null) expect(head).toBeNull();
      else expect(head).toBeCloseTo(value, 9);
    }
  });
});

// Computed independently.
describe('six wells in feet', () => {
  const tin = tinOf(SIX_WELLS);

  test('at (1100, 5080) the triangulated head is 92.4173170732', () => {
    expect(headOnTin(tin, 1100, 5080)).toBeCloseTo(92.4173170732, 10);
  });

  test('at (1400, 5000), outside the wells, there is no head', () => {
    expect(headOnTin(tin, 1400, 5000)).toBeNull();
  });
});

describe('no surface, and why', () => {
  const problem = (points: readonly SurfacePoint[]) => {
    const tin = triangulate(points);
    return tin.ok ? null : tin.problem;
  };

  test('two wells are too few', () => {
    expect(problem(SIX_WELLS.slice(0, 2))).toEqual({ kind: 'too-few-wells', have: 2, need: 3 });
  });

  test('wells in a line make no triangle', () => {
    const line = [0, 1, 2, 5].map((k) => point(`${k}`, 2_963_500 + 10 * k, 254_000 + 20 * k, k));
    expect(problem(line)).toEqual({ kind: 'wells-in-a-line' });
  });
});

test('two wells in one place are one corner, at the mean of their heads weighted by error', () => {
  const tin = tinOf([
    point('A', 0, 0, 10, 0.01),
    point('B', 10, 0, 9, 0.01),
    point('C', 0, 10, 8, 0.01),
    point('C2', 0, 10, 8.05, 0.02),
  ]);
  expect(triangleCount(tin)).toBe(1);
  expect(headOnTin(tin, 0, 10)).toBeCloseTo(8.01, 12);
});

test('three wells are the three-point problem: C. 0.002236 down to S 63.4° E', () => {
  // Wells (0,0), (100,0), (100,100) m, water 10.0, 10.2, 10.1 m below level ground (G. M. Masters,
  // Introduction to environmental engineering and science, ch. 5; attribution from memory).
  const tin = tinOf([
    point('1', 0, 0, -10),
    point('2', 100, 0, -10.2),
    point('3', 100, 100, -10.1),
  ]);
  const [a = NaN, b = NaN] = slopeOnTin(tin, 60, 20) ?? [];
  expect(slopeOnTin(tin, 20, 60)).toBeNull();
  expect(a).toBeCloseTo(-0.002, 15);
  expect(b).toBeCloseTo(0.001, 15);
});

describe('for any wells not in a line', () => {
  const coordinate = fc.integer({ min: -500, max: 500 });
  const places = fc.uniqueArray(fc.tuple(coordinate, coordinate), {
    minLength: 3,
    maxLength: 30,
    selector: ([x, y]) => `${x} ${y}`,
  });
  const slope = fc.double({ min: -0.05, max: 0.05, noNaN: true });
  const share = fc.integer({ min: 1, max: 99 }).map((percent) => percent / 100);

  test('a plane of heads is found again, and every point among the wells has a triangle', () => {
    fc.assert(
      fc.property(places, slope, slope, share, share, (wells, a, b, s, t) => {
        const tin = triangulate(wells.map(([x, y], i) => point(`${i}`, x, y, 30 + a * x + b * y)));
        fc.pre(tin.ok);
        const [p, q, r] = cornersOf(tin.value, 0).map((k) => wells[k]!);
        const [u, v] = s + t > 1 ? [1 - s, 1 - t] : [s, t];
        const place: XY = [
          p![0] + u * (q![0] - p![0]) + v * (r![0] - p![0]),
          p![1] + u * (q![1] - p![1]) + v * (r![1] - p![1]),
        ];
        const last = triangleCount(tin.value) - 1;
        fc.pre(u + v < 0.999);
        expect(triangleAt(tin.value, place, last)).toBe(0);
        expect(headOnTin(tin.value, ...place)).toBeCloseTo(30 + a * place[0] + b * place[1], 9);
      }),
    );
  });

  test('no well lies inside the circle of a triangle', () => {
    fc.assert(
      fc.property(places, (wells) => {
        const tin = triangulate(wells.map(([x, y], i) => point(`${i}`, x, y, 0)));
        fc.pre(tin.ok);
        for (let t = 0; t < triangleCount(tin.value); t++) {
          const [a, b, c] = cornersOf(tin.value, t).map((k) => wells[k]!.map(BigInt));
          for (const [x, y] of wells) {
            const rows = [a!, b!, c!].map(([px, py]) => {
              const [dx, dy] = [px! - BigInt(x), py! - BigInt(y)];
              return [dx, dy, dx * dx + dy * dy] as const;
            });
            const [r, s, u] = rows as unknown as [bigint[], bigint[], bigint[]];
            const inCircle =
              r[0]! * (s[1]! * u[2]! - s[2]! * u[1]!) -
              r[1]! * (s[0]! * u[2]! - s[2]! * u[0]!) +
              r[2]! * (s[0]! * u[1]! - s[1]! * u[0]!);
            expect(inCircle <= 0n).toBe(true);
          }
        }
      }),
    );
  });
});

describe('a wall that lets no water through', () => {
  const wells = [
    point('A', 0, 0, 10),
    point('B', 40, 0, 10),
    point('C', 0, 30, 10),
    point('D', 40, 30, 10),
    point('E', 100, 0, 5),
    point('F', 140, 0, 5),
    point('G', 100, 30, 5),
    point('H', 140, 30, 5),
  ];
  const tin = withoutTrianglesAcross(tinOf(wells), [
    [
      [70, -10],
      [70, 50],
    ],
  ]);

  test('ties no head on one side to a head on the other', () => {
    expect(headOnTin(tin, 70, 15)).toBeNull();
    expect(headOnTin(tin, 20, 15)).toBeCloseTo(10, 12);
    expect(headOnTin(tin, 120, 15)).toBeCloseTo(5, 12);
    expect(tinContours(tin, metres(7.5))).toEqual([]);
  });

  test('and changes nothing where it does not run', () => {
    const clear = withoutTrianglesAcross(tinOf(wells), [
      [
        [70, -50],
        [70, -10],
      ],
    ]);
    expect(clear).toEqual(tinOf(wells));
  });
});
