import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { XY } from '../../../src/domain/geometry/shape';
import { chosen } from '../../../src/domain/layout/given';
import { groundBetween, type SurveyedGround } from '../../../src/domain/layout/ground-elevation';
import { inUnits, metres } from '../../../src/domain/units';
import { expectToWorkOut } from './calculator';

const point = (id: string, x: number, y: number, elevation: number): SurveyedGround => ({
  id,
  at: [x, y],
  elevation: chosen(elevation, 'ft', id),
});

const corners = [
  point('A', 2_963_500, 254_700, 100),
  point('B', 2_963_600, 254_700, 104),
  point('C', 2_963_500, 254_800, 108),
];

describe('ground between three surveyed points', () => {
  const ground = groundBetween(corners);

  test.each<[string, XY, number]>([
    ['at a point it is the point’s', [2_963_600, 254_700], 104],
    ['halfway along a side it is the mean', [2_963_550, 254_700], 102],
    ['on the outermost line it is still inside', [2_963_550, 254_750], 106],
    ['in the middle', [2_963_525, 254_725], 103],
  ])('%s', (_, at, expected) => {
    const found = ground(at);
    expect(found.ok && inUnits(found.value.elevation.value, 'ft')).toBeCloseTo(expected, 9);
    if (found.ok) expectToWorkOut(found.value.elevation.work, 'ft');
  });

  test('it says between which points, and how far the nearest is', () => {
    const found = ground([2_963_503, 254_704]);
    expect(found.ok && [...found.value.between].sort()).toEqual(['A', 'B', 'C']);
    expect(found.ok && found.value.nearest).toEqual({ id: 'A', distance: 5 });
  });

  test('outside them there is none, only how far the nearest is', () => {
    expect(ground([2_963_497, 254_696])).toEqual({
      ok: false,
      problem: { kind: 'outside-survey', nearest: { id: 'A', distance: 5 } },
    });
    expect(ground([2_963_551, 254_751]).ok).toBe(false);
  });
});

test('two points, or points in a line, are not enough', () => {
  expect(groundBetween(corners.slice(0, 2))([0, 0])).toEqual({
    ok: false,
    problem: { kind: 'too-few', have: 2 },
  });
  const line = [point('A', 0, 0, 1), point('B', 10, 10, 2), point('C', 30, 30, 3)];
  expect(groundBetween(line)([5, 5])).toEqual({ ok: false, problem: { kind: 'in-a-line' } });
  const one = [point('A', 7, 7, 1), point('B', 7, 7, 2), point('C', 7, 7, 3)];
  expect(groundBetween(one)([7, 7])).toEqual({ ok: false, problem: { kind: 'in-a-line' } });
});

// Linear values in Delaunay triangles by scipy 1.10.1, decided again in exact rationals.
describe('against scipy and exact rationals', () => {
  type Set = {
    name: string;
    unique: boolean;
    vertices: { id: string; x: number; y: number; z: number }[];
    targets: { x: number; y: number; value: number | null }[];
  };
  const { sets } = JSON.parse(
    readFileSync(new URL('../../fixtures/oracles/d_tin.json', import.meta.url), 'utf8'),
  ) as { sets: Set[] };
  const sure = sets.filter(({ unique }) => unique);

  test('four of the five sets have one triangulation only', () => {
    expect([sets.length, sure.length]).toEqual([5, 4]);
  });

  test.each(sure.map((set) => [set.name, set] as const))('%s', (_, { vertices, targets }) => {
    const ground = groundBetween(vertices.map(({ id, x, y, z }) => point(id, x, y, z)));
    for (const { x, y, value } of targets) {
      const found = ground([x, y]);
      if (value === null) expect(found).toMatchObject({ problem: { kind: 'outside-survey' } });
      else expect(found.ok && inUnits(found.value.elevation.value, 'ft')).toBeCloseTo(value, 9);
    }
  });
});

describe('for any survey', () => {
  const coordinate = fc.integer({ min: 0, max: 100 });
  const places = fc.uniqueArray(fc.tuple(coordinate, coordinate), {
    minLength: 3,
    maxLength: 30,
    selector: ([x, y]) => `${x} ${y}`,
  });

  test('a level slope is found again anywhere within it', () => {
    fc.assert(
      fc.property(places, coordinate, coordinate, (all, x, y) => {
        const slope = (px: number, py: number) => 50 + 0.02 * px - 0.03 * py;
        const ground = groundBetween(
          all.map(([px, py], i) => point(`${i}`, px, py, slope(px, py))),
        );
        const found = ground([x, y]);
        fc.pre(found.ok);
        expect(found.ok && inUnits(found.value.elevation.value, 'ft')).toBeCloseTo(slope(x, y), 8);
      }),
    );
  });

  test('it never goes above the highest or below the lowest point it lies between', () => {
    fc.assert(
      fc.property(places, coordinate, coordinate, (all, x, y) => {
        const surveyed = all.map(([px, py], i) => point(`${i}`, px, py, (i * 37) % 11));
        const found = groundBetween(surveyed)([x, y]);
        fc.pre(found.ok);
        if (!found.ok) return;
        const three = found.value.between.map(
          (id) => surveyed.find((one) => one.id === id)?.elevation.value ?? metres(NaN),
        );
        expect(found.value.elevation.value).toBeGreaterThanOrEqual(Math.min(...three) - 1e-9);
        expect(found.value.elevation.value).toBeLessThanOrEqual(Math.max(...three) + 1e-9);
      }),
    );
  });

  test('the order of questions does not change an answer', () => {
    fc.assert(
      fc.property(
        places,
        fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 9 }),
        (all, asked) => {
          const surveyed = all.map(([x, y], i) => point(`${i}`, x, y, (i * 37) % 11));
          const together = groundBetween(surveyed);
          for (const at of asked) {
            const [one, alone] = [together(at), groundBetween(surveyed)(at)];
            expect(one.ok).toBe(alone.ok);
            if (one.ok && alone.ok)
              expect(one.value.elevation.value).toBeCloseTo(alone.value.elevation.value, 9);
          }
        },
      ),
    );
  });
});
