import type { XY } from '../../domain/geometry/shape';
import { decimal } from '../../domain/site/read-cell';
import { fail, ok, type Result } from '../../domain/result';
import { nothing, WGS_84, type Drawing, type Drawn } from './drawn';
import { childrenOf, childText, localName, readXml, type Element } from './xml';

/**
 * GPX 1.1 (topografix.com/GPX/1/1): waypoints as points, routes and tracks as
 * lines; latitudes and longitudes on WGS 84, elevations in metres.
 */
export function readGpx(name: string, text: string): Result<Drawing, string> {
  const root = readXml(name, text);
  if (!root.ok) return root;
  if (localName(root.value) !== 'gpx') return fail(`${name} is no GPX.`);
  const things = [
    ...childrenOf(root.value, 'wpt').map(waypoint),
    ...childrenOf(root.value, 'rte').map((route) => line(route, [childrenOf(route, 'rtept')])),
    ...childrenOf(root.value, 'trk').map((track) =>
      line(
        track,
        childrenOf(track, 'trkseg').map((segment) => childrenOf(segment, 'trkpt')),
      ),
    ),
  ];
  return ok({
    name,
    things,
    coordinates: WGS_84,
    said: things.some(({ elevation }) => elevation !== '')
      ? ['Elevations of a satellite receiver are seldom good to a metre: they are no survey.']
      : [],
  });
}

function placeOf({ attributes }: Element): XY | null {
  const [lat, lng] = [
    decimal((attributes.lat ?? '').trim()),
    decimal((attributes.lon ?? '').trim()),
  ];
  return lat === null || lng === null ? null : [lng, lat];
}

const said = ['cmt', 'desc', 'time', 'sym', 'type', 'src'] as const;

const WORDS: Readonly<Record<(typeof said)[number], string>> = {
  cmt: 'comment',
  desc: 'description',
  time: 'recorded',
  sym: 'symbol',
  type: 'type',
  src: 'source',
};

const propertiesOf = (element: Element) =>
  new Map(
    said.flatMap((key) => {
      const text = childText(element, key);
      return text === '' ? [] : [[WORDS[key], text] as const];
    }),
  );

function waypoint(element: Element): Drawn {
  const name = childText(element, 'name');
  const properties = propertiesOf(element);
  const place = placeOf(element);
  if (!place) return { ...nothing('lat and lon in degrees', name), properties };
  const elevation = childText(element, 'ele');
  return {
    name,
    shape: { kind: 'points', points: [place] },
    wrong: null,
    elevation: decimal(elevation) === null ? '' : elevation,
    properties,
  };
}

function line(element: Element, parts: readonly (readonly Element[])[]): Drawn {
  const name = childText(element, 'name');
  const properties = propertiesOf(element);
  const places = parts.map((part) => part.map(placeOf));
  if (places.some((part) => part.includes(null)))
    return { ...nothing('lat and lon in degrees', name), properties };
  const lines = places
    .map((part) => part.filter((place) => place !== null))
    .filter((part) => part.length > 1);
  return lines.length === 0
    ? { ...nothing('two places or more in a line', name), properties }
    : { name, shape: { kind: 'lines', lines }, wrong: null, elevation: '', properties };
}
