import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  gridContours,
  lineLength,
  tinContours,
  withinHull,
} from '../../../src/domain/water/surface/contour';
import {
  contourLevels,
  honestInterval,
  intervalVerdict,
  roundInterval,
  usualInterval,
} from '../../../src/domain/water/surface/contour-interval';
import {
  farFromWells,
  labelPlaces,
  piecesOf,
  unsure,
  placeAlong,
  usualReach,
} from '../../../src/domain/water/surface/contour-pieces';
import {
  convexHull,
  distanceToHull,
  isInside,
  type XY,
} from '../../../src/domain/water/surface/hull';
import {
  frameOver,
  insideMask,
  nodeAt,
  type SurfaceGrid,
} from '../../../src/domain/water/surface/surface-grid';
import { estimateAt } from '../../../src/domain/water/surface/kriging';
import { triangulate } from '../../../src/domain/water/surface/tin';
import { inUnits, metres } from '../../../src/domain/units';
import { surfaceOf } from './gstat';
import { point, siteHeads, SIX_WELLS } from './oracle';

const sampled = (headAt: (x: number, y: number) => number, nodes = 81, size = 200): SurfaceGrid => {
  const frame = {
    x: metres(-size / 2),
    y: metres(-size / 2),
    step: metres(size / (nodes - 1)),
    columns: nodes,
    rows: nodes,
  };
  const heads = Float64Array.from({ length: nodes * nodes }, (_, i) =>
    headAt(...(nodeAt(frame, i % nodes, Math.floor(i / nodes)) as [number, number])),
  );
  return { frame, heads, variances: null };
};

const high = (line: { points: readonly XY[] }, headAt: (x: number, y: number) => number) =>
  line.points.slice(1).map(([x, y], i) => {
    const [px, py] = line.points[i]!;
    const length = Math.hypot(x - px, y - py);
    const [mx, my] = [(x + px) / 2, (y + py) / 2];
    return headAt(mx - ((y - py) / length) * 0.01, my + ((x - px) / length) * 0.01);
  });

describe('contours of a gridded surface', () => {
  test('a plane gives one straight line across, where it should be, high ground on its left', () => {
    const plane = (x: number, y: number) => 30 - 0.003 * x + 0.001 * y;
    const [line, ...others] = gridContours(sampled(plane), metres(30.05));
    expect(others).toHaveLength(0);
    expect(line?.closed).toBe(false);
    for (const [x, y] of line?.points ?? []) expect(plane(x, y)).toBeCloseTo(30.05, 12);
    for (const head of high(line!, plane)) expect(head).toBeGreaterThan(30.05);
  });

  test('a cone gives a closed ring round its top, counter-clockwise, of the right length', () => {
    const cone = (x: number, y: number) => 10 - 0.01 * Math.hypot(x, y);
    const [ring, ...others] = gridContours(sampled(cone, 201), metres(9.4));
    expect(others).toHaveLength(0);
    expect(ring).toMatchObject({ closed: true });
    expect(ring?.points[0]).toEqual(ring?.points.at(-1));
    expect(lineLength(ring!.points)).toBeCloseTo(2 * Math.PI * 60, 0);
    for (const head of high(ring!, cone)) expect(head).toBeGreaterThan(9.4);
  });

  test('a saddle: the mean of its mesh decides which side is joined', () => {
    const mesh = (sw: number, se: number, ne: number, nw: number): SurfaceGrid => ({
      frame: { x: metres(0), y: metres(0), step: metres(1), columns: 2, rows: 2 },
      heads: Float64Array.of(sw, se, nw, ne),
      variances: null,
    });
    const corner = (grid: SurfaceGrid) =>
      gridContours(grid, metres(1)).map(({ points }) => points.map(String));
    // Highs of 4 carry the middle: the lows in the south-east and north-west are cut off.
    expect(corner(mesh(4, 0, 4, 0))).toEqual([
      ['0.75,0', '1,0.25'],
      ['0.25,1', '0,0.75'],
    ]);
    expect(corner(mesh(1.5, 0, 1.5, 0))).toEqual([
      [`${1 / 3},0`, `0,${1 / 3}`],
      [`${2 / 3},1`, `1,${2 / 3}`],
    ]);
  });

  test('a node without a head leaves a gap and no line through it', () => {
    const grid = sampled((x) => 30 + 0.01 * x, 5);
    grid.heads[12] = NaN;
    const lines = gridContours(grid, metres(30.1));
    const ends = lines.map(({ points }) => points.map(([x, y]) => [Math.round(x), y]));
    expect(ends).toEqual([
      [
        [10, -50],
        [10, -100],
      ],
      [
        [10, 100],
        [10, 50],
      ],
    ]);
  });

  test('a level above or below all heads is nowhere', () => {
    expect(
      gridContours(
        sampled((x) => x),
        metres(500),
      ),
    ).toEqual([]);
    expect(
      gridContours(
        sampled((x) => x),
        metres(-500),
      ),
    ).toEqual([]);
  });

  test('are cut off exactly at the outline of the wells', () => {
    const hull = convexHull([
      [-60, -50],
      [70, -40],
      [50, 60],
      [-40, 55],
    ])!;
    const cone = (x: number, y: number) => 10 - 0.01 * Math.hypot(x, y);
    const lines = withinHull(gridContours(sampled(cone), metres(9.45)), hull);
    expect(lines.length).toBeGreaterThan(1);
    for (const { points, closed } of lines) {
      expect(closed).toBe(false);
      expect(distanceToHull(hull, points[0]!)).toBeLessThan(1e-9);
      expect(distanceToHull(hull, points.at(-1)!)).toBeLessThan(1e-9);
      for (const place of points.slice(1, -1)) expect(isInside(hull, place)).toBe(true);
    }
    const [ring] = withinHull(gridContours(sampled(cone), metres(9.7)), hull);
    expect(ring?.closed).toBe(true);
  });
});

