import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Mapping } from '../../../src/io/import/mapping';
import { proposeMapping } from '../../../src/io/import/match-columns';
import type { Coordinates } from '../../../src/io/import/source-table';
import { emptySite, importInto, sourceOf, targetOf } from './target';

const GRID = { name: 'NAD83 / UTM zone 12N', code: 'EPSG:26912', projection: null, unit: 'm' } as const; // prettier-ignore
const UTM = () => emptySite({ grid: GRID });
const PUSHED = { 'is locations.kind': 'direct push', 'is locations.status': 'pushed' };

const places = (site: ReturnType<typeof emptySite>) =>
  [...targetOf(site).site.locations.values()].map((l) => [l.id, l.easting?.text, l.northing?.text]);

const withCoordinates = (mapping: Mapping, coordinates: Coordinates): Mapping => ({ ...mapping, coordinates }); // prettier-ignore

test('one place in decimal degrees, in minutes, in seconds and in one cell is one place', () => {
  const decimal = sourceOf('a.csv', 'Point,Latitude,Longitude', 'A,43.515569,-113.081333');
  const { after } = importInto(UTM(), decimal, PUSHED);
  const [place] = places(after);
  expect(place?.[0]).toBe('A');
  for (const [lat, lng] of [
    ['43°30′56.0484″ N', '113°04′52.7988″ W'],
    ['43 30.93414 N', '113 4.87998 W'],
    ['N43 30 56.0484', 'W113 4 52.7988'],
  ]) {
    const other = sourceOf('b.csv', 'Point;Latitude;Longitude', `A;${lat ?? ''};${lng ?? ''}`);
    expect(places(importInto(UTM(), other, PUSHED).after)).toEqual([place]);
  }
  const together = sourceOf('c.csv', 'Point;Lat/Long', 'A;43.515569, -113.081333');
  expect(places(importInto(UTM(), together, PUSHED).after)).toEqual([place]);
});

// Points made with PROJ 9.1.1 (pyproj 3.4.1): longitude and latitude on each grid's own datum.
const { crs: SYSTEMS } = JSON.parse(
  readFileSync(new URL('../../fixtures/oracles/a_projections.json', import.meta.url), 'utf8'),
) as {
  crs: readonly {
    epsg: number;
    name: string;
    unit: string;
    points: readonly { lon: number; lat: number; E: number; N: number }[];
  }[];
};

const unitOf = (unit: string) => (unit === 'metre' ? 'm' : unit === 'foot' ? 'ft' : 'us-ft');

test.each(SYSTEMS.filter((_, i) => i % 12 === 0).map((each) => [each.name, each] as const))(
  'longitudes and latitudes are brought onto %s as PROJ does it',
  (_, { epsg, name, unit, points }) => {
    const grid = { name, code: `EPSG:${epsg}`, projection: null, unit: unitOf(unit) } as const;
    const lines = points.map(({ lon, lat }, i) => `P${i},${lat},${lon}`);
    const source = sourceOf('p.csv', 'Point,Latitude,Longitude', ...lines);
    const placed = places(importInto(emptySite({ grid }), source, PUSHED).after);
    expect(placed).toHaveLength(points.length);
    placed.forEach(([, easting, northing], i) => {
      expect(Math.abs(Number(easting) - (points[i]?.E ?? NaN))).toBeLessThan(0.0006);
      expect(Math.abs(Number(northing) - (points[i]?.N ?? NaN))).toBeLessThan(0.0006);
    });
  },
);

test('State Plane in survey feet goes into UTM in metres as its longitudes and latitudes do', () => {
  const california = SYSTEMS.find(({ epsg }) => epsg === 2225);
  const points = california?.points ?? [];
  const utm = emptySite({ grid: { name: 'NAD83 / UTM zone 10N', code: 'EPSG:26910', projection: null, unit: 'm' } }); // prettier-ignore
  const feet = sourceOf('sp.csv', 'Point,Easting,Northing', ...points.map(({ E, N }, i) => `P${i},${E},${N}`)); // prettier-ignore
  const grid = { name: 'NAD83 / California zone 1 (ftUS)', code: 'EPSG:2225', projection: null, unit: 'us-ft' } as const; // prettier-ignore
  const mapping = withCoordinates(proposeMapping(feet).mapping, { kind: 'grid', grid });
  const moved = importInto(utm, feet, PUSHED, mapping);
  const degrees = sourceOf('p.csv', 'Point,Latitude,Longitude', ...points.map(({ lon, lat }, i) => `P${i},${lat},${lon}`)); // prettier-ignore
  expect(moved.preview.account.taken).toBe(6);
  expect(moved.preview.said.join(' ')).toContain('turned from NAD83 / California zone 1 (ftUS) into NAD83 / UTM zone 10N'); // prettier-ignore
  const expected = places(importInto(utm, degrees, PUSHED).after);
  places(moved.after).forEach(([, easting, northing], i) => {
    expect(Math.abs(Number(easting) - Number(expected[i]?.[1]))).toBeLessThan(0.0021);
    expect(Math.abs(Number(northing) - Number(expected[i]?.[2]))).toBeLessThan(0.0021);
  });
});

test('coordinates in the site’s own grid are left as they were written', () => {
  const source = sourceOf('a.csv', 'Point,Easting,Northing', 'A,331777.27,4820174.8');
  expect(places(importInto(UTM(), source, PUSHED).after)).toEqual([['A', '331777.27', '4820174.8']]); // prettier-ignore
});

test('a site on a local grid has no place for longitudes: the rows say so', () => {
  const source = sourceOf('a.csv', 'Point,Latitude,Longitude', 'A,43.515569,-113.081333');
  const { preview } = importInto(emptySite(), source, PUSHED);
  expect(preview.account.refused).toBe(1);
  expect(preview.refused[0]?.why).toContain('a site with a grid on earth');
});

test('a latitude of N in the column of longitudes, and packed degrees, are refused', () => {
  const source = sourceOf(
    'a.csv',
    'Point;Latitude;Longitude',
    'A;43.5;43.5 N',
    'B;433056;-113.08',
    'C;43.5;-113.08',
  );
  const { preview } = importInto(UTM(), source, PUSHED);
  expect(preview.account).toMatchObject({ taken: 1, refused: 2 });
});

test('longitudes without their minus sign are noticed, and so is a point far from the others', () => {
  const west = sourceOf('a.csv', 'Point,Latitude,Longitude', 'A,43.51,113.08', 'B,43.52,113.07');
  expect(importInto(UTM(), west, PUSHED).preview.longitudeSign).toBe(true);
  const far = sourceOf(
    'b.csv',
    'Point,Easting,Northing',
    'A,331777,4820174',
    'B,331790,4820180',
    'C,331800,4820190',
    'D,331810,4820200',
    'E,4820174,331777',
  );
  const { preview } = importInto(UTM(), far, PUSHED);
  expect(preview.doubts).toContainEqual({ kind: 'swapped', id: 'E' });
});
