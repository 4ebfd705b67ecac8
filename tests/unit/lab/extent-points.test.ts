import { describe, expect, test } from 'vitest';
import { bandPolygons, isInBand, type Polygon } from '../../../src/domain/lab/extent-bands';
import { extentPointsOf } from '../../../src/domain/lab/extent-points';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import { metres } from '../../../src/domain/units';
import { convexHull } from '../../../src/domain/water/surface/hull';
import type { SurfaceGrid } from '../../../src/domain/water/surface/surface-grid';
import { siteFrom } from '../site-from';

const METRES = {
  grid: { name: 'Local grid', code: null, projection: null, unit: 'm' as const },
  verticalUnit: 'm' as const,
};

/** Results as `screen,value,qualifier`, of points at the places given; level 5 µg/L. */
const pointsFrom = (
  places: Readonly<Record<string, string>>,
  results: readonly string[],
  more: {
    readonly kind?: Readonly<Record<string, string>>;
    readonly zones?: Readonly<Record<string, string>>;
    readonly events?: Readonly<Record<string, string>>;
    readonly lines?: readonly string[];
    readonly level?: string;
    readonly factor?: number | null;
  } = {},
) => {
  const screens = [...new Set(results.map((line) => line.split(',')[0]!))];
  const site = siteFrom(
    {
      locations: [
        'id,easting,northing,kind,status',
        ...Object.entries(places).map(([id, at]) => `${id},${at},direct push,pushed`),
      ],
      screens: [
        'id,location,zone',
        ...screens.map((id) => `${id},${id.replace(/-S\d$/, '')},${more.zones?.[id] ?? 'shallow'}`),
      ],
      events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-02', 'E2,2026-07-01,2026-07-02'],
      samples: [
        'id,screen,event,kind',
        ...screens.map((id) => {
          const kind = more.kind?.[id] ?? 'field sample';
          return `${id}-W,${kind === 'field sample' ? id : ''},${more.events?.[id] ?? 'E1'},${kind}`;
        }),
      ],
      results: [
        'sample,cas,analyte,value,unit,lab_qualifier,reporting_limit,fraction',
        ...results.map((line) => {
          const [id, value = '', letters = '', limit = '', fraction = ''] = line.split(',');
          return `${id}-W,71-43-2,Benzene,${value},µg/L,${letters},${limit},${fraction}`;
        }),
        ...(more.lines ?? []),
      ],
      screening_levels: [
        'set,cas,analyte,value,unit',
        `One,71-43-2,Benzene,${more.level ?? '5,µg/L'}`,
      ],
    },
    METRES,
    { combinedFactor: more.factor === undefined ? 1 : more.factor },
  );
  return extentPointsOf(site, judgedAgainst(site, 'One'));
};
const found = (...of: Parameters<typeof pointsFrom>) => {
  const made = pointsFrom(...of);
  if (!made.ok) throw new Error(made.problem);
  return made.value;
};
const problem = (...of: Parameters<typeof pointsFrom>) => {
  const made = pointsFrom(...of);
  return made.ok ? null : made.problem;
};

const PLACES = { A: '1000,2000', B: '1060,2000', C: '1000,2090', D: '1040,2110', E: ',' };

