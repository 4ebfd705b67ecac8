import { DOMParser } from '@xmldom/xmldom';
import { gpx as gpxPeer, kml as kmlPeer } from '@tmcw/togeojson';
import { booleanClockwise } from '@turf/turf';
import type { FeatureCollection, Geometry, Position } from 'geojson';
import { strToU8 } from 'fflate';
import { beforeAll, expect, test } from 'vitest';
import { apply } from '../../../src/domain/site/edits/apply';
import { openDrawing } from '../../../src/io/formats/open-drawing';
import { geoJsonOf } from '../../../src/io/export/geojson-out';
import { gpxOf } from '../../../src/io/export/gpx-out';
import { kmlOf } from '../../../src/io/export/kml-out';
import { placedSite, type PlacedSite } from '../../../src/io/export/placed-things';
import { emptySite, importInto, targetOf } from '../import/target';

const UTM = { name: 'NAD83 / UTM zone 10N', code: 'EPSG:26910', projection: null, unit: 'm' } as const; // prettier-ignore
const HOSTILE = 'DP <b>&"\'\u0001]]> \ud800';

let placed: PlacedSite;

beforeAll(() => {
  const made = apply(emptySite({ grid: UTM }), {
    kind: 'together',
    edits: [
      {
        kind: 'add-rows',
        table: 'locations',
        rows: [
          { id: 'DP-1', easting: '531777.274', northing: '4469174.796', ground_elevation: '102.5', ground_how: 'surveyed', kind: 'direct push', status: 'pushed', note: '' }, // prettier-ignore
          { id: HOSTILE, easting: '531800', northing: '4469200', ground_elevation: '', ground_how: '', kind: 'monitoring well', status: 'installed', note: '<script>alert(1)</script>' }, // prettier-ignore
          { id: 'nowhere', easting: '', northing: '', ground_elevation: '', ground_how: '', kind: 'direct push', status: 'planned', note: '' }, // prettier-ignore
        ],
      },
      {
        kind: 'add-rows',
        table: 'features',
        rows: [
          { id: 'gas', kind: 'utility', name: 'Gas main', shape: 'LINESTRING (531700 4469100, 531900 4469300)', carries: 'gas' }, // prettier-ignore
          // Wound clockwise, with a hole wound so too: RFC 7946 wants neither.
          { id: 'yard', kind: 'boundary', name: 'Yard', shape: 'POLYGON ((531700 4469100, 531700 4469400, 532000 4469400, 532000 4469100, 531700 4469100), (531800 4469200, 531800 4469250, 531850 4469250, 531850 4469200, 531800 4469200))', carries: '' }, // prettier-ignore
          { id: 'torn', kind: 'building', name: '', shape: 'POLYGON ((1 2', carries: '' },
        ],
      },
    ],
  });
  if (!made.ok) throw new Error(made.problem);
  const { site, grid } = targetOf(made.value);
  placed = placedSite(site, grid);
});

test('what has no place is left out by name', () => {
  expect(placed.things.map(({ id }) => id)).toEqual(['DP-1', HOSTILE, 'gas', 'yard']);
  expect(placed.left).toEqual([
    { id: 'nowhere', why: 'planned: it has no coordinates of its own until it is pushed' },
    { id: 'torn', why: 'its shape can’t be read' },
  ]);
});

const collection = () => JSON.parse(geoJsonOf(placed)) as FeatureCollection;
const geometry = (i: number) => collection().features[i]?.geometry as Exclude<Geometry, { type: 'GeometryCollection' }>; // prettier-ignore

test('GeoJSON: rings are closed, outer to the left and holes to the right (RFC 7946, 3.1.6)', () => {
  const [outer = [], hole = []] = geometry(3).coordinates as Position[][];
  for (const ring of [outer, hole]) expect(ring.at(-1)).toEqual(ring[0]);
  expect(booleanClockwise(outer)).toBe(false);
  expect(booleanClockwise(hole)).toBe(true);
});

