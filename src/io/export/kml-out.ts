import type { Area, Line, Ring, Shape, XY } from '../../domain/geometry/shape';
import { escaped } from '../formats/xml';
import { angle, type PlacedSite, type PlacedThing } from './placed-things';

const places = (line: readonly XY[]) => line.map(([x, y]) => `${angle(x)},${angle(y)}`).join(' ');

const coordinates = (line: readonly XY[]) => `<coordinates>${places(line)}</coordinates>`;

const ring = (name: string, corners: Ring) =>
  `<${name}><LinearRing>${coordinates([...corners, ...corners.slice(0, 1)])}</LinearRing></${name}>`;

const point = (place: XY) => `<Point>${coordinates([place])}</Point>`;
const line = (corners: Line) =>
  `<LineString><tessellate>1</tessellate>${coordinates(corners)}</LineString>`;
const polygon = ([outer = [], ...holes]: Area) =>
  `<Polygon>${ring('outerBoundaryIs', outer)}${holes.map((hole) => ring('innerBoundaryIs', hole)).join('')}</Polygon>`;

function geometry(shape: Shape): string {
  const parts =
    shape.kind === 'points'
      ? shape.points.map(point)
      : shape.kind === 'lines'
        ? shape.lines.map(line)
        : shape.areas.map(polygon);
  return parts.length === 1 ? (parts[0] ?? '') : `<MultiGeometry>${parts.join('')}</MultiGeometry>`;
}

function placemark({ id, shape, properties }: PlacedThing): string {
  const name = properties.get('name') ?? id;
  const entries = [['id', id] as const, ...properties]
    .filter(([key]) => key !== 'name')
    .map(([key, text]) => `<Data name="${escaped(key)}"><value>${escaped(text)}</value></Data>`);
  return `<Placemark><name>${escaped(name)}</name><ExtendedData>${entries.join('')}</ExtendedData>${geometry(shape)}</Placemark>`;
}

/** Locations and features as KML (OGC 07-147r2, 2008), a folder each, on the ground. */
export function kmlOf({ title, things, note }: PlacedSite): string {
  const folder = (name: string, table: PlacedThing['table']) => {
    const own = things.filter((thing) => thing.table === table);
    return own.length === 0
      ? ''
      : `<Folder><name>${name}</name>\n${own.map(placemark).join('\n')}\n</Folder>\n`;
  };
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n',
    '<kml xmlns="http://www.opengis.net/kml/2.2"><Document>\n',
    `<name>${escaped(title)}</name><description>${escaped(note)}</description>\n`,
    folder('Locations', 'locations'),
    folder('Features', 'features'),
    '</Document></kml>\n',
  ].join('');
}
