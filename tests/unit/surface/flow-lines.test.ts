import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lineLength } from '../../../src/domain/water/surface/contour';
import {
  arrowOf,
  flowLine,
  localArrows,
  placesWithin,
  type FlowLine,
  type Slope,
} from '../../../src/domain/water/surface/flow-lines';
import {
  convexHull,
  distanceToHull,
  isInside,
  type XY,
} from '../../../src/domain/water/surface/hull';
import { headAt, slopeAt } from '../../../src/domain/water/surface/kriging';
import { tinFlowLines } from '../../../src/domain/water/surface/tin-flow';
import {
  headOnTin,
  triangleAt,
  triangleSlope,
  triangulate,
} from '../../../src/domain/water/surface/tin';
import { metres } from '../../../src/domain/units';
import { jobSurface } from './gstat';
import { point, siteHeads } from './oracle';

const SQUARE: XY[] = [
  [-100, -100],
  [100, -100],
  [100, 100],
  [-100, 100],
];
const hull = convexHull(SQUARE)!;
const downstream = { way: 'downstream', step: metres(2), longest: metres(1000) } as const;
const upstream = { ...downstream, way: 'upstream' } as const;

describe('on a smooth surface', () => {
  test('a plane falling east 5 in 1000: straight east to the outline', () => {
    const line = flowLine(
      () => [-0.005, 0],
      ([x]) => 20 - 0.005 * x,
      [-50, 10],
      hull,
      downstream,
    );
    expect(line).toMatchObject({ end: 'outline', length: expect.closeTo(150, 9) });
    expect(line?.points.at(-1)).toEqual([expect.closeTo(100, 9), expect.closeTo(10, 9)]);
  });

  test('a valley h = x² + 4y²: the line keeps to the curve y = c·x⁴ it must follow', () => {
    // dx/dt = −2x, dy/dt = −8y gives y/y₀ = (x/x₀)⁴.
    const slope: Slope = ([x, y]) => [2e-4 * x, 8e-4 * y];
    const head = ([x, y]: XY) => 1e-4 * (x * x + 4 * y * y);
    const line = flowLine(slope, head, [90, 60], hull, { ...downstream, step: metres(0.5) })!;
    for (const [x, y] of line.points.filter(([x]) => x > 20))
      expect(y).toBeCloseTo(60 * (x / 90) ** 4, 4);
    expect(['hollow', 'level']).toContain(line.end);
    expect(Math.hypot(...line.points.at(-1)!)).toBeLessThan(2);
  });

  test('upstream it runs the same line the other way', () => {
    const slope: Slope = ([x, y]) => [2e-4 * x, 8e-4 * y];
    const head = ([x, y]: XY) => 1e-4 * (x * x + 4 * y * y);
    const up = flowLine(slope, head, [40, 60 * (40 / 90) ** 4], hull, upstream)!;
    expect(up.end).toBe('outline');
    for (const [x, y] of up.points.slice(0, -1)) expect(y / (60 * (x / 90) ** 4)).toBeCloseTo(1, 4);
  });

  test('from outside the outline, or on level ground, there is no line', () => {
    const head = () => 20;
    expect(flowLine(() => [-0.005, 0], head, [150, 0], hull, downstream)).toBeNull();
    expect(flowLine(() => [1e-9, 0], head, [0, 0], hull, downstream)).toBeNull();
    expect(flowLine(() => null, head, [0, 0], hull, downstream)).toBeNull();
  });

  test('stops after the length asked for', () => {
    const line = flowLine(
      () => [-0.005, 0],
      ([x]) => 20 - 0.005 * x,
      [-50, 10],
      hull,
      { ...downstream, longest: metres(33) },
    );
    expect(line).toMatchObject({ end: 'length', length: expect.closeTo(33, 9) });
  });
});

