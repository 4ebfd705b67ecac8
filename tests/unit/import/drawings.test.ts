import { DOMParser } from '@xmldom/xmldom';
import { gpx as gpxPeer, kml as kmlPeer } from '@tmcw/togeojson';
import type { FeatureCollection } from 'geojson';
import { readFileSync } from 'node:fs';
import { parseShp } from 'shpjs';
import { expect, test } from 'vitest';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { eachRow } from '../../../src/domain/site/table';
import { openDrawing, type DrawingKind } from '../../../src/io/formats/open-drawing';
import { readPrj } from '../../../src/io/formats/prj';
import { pathsIn } from '../../../src/io/formats/bounded-zip';
import { ENOUGH, whatItIs } from '../../../src/io/formats/what-it-is';
import { openGrid } from '../../../src/io/projection/open-grid';
import { proposeMapping } from '../../../src/io/import/match-columns';
import type { SourceTable } from '../../../src/io/import/source-table';
import { bytesOfFile, emptySite, importInto, targetOf } from './target';

const FILES = new URL('../../fixtures/files/', import.meta.url);

const tables = (name: string, given: Uint8Array | string, kind: DrawingKind) => {
  const bytes = typeof given === 'string' ? strToU8(given) : given;
  const opened = openDrawing(name, bytes, kind);
  if (!opened.ok) throw new Error(opened.problem);
  return opened.value;
};

const cells = (source: SourceTable | undefined) =>
  source ? [source.headings, ...eachRow(source.table)] : [];

/** Points of a peer's answer: longitude and latitude, and the name. */
const pointsOf = (collection: FeatureCollection) =>
  collection.features.flatMap(({ geometry, properties }) =>
    geometry?.type === 'Point'
      ? [[String(properties?.name ?? ''), ...geometry.coordinates.slice(0, 2).map(String)]]
      : [],
  );

const KML = `<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>Osier Bend</name>
<NetworkLink><Link><href>http://example.org/more.kml</href></Link></NetworkLink>
<Folder><name>Points</name>
<Placemark><name>DP-1 &lt;b&gt;</name><description><![CDATA[<script>alert(1)</script> by the gate]]></description>
<ExtendedData><Data name="status"><value>pushed</value></Data><SchemaData><SimpleData name="Kind">direct push</SimpleData></SchemaData></ExtendedData>
<Point><altitudeMode>absolute</altitudeMode><coordinates> -120.62764776,40.3759027,31.24 </coordinates></Point></Placemark>
<Placemark><name>DP-2</name><Point><coordinates>-122.7984601,39.97013031</coordinates></Point></Placemark>
<Placemark><name>nowhere</name></Placemark>
</Folder>
<Placemark><name>Gas main</name><LineString><coordinates>-120.6,40.3,0 -120.5,40.4,0</coordinates></LineString></Placemark>
<Placemark><name>Yard</name><Polygon><outerBoundaryIs><LinearRing><coordinates>-120.6,40.3 -120.5,40.3 -120.5,40.4 -120.6,40.3</coordinates></LinearRing></outerBoundaryIs>
<innerBoundaryIs><LinearRing><coordinates>-120.55,40.31 -120.53,40.31 -120.53,40.33 -120.55,40.31</coordinates></LinearRing></innerBoundaryIs></Polygon></Placemark>
</Document></kml>`;

test('KML: placemarks with names, descriptions and data; markup stays the text it is', () => {
  const [points, shapes] = tables('places.kml', KML, 'kml');
  expect(points?.coordinates).toEqual({ kind: 'lng-lat', datum: 'WGS 84' });
  expect(cells(points)).toEqual([
    ['name', 'longitude', 'latitude', 'elevation (m)', 'description', 'status', 'Kind'],
    ['DP-1 <b>', '-120.62764776', '40.3759027', '31.24', '<script>alert(1)</script> by the gate', 'pushed', 'direct push'], // prettier-ignore
    ['DP-2', '-122.7984601', '39.97013031', '', '', '', ''],
    ['nowhere', '', '', '', '', '', ''],
  ]);
  expect([...(points?.broken ?? [])]).toEqual([[2, 'a point, line or area']]);
  expect(cells(shapes)).toEqual([
    ['id', 'name', 'shape'],
    ['Gas main', 'Gas main', 'LINESTRING (-120.6 40.3, -120.5 40.4)'],
    ['Yard', 'Yard', 'POLYGON ((-120.6 40.3, -120.5 40.3, -120.5 40.4, -120.6 40.3), (-120.55 40.31, -120.53 40.31, -120.53 40.33, -120.55 40.31))'], // prettier-ignore
  ]);
  expect(points?.said).toEqual(['1 links and overlays of the file are left out: nothing is fetched.']); // prettier-ignore
});