describe('contours of a triangulated surface', () => {
  const wells = siteHeads('siteA');
  const tin = triangulate(wells);
  if (!tin.ok) throw new Error('no triangles');

  test('end on the outline or close on themselves', () => {
    const hull = convexHull(wells.map(({ x, y }) => [x, y]))!;
    for (const level of contourLevels(metres(38), metres(43), metres(0.25))) {
      for (const { points, closed } of tinContours(tin.value, level)) {
        if (closed) expect(points[0]).toEqual(points.at(-1));
        else
          for (const end of [points[0]!, points.at(-1)!])
            expect(distanceToHull(hull, end)).toBeLessThan(1e-6);
      }
    }
  });

  test('a level surface has no contour, not even at its own level', () => {
    const flat = triangulate(SIX_WELLS.map((p) => ({ ...p, head: metres(90) })));
    expect(flat.ok && tinContours(flat.value, metres(90))).toEqual([]);
  });

  test('a level through a well draws one line through the well', () => {
    const four = triangulate([
      point('W', -10, 0, 10),
      point('S', 0, -10, 9),
      point('E', 10, 1, 8),
      point('N', 0, 10, 9),
    ]);
    const lines = four.ok ? tinContours(four.value, metres(9)) : [];
    expect(lines).toHaveLength(1);
    expect([lines[0]?.points[0], lines[0]?.points.at(-1)]).toEqual(
      expect.arrayContaining([
        [0, -10],
        [0, 10],
      ]),
    );
  });
});

