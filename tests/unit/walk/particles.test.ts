/**
 * Marks that drift the way the water goes. Directions expected of the demo site
 * are those worked by hand in its README; triangles of the surface are SciPy's
 * (scipy.spatial.Delaunay 1.10.1).
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { directionField, isWithin, movingWater } from '../../../src/domain/walk/direction-field';
import { drift, plainness, strewn } from '../../../src/domain/walk/particles';
import { flowOf } from '../../../src/domain/water/flow';
import { randomFrom } from '../../../src/domain/water/random';
import { convexHull, isInside, type XY } from '../../../src/domain/water/surface/hull';
import { slopeOnTin, triangulate } from '../../../src/domain/water/surface/tin';
import { metres } from '../../../src/domain/units';
import { drawParticles, type Pen } from '../../../src/map/scene/draw-particles';
import type { Extent } from '../../../src/map/scene/scene';
import { openFolder } from '../folder';
import { oracleText } from '../surface/oracle';

const { site: osier } = openFolder('demo-sites/osier-bend');
const { site: quellmoor } = openFolder('demo-sites/quellmoor');
const water = movingWater(flowOf(osier, '2025-09', 'shallow'), false);
if (!water) throw new Error('Osier Bend has a direction in September 2025.');

describe('marks over the plane of Osier Bend, September 2025', () => {
  test('drift toward 112.216°, the azimuth worked by hand', () => {
    const marks = strewn(water, 200, randomFrom(7));
    const azimuths = [...marks.east].map(
      (east, i) => ((Math.atan2(east, marks.north[i] ?? 0) * 180) / Math.PI + 360) % 360,
    );
    for (const azimuth of azimuths) expect(azimuth).toBeCloseTo(112.21633565, 3);
  });

  test('all go equally far in a step: they tell no speed', () => {
    const marks = strewn(water, 500, randomFrom(3));
    const [x, y] = [marks.x.slice(), marks.y.slice()];
    drift(marks, water, { seconds: 1 / 60, far: 0.5 }, randomFrom(4));
    let kept = 0;
    for (let i = 0; i < marks.count; i++) {
      if (marks.gone[i] === 0) continue;
      kept++;
      expect(Math.hypot(marks.x[i]! - x[i]!, marks.y[i]! - y[i]!)).toBeCloseTo(0.5, 5);
    }
    expect(kept).toBeGreaterThan(450);
  });

  test('never stand outside the outline of the wells, however long they drift', () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer({ min: 1, max: 40 }), (seed, far) => {
        const random = randomFrom(seed);
        const marks = strewn(water, 40, random);
        for (let step = 0; step < 60; step++) {
          drift(marks, water, { seconds: 0.05, far }, random);
          for (let i = 0; i < marks.count; i++)
            if (!isInside(water.hull, [marks.x[i]!, marks.y[i]!])) return false;
        }
        return true;
      }),
      { numRuns: 25 },
    );
  });
});

describe('no mark drifts', () => {
  test('where the direction is not resolved: Quellmoor, October 2025', () => {
    const flow = flowOf(quellmoor, '2025-10', 'sand');
    expect(flow.resolved).toBe(false);
    expect(movingWater(flow, false)).toBeNull();
    expect(movingWater(flow, true)).toBeNull();
  });

  test('on level ground, and nothing divides by nothing', () => {
    const hull = convexHull([
      [0, 0],
      [10, 0],
      [0, 10],
    ])!;
    const field = directionField(() => [0, 0], hull);
    expect(field.seats).toHaveLength(0);
    const marks = strewn(field, 100, randomFrom(1));
    expect(marks.count).toBe(0);
    drift(marks, field, { seconds: 1, far: 1 }, randomFrom(1));
    expect(marks.x).toHaveLength(0);
  });
});

describe('marks over a triangulated surface', () => {
  const sets = (
    JSON.parse(oracleText('d_tin.json')) as {
      sets: {
        name: string;
        vertices: { x: number; y: number; z: number }[];
        triangles: [number, number, number][];
        unique: boolean;
      }[];
    }
  ).sets.filter(({ unique }) => unique);

  test.each(sets)('go down the plane of the triangle they are over: $name', (set) => {
    const middle = set.vertices[0]!;
    const points = set.vertices.map(({ x, y, z }, i) => ({
      id: String(i),
      x: metres(x - middle.x),
      y: metres(y - middle.y),
      head: metres(z),
      sigma: metres(0),
    }));
    const tin = triangulate(points);
    const hull = convexHull(points.map(({ x, y }): XY => [x, y]));
    if (!tin.ok || !hull) throw new Error('no triangles');
    const field = directionField(([x, y]) => slopeOnTin(tin.value, x, y), hull);
    let compared = 0;
    for (const node of field.seats) {
      const [x, y] = [
        field.frame.x + (node % field.frame.columns) * field.frame.step,
        field.frame.y + Math.floor(node / field.frame.columns) * field.frame.step,
      ];
      const inside = set.triangles.filter((corners) =>
        weights(corners, x, y).every((w) => w > 1e-6),
      );
      if (inside.length !== 1) continue;
      // Head at the node and a step down the water, by the weights of SciPy's triangle.
      const head = (atX: number, atY: number) =>
        weights(inside[0]!, atX, atY).reduce(
          (sum, w, i) => sum + w * points[inside[0]![i]!]!.head,
          0,
        );
      const [east, north] = [field.east[node]!, field.north[node]!];
      const drop = head(x, y) - head(x + east, y + north);
      const across = head(x, y) - head(x - north, y + east);
      expect(drop).toBeGreaterThan(0);
      expect(Math.abs(across)).toBeLessThan(1e-5 * Math.max(1, drop) + 1e-4 * drop);
      compared++;
    }
    expect(compared).toBeGreaterThan(100);

    function weights([i, j, k]: [number, number, number], x: number, y: number) {
      const [a, b, c] = [points[i]!, points[j]!, points[k]!];
      const area = (p: { x: number; y: number }, q: { x: number; y: number }) =>
        (p.x - x) * (q.y - y) - (q.x - x) * (p.y - y);
      const all = area(a, b) + area(b, c) + area(c, a);
      return [area(b, c) / all, area(c, a) / all, area(a, b) / all];
    }
  });
});

test('the outline as lines agrees with the exact outline', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -300, max: 300, noNaN: true }),
      fc.double({ min: -300, max: 300, noNaN: true }),
      (x, y) => {
        // A corner's rounding may fall either way; nothing outside may count as inside by more.
        if (isWithin(water.sides, x, y)) return isInside(water.hull, [x, y]);
        return true;
      },
    ),
  );
});

test('a mark comes and goes softly', () => {
  expect([plainness(0, 4), plainness(2, 4), plainness(4, 4), plainness(9, 4)]).toEqual([
    0, 1, 0, 0,
  ]);
});

describe('marks on a map', () => {
  const marks = strewn(water, 400, randomFrom(11));
  drift(marks, water, { seconds: 0.5, far: 4 }, randomFrom(12));
  // A px a metre about the middle of the wells.
  const onWindow = {
    extent: { west: -300, south: -300, east: 300, north: 300 },
    size: [600, 600],
    centre: [0, 0],
    factor: 1,
    tail: 8,
  } as const;
  const drawn = (words: readonly Extent[]) => {
    const ends: [number, number][] = [];
    const end = (x: number, y: number) => void ends.push([x - 300, 300 - y]);
    const pen: Pen = {
      globalAlpha: 1,
      beginPath: () => {},
      moveTo: end,
      lineTo: end,
      stroke: () => {},
      clearRect: () => {},
    };
    drawParticles(pen, marks, { ...onWindow, words });
    return ends;
  };

  test('are none where words stand, so that no digit is crossed, and the same elsewhere', () => {
    const words = { west: -60, south: -20, east: 60, north: 20 };
    const isOn = ([x, y]: [number, number]) => Math.abs(x) < 60 && Math.abs(y) < 20;
    const all = drawn([]);
    expect(all.some(isOn)).toBe(true);
    const left = drawn([words]);
    expect(left.some(isOn)).toBe(false);
    expect(left.length).toBeGreaterThan(all.length / 2);
    expect(drawn([onWindow.extent])).toEqual([]);
  });
});
