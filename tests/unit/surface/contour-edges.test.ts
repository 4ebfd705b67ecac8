import { describe, expect, test } from 'vitest';
import { metres } from '../../../src/domain/units';
import {
  gridContours,
  lineLength,
  tinContours,
  withinHull,
} from '../../../src/domain/water/surface/contour';
import {
  contourLevels,
  intervalVerdict,
  roundInterval,
  usualInterval,
} from '../../../src/domain/water/surface/contour-interval';
import {
  farFromWells,
  labelPlaces,
  piecesOf,
  placeAlong,
  unsure,
  usualReach,
} from '../../../src/domain/water/surface/contour-pieces';
import { flowLine } from '../../../src/domain/water/surface/flow-lines';
import {
  convexHull,
  distanceToHull,
  isInside,
  type XY,
} from '../../../src/domain/water/surface/hull';
import type { SurfaceGrid } from '../../../src/domain/water/surface/surface-grid';
import { tinFlowLines } from '../../../src/domain/water/surface/tin-flow';
import { triangulate } from '../../../src/domain/water/surface/tin';
import { point } from './oracle';

const tinOf = (...wells: Parameters<typeof point>[]) => {
  const tin = triangulate(wells.map((one) => point(...one)));
  if (!tin.ok) throw new Error('no triangles');
  return tin.value;
};

describe('levels to draw', () => {
  test('a head that is a level but for rounding has its line, at either end', () => {
    expect(0.1 * 3).not.toBe(0.3);
    expect(contourLevels(metres(0.3), metres(0.35), metres(0.1))).toHaveLength(1);
    expect(contourLevels(metres(0.25), metres(0.3), metres(0.1))).toHaveLength(1);
    expect(contourLevels(metres(0.1 * 3), metres(0.1 * 3), metres(0.1))).toEqual([
      expect.closeTo(0.3, 12),
    ]);
  });

  test('heads the wrong way about, or an interval below nothing, draw nothing', () => {
    expect(contourLevels(metres(2), metres(1), metres(0.1))).toEqual([]);
    expect(contourLevels(metres(1), metres(2), metres(-0.1))).toEqual([]);
    expect(contourLevels(metres(NaN), metres(2), metres(0.1))).toEqual([]);
    expect(contourLevels(metres(1), metres(2), metres(Infinity))).toEqual([]);
  });

  test('five hundred lines are drawn, five hundred and one are not, wherever they begin', () => {
    expect(contourLevels(metres(1), metres(500), metres(1))).toHaveLength(500);
    expect(contourLevels(metres(0), metres(500), metres(1))).toEqual([]);
    expect(contourLevels(metres(1000), metres(1010), metres(1))).toHaveLength(11);
    expect(contourLevels(metres(-700), metres(-1), metres(1))).toEqual([]);
  });

  test('three times the error is the limit itself, four times it is supported', () => {
    const honest = { headError: metres(0.25), least: metres(0.75), comfortable: metres(1) };
    expect(intervalVerdict(metres(0.74), honest)).toBe('finer than the heads’ error');
    expect(intervalVerdict(metres(0.75), honest)).toBe('at the limit');
    expect(intervalVerdict(metres(0.99), honest)).toBe('at the limit');
    expect(intervalVerdict(metres(1), honest)).toBe('supported');
  });

  test('1, 2 and 5 of every power of ten are themselves to the last bit', () => {
    for (let power = -6; power <= 4; power++)
      for (const one of [1, 2, 5]) {
        const round = Number(`${one}e${power}`);
        expect(roundInterval(metres(round), 'm')).toBe(round);
      }
  });

  test('with eight lines unless said: 8 m in metres, 80 m in tens; with four in twos', () => {
    const wells = (range: number) => [point('A', 0, 0, 3), point('B', 9, 9, 3 + range)];
    expect(usualInterval(wells(8), 'm')).toBe(1);
    expect(usualInterval(wells(80), 'm')).toBe(10);
    expect(usualInterval(wells(8), 'm', 4)).toBe(2);
  });
});