describe('the points an extent is drawn through', () => {
  const lines = ['A-S1,40', 'B-S1,0.5,U', 'C-S1,3', 'D-S1,25,U', 'E-S1,90'];

  test('what exceeds, what does not, a non-detect at its limit; what cannot be told is apart', () => {
    const { points, unknown, level, analyte, zone } = found(PLACES, lines);
    expect(
      points.map(({ id, screen, exceeds, amount, notDetected }) => [
        id,
        screen,
        exceeds,
        amount,
        notDetected,
      ]),
    ).toEqual([
      ['A', 'A-S1', true, 40, false],
      ['B', 'B-S1', false, 0.5, true],
      ['C', 'C-S1', false, 3, false],
    ]);
    // 25 U could exceed 5; E has no coordinates and is nowhere.
    expect(unknown).toEqual([{ id: 'D', screen: 'D-S1', verdict: 'cannot-tell' }]);
    expect([level, analyte, zone]).toEqual([5, 'Benzene', 'shallow']);
  });

  test('stand about their middle, in ground metres', () => {
    const { centre, points } = found(PLACES, lines);
    // Of A, B and C: (1000 + 1060 + 1000)/3 and (2000 + 2000 + 2090)/3.
    expect(centre.easting).toBeCloseTo(1020, 9);
    expect(centre.northing).toBeCloseTo(2030, 9);
    expect(
      points.map(({ x, y }) => [Math.round(x * 1e6) / 1e6, Math.round(y * 1e6) / 1e6]),
    ).toEqual([
      [-20, -30],
      [40, -30],
      [-20, 60],
    ]);
    // 60 m in the grid at a combined factor of 0.5 are 120 m on the ground.
    const wide = found(PLACES, lines, { factor: 0.5 }).points;
    expect(wide[1]!.x - wide[0]!.x).toBeCloseTo(120, 9);
    const unknown = found(PLACES, lines, { factor: null }).points;
    expect(unknown[1]!.x - unknown[0]!.x).toBeCloseTo(60, 9);
  });

  test('an estimated value above the level exceeds, and a limit at the level does not', () => {
    const { points } = found(PLACES, ['A-S1,7,J', 'B-S1,5,U', 'C-S1,5']);
    expect(points.map(({ exceeds }) => exceeds)).toEqual([true, false, false]);
  });

  test('of several screens of a location the worst stands for it', () => {
    const { points } = found(PLACES, ['A-S1,1', 'A-S2,40', 'B-S1,2', 'B-S2,1']);
    expect(points.map(({ screen, amount }) => [screen, amount])).toEqual([
      ['A-S2', 40],
      ['B-S1', 2],
    ]);
  });

  test('rejected and blank results are named apart; a blank from the trip stands nowhere', () => {
    const { points, unknown } = found(PLACES, ['A-S1,7', 'B-S1,7,R', 'C-S1,', 'T-S1,90'], {
      kind: { 'T-S1': 'trip blank' },
    });
    expect(points.map(({ id }) => id)).toEqual(['A']);
    expect(unknown.map(({ id, verdict }) => [id, verdict])).toEqual([
      ['B', 'rejected'],
      ['C', 'no-result'],
    ]);
  });
});

describe('results that make no one question', () => {
  const two = ['A-S1,40', 'B-S1,1'];
  test('two analytes, fractions, events or zones', () => {
    expect(problem(PLACES, two, { lines: ['A-S1-W,108-88-3,Toluene,3,µg/L,,,'] })).toContain(
      'Choose one analyte',
    );
    expect(problem(PLACES, ['A-S1,40,,,total', 'B-S1,1,,,dissolved'])).toContain(
      'Filtered and total',
    );
    expect(problem(PLACES, two, { events: { 'B-S1': 'E2' } })).toContain('Choose one event');
    expect(problem(PLACES, two, { zones: { 'B-S1': 'deep' } })).toContain('Choose one zone');
    expect(problem(PLACES, two)).toBeNull();
  });
  test('no level that can be read, or nothing but blanks', () => {
    expect(problem(PLACES, two, { level: 'see note,µg/L' })).toContain('No level');
    expect(problem(PLACES, ['T-S1,90'], { kind: { 'T-S1': 'trip blank' } })).toContain(
      'no field sample',
    );
  });
});

const area = (polygon: Polygon) =>
  polygon.reduce((sum, [x, y], i) => {
    const [nx, ny] = polygon[(i + 1) % polygon.length]!;
    return sum + (x * ny - nx * y) / 2;
  }, 0);