test('KML: the points are those another reader finds (@tmcw/togeojson 7.1.3)', () => {
  const [points] = tables('places.kml', KML, 'kml');
  const peer = kmlPeer(new DOMParser().parseFromString(KML, 'text/xml'));
  expect(cells(points).slice(1, 3).map((row) => row.slice(0, 3))).toEqual(pointsOf(peer as FeatureCollection)); // prettier-ignore
});

test('KMZ: the same in a zip', () => {
  const [points] = tables('places.kmz', zipSync({ 'doc.kml': strToU8(KML) }), 'kmz');
  expect(points?.table.size).toBe(3);
});

// The shape of the schema's own example; names and places invented.
const GPX = `<?xml version="1.0"?><gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="40.3759027" lon="-120.62764776"><ele>31.2</ele><time>2025-03-31T14:05:00Z</time><name>DP-1</name><cmt>by the gate</cmt></wpt>
<wpt lat="39.97013031" lon="-122.7984601"><name>DP-2</name></wpt>
<wpt lat="ninety" lon="-122"><name>DP-3</name></wpt>
<trk><name>Fence</name><trkseg><trkpt lat="40.3" lon="-120.6"/><trkpt lat="40.4" lon="-120.5"/></trkseg></trk></gpx>`;

test('GPX: waypoints as points and tracks as lines, as another reader has them', () => {
  const [points, shapes] = tables('walk.gpx', GPX, 'gpx');
  expect(cells(points)[1]).toEqual(['DP-1', '-120.62764776', '40.3759027', '31.2', 'by the gate', '2025-03-31T14:05:00Z']); // prettier-ignore
  expect(cells(shapes)[1]?.[2]).toBe('LINESTRING (-120.6 40.3, -120.5 40.4)');
  expect([...(points?.broken ?? [])]).toEqual([[2, 'lat and lon in degrees']]);
  const peer = gpxPeer(new DOMParser().parseFromString(GPX, 'text/xml'));
  const found = pointsOf(peer).filter(([, x, y]) => x !== 'NaN' && y !== 'NaN');
  expect(
    cells(points)
      .slice(1, 3)
      .map((row) => row.slice(0, 3)),
  ).toEqual(found);
});

test('GeoJSON: features of every kind, each accounted for', () => {
  const [points, shapes] = tables(
    'site.geojson',
    JSON.stringify({
      type: 'FeatureCollection',
      features: [
        { type: 'Feature', id: 7, properties: { name: 'DP-1', depth: 12.5, __proto: 1 }, geometry: { type: 'Point', coordinates: [-120.5, 40.3, 9] } }, // prettier-ignore
        { type: 'Feature', properties: null, geometry: null },
        { type: 'Feature', properties: { kind: 'building' }, geometry: { type: 'Polygon', coordinates: [[[0, 0], [1, 0], [1, 1], [0, 0]]] } }, // prettier-ignore
        { type: 'Feature', properties: {}, geometry: { type: 'LineString', coordinates: [[0, 0], ['x', 1]] } }, // prettier-ignore
        { type: 'Feature', properties: {}, geometry: { type: 'Polygon', coordinates: [[[0, 0], [1, 1], [0, 0]]] } }, // prettier-ignore
      ],
    }),
    'geojson',
  );
  expect(points?.table.size).toBe(4);
  expect(points?.broken.size).toBe(3);
  expect(shapes?.table.size).toBe(1);
});