describe('the interval', () => {
  test('0.2 ft between 41.13 and 42.02 ft: 41.2 to 42.0, round in feet', () => {
    const levels = contourLevels(metres(41.13, 'ft'), metres(42.02, 'ft'), metres(0.2, 'ft'));
    expect(levels.map((level) => inUnits(level, 'ft').toFixed(6))).toEqual([
      '41.200000',
      '41.400000',
      '41.600000',
      '41.800000',
      '42.000000',
    ]);
  });

  test('below sea level the levels are whole multiples too', () => {
    expect(contourLevels(metres(-0.9), metres(0.6), metres(0.5))).toEqual([-0.5, 0, 0.5]);
  });

  test('an interval of nothing, or of a hair, draws nothing', () => {
    expect(contourLevels(metres(0), metres(10), metres(0))).toEqual([]);
    expect(contourLevels(metres(0), metres(10), metres(1e-6))).toEqual([]);
  });

  // Common practice, 3 to 4 times the error of a head (value from memory).
  test('heads good to 0.015 ft support 0.06 ft, not 0.03', () => {
    const wells = SIX_WELLS.map((p) => ({ ...p, sigma: metres(0.015, 'ft') }));
    const honest = honestInterval(wells)!;
    expect(inUnits(honest.least, 'ft')).toBeCloseTo(0.045, 12);
    expect(inUnits(honest.comfortable, 'ft')).toBeCloseTo(0.06, 12);
    expect(intervalVerdict(metres(0.03, 'ft'), honest)).toBe('finer than the heads’ error');
    expect(intervalVerdict(metres(0.05, 'ft'), honest)).toBe('at the limit');
    expect(intervalVerdict(metres(0.1, 'ft'), honest)).toBe('supported');
    expect(honestInterval(SIX_WELLS)).toBeNull();
  });

  test.each([
    [0.06, 0.1],
    [0.1, 0.1],
    [0.11, 0.2],
    [0.21, 0.5],
    [0.6, 1],
    [3, 5],
    [30, 50],
    [99, 100],
  ])('not below %d ft is %d ft', (atLeast, expected) => {
    expect(inUnits(roundInterval(metres(atLeast, 'ft'), 'ft'), 'ft')).toBeCloseTo(expected, 12);
  });

  test('to begin with: 0.93 ft over six wells in 0.2 ft, coarser where the heads are poorer', () => {
    const wells = SIX_WELLS.map((p) => point(p.id, p.x, p.y, metres(p.head, 'ft')));
    expect(inUnits(usualInterval(wells, 'ft')!, 'ft')).toBeCloseTo(0.2, 12);
    const poor = wells.map((p) => ({ ...p, sigma: metres(0.1, 'ft') }));
    expect(inUnits(usualInterval(poor, 'ft')!, 'ft')).toBeCloseTo(0.5, 12);
    expect(
      usualInterval(
        wells.map((p) => ({ ...p, head: metres(90) })),
        'ft',
      ),
    ).toBeNull();
  });
});

describe('known and inferred', () => {
  const wells = [point('A', 0, 0, 10), point('B', 100, 0, 9)];
  const line = {
    level: metres(9.5),
    closed: false,
    points: [
      [-30, 0],
      [130, 0],
    ] as XY[],
  };

  test('a line past two wells, known within 20 m of each, is cut into five pieces', () => {
    const pieces = piecesOf(line, farFromWells(wells, metres(20)), metres(5));
    expect(pieces.map(({ inferred }) => inferred)).toEqual([true, false, true, false, true]);
    expect(pieces.map(({ points }) => points.at(-1)?.[0])).toEqual(
      [-20, 20, 80, 120, 130].map((x) => expect.closeTo(x, 4)),
    );
    const length = pieces.reduce((sum, { points }) => sum + lineLength(points), 0);
    expect(length).toBeCloseTo(160, 9);
  });

  test('by the kriging error: dashed between two wells where it grows past a limit', () => {
    const choice = {
      model: { shape: 'linear', slope: 0.0001, nugget: 0, anisotropy: null },
      drift: 'none',
      errors: 'ignored',
    } as const;
    const surface = surfaceOf([...wells, point('C', 50, 80, 9)], choice);
    const sigmaAt = ([x, y]: XY) => estimateAt(surface, x, y).sigma;
    const pieces = piecesOf(line, unsure(sigmaAt, metres(0.05)), metres(5));
    expect(pieces.map(({ inferred }) => inferred)).toEqual([true, false, true, false, true]);
    for (const { points } of pieces.slice(0, -1))
      expect(sigmaAt(points.at(-1)!)).toBeCloseTo(0.05, 4);
  });

  test('a line all within reach is one solid piece, and one all beyond is one dashed piece', () => {
    const solid = piecesOf(line, farFromWells(wells, metres(60)), metres(5));
    expect(solid).toEqual([{ level: 9.5, points: line.points, inferred: false }]);
    const dashed = piecesOf(line, () => true, metres(5));
    expect(dashed).toEqual([{ level: 9.5, points: line.points, inferred: true }]);
  });

  test('to begin with, beyond the median distance to the nearest neighbour', () => {
    expect(usualReach([...wells, point('C', 130, 0, 8)])).toBe(30);
    expect(usualReach(wells.slice(0, 1))).toBeNull();
  });
});

