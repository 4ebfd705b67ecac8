import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { along, azimuthBetween, distanceBetween } from '../../../src/domain/geometry/compass';
import { clipLine, meeting, selfCrossing } from '../../../src/domain/geometry/crossing';
import { whereIn } from '../../../src/domain/geometry/inside';
import { centroid, lineLength, shapeArea, shapeLength } from '../../../src/domain/geometry/measure';
import { distanceTo, nearestOnOutline } from '../../../src/domain/geometry/nearest';
import {
  distanceToOutline,
  distanceToPrepared,
  prepare,
  whereInPrepared,
} from '../../../src/domain/geometry/prepared';
import {
  boundsOf,
  cornersOf,
  moved,
  type Line,
  type Shape,
  type XY,
} from '../../../src/domain/geometry/shape';
import { readShape } from '../../../src/domain/geometry/wkt';
import { azimuth } from '../../../src/domain/units';

const shape = (text: string): Shape => {
  const read = readShape(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problem));
  return read.value;
};

const lines = (text: string): readonly Line[] => {
  const drawn = shape(text);
  return drawn.kind === 'lines' ? drawn.lines : [];
};

type JtsCase = {
  wkt: string;
  area: number;
  length: number;
  centroid: XY;
  points: { at: XY; distance: number; inside: boolean }[];
  lines: { wkt: string; inside: number }[];
};

describe('against JSTS 2.7.1, a port of the JTS Topology Suite', () => {
  const { cases } = JSON.parse(
    readFileSync(new URL('../../fixtures/geometry/jts.json', import.meta.url), 'utf8'),
  ) as { cases: JtsCase[] };

  test('all 44 invented shapes are at hand, a State Plane easting away from the origin', () => {
    expect(cases).toHaveLength(44);
  });

  test.each(cases.map((c, i) => [i, c] as const))('shape %i', (_, reference) => {
    const drawn = shape(reference.wkt);
    const prepared = prepare(drawn);
    expect(shapeArea(drawn)).toBeCloseTo(reference.area, 5);
    expect(shapeLength(drawn)).toBeCloseTo(reference.length, 6);
    const middle = centroid(drawn) ?? [NaN, NaN];
    expect(distanceBetween(middle, reference.centroid)).toBeLessThan(1e-6);
    for (const { at, distance, inside } of reference.points) {
      expect(distanceTo(drawn, at)).toBeCloseTo(distance, 8);
      expect(distanceToPrepared(prepared, at)).toBeCloseTo(distance, 8);
      if (drawn.kind === 'areas') {
        expect(whereIn(drawn, at)).toBe(inside ? 'inside' : 'outside');
        expect(whereInPrepared(prepared, at)).toBe(inside ? 'inside' : 'outside');
      }
    }
    for (const { wkt, inside } of reference.lines) {
      const parts = lines(wkt).flatMap((line) => clipLine(line, drawn));
      expect(parts.reduce((sum, part) => sum + lineLength(part), 0)).toBeCloseTo(inside, 5);
    }
  });
});

describe('one rule for places on a line', () => {
  const yard = shape(
    'POLYGON ((0 0, 80 0, 80 80, 0 80, 0 0), (20 20, 20 60, 60 60, 60 20, 20 20))',
  );

  test.each<[string, XY, string]>([
    ['in the yard', [10, 10], 'inside'],
    ['in the hole', [40, 40], 'outside'],
    ['on a side', [80, 33], 'on'],
    ['on a corner', [0, 0], 'on'],
    ['on a side of the hole', [20, 30], 'on'],
    ['on a corner of the hole', [60, 60], 'on'],
    ['in line with a side but past it', [100, 0], 'outside'],
    ['level with the tops of the hole', [10, 60], 'inside'],
  ])('%s', (_, at, where) => {
    expect(whereIn(yard, at)).toBe(where);
    expect(whereInPrepared(prepare(yard), at)).toBe(where);
  });

  test('on a slanting line the answer is exact, not within a tolerance', () => {
    const wedge = shape('POLYGON ((0 0, 3 1, 0 1, 0 0))');
    const third = 1 / 3; // rounds below one third, so 3 · third rounds to 1 but the place is off the line
    expect(whereIn(wedge, [1.5, 0.5])).toBe('on');
    expect(whereIn(wedge, [1, third])).toBe('outside');
    expect(whereIn(wedge, [1, third + 2 ** -54])).toBe('inside');
  });

  test('two areas that overlap are both inside', () => {
    const both = shape(
      'MULTIPOLYGON (((0 0, 10 0, 10 10, 0 10, 0 0)), ((5 0, 15 0, 15 10, 5 10, 5 0)))',
    );
    expect(whereIn(both, [7, 5])).toBe('inside');
    expect(whereIn(both, [5, 5])).toBe('inside');
    expect(whereInPrepared(prepare(both), [5, 5])).toBe('inside');
    expect(whereIn(both, [15, 5])).toBe('on');
  });
});