test('GeoJSON with a __proto__ in it changes nothing but its own row', () => {
  const text = '{"type":"FeatureCollection","__proto__":{"polluted":1},"features":[{"type":"Feature","properties":{"__proto__":"x","name":"DP-1"},"geometry":{"type":"Point","coordinates":[1,2]}}]}'; // prettier-ignore
  const [points] = tables('p.geojson', text, 'geojson');
  expect(cells(points)[1]).toEqual(['DP-1', '1', '2', 'x']);
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});

test('GeoJSON of the older kind names its grid, and numbers that are no degrees are not taken for them', () => {
  const feature = { type: 'Feature', properties: { name: 'A' }, geometry: { type: 'Point', coordinates: [6943988.713, 2023214.941] } }; // prettier-ignore
  const [named] = tables('a.json', JSON.stringify({ type: 'FeatureCollection', crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:EPSG::2225' } }, features: [feature] }), 'geojson'); // prettier-ignore
  expect(named?.coordinates).toMatchObject({ kind: 'grid', grid: { code: 'EPSG:2225' } });
  const [bare] = tables('a.json', JSON.stringify(feature), 'geojson');
  expect(bare?.coordinates).toBeNull();
  expect(bare?.headings.slice(0, 3)).toEqual(['name', 'easting', 'northing']);
});

const file = (name: string) => bytesOfFile(new URL(name, FILES));

test('a shapefile of points: attributes, an empty shape, and its .prj without a code', () => {
  const [points] = tables('points.zip', file('points.zip'), 'shapefile');
  expect(points?.coordinates).toEqual({
    kind: 'grid',
    grid: { name: 'NAD83 / California zone 1 (ftUS)', code: 'EPSG:2225', projection: null, unit: 'us-ft' }, // prettier-ignore
  });
  expect(cells(points)).toEqual([
    ['name', 'easting', 'northing', 'GROUND', 'SET', 'DRY'],
    ['DP-1', '6943988.713', '2023214.941', '102.50', '2025-03-31', 'yes'],
    ['DP-2 café', '6337871.624', '1873424.389', '', '', ''],
    ['no place', '', '', '1.00', '', 'no'],
  ]);
  expect([...(points?.broken ?? [])]).toEqual([[2, 'a shape: the record is empty']]);
});

test('shapefile points land where PROJ has them, on a site in another grid', () => {
  const [points] = tables('points.zip', file('points.zip'), 'shapefile');
  if (!points) throw new Error('no points');
  const utm = { name: 'NAD83 / UTM zone 10N', code: 'EPSG:26910', projection: null, unit: 'm' } as const; // prettier-ignore
  const { after, preview } = importInto(emptySite({ grid: utm }), points, {
    'is locations.kind': 'direct push',
    'is locations.status': 'pushed',
  });
  expect(preview.account).toMatchObject({ rows: 3, taken: 2, refused: 1 });
  const opened = openGrid(utm);
  const [first] = [...targetOf(after).site.locations.values()];
  // The oracle's longitude and latitude of the first point of EPSG:2225.
  const place = opened.ok ? opened.value.fromOwnLngLat(-120.62764776, 40.3759027) : null;
  expect(Number(first?.easting?.text)).toBeCloseTo(place?.[0] ?? NaN, 2);
  expect(Number(first?.northing?.text)).toBeCloseTo(place?.[1] ?? NaN, 2);
});

test('holes lie in their areas and lines in several pieces are one line', () => {
  const [areas] = tables('areas.zip', file('areas.zip'), 'shapefile');
  const shape = cells(areas)[1]?.[2] ?? '';
  expect(shape).toMatch(/^MULTIPOLYGON \(\(\(0 0, .*\), \(2 2, .*\)\), \(\(20 0, .*\)\)\)$/);
  const [lines] = tables('lines.zip', file('lines.zip'), 'shapefile');
  expect(cells(lines)[1]?.[2]).toBe('MULTILINESTRING ((0 0, 1 1, 2 0), (5 5, 6 6))');
});

test.each(['points', 'areas', 'lines'])(
  '%s.zip has the shapes another reader finds (shpjs 6.2.0)',
  (name) => {
    // prettier-ignore
    const part = (ending: string) => {
    const bytes = unzipSync(file(`${name}.zip`))[`${name}/${name}.${ending}`] ?? new Uint8Array();
    return new DataView(bytes.slice().buffer);
  };
    const peer = parseShp(part('shp'));
    const numbers = (text: string) => (text.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
    const ours = tables(`${name}.zip`, file(`${name}.zip`), 'shapefile').flatMap(
      (source) =>
    [...eachRow(source.table)].map((row) => numbers(source.headings[2] === 'shape' ? (row[2] ?? '') : row.slice(1, 3).join(' '))), // prettier-ignore
    );
    const flat = (value: unknown): number[] =>
      Array.isArray(value)
        ? typeof value[0] === 'number'
          ? (value as number[]).slice(0, 2)
          : value.flatMap(flat)
        : [];
    const theirs = peer.map((shape) => (shape ? flat(shape.coordinates) : []));
    expect(ours.map((row) => row.toSorted((a, b) => a - b))).toEqual(theirs.map((row) => row.toSorted((a, b) => a - b))); // prettier-ignore
  },
);

// Well-known text of GDAL's first kind, from PROJ 9.1.1, with its codes taken out, and points of each grid.
const { crs: SYSTEMS } = JSON.parse(
  readFileSync(new URL('../../fixtures/oracles/a_projections.json', import.meta.url), 'utf8'),
) as {
  crs: readonly {
    epsg: number;
    name: string;
    method: string;
    wkt1_gdal: string;
    points: readonly { lon: number; lat: number; E: number; N: number }[];
  }[];
};

const READ_METHODS = new Set(['Transverse Mercator', 'Lambert Conic Conformal (2SP)', 'Albers Equal Area', 'Oblique Stereographic', 'Hotine Oblique Mercator (variant A)']); // prettier-ignore

test('a .prj without a code places points within two millimetres of PROJ, in every grid of the oracle it is read for', () => {
  let read = 0;
  for (const { epsg, method, wkt1_gdal, points } of SYSTEMS) {
    const bare = wkt1_gdal.replace(/,AUTHORITY\["[^"]*","[^"]*"\]/g, '').replace(/,AXIS\[[^\]]*\]/g, ''); // prettier-ignore
    const coordinates = readPrj(bare);
    if (!READ_METHODS.has(method)) {
      expect(coordinates.ok).toBe(false);
      continue;
    }
    if (!coordinates.ok || coordinates.value.kind !== 'grid') throw new Error(`EPSG:${epsg}`);
    const grid = openGrid(coordinates.value.grid);
    if (!grid.ok) throw new Error(JSON.stringify(grid.problem));
    read++;
    for (const { lon, lat, E, N } of points) {
      const place = grid.value.fromOwnLngLat(lon, lat);
      expect(Math.abs((place?.[0] ?? NaN) - E)).toBeLessThan(0.007);
      expect(Math.abs((place?.[1] ?? NaN) - N)).toBeLessThan(0.007);
    }
  }
  expect(read).toBe(97);
});

test('a .prj with a code is taken at its word', () => {
  const wkt = SYSTEMS.find(({ epsg }) => epsg === 2225)?.wkt1_gdal ?? '';
  expect(readPrj(wkt)).toMatchObject({ ok: true, value: { grid: { code: 'EPSG:2225' } } });
});

test('longitudes and latitudes on NAD27 are not passed off as WGS 84', () => {
  const nad27 = 'GEOGCS["GCS_North_American_1927",DATUM["D_North_American_1927",SPHEROID["Clarke_1866",6378206.4,294.9786982]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]'; // prettier-ignore
  expect(readPrj(nad27)).toMatchObject({ ok: false, problem: expect.stringContaining('hundreds of metres') as string }); // prettier-ignore
});

/** A zip with one byte range of a part written over. */
const tampered = (name: string, ending: string, change: (view: DataView) => void) => {
  const parts = unzipSync(file(`${name}.zip`));
  const path = `${name}/${name}.${ending}`;
  const bytes = (parts[path] ?? new Uint8Array()).slice();
  change(new DataView(bytes.buffer));
  return zipSync({ ...parts, [path]: bytes });
};

test.each([
  ['a record that says it is longer than the file', 'shp', (v: DataView) => v.setInt32(104, 2 ** 30)], // prettier-ignore
  ['a record of a negative length', 'shp', (v: DataView) => v.setInt32(104, -4)],
  ['a record of no length', 'shp', (v: DataView) => v.setInt32(104, 0)],
  ['a header of attributes that claims four thousand million rows', 'dbf', (v: DataView) => v.setUint32(4, 0xffffffff, true)], // prettier-ignore
  ['a row of attributes that is two bytes long', 'dbf', (v: DataView) => v.setUint16(10, 2, true)],
  ['a place that is no number', 'shp', (v: DataView) => v.setFloat64(112, NaN, true)],
])('%s neither hangs nor crashes', (_, ending, change) => {
  const started = performance.now();
  const opened = openDrawing('lies.zip', tampered('points', ending, change), 'shapefile');
  expect(performance.now() - started).toBeLessThan(1000);
  if (opened.ok)
    for (const source of opened.value) expect(source.table.size).toBeLessThanOrEqual(3);
  else expect(opened.problem).toContain('nothing drawn');
});

test('a polygon that claims more points than it has is refused with its reason', () => {
  const lying = tampered('areas', 'shp', (view) => view.setInt32(148, 1_000_000, true));
  const [areas] = tables('areas.zip', lying, 'shapefile');
  expect([...(areas?.broken.values() ?? [])]).toEqual([
    'as many points as the record has room for',
  ]);
});

test('a zip that climbs out of its folder is refused', () => {
  const opened = openDrawing('climb.zip', zipSync({ '../../a.shp': new Uint8Array(200) }), 'shapefile'); // prettier-ignore
  expect(opened).toMatchObject({ ok: false, problem: 'climb.zip is not opened: the file “../../a.shp” would land outside the folder.' }); // prettier-ignore
});

test('entities of a document’s own are not expanded', () => {
  const laughs = `<?xml version="1.0"?><!DOCTYPE kml [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]><kml><Placemark><name>&c;</name><Point><coordinates>1,2</coordinates></Point></Placemark></kml>`; // prettier-ignore
  expect(openDrawing('laughs.kml', strToU8(laughs), 'kml').ok).toBe(false);
});

test('tags in tags without end are refused', () => {
  const deep = `<kml>${'<Folder>'.repeat(100_000)}`;
  expect(openDrawing('deep.kml', strToU8(deep), 'kml')).toMatchObject({ ok: false, problem: 'deep.kml nests its elements too deeply.' }); // prettier-ignore
  const started = performance.now();
  openDrawing('deep.kml', strToU8('<'.repeat(1_000_000)), 'kml');
  expect(performance.now() - started).toBeLessThan(1000);
});

test.each([
  ['table', strToU8('Well,DTW\nMW-1,8\n')],
  ['workbook', file('gauging.xlsx')],
  ['shapefile', file('points.zip')],
  ['site', zipSync({ 'osier/datapackage.json': strToU8('{}') })],
  ['kml', strToU8(KML)],
  ['gpx', strToU8(GPX)],
  ['geojson', strToU8('{"type":"Feature"}')],
  ['descriptor', strToU8('{"name":"a","resources":[]}')],
  ['refused', strToU8('<?xml version="1.0"?><svg onload="alert(1)"/>')],
  ['refused', strToU8('<!-- x --><html><script>')],
  ['refused', strToU8('%PDF-1.7')],
  ['refused', new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 1])],
  ['refused', new Uint8Array()],
  ['image', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0])],
])('a file is a %s by its bytes', (kind, bytes) => {
  const head = bytes.subarray(0, ENOUGH);
  expect(whatItIs(head, head.length === bytes.length, () => pathsIn(bytes)).kind).toBe(kind);
});

test('points and lines of one drawing are matched to locations and to features', () => {
  const forms = tables('places.kml', KML, 'kml').map(
    (source) => proposeMapping(source).mapping.form,
  );
  expect(forms).toEqual(['locations', 'features']);
});

test('lines and areas are proposed for the features, beside points for the locations, whatever their kinds', () => {
  const both = tables('yard.kml', KML.replace('<Placemark><name>Gas main</name>', '<Placemark><name>Gas main</name><ExtendedData><Data name="kind"><value>utility</value></Data></ExtendedData>'), 'kml'); // prettier-ignore
  expect(both.map((source) => proposeMapping(source).mapping.form)).toEqual(['locations', 'features']); // prettier-ignore
});
