import type { Area, Line, Shape, XY } from '../../domain/geometry/shape';
import { decimal } from '../../domain/site/read-cell';
import { fail, ok, type Result } from '../../domain/result';
import { nothing, ringOf, WGS_84, wrongWith, type Drawing, type Drawn } from './drawn';
import { childOf, childrenOf, childText, localName, readXml, textIn, type Element } from './xml';

/**
 * KML (OGC 07-147r2, 2008): placemarks with their names, descriptions and data;
 * longitudes and latitudes on WGS 84. Styles, overlays and links are left out;
 * nothing a link names is fetched.
 */
export function readKml(name: string, text: string): Result<Drawing, string> {
  const root = readXml(name, text);
  if (!root.ok) return root;
  if (localName(root.value) !== 'kml') return fail(`${name} is no KML.`);
  const things: Drawn[] = [];
  let links = 0;
  const walk = (element: Element) => {
    for (const child of childrenOf(element))
      switch (localName(child)) {
        case 'Placemark':
          things.push(placemark(child));
          break;
        case 'NetworkLink':
        case 'GroundOverlay':
          links++;
          break;
        default:
          walk(child);
      }
  };
  walk(root.value);
  return ok({
    name,
    things,
    coordinates: WGS_84,
    said:
      links > 0
        ? [`${links} links and overlays of the file are left out: nothing is fetched.`]
        : [],
  });
}

const GEOMETRIES = ['Point', 'LineString', 'LinearRing', 'Polygon', 'MultiGeometry'];

function placemark(element: Element): Drawn {
  const name = childText(element, 'name');
  const properties = new Map<string, string>();
  const put = (key: string, value: string) => {
    if (value !== '') properties.set(key, value);
  };
  put('description', childText(element, 'description'));
  const extended = childOf(element, 'ExtendedData');
  for (const entry of extended ? childrenOf(extended) : [])
    if (localName(entry) === 'Data')
      put(entry.attributes.name ?? 'value', childText(entry, 'value'));
    else
      for (const simple of childrenOf(entry, 'SimpleData'))
        put(simple.attributes.name ?? 'value', textIn(simple));

  const geometry = childrenOf(element).find((child) => GEOMETRIES.includes(localName(child)));
  if (!geometry) return { ...nothing('a point, line or area', name), properties };
  const shape = shapeOf(geometry);
  if (typeof shape === 'string') return { ...nothing(shape, name), properties };
  const wrong = wrongWith(shape);
  if (wrong !== null) return { ...nothing(wrong, name), properties };
  return { name, shape, wrong: null, elevation: altitude(geometry), properties };
}

/** Metres above the sea, where the altitude is said to be absolute; on the ground it says nothing. */
function altitude(point: Element): string {
  const [, , height = ''] = childText(point, 'coordinates').split(',');
  const isAbsolute = childText(point, 'altitudeMode') === 'absolute';
  return localName(point) === 'Point' && isAbsolute && decimal(height.trim()) !== null
    ? height.trim()
    : '';
}

/** "lng,lat,height lng,lat"; null where one of them is no place. */
function placesIn(text: string): XY[] | null {
  const places: XY[] = [];
  for (const part of text.trim().split(/\s+/).filter(Boolean)) {
    const [x, y] = part.split(',').map((number) => decimal(number.trim()));
    if (typeof x !== 'number' || typeof y !== 'number') return null;
    places.push([x, y]);
  }
  return places;
}

const NO_PLACES = 'coordinates such as -120.5,40.3';

function lineOf(element: Element | null): Line | null {
  return element ? placesIn(childText(element, 'coordinates')) : null;
}

function areaOf(polygon: Element): Area | null {
  const rings = [childOf(polygon, 'outerBoundaryIs'), ...childrenOf(polygon, 'innerBoundaryIs')];
  const read = rings.map((ring) => ring && lineOf(childOf(ring, 'LinearRing')));
  const area = read.flatMap((ring) => (ring ? [ringOf(ring)] : []));
  return area.length === rings.length ? area : null;
}

function shapeOf(element: Element): Shape | string {
  switch (localName(element)) {
    case 'Point': {
      const line = lineOf(element);
      return line ? { kind: 'points', points: line.slice(0, 1) } : NO_PLACES;
    }
    case 'LineString':
    case 'LinearRing': {
      const line = lineOf(element);
      return line ? { kind: 'lines', lines: [line] } : NO_PLACES;
    }
    case 'Polygon': {
      const area = areaOf(element);
      return area ? { kind: 'areas', areas: [area] } : NO_PLACES;
    }
    default:
      return together(childrenOf(element).filter((child) => GEOMETRIES.includes(localName(child))));
  }
}

/** Several geometries of one kind as one shape. */
function together(elements: readonly Element[]): Shape | string {
  const shapes = elements.map(shapeOf);
  const wrong = shapes.find((shape) => typeof shape === 'string');
  if (wrong !== undefined) return wrong;
  const read = shapes.filter((shape) => typeof shape !== 'string');
  const [first] = read;
  if (!first) return NO_PLACES;
  const mixed = 'one kind of geometry, not a collection of several';
  switch (first.kind) {
    case 'points':
      return read.every((shape) => shape.kind === 'points')
        ? { kind: 'points', points: read.flatMap((shape) => shape.points) }
        : mixed;
    case 'lines':
      return read.every((shape) => shape.kind === 'lines')
        ? { kind: 'lines', lines: read.flatMap((shape) => shape.lines) }
        : mixed;
    case 'areas':
      return read.every((shape) => shape.kind === 'areas')
        ? { kind: 'areas', areas: read.flatMap((shape) => shape.areas) }
        : mixed;
  }
}
