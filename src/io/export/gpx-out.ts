import type { Line, Shape, XY } from '../../domain/geometry/shape';
import { escaped } from '../formats/xml';
import { angle, type PlacedSite, type PlacedThing } from './placed-things';

const at = ([x, y]: XY) => `lat="${angle(y)}" lon="${angle(x)}"`;

/** The properties in words: receivers show one line. */
const comment = (properties: ReadonlyMap<string, string>) =>
  [...properties].map(([key, text]) => `${key.replaceAll('_', ' ')}: ${text}`).join('; ');

/** Lines of a shape: a ring is walked round to where it began. */
function linesOf(shape: Shape): readonly Line[] {
  if (shape.kind === 'lines') return shape.lines;
  if (shape.kind === 'areas')
    return shape.areas.flatMap((area) => area.map((ring) => [...ring, ...ring.slice(0, 1)]));
  return [];
}

/** Elements in the order the schema asks for: ele, name, cmt. */
function waypoints({ id, shape, elevation, properties }: PlacedThing, datum: string): string {
  if (shape.kind !== 'points') return '';
  const height = elevation === null ? '' : `<ele>${elevation.toFixed(3)}</ele>`;
  const above = elevation === null ? '' : `; elevation above ${datum}`;
  return shape.points
    .map(
      (place) =>
        `<wpt ${at(place)}>${height}<name>${escaped(id)}</name><cmt>${escaped(comment(properties) + above)}</cmt></wpt>\n`,
    )
    .join('');
}

function track({ id, shape, properties }: PlacedThing): string {
  const lines = linesOf(shape);
  if (lines.length === 0) return '';
  const segments = lines.map(
    (line) => `<trkseg>${line.map((place) => `<trkpt ${at(place)}/>`).join('')}</trkseg>`,
  );
  const name = properties.get('name') ?? id;
  return `<trk><name>${escaped(name)}</name><cmt>${escaped(comment(properties))}</cmt>${segments.join('')}</trk>\n`;
}

/** Locations as waypoints and what is drawn as tracks, as GPX 1.1 (topografix.com/GPX/1/1). */
export function gpxOf({ title, things, verticalDatum, note }: PlacedSite): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n',
    '<gpx version="1.1" creator="Downgradient" xmlns="http://www.topografix.com/GPX/1/1">\n',
    `<metadata><name>${escaped(title)}</name><desc>${escaped(note)}</desc></metadata>\n`,
    ...things.map((thing) => waypoints(thing, verticalDatum)),
    ...things.map(track),
    '</gpx>\n',
  ].join('');
}