describe('known and inferred', () => {
  const wells = [point('A', 3, 40, 10), point('B', 3, -40, 9)];

  test('a distance of exactly the reach is within it', () => {
    const far = farFromWells(wells, metres(20));
    expect([far([3, 60]), far([3, 60.001]), far([23, -40]), far([3, 0])]).toEqual([
      false,
      true,
      false,
      true,
    ]);
    const doubtful = unsure(([x]) => x, metres(20));
    expect([doubtful([20, 0]), doubtful([20.001, 0])]).toEqual([false, true]);
  });

  const along = (...points: XY[]) => ({ level: metres(9.5), closed: false, points });
  const ends = (line: ReturnType<typeof along>, wellsAt: XY[], reach: number, every: number) =>
    piecesOf(
      line,
      farFromWells(
        wellsAt.map(([x, y], i) => point(`${i}`, x, y, 9)),
        metres(reach),
      ),
      metres(every),
    ).map(({ inferred, points }) => [inferred, ...points.at(-1)!.map((c) => Math.round(c * 100) / 100)]); // prettier-ignore

  test('a line over the middle of the frame is looked at as closely as any', () => {
    expect(ends(along([-80, 0], [80, 0]), [[0, 0]], 20, 5)).toEqual([
      [true, -20, 0],
      [false, 20, 0],
      [true, 80, 0],
    ]);
    expect(ends(along([0, -80], [0, 80]), [[0, 0]], 20, 5)).toEqual([
      [true, 0, -20],
      [false, 0, 20],
      [true, 0, 80],
    ]);
  });

  test('a known stretch of 1.2 m is found when looked for every half metre', () => {
    expect(ends(along([0, 0], [100, 0]), [[41.3, 0]], 0.6, 0.5)).toEqual([
      [true, 40.7, 0],
      [false, 41.9, 0],
      [true, 100, 0],
    ]);
  });

  test('a turn in the last step counts, and one at a bend is carried on', () => {
    expect(ends(along([0, 0], [100, 0]), [[0, 0]], 98, 10)).toEqual([
      [false, 98, 0],
      [true, 100, 0],
    ]);
    expect(ends(along([0, 0], [50, 0], [50, 50]), [[0, 0]], 60, 10)).toEqual([
      [false, 50, 33.17], // 60² − 50² = 33.17²
      [true, 50, 50],
    ]);
  });

  test('a line of no points or of one is no piece', () => {
    expect(piecesOf(along(), () => true, metres(5))).toEqual([]);
    expect(piecesOf(along([3, 3]), () => true, metres(5))).toEqual([]);
    expect(piecesOf(along([3, 3], [3, 3]), () => false, metres(5))).toEqual([]);
  });

  test('the usual reach is the middle one of the distances to a neighbour, in any order', () => {
    // Nearest: A–B 30, B–A 30, C–B 40 (up), D–C 100, E–D 7 twice.
    const places: XY[] = [[0, 0], [30, 0], [30, 40], [130, 40], [130, 47]]; // prettier-ignore
    const reach = (order: readonly number[]) =>
      usualReach(order.map((i) => point(`${i}`, ...places[i]!, 9)));
    expect(reach([0, 1, 2, 3, 4])).toBe(30);
    expect(reach([2, 4, 1, 3, 0])).toBe(30);
    // Two readings of one well are no distance apart.
    expect(usualReach([point('A', 5, 5, 9), point('A', 5, 5, 9), point('B', 5, 17, 9)])).toBe(12);
    expect(usualReach([point('A', 5, 5, 9), point('A', 5, 5, 9)])).toBeNull();
  });
});

describe('where levels are written', () => {
  const line = (...points: XY[]) => ({ level: metres(9.5), closed: false, points });
  const turned = (...points: XY[]) =>
    labelPlaces(line(...points), metres(1000), metres(10))[0]?.turned;

  test('upright whichever way the line runs', () => {
    expect(turned([0, 0], [0, 40])).toBeCloseTo(90, 9);
    expect(turned([0, 40], [0, 0])).toBeCloseTo(90, 9);
    expect(turned([0, 0], [-40, 40])).toBeCloseTo(-45, 9);
    expect(turned([0, 0], [-40, 0])).toBeCloseTo(0, 9);
    expect(turned([0, 0], [40, -40])).toBeCloseTo(-45, 9);
    expect(turned([0, 0], [-40, -69.282])).toBeCloseTo(60, 3);
  });

  test('round a bend along the chord that the text spans', () => {
    expect(turned([0, 0], [10, 0], [10, 10])).toBeCloseTo(45, 9);
    // Text of 10 m from 7.5 to 17.5 m of 25: 7.5 east of 15, then 2.5 up.
    expect(turned([0, 0], [15, 0], [15, 10])).toBeCloseTo(
      (Math.atan2(2.5, 7.5) * 180) / Math.PI,
      9,
    );
  });

  test('a line as long as its text has one, a shorter none; the further ones stand clear of the ends', () => {
    const count = (length: number, every: number, text: number) =>
      labelPlaces(line([0, 0], [length, 0]), metres(every), metres(text)).length;
    expect(count(10, 100, 10)).toBe(1);
    expect(count(9.99, 100, 10)).toBe(0);
    expect(count(210, 100, 20)).toBe(1); // a second would end 5 m past the line
    expect(count(220, 100, 20)).toBe(3);
    expect(count(330, 100, 140)).toBe(1);
    expect(labelPlaces(line([0, 0], [330, 0]), metres(100), metres(10))[0]?.level).toBe(9.5);
  });

  test('a place along a line that stands still for a while, and at its corners', () => {
    const still: XY[] = [[2, 1], [2, 1], [2, 5], [2, 5], [2, 9]]; // prettier-ignore
    expect(placeAlong(still, 0)).toEqual([2, 1]);
    expect(placeAlong(still, 4)).toEqual([2, 5]);
    expect(placeAlong(still, 6)).toEqual([2, 7]);
    expect(placeAlong([[2, 1]], 6)).toEqual([2, 1]);
  });
});