describe('distance to a drawn line', () => {
  const gas = shape('LINESTRING (0 0, 100 0, 100 50)');

  test.each<[string, XY, number, XY]>([
    ['beside the middle', [40, 30], 30, [40, 0]],
    ['past the end', [-3, 4], 5, [0, 0]],
    ['beyond the bend', [103, -4], 5, [100, 0]],
    ['on it', [100, 20], 0, [100, 20]],
  ])('%s', (_, at, distance, nearest) => {
    expect(nearestOnOutline(gas, at)).toEqual({ at: nearest, distance });
    expect(distanceToOutline(prepare(gas), at)).toBe(distance);
  });

  test('asked only within a limit, the answer is at least the limit', () => {
    expect(distanceToOutline(prepare(gas), [40, 30], 10)).toBe(10);
  });

  test('nothing drawn has no distance', () => {
    expect(distanceTo({ kind: 'lines', lines: [] }, [0, 0])).toBeNull();
    expect(nearestOnOutline({ kind: 'points', points: [] }, [0, 0])).toBeNull();
    expect(centroid({ kind: 'areas', areas: [] })).toBeNull();
    expect(boundsOf([])).toBeNull();
  });
});

describe('two pieces meet', () => {
  test.each<[string, [XY, XY], [XY, XY], unknown]>([
    [
      'crossing',
      [
        [0, 0],
        [10, 10],
      ],
      [
        [0, 10],
        [10, 0],
      ],
      { kind: 'at', place: [5, 5] },
    ],
    [
      'not reaching',
      [
        [0, 0],
        [4, 4],
      ],
      [
        [0, 10],
        [10, 0],
      ],
      { kind: 'apart' },
    ],
    [
      'end on side',
      [
        [0, 0],
        [5, 0],
      ],
      [
        [5, -5],
        [5, 5],
      ],
      { kind: 'at', place: [5, 0] },
    ],
    [
      'sharing an end',
      [
        [0, 0],
        [5, 0],
      ],
      [
        [5, 0],
        [9, 9],
      ],
      { kind: 'at', place: [5, 0] },
    ],
    [
      'side by side',
      [
        [0, 0],
        [5, 0],
      ],
      [
        [0, 1],
        [5, 1],
      ],
      { kind: 'apart' },
    ],
    [
      'one along the other',
      [
        [0, 0],
        [6, 0],
      ],
      [
        [9, 0],
        [2, 0],
      ],
      {
        kind: 'along',
        stretch: [
          [2, 0],
          [6, 0],
        ],
      },
    ],
    [
      'in line, end to end',
      [
        [0, 0],
        [6, 0],
      ],
      [
        [9, 0],
        [6, 0],
      ],
      { kind: 'at', place: [6, 0] },
    ],
    [
      'in line, apart',
      [
        [0, 0],
        [6, 0],
      ],
      [
        [9, 0],
        [7, 0],
      ],
      { kind: 'apart' },
    ],
  ])('%s', (_, one, other, met) => {
    expect(meeting(one, other)).toEqual(met);
    expect(meeting(other, one)).toEqual(met);
  });
});

