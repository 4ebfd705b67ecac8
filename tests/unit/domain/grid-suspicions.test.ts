import { describe, expect, test } from 'vitest';
import {
  controlFinding,
  gridSuspicions,
  longitudeSignSuspicion,
  type PlacedPoint,
} from '../../../src/domain/grid-suspicions';
import { metres } from '../../../src/domain/units';
import { openGrid } from '../../../src/io/projection/open-grid';
import { findSystem, isInside } from '../../../src/io/projection/systems';

// An invented site in Texas South Central, US survey feet: ten points 100 ft apart.
const site: PlacedPoint[] = Array.from({ length: 10 }, (_, i) => ({
  id: `DP-${i + 1}`,
  easting: 3_121_116.09 + 100 * (i % 5),
  northing: 13_841_180.57 + 100 * Math.floor(i / 5),
}));
const put = (index: number, easting: number, northing: number) =>
  site.map((p, i) => (i === index ? { ...p, easting, northing } : p));

const grid = openGrid({ code: 'EPSG:2278', projection: null, unit: 'us-ft' });
if (!grid.ok) throw new Error();
const { covers } = grid.value;
const look = (points: PlacedPoint[]) => gridSuspicions(points, 'us-ft', covers);

describe('points among themselves', () => {
  test('a good site raises no doubt', () => expect(look(site)).toEqual([]));
  test('no points, no doubt', () => expect(look([])).toEqual([]));

  test('a point 100 km off the others is named, with how far', () => {
    const [first, ...others] = look(put(3, site[3]!.easting + 328_083.33, site[3]!.northing));
    expect(others).toEqual([]);
    expect(first).toMatchObject({ kind: 'far-from-the-others', id: 'DP-4' });
    expect(first?.kind === 'far-from-the-others' && first.distance / 1000).toBeCloseTo(100, 0);
  });

  test('a background well 1,200 ft away is none of it', () => {
    expect(look(put(0, site[0]!.easting - 1200, site[0]!.northing))).toEqual([]);
  });

  test('x and y swapped at one point', () => {
    expect(look(put(6, site[6]!.northing, site[6]!.easting))).toEqual([
      { kind: 'swapped', id: 'DP-7' },
    ]);
  });

  test('x and y swapped at all', () => {
    const all = site.map(({ id, easting, northing }) => ({
      id,
      easting: northing,
      northing: easting,
    }));
    expect(look(all)).toEqual([{ kind: 'all-swapped' }]);
  });

  test('zeros', () => {
    expect(look(put(2, 0, 0))).toEqual([{ kind: 'zero', id: 'DP-3', coordinate: 'both' }]);
    expect(look(put(2, 0, site[2]!.northing))).toEqual([
      { kind: 'zero', id: 'DP-3', coordinate: 'easting' },
    ]);
  });

  test('a plant grid may well have a point at its origin', () => {
    const plant = [0, 50, 120, 200].map((x, i) => ({ id: `${i}`, easting: x, northing: x / 2 }));
    expect(gridSuspicions(plant, 'ft', () => null)).toEqual([]);
  });

  test('metres in a grid of feet', () => {
    const metric = site.map((p) => ({
      ...p,
      easting: p.easting * 0.3048006096,
      northing: p.northing * 0.3048006096,
    }));
    expect(look(metric)).toEqual([{ kind: 'other-unit', unit: 'us-ft', likely: 'm' }]);
  });

  test('another zone’s coordinates', () => {
    const indiana = site.map((p, i) => ({ ...p, easting: 180_000 + 100 * i, northing: 1_650_000 }));
    expect(look(indiana)).toEqual([{ kind: 'outside-the-area' }]);
  });

  test('degrees in the columns of a grid, and which way round', () => {
    const places = site.map((p, i) => ({
      ...p,
      easting: -95.366667 + i / 10_000,
      northing: 29.758333,
    }));
    expect(look(places)).toEqual([{ kind: 'degrees', exchanged: false }]);
    const other = places.map((p) => ({ ...p, easting: p.northing, northing: p.easting }));
    expect(look(other)).toEqual([{ kind: 'degrees', exchanged: true }]);
  });

  test('two points a county apart are no one site', () => {
    const two = [
      site[0]!,
      { id: 'B', easting: site[0]!.easting + 400_000, northing: site[0]!.northing },
    ];
    expect(look(two)).toEqual([{ kind: 'too-wide', width: metres(400_000, 'us-ft') }]);
  });

  test('a shift of 28 ft of all points alike is not to be seen here', () => {
    expect(
      look(
        site.map((p) => ({ ...p, easting: p.easting * 1.000002, northing: p.northing * 1.000002 })),
      ),
    ).toEqual([]);
  });
});

