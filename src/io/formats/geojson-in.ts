import type { Shape, XY } from '../../domain/geometry/shape';
import { fail, ok, type Result } from '../../domain/result';
import { findSystem } from '../projection/systems';
import type { Coordinates } from '../import/source-table';
import { nothing, ringOf, WGS_84, wrongWith, type Drawing, type Drawn } from './drawn';

type Json = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const own = (record: Json, name: string): unknown =>
  Object.hasOwn(record, name) ? record[name] : undefined;

/**
 * GeoJSON (RFC 7946, 2016): longitudes and latitudes on WGS 84. The older `crs`
 * member is honoured where it names a grid of the list.
 */
export function readGeoJson(name: string, text: string): Result<Drawing, string> {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return fail(`${name} is no well-formed JSON.`);
  }
  if (!isRecord(parsed)) return fail(`${name} is no GeoJSON: a JSON object was expected.`);
  const things = thingsOf(parsed);
  if (!things) return fail(`${name} is no GeoJSON: it has no features and no geometry.`);
  const system = coordinatesOf(parsed);
  if (typeof system === 'string') return fail(`${name}: ${system}`);
  const isBeyond = things.some(({ shape }) => shape !== null && isBeyondDegrees(shape));
  const coordinates = system.kind === 'lng-lat' && isBeyond ? null : system;
  return ok({
    name,
    things,
    coordinates,
    said: coordinates
      ? []
      : ['Its coordinates are no longitudes and latitudes, as GeoJSON should have: they are taken for the site’s grid.'], // prettier-ignore
  });
}

function thingsOf(parsed: Json): readonly Drawn[] | null {
  const type = own(parsed, 'type');
  if (type === 'FeatureCollection') {
    const features = own(parsed, 'features');
    return Array.isArray(features) ? features.map(featureOf) : null;
  }
  if (type === 'Feature') return [featureOf(parsed)];
  if (type === 'GeometryCollection') {
    const geometries = own(parsed, 'geometries');
    return Array.isArray(geometries)
      ? geometries.map((geometry) => thing('', geometry, new Map()))
      : null;
  }
  return typeof type === 'string' && Object.hasOwn(parsed, 'coordinates')
    ? [thing('', parsed, new Map())]
    : null;
}

const cellText = (value: unknown): string => {
  if (value === null || value === undefined) return '';
  if (typeof value === 'string') return value;
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  return JSON.stringify(value);
};

function featureOf(value: unknown): Drawn {
  if (!isRecord(value) || own(value, 'type') !== 'Feature') return nothing('a Feature');
  const given = own(value, 'properties');
  const properties = new Map(
    isRecord(given) ? Object.entries(given).map(([key, cell]) => [key, cellText(cell)]) : [],
  );
  const id = cellText(own(value, 'id'));
  if (id !== '' && !properties.has('id')) properties.set('id', id);
  const key = [...properties.keys()].find((each) => /^(?:name|title|label)$/i.test(each));
  const name = (key === undefined ? '' : (properties.get(key) ?? '')) || id;
  return thing(name, own(value, 'geometry'), properties);
}

function thing(name: string, geometry: unknown, properties: ReadonlyMap<string, string>): Drawn {
  const lost = (wrong: string): Drawn => ({ ...nothing(wrong, name), properties });
  if (geometry === null || geometry === undefined) return lost('a geometry');
  if (!isRecord(geometry)) return lost('a geometry');
  const shape = shapeOf(own(geometry, 'type'), own(geometry, 'coordinates'));
  if (typeof shape === 'string') return lost(shape);
  const wrong = wrongWith(shape);
  if (wrong !== null) return lost(wrong);
  // A third coordinate is metres above the ellipsoid (3.1.1): no elevation of a survey.
  return { name, shape, wrong: null, elevation: '', properties };
}

function place(value: unknown): XY | null {
  if (!Array.isArray(value)) return null;
  const [x, y] = value as readonly unknown[];
  return typeof x === 'number' && typeof y === 'number' && Number.isFinite(x) && Number.isFinite(y)
    ? [x, y]
    : null;
}

/** Every member read, or null where one can't be. */
function all<T>(value: unknown, read: (each: unknown) => T | null): T[] | null {
  if (!Array.isArray(value)) return null;
  const read_: T[] = [];
  for (const each of value as readonly unknown[]) {
    const one = read(each);
    if (one === null) return null;
    read_.push(one);
  }
  return read_;
}

const places = (value: unknown) => all(value, place);
const ring = (value: unknown) => {
  const corners = places(value);
  return corners && ringOf(corners);
};
const area = (value: unknown) => all(value, ring);

function shapeOf(type: unknown, coordinates: unknown): Shape | string {
  const wrong = 'coordinates of two numbers each';
  const points = (list: readonly XY[] | null): Shape | string =>
    list ? { kind: 'points', points: list } : wrong;
  const lines = (list: readonly XY[][] | null): Shape | string =>
    list ? { kind: 'lines', lines: list } : wrong;
  const areas = (list: readonly (readonly XY[])[][] | null): Shape | string =>
    list ? { kind: 'areas', areas: list } : wrong;
  const one = <T>(read: T | null): T[] | null => (read === null ? null : [read]);
  switch (type) {
    case 'Point':
      return points(one(place(coordinates)));
    case 'MultiPoint':
      return points(places(coordinates));
    case 'LineString':
      return lines(one(places(coordinates)));
    case 'MultiLineString':
      return lines(all(coordinates, places));
    case 'Polygon':
      return areas(one(area(coordinates)));
    case 'MultiPolygon':
      return areas(all(coordinates, area));
    case 'GeometryCollection':
      return 'one kind of geometry, not a collection of several';
    default:
      return 'a geometry such as Point, LineString or Polygon';
  }
}

function isBeyondDegrees(shape: Shape): boolean {
  const beyond = ([x, y]: XY) => Math.abs(x) > 180 || Math.abs(y) > 90;
  switch (shape.kind) {
    case 'points':
      return shape.points.some(beyond);
    case 'lines':
      return shape.lines.some((line) => line.some(beyond));
    case 'areas':
      return shape.areas.some((each) => each.some((corners) => corners.some(beyond)));
  }
}

function coordinatesOf(parsed: Json): Coordinates | string {
  const crs = own(parsed, 'crs');
  if (!isRecord(crs)) return WGS_84;
  const properties = own(crs, 'properties');
  const name = isRecord(properties) ? cellText(own(properties, 'name')) : '';
  if (name === '' || /CRS84|EPSG:+(?:[\d.]*:)?4326$/i.test(name)) return WGS_84;
  const code = /EPSG:+(?:[\d.]*:)?(\d{4,6})$/i.exec(name)?.[1];
  const system = code === undefined ? null : findSystem(`EPSG:${code}`);
  return system
    ? {
        kind: 'grid',
        grid: { name: system.name, code: system.code, projection: null, unit: system.unit },
      }
    : `its coordinates are in “${name.slice(0, 60)}”, which is not in the list of grids here.`;
}