describe('on a kriged surface', () => {
  const surface = jobSurface('siteE exp UK1');
  const wells = siteHeads('siteE');
  const outline = convexHull(wells.map(({ x, y }) => [x, y]))!;
  const slope: Slope = ([x, y]) => slopeAt(surface, x, y);
  const head = ([x, y]: XY) => headAt(surface, x, y);
  const choice = { way: 'downstream', step: metres(8), longest: metres(5000) } as const;
  const lines = placesWithin(outline, metres(250))
    .map((seed) => flowLine(slope, head, seed, outline, choice))
    .filter((line): line is FlowLine => line !== null);

  test('every line falls all the way, inside the outline, and most reach it', () => {
    expect(lines.length).toBeGreaterThan(40);
    for (const { points } of lines) {
      expect(points.slice(0, -1).every((place) => isInside(outline, place))).toBe(true);
      const falls = points.slice(1).map((place, k) => head(points[k]!) - head(place));
      expect(Math.min(...falls)).toBeGreaterThan(-1e-12);
    }
    const out = lines.filter(({ end }) => end === 'outline');
    expect(out.length / lines.length).toBeGreaterThan(0.5);
    for (const { points } of out)
      expect(distanceToHull(outline, points.at(-1)!)).toBeLessThan(1e-6);
  });

  test('and runs square to the contours: along the slope wherever the slope is smooth', () => {
    let [worst, looked] = [0, 0];
    for (const { points } of lines)
      for (const [i, [x, y]] of points.slice(1).entries()) {
        const [px, py] = points[i]!;
        const middle: XY = [(x + px) / 2, (y + py) / 2];
        if (wells.some((p) => Math.hypot(p.x - middle[0], p.y - middle[1]) < 60)) continue;
        if (Math.hypot(x - px, y - py) < 7) continue;
        const [east, north] = slope(middle)!;
        const [size, step] = [Math.hypot(east, north), Math.hypot(x - px, y - py)];
        if (size < 1e-3) continue;
        worst = Math.max(worst, Math.abs(east * (y - py) - north * (x - px)) / size / step);
        looked += 1;
      }
    expect(looked).toBeGreaterThan(500);
    expect(worst).toBeLessThan(0.01);
  });
});

const tinOf = (...args: Parameters<typeof triangulate>) => {
  const tin = triangulate(...args);
  if (!tin.ok) throw new Error('no triangles');
  return tin.value;
};