describe('longitudes without their sign', () => {
  const { area } = findSystem('EPSG:2278')!;
  const inside = (lng: number, lat: number) => isInside(area, lng, lat);
  test('95.4 in Texas is doubted, −95.4 is not, nor is nothing', () => {
    expect(longitudeSignSuspicion([[95.4, 29.7], [95.5, 29.7]], inside)).toBe(true); // prettier-ignore
    expect(longitudeSignSuspicion([[-95.4, 29.7]], inside)).toBe(false);
    expect(longitudeSignSuspicion([[12, 50]], inside)).toBe(false);
    expect(longitudeSignSuspicion([], inside)).toBe(false);
  });
});

describe('against control points', () => {
  // The same marks in metres, written in survey feet by the control and in
  // international feet by the table.
  const marks = [
    { id: 'CP-1', metres: [951_318.0872, 4_218_800.2768] },
    { id: 'CP-2', metres: [951_402.5, 4_218_911.25] },
  ] as const;
  const inFeet = (foot: number) => marks.map(({ metres: [e, n] }) => [e / foot, n / foot] as const);
  const [survey, international] = [inFeet(1200 / 3937), inFeet(0.3048)];
  const checks = (known: typeof survey, table: typeof survey) =>
    marks.map(({ id }, i) => ({ id, known: known[i]!, table: table[i]! }));

  test('survey against international feet is found: 28 ft at this northing (2.000 ppm; 27.68 ft in northing)', () => {
    const finding = controlFinding(checks(survey, international), 'us-ft');
    expect(finding).toMatchObject({ kind: 'other-foot', tableIn: 'ft', knownIn: 'us-ft' });
    expect(international[0]![1] - survey[0]![1]).toBeCloseTo(27.68, 2);
    const shift = finding.kind === 'other-foot' ? finding.shift / 0.3048006096 : NaN;
    expect(shift).toBeCloseTo(Math.hypot(27.68, 6.24), 1);
  });

  test('and the other way round', () => {
    expect(controlFinding(checks(international, survey), 'ft')).toMatchObject({
      kind: 'other-foot',
      tableIn: 'us-ft',
      knownIn: 'ft',
    });
  });

  test('one control point is enough for it', () => {
    expect(controlFinding(checks(survey, international).slice(0, 1), 'us-ft').kind).toBe(
      'other-foot',
    );
  });

  test('agreement to 0.04 m is agreement, and says how close', () => {
    const near = survey.map(([e, n]) => [e + 0.1, n] as const);
    const finding = controlFinding(checks(survey, near), 'us-ft');
    expect(finding).toEqual({ kind: 'agrees', greatest: expect.closeTo(0.03048, 5) });
  });

  test('a shift of 28 ft to the west is a shift, not the other foot', () => {
    const west = survey.map(([e, n]) => [e - 28, n] as const);
    const finding = controlFinding(checks(survey, west), 'us-ft');
    expect(finding).toMatchObject({ kind: 'shifted', north: expect.closeTo(0, 6) });
    expect(finding.kind === 'shifted' && finding.east / 0.3048006096).toBeCloseTo(-28, 4);
  });

  test('swapped, in metres, and marks that disagree', () => {
    expect(
      controlFinding(
        checks(
          survey,
          survey.map(([e, n]) => [n, e] as const),
        ),
        'us-ft',
      ),
    ).toEqual({ kind: 'swapped' });
    expect(
      controlFinding(
        checks(
          survey,
          marks.map((m) => m.metres),
        ),
        'us-ft',
      ),
    ).toEqual({ kind: 'other-unit', factor: 1200 / 3937 });
    const one = survey.map(([e, n], i) => [e, i === 1 ? n + 3 : n] as const);
    expect(controlFinding(checks(survey, one), 'us-ft')).toMatchObject({
      kind: 'disagrees',
      marks: [{ id: 'CP-2', distance: expect.closeTo(3 * 0.3048006, 5) }, { id: 'CP-1' }],
    });
  });

  test('without control nothing can be said', () => {
    expect(controlFinding([], 'us-ft')).toEqual({ kind: 'no-control' });
  });
});