describe('bands of a gridded surface', () => {
  const gridOf = (
    value: (x: number, y: number) => number,
    columns = 11,
    rows = 9,
  ): SurfaceGrid => ({
    frame: { x: metres(100), y: metres(50), step: metres(1), columns, rows },
    heads: Float64Array.from({ length: columns * rows }, (_, i) =>
      value(100 + (i % columns), 50 + Math.floor(i / columns)),
    ),
    variances: null,
  });
  const box = (west: number, south: number, east: number, north: number) =>
    convexHull([
      [west, south],
      [east, south],
      [east, north],
      [west, north],
    ])!;
  const areas = (bands: readonly (readonly Polygon[])[]) =>
    bands.map((polygons) => polygons.reduce((sum, one) => sum + area(one), 0));

  test('a slope to the east cut at 102.5 and 107.25: strips of those widths, 7 m high', () => {
    const bands = bandPolygons(
      gridOf((x) => x),
      box(100.5, 50.5, 109.5, 57.5),
      [102.5, 107.25],
    );
    expect(areas(bands)).toEqual([2 * 7, 4.75 * 7, 2.25 * 7].map((a) => expect.closeTo(a, 9)));
    bands.flat().forEach((one) => expect(area(one)).toBeGreaterThan(0));
    bands[1]!.flat().forEach(([x]) => {
      expect(x).toBeGreaterThanOrEqual(102.5 - 1e-9);
      expect(x).toBeLessThanOrEqual(107.25 + 1e-9);
    });
  });

  test('a slope to the north, and one across, cut where a straight line cuts them', () => {
    const north = bandPolygons(
      gridOf((_, y) => y),
      box(100, 50, 110, 58),
      [53.25],
    );
    expect(areas(north)).toEqual([32.5, 47.5].map((a) => expect.closeTo(a, 9)));
    // x − 100 + y − 50 under 5: a corner of 5 by 5.
    const across = bandPolygons(
      gridOf((x, y) => x - 100 + y - 50),
      box(100, 50, 110, 58),
      [5],
    );
    expect(areas(across)).toEqual([12.5, 67.5].map((a) => expect.closeTo(a, 9)));
  });

  test('whole meshes of one band in a row are one piece', () => {
    const one = bandPolygons(
      gridOf(() => 0.3),
      box(99, 49, 111, 59),
      [0.5],
    );
    expect(one.map(({ length }) => length)).toEqual([8, 0]);
    expect(one[0]![0]).toEqual([[100, 50], [110, 50], [110, 51], [100, 51]]); // prettier-ignore
    // In two bands from the sixth node on: whole runs at either side, one mesh cut between.
    const two = bandPolygons(
      gridOf((x) => (x < 106 ? 0 : 1)),
      box(99, 49, 111, 59),
      [0.5],
    );
    expect(two.map(({ length }) => length)).toEqual([16, 16]);
    expect(areas(two)).toEqual([expect.closeTo(5.5 * 8, 9), expect.closeTo(4.5 * 8, 9)]);
  });

  test('a value just on an edge is of the band above', () => {
    const bands = bandPolygons(
      gridOf(() => 0.5),
      box(99, 49, 111, 59),
      [0.5],
    );
    expect(areas(bands)).toEqual([0, 80]);
  });

  test('a slanting outline cuts the meshes it crosses, and no ground outside it is kept', () => {
    const hull = convexHull([[101, 51], [109, 51], [105, 57]])!; // prettier-ignore
    const bands = bandPolygons(
      gridOf((x) => x),
      hull,
      [105],
    );
    // A triangle of 8 by 6 in two halves.
    expect(areas(bands)).toEqual([expect.closeTo(12, 9), expect.closeTo(12, 9)]);
  });

  test('a place on the edge of a piece is in it', () => {
    const piece = [[0, 0], [2, 0], [2, 2], [0, 2]] as const; // prettier-ignore
    expect([[1, 1], [2, 1], [0, 0], [2.01, 1], [1, -0.01]].map((at) => isInBand(piece, at as [number, number]))).toEqual(
      [true, true, true, false, false],
    ); // prettier-ignore
  });
});