describe('a ring cut by the outline', () => {
  const frame = { x: metres(-100), y: metres(-100), step: metres(5), columns: 41, rows: 41 };
  const cone = (x: number, y: number) => 10 - 0.01 * Math.hypot(x, y);
  const grid: SurfaceGrid = {
    frame,
    heads: Float64Array.from({ length: 41 * 41 }, (_, i) =>
      cone(-100 + 5 * (i % 41), -100 + 5 * Math.floor(i / 41)),
    ),
    variances: null,
  };
  const [ring] = gridContours(grid, metres(9.4));
  const band = (south: number, north: number) =>
    convexHull([
      [-90, south],
      [90, south],
      [90, north],
      [-90, north],
    ])!;

  // Of a circle of 60 m, the part below 20 m: π + 2·arcsin(1/3) of it.
  const arc = 60 * (Math.PI + 2 * Math.asin(1 / 3));

  test.each([
    ['in the north', band(-90, 20)],
    ['in the south', band(-20, 90)],
  ])('%s is one open line, wherever the ring was begun', (_, hull) => {
    expect(ring?.closed).toBe(true);
    const parts = withinHull([ring!], hull);
    expect(parts).toHaveLength(1);
    const [{ points, closed, level }] = parts as [(typeof parts)[0]];
    expect([closed, level]).toEqual([false, 9.4]);
    expect(lineLength(points) / arc).toBeCloseTo(1, 2);
    for (const end of [points[0]!, points.at(-1)!])
      expect(distanceToHull(hull, end)).toBeLessThan(1e-9);
    for (const place of points) expect(isInside(hull, place) || distanceToHull(hull, place) < 1e-9).toBe(true); // prettier-ignore
    // No point twice: where it was begun it goes on.
    expect(new Set(points.map(String)).size).toBe(points.length);
  });

  test('in the north and in the south it is two lines', () => {
    const parts = withinHull([ring!], band(-20, 20));
    expect(parts).toHaveLength(2);
    for (const { points } of parts)
      expect(lineLength(points)).toBeCloseTo(120 * Math.asin(1 / 3), 0);
  });

  test('outside altogether it is nothing; inside altogether it is itself', () => {
    expect(withinHull([ring!], band(70, 90))).toEqual([]);
    expect(withinHull([ring!], band(-90, 90))).toEqual([ring]);
  });

  test('one well high among four is a closed ring of the triangles, too', () => {
    const tin = tinOf(['N', 0, 50, 5], ['E', 50, 0, 5], ['S', 0, -50, 5], ['W', -50, 0, 5], ['M', 1, 2, 9]); // prettier-ignore
    const [only, ...others] = tinContours(tin, metres(7));
    expect(others).toEqual([]);
    expect(only).toMatchObject({ closed: true });
    expect(only?.points.map(([x, y]) => [x, y].map((c) => Math.round(c * 10) / 10))).toHaveLength(
      5,
    );
  });
});