test('GeoJSON holds no older crs member, and every property as it was written', () => {
  expect(Object.keys(collection())).toEqual(['type', 'features']);
  expect(collection().features[0]?.properties).toEqual({
    name: 'DP-1',
    id: 'DP-1',
    table: 'locations',
    'ground_elevation (ft)': '102.5',
    ground_how: 'surveyed',
    kind: 'direct push',
    status: 'pushed',
  });
});

const parsed = (text: string) => {
  const problems: string[] = [];
  const document = new DOMParser({ onError: (_, message) => problems.push(message) }).parseFromString(text, 'text/xml'); // prettier-ignore
  expect(problems).toEqual([]);
  return document;
};

const flat = (value: unknown): number[] =>
  Array.isArray(value)
    ? typeof value[0] === 'number'
      ? (value as number[]).slice(0, 2)
      : value.flatMap(flat)
    : [];

test('KML: another reader finds the same names and places in it (@tmcw/togeojson 7.1.3)', () => {
  const peer = kmlPeer(parsed(kmlOf(placed))) as FeatureCollection;
  expect(peer.features.map(({ geometry }) => geometry.type)).toEqual(['Point', 'Point', 'LineString', 'Polygon']); // prettier-ignore
  // Rings may begin at another corner: what is compared are the corners.
  const corners = (value: unknown) => [...new Set(flat(value))].toSorted((a, b) => a - b);
  peer.features.forEach((feature, i) =>
    expect(corners((feature.geometry as { coordinates?: unknown }).coordinates)).toEqual(
      corners(geometry(i).coordinates),
    ),
  );
  expect(peer.features[0]?.properties?.name).toBe('DP-1');
  expect(peer.features[2]?.properties?.carries).toBe('gas');
});

test('GPX: waypoints with elevations in metres, lines and rings as tracks', () => {
  const text = gpxOf(placed);
  const peer = gpxPeer(parsed(text));
  const kinds = peer.features.map((feature) => feature.geometry.type);
  expect(kinds.toSorted()).toEqual(['LineString', 'MultiLineString', 'Point', 'Point']);
  // 102.5 ft = 31.242 m
  expect(text).toContain('<ele>31.242</ele><name>DP-1</name>');
});

test('a hostile name comes through XML as the text it is, less the signs XML can’t hold', () => {
  const document = parsed(kmlOf(placed));
  const names = [...document.getElementsByTagName('name')].map((node) => node.textContent);
  expect(names).toContain('DP <b>&"\']]> ');
  expect(kmlOf(placed)).not.toContain('<script>');
  expect(gpxOf(placed)).not.toContain('<script>');
});

test.each(['geojson', 'kml', 'gpx'] as const)('%s comes in again where it went out', (kind) => {
  const text = { geojson: geoJsonOf, kml: kmlOf, gpx: gpxOf }[kind](placed);
  const opened = openDrawing(`site.${kind}`, strToU8(text), kind);
  if (!opened.ok) throw new Error(opened.problem);
  const [points] = opened.value;
  if (!points) throw new Error('no points');
  const { after } = importInto(emptySite({ grid: UTM }), points, {
    'is locations.kind': 'direct push',
    'is locations.status': 'pushed',
  });
  const [first] = [...targetOf(after).site.locations.values()];
  // Eight decimals of a degree and three of a metre.
  expect(Number(first?.easting?.text)).toBeCloseTo(531777.274, 2);
  expect(Number(first?.northing?.text)).toBeCloseTo(4469174.796, 2);
});

test('a site on a local grid has nothing for a map of the world, and says why', () => {
  const made = apply(emptySite(), {
    kind: 'add-rows',
    table: 'locations',
    rows: [{ id: 'A', easting: '1', northing: '2', kind: 'direct push', status: 'pushed' }],
  });
  if (!made.ok) throw new Error(made.problem);
  const { site, grid } = targetOf(made.value);
  expect(placedSite(site, grid).left).toEqual([{ id: 'A', why: 'the grid is local and tied to nothing' }]); // prettier-ignore
});