describe('on triangles', () => {
  test('a plane: straight across all of them, and out where it must', () => {
    const coordinate = fc.integer({ min: -100, max: 100 });
    const places = fc.uniqueArray(fc.tuple(coordinate, coordinate), {
      minLength: 5,
      maxLength: 25,
      selector: ([x, y]) => `${x} ${y}`,
    });
    fc.assert(
      fc.property(
        places,
        fc.nat(359),
        fc.constantFrom('upstream', 'downstream'),
        (wells, a, way) => {
          const [east, north] = [Math.sin((a * Math.PI) / 180), Math.cos((a * Math.PI) / 180)];
          const heads = wells.map(([x, y], i) =>
            point(`${i}`, x, y, 30 - 0.004 * (east * x + north * y)),
          );
          const outline = convexHull(wells);
          fc.pre(outline !== null);
          const seed: XY = [
            outline.reduce((sum, [x]) => sum + x / outline.length, 0),
            outline.reduce((sum, [, y]) => sum + y / outline.length, 0),
          ];
          const tin = triangulate(heads);
          fc.pre(tin.ok && triangleAt(tin.value, seed) !== null);
          const [line] = tinFlowLines(tin.value, [seed], way, metres(10_000));
          expect(line?.end).toBe('outline');
          const [x, y] = line!.points.at(-1)!;
          const sign = way === 'downstream' ? 1 : -1;
          const length = line!.length;
          expect(
            Math.hypot(x - seed[0] - sign * east * length, y - seed[1] - sign * north * length),
          ).toBeLessThan(1e-6 * (1 + length));
          expect(distanceToHull(outline, [x, y])).toBeLessThan(1e-6);
        },
      ),
    );
  });

  test('a channel: two slopes fall to a common side, and the line runs along it', () => {
    const tin = tinOf([
      point('west high', 0, 0, 10),
      point('east low', 60, 0, 9),
      point('north', 30, 40, 11),
      point('south', 30, -40, 11),
    ]);
    const [line] = tinFlowLines(tin, [[30, 20]], 'downstream', metres(1000));
    expect(line?.points[0]).toEqual([30, 20]);
    expect(line?.points[1]?.[1]).toBeCloseTo(0, 9);
    expect(line?.points[2]).toEqual([60, 0]);
    expect(line?.end).toBe('outline');
  });

  test('a pumped well: lines from all sides end in its hollow, the heads do not say where it goes on', () => {
    const ring = Array.from({ length: 12 }, (_, i) => {
      const t = (i * Math.PI) / 6;
      return point(`R${i}`, 100 * Math.cos(t), 100 * Math.sin(t), 10);
    });
    const tin = tinOf([...ring, point('P', 3, 2, 7)]);
    const seeds = placesWithin(convexHull(ring.map(({ x, y }) => [x, y]))!, metres(35));
    expect(seeds.length).toBeGreaterThan(15);
    for (const line of tinFlowLines(tin, seeds, 'downstream', metres(1000))) {
      expect(line?.end).toBe('hollow');
      expect(line?.points.at(-1)).toEqual([3, 2]);
    }
    for (const line of tinFlowLines(tin, seeds, 'upstream', metres(1000)))
      expect(line?.end).toBe('outline');
  });

  test('a real site: every line falls all the way and is square to the contours in each triangle', () => {
    const wells = siteHeads('siteA');
    const tin = tinOf(wells);
    const outline = convexHull(wells.map(({ x, y }) => [x, y]))!;
    const seeds = placesWithin(outline, metres(60));
    const lines = tinFlowLines(tin, seeds, 'downstream', metres(5000));
    let square = 0;
    for (const line of lines) {
      const heads = line!.points.map(([x, y]) => {
        // The last place may lie outside by rounding.
        const inner = triangleAt(tin, [x, y]) ?? triangleAt(tin, line!.points.at(-2)!);
        return inner === null ? NaN : (headOnTin(tin, x, y) ?? -Infinity);
      });
      const falls = heads.slice(1).map((head, k) => heads[k]! - head);
      expect(Math.min(...falls)).toBeGreaterThan(-1e-9);
      expect(lineLength(line!.points)).toBeCloseTo(line!.length, 6);
      for (const [i, [x, y]] of line!.points.slice(1).entries()) {
        const [px, py] = line!.points[i]!;
        const triangle = triangleAt(tin, [(x + px) / 2, (y + py) / 2]);
        if (triangle === null) continue;
        const [east, north] = triangleSlope(tin, triangle);
        const turned = (east * (y - py) - north * (x - px)) / Math.hypot(east, north);
        if (Math.abs(turned) < 1e-6) square += 1;
      }
    }
    expect(lines).toHaveLength(seeds.length);
    const steps = lines.reduce((sum, line) => sum + line!.points.length - 1, 0);
    // The others run along a side into which two triangles fall.
    expect(square / steps).toBeGreaterThan(0.75);
  });

  test('outside the wells there is none, and no line is longer than asked for', () => {
    const tin = tinOf([point('A', 0, 0, 10), point('B', 100, 0, 9), point('C', 0, 100, 10)]);
    const [outside, short] = tinFlowLines(
      tin,
      [
        [90, 90],
        [10, 10],
      ],
      'downstream',
      metres(25),
    );
    expect(outside).toBeNull();
    expect(short).toMatchObject({ end: 'length', length: 25 });
    expect(short?.points.at(-1)).toEqual([expect.closeTo(35, 9), expect.closeTo(10, 9)]);
  });
});

describe('arrows', () => {
  test.each([
    ['high in the south, so north', [0, -0.01], 0],
    ['high in the west, so east', [-0.01, 0], 90],
    ['high in the north, so south', [0, 0.01], 180],
    ['high in the east, so west', [0.01, 0], 270],
  ] as const)('%s', (_, slope, direction) => {
    const arrow = arrowOf([0, 0], slope);
    expect(arrow.direction).toBeCloseTo(direction, 9);
    expect(arrow.gradient).toBeCloseTo(0.01, 12);
  });

  test('level ground has no direction', () => {
    expect(arrowOf([0, 0], [1e-8, 1e-8])).toMatchObject({ direction: null });
  });

  test('every 50 m inside a square of 200 m: 25, and none where there is no surface', () => {
    const arrows = localArrows(([x]) => (x > 75 ? null : [-0.01, 0]), hull, metres(50));
    expect(placesWithin(hull, metres(50))).toHaveLength(25);
    expect(arrows).toHaveLength(20);
    for (const { direction } of arrows) expect(direction).toBeCloseTo(90, 9);
    expect(placesWithin(hull, metres(0))).toEqual([]);
  });
});