describe('a line cut to the site', () => {
  const site = shape('POLYGON ((0 0, 100 0, 100 100, 60 100, 60 40, 40 40, 40 100, 0 100, 0 0))');

  test('across the notch it comes out and goes back in', () => {
    expect(
      clipLine(
        [
          [-20, 70],
          [120, 70],
        ],
        site,
      ),
    ).toEqual([
      [
        [0, 70],
        [40, 70],
      ],
      [
        [60, 70],
        [100, 70],
      ],
    ]);
  });

  test('bends inside are kept', () => {
    expect(
      clipLine(
        [
          [20, 90],
          [20, 20],
          [120, 20],
        ],
        site,
      ),
    ).toEqual([
      [
        [20, 90],
        [20, 20],
        [100, 20],
      ],
    ]);
  });

  test('along a side it is not inside', () => {
    expect(
      clipLine(
        [
          [10, 0],
          [90, 0],
        ],
        site,
      ),
    ).toEqual([]);
  });

  test('touching a corner from within does not cut it', () => {
    expect(
      clipLine(
        [
          [20, 40],
          [80, 40],
        ],
        site,
      ),
    ).toEqual([
      [
        [20, 40],
        [40, 40],
      ],
      [
        [60, 40],
        [80, 40],
      ],
    ]);
    expect(
      clipLine(
        [
          [20, 20],
          [60, 60],
        ],
        site,
      ),
    ).toEqual([
      [
        [20, 20],
        [40, 40],
      ],
    ]);
    expect(
      clipLine(
        [
          [20, 40],
          [40, 40],
          [60, 20],
        ],
        site,
      ),
    ).toEqual([
      [
        [20, 40],
        [40, 40],
        [60, 20],
      ],
    ]);
  });

  test('outside altogether nothing is left', () => {
    expect(
      clipLine(
        [
          [-20, -20],
          [-20, 120],
        ],
        site,
      ),
    ).toEqual([]);
  });
});

test('a bow-tie is found out, a ring that only turns is not', () => {
  expect(selfCrossing(shape('POLYGON ((0 0, 10 10, 10 0, 0 10, 0 0))'))).toEqual([5, 5]);
  expect(selfCrossing(shape('POLYGON ((0 0, 10 0, 10 10, 5 2, 0 10, 0 0))'))).toBeNull();
});

describe('directions', () => {
  test.each<[number, XY]>([
    [0, [0, 1]],
    [90, [1, 0]],
    [180, [0, -1]],
    [270, [-1, 0]],
    [-90, [-1, 0]],
    [450, [1, 0]],
  ])('%i° is one of the four winds exactly', (angle, unit) => {
    expect(along(azimuth(angle)).map((n) => n + 0)).toEqual(unit.map((n) => n + 0));
  });

  test('from a place to itself there is none', () => {
    expect(azimuthBetween([3, 4], [3, 4])).toBeNull();
  });

  test.each<[XY, number]>([
    [[0, 5], 0],
    [[5, 5], 45],
    [[5, 0], 90],
    [[0, -5], 180],
    [[-5, 0], 270],
  ])('to %j it is %i°', (to, angle) => {
    expect(azimuthBetween([0, 0], to)).toBeCloseTo(angle, 12);
  });
});

describe('for any ring around a place', () => {
  const radii = fc.array(fc.integer({ min: 5, max: 100 }), { minLength: 3, maxLength: 60 });
  const ringOf = (lengths: readonly number[]): Shape => ({
    kind: 'areas',
    areas: [
      [
        lengths.map((r, i): XY => {
          const [x, y] = along(azimuth((i * 360) / lengths.length));
          return [Math.round(x * r), Math.round(y * r)];
        }),
      ],
    ],
  });
  const place = fc.tuple(fc.integer({ min: -110, max: 110 }), fc.integer({ min: -110, max: 110 }));

  test('made ready for many questions it answers as before', () => {
    fc.assert(
      fc.property(radii, place, (lengths, at) => {
        const drawn = ringOf(lengths);
        const ready = prepare(drawn);
        expect(whereInPrepared(ready, at)).toBe(whereIn(drawn, at));
        expect(distanceToPrepared(ready, at)).toBeCloseTo(distanceTo(drawn, at) ?? NaN, 9);
      }),
    );
  });

  test('a place is on it exactly when its distance to the outline is nothing', () => {
    fc.assert(
      fc.property(radii, place, (lengths, at) => {
        const drawn = ringOf(lengths);
        const away = nearestOnOutline(drawn, at)?.distance ?? NaN;
        expect(whereIn(drawn, at) === 'on').toBe(away < 1e-12);
      }),
    );
  });

  test('moving the grid’s origin moves the middle with it and leaves the ground as it is', () => {
    fc.assert(
      fc.property(radii, (lengths) => {
        const drawn = ringOf(lengths);
        const away = moved(drawn, ([x, y]) => [x + 3_000_000, y + 14_000_000]);
        expect(shapeArea(away)).toBeCloseTo(shapeArea(drawn), 6);
        const [a, b] = [centroid(drawn), centroid(away)];
        fc.pre(a !== null && b !== null && shapeArea(drawn) > 1);
        expect((b?.[0] ?? NaN) - (a?.[0] ?? NaN)).toBeCloseTo(3_000_000, 5);
        expect(cornersOf(away)).toHaveLength(lengths.length);
      }),
    );
  });
});