describe('labels', () => {
  const line = (...points: XY[]) => ({ level: metres(9.5), closed: false, points });

  test('one in the middle of a short line, upright along it', () => {
    const [label, ...others] = labelPlaces(line([0, 0], [40, 40]), metres(100), metres(10));
    expect(others).toHaveLength(0);
    expect(label?.at).toEqual([expect.closeTo(20, 9), expect.closeTo(20, 9)]);
    expect(label?.turned).toBeCloseTo(45, 9);
    const [back] = labelPlaces(line([40, 40], [0, 0]), metres(100), metres(10));
    expect(back?.turned).toBeCloseTo(45, 9);
  });

  test('every 100 m along 330 m: three; none where the text is longer than the line', () => {
    const places = labelPlaces(line([0, 0], [330, 0]), metres(100), metres(10));
    expect(places.map(({ at }) => at[0])).toEqual([65, 165, 265]);
    expect(labelPlaces(line([0, 0], [8, 0]), metres(100), metres(10))).toEqual([]);
  });

  test('a place so far along a bent line', () => {
    const bent: XY[] = [
      [0, 0],
      [10, 0],
      [10, 10],
    ];
    expect(placeAlong(bent, 15)).toEqual([10, 5]);
    expect(placeAlong(bent, -1)).toEqual([0, 0]);
    expect(placeAlong(bent, 99)).toEqual([10, 10]);
  });
});

test('a frame over the wells reaches every corner of their outline, in square meshes', () => {
  const hull = convexHull(siteHeads('siteA').map(({ x, y }) => [x, y]))!;
  const frame = frameOver(hull, 100);
  const [east, north] = nodeAt(frame, frame.columns - 1, frame.rows - 1);
  for (const [x, y] of hull) {
    expect(x).toBeGreaterThanOrEqual(frame.x);
    expect(x).toBeLessThanOrEqual(east + 1e-6);
    expect(y).toBeGreaterThanOrEqual(frame.y);
    expect(y).toBeLessThanOrEqual(north + 1e-6);
  }
  expect(Math.max(frame.columns, frame.rows)).toBe(100);
  const inside = insideMask(frame, hull).reduce((sum, one) => sum + one, 0);
  // As many nodes as the outline has area, give or take its edge.
  expect((inside * frame.step ** 2) / 454_996.57).toBeCloseTo(1, 1);
});

test('for any heads on a grid, lines are closed or end at its edge, and each point is on its level', () => {
  const heads = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 36, maxLength: 36 });
  fc.assert(
    fc.property(heads, fc.integer({ min: 0, max: 9 }), (values, level) => {
      const frame = { x: metres(0), y: metres(0), step: metres(1), columns: 6, rows: 6 };
      const grid = { frame, heads: Float64Array.from(values), variances: null };
      for (const { points, closed } of gridContours(grid, metres(level))) {
        for (const [x, y] of points) {
          const [i, j] = [Math.floor(x), Math.floor(y)];
          const along = x > i ? [i + 1, j] : [i, Math.min(5, j + 1)];
          const [a, b] = [values[j * 6 + i]!, values[along[1]! * 6 + along[0]!]!];
          expect(a + (x - i + y - j) * (b - a)).toBeCloseTo(level, 9);
        }
        if (closed) expect(points[0]).toEqual(points.at(-1));
        else
          for (const [x, y] of [points[0]!, points.at(-1)!])
            expect(x === 0 || y === 0 || x === 5 || y === 5).toBe(true);
      }
    }),
  );
});
