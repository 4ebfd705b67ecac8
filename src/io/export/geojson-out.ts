import type { Geometry, Position } from 'geojson';
import { twiceSignedArea } from '../../domain/geometry/inside';
import type { Area, Ring, Shape, XY } from '../../domain/geometry/shape';
import { angle, type PlacedSite } from './placed-things';

const position = ([x, y]: XY): Position => [angle(x), angle(y)];

/** Outer rings wind to the left, holes to the right (RFC 7946, 3.1.6); the first corner stands again at the end. */
function closed(ring: Ring, isHole: boolean): Position[] {
  const isLeft = twiceSignedArea(ring) > 0;
  const turned = isLeft === isHole ? ring.toReversed() : ring;
  return [...turned, ...turned.slice(0, 1)].map(position);
}

const polygon = (area: Area) => area.map((ring, i) => closed(ring, i > 0));

/** A shape as a GeoJSON geometry. */
function geometryOf(shape: Shape): Geometry {
  switch (shape.kind) {
    case 'points': {
      const [only] = shape.points;
      return only && shape.points.length === 1
        ? { type: 'Point', coordinates: position(only) }
        : { type: 'MultiPoint', coordinates: shape.points.map(position) };
    }
    case 'lines': {
      const [only] = shape.lines;
      return only && shape.lines.length === 1
        ? { type: 'LineString', coordinates: only.map(position) }
        : { type: 'MultiLineString', coordinates: shape.lines.map((line) => line.map(position)) };
    }
    case 'areas': {
      const [only] = shape.areas;
      return only && shape.areas.length === 1
        ? { type: 'Polygon', coordinates: polygon(only) }
        : { type: 'MultiPolygon', coordinates: shape.areas.map(polygon) };
    }
  }
}

/** Locations and features as GeoJSON (RFC 7946, 2016), longitude and latitude on WGS 84. */
export function geoJsonOf({ things }: PlacedSite): string {
  const features = things.map(({ id, shape, properties, table }) => ({
    type: 'Feature',
    id: `${table}/${id}`,
    properties: Object.fromEntries([
      ['name', properties.get('name') ?? id],
      ['id', id],
      ['table', table],
      ...[...properties].filter(([key]) => key !== 'name'),
    ]),
    geometry: geometryOf(shape),
  }));
  return `${JSON.stringify({ type: 'FeatureCollection', features }, null, 1)}\n`;
}