describe('where flow lines end', () => {
  const downstream = { way: 'downstream', step: metres(2), longest: metres(500) } as const;
  const hull = convexHull([
    [-100, -100],
    [100, -100],
    [100, 100],
    [-100, 100],
  ])!;

  test('a slope that says down where the head goes up ends in a hollow, or upstream on a top', () => {
    const rising = ([x]: XY) => 20 + 0.01 * x;
    const down = flowLine(() => [-0.005, 0], rising, [0, 0], hull, downstream);
    expect(down).toMatchObject({ end: 'hollow' });
    const falling = ([x]: XY) => 20 - 0.01 * x;
    const up = flowLine(() => [0.005, 0], falling, [0, 0], hull, {
      ...downstream,
      way: 'upstream',
    });
    expect(up).toMatchObject({ end: 'top' });
  });

  /** Two triangles that share the side from south to north, at `side`; west and east at `outer`. */
  const fold = (side: number, outer: number) =>
    tinOf(['W', -10, 0, outer], ['E', 10, 0, outer], ['S', 0, -8, side], ['N', 0, 8, side]);
  const [from] = [[-3, 1] as XY];

  test('a valley floor that does not fall ends a line, and so does a level ridge upstream', () => {
    const [down] = tinFlowLines(fold(5, 8), [from], 'downstream', metres(100));
    expect(down).toMatchObject({ end: 'hollow', points: [from, [expect.closeTo(0, 12), 1]] });
    expect(down?.length).toBeCloseTo(3, 12);
    const [up] = tinFlowLines(fold(8, 5), [from], 'upstream', metres(100));
    expect(up).toMatchObject({ end: 'top', points: [from, [expect.closeTo(0, 12), 1]] });
  });

  test('the other way it leaves by the outline', () => {
    const [up] = tinFlowLines(fold(5, 8), [from], 'upstream', metres(100));
    expect(up).toMatchObject({ end: 'outline', way: 'upstream' });
    // Due west at y = 1 to the side from W to N, x = −10 + 1.25.
    expect(up?.points.at(-1)).toEqual([expect.closeTo(-8.75, 12), expect.closeTo(1, 12)]);
  });

  test('a valley floor that falls is followed to the well at its end', () => {
    const tin = tinOf(['W', -10, 0, 9], ['E', 10, 0, 9], ['S', 0, -8, 6], ['N', 0, 8, 5]);
    const [down] = tinFlowLines(tin, [[-3, 1]], 'downstream', metres(100));
    expect(down?.points.at(-1)).toEqual([0, 8]);
    expect(down?.end).toBe('outline');
    const ridge = tinOf(['W', -10, 0, 2], ['E', 10, 0, 2], ['S', 0, -8, 6], ['N', 0, 8, 5]);
    const [up] = tinFlowLines(ridge, [[-3, 1]], 'upstream', metres(100));
    expect(up?.points.at(-1)).toEqual([0, -8]);
  });

  test('a line as long as asked for ends there, on its way', () => {
    const [down] = tinFlowLines(fold(5, 8), [from], 'downstream', metres(2));
    expect(down).toMatchObject({ end: 'length', length: 2 });
    expect(down?.points.at(-1)).toEqual([expect.closeTo(-1, 12), expect.closeTo(1, 12)]);
  });

  test('a pit among wells draws every line into it, and a mound sends every line out', () => {
    const around: Parameters<typeof point>[] = [['N', 0, 50, 5], ['E', 50, 0, 5], ['S', 0, -50, 5], ['W', -50, 0, 5]]; // prettier-ignore
    const seeds: XY[] = [[10, 10], [-10, 12], [-14, -10], [12, -9]]; // prettier-ignore
    const pit = tinOf(...around, ['M', 1, 2, 2]);
    for (const line of tinFlowLines(pit, seeds, 'downstream', metres(500))) {
      expect(line?.end).toBe('hollow');
      expect(line?.points.at(-1)).toEqual([1, 2]);
    }
    const mound = tinOf(...around, ['M', 1, 2, 9]);
    for (const line of tinFlowLines(mound, seeds, 'upstream', metres(500))) {
      expect(line?.end).toBe('top');
      expect(line?.points.at(-1)).toEqual([1, 2]);
    }
    for (const line of tinFlowLines(mound, seeds, 'downstream', metres(500)))
      expect(line?.end).toBe('outline');
  });

  test('from level ground, and from outside, there is no line', () => {
    const flat = tinOf(['W', -10, 0, 5], ['E', 10, 0, 5], ['S', 0, -8, 5], ['N', 0, 8, 5]);
    expect(tinFlowLines(flat, [[1, 1]], 'downstream', metres(10))).toEqual([null]);
    expect(tinFlowLines(fold(5, 8), [[30, 1]], 'downstream', metres(10))).toEqual([null]);
  });
});
