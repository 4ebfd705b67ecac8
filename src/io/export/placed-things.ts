import type { Shape, XY } from '../../domain/geometry/shape';
import { readShape } from '../../domain/geometry/wkt';
import type { Grid, LngLat } from '../../domain/grid';
import type { Written } from '../../domain/site/schema';
import type { Site } from '../../domain/site/site';
import { inUnits, type Metres } from '../../domain/units';

/** A location or feature of the site where it lies on earth. */
export type PlacedThing = {
  readonly table: 'locations' | 'features';
  readonly id: string;
  /** Longitude and latitude on WGS 84. */
  readonly shape: Shape;
  /** Ground elevation in metres above the site's datum; null where it is not known. */
  readonly elevation: Metres | null;
  /** What else its row says, in its own words; blanks left out. */
  readonly properties: ReadonlyMap<string, string>;
};

/** What can be drawn on a map of the world, and what can't. */
export type PlacedSite = {
  readonly title: string;
  readonly verticalDatum: string;
  readonly things: readonly PlacedThing[];
  /** Rows left out, and why, in words. */
  readonly left: readonly { readonly id: string; readonly why: string }[];
  /** How positions got onto WGS 84. */
  readonly note: string;
};

const LEFT_OUT = new Set(['row', 'id', 'easting', 'northing', 'shape']);

const isWritten = (cell: unknown): cell is Written =>
  typeof cell === 'object' && cell !== null && 'text' in cell && 'unit' in cell;

/** The cells of a row as they were written, but for its place. */
function propertiesOf(row: object): ReadonlyMap<string, string> {
  const properties = new Map<string, string>();
  for (const [column, cell] of Object.entries(row) as [string, unknown][]) {
    if (LEFT_OUT.has(column) || cell === null) continue;
    if (isWritten(cell))
      // The unit stands in the heading, as it would in a table: so it comes in again.
      properties.set(cell.unit === '' ? column : `${column} (${cell.unit})`, cell.text);
    else if (typeof cell === 'boolean') properties.set(column, cell ? 'yes' : 'no');
    else if (typeof cell === 'string' || typeof cell === 'number')
      properties.set(column, String(cell));
  }
  return properties;
}

/** A shape with every corner moved; null where one can't be. */
function onEarth(shape: Shape, move: (at: XY) => LngLat | null): Shape | null {
  let isLost = false;
  const each = (at: XY): XY => {
    const place = move(at);
    if (!place) isLost = true;
    return place ?? at;
  };
  const moved: Shape =
    shape.kind === 'points'
      ? { kind: 'points', points: shape.points.map(each) }
      : shape.kind === 'lines'
        ? { kind: 'lines', lines: shape.lines.map((line) => line.map(each)) }
        : { kind: 'areas', areas: shape.areas.map((area) => area.map((ring) => ring.map(each))) };
  return isLost ? null : moved;
}

/** Locations and features of a site on WGS 84, for the formats that know no grid. */
export function placedSite(site: Site, grid: Grid): PlacedSite {
  const things: PlacedThing[] = [];
  const left: { id: string; why: string }[] = [];
  const unit = site.settings.grid.unit;
  const nowhere =
    grid.datum.name === null
      ? 'the grid is local and tied to nothing'
      : `a place that ${grid.name} does not reach`;

  for (const location of site.locations.values()) {
    const { id, easting, northing, ground_elevation: ground } = location;
    if (!easting || !northing) {
      left.push({
        id,
        why:
          location.status === 'planned'
            ? 'planned: it has no coordinates of its own until it is pushed'
            : 'it has no coordinates',
      });
      continue;
    }
    const place = grid.toLngLat(inUnits(easting.value, unit), inUnits(northing.value, unit));
    if (!place) left.push({ id, why: nowhere });
    else
      things.push({
        table: 'locations',
        id,
        shape: { kind: 'points', points: [place] },
        elevation: ground?.value ?? null,
        properties: propertiesOf(location),
      });
  }
  for (const feature of site.features) {
    const shape = readShape(feature.shape);
    const placed = shape.ok ? onEarth(shape.value, ([x, y]) => grid.toLngLat(x, y)) : null;
    if (!shape.ok) left.push({ id: feature.id, why: 'its shape can’t be read' });
    else if (!placed) left.push({ id: feature.id, why: nowhere });
    else
      things.push({
        table: 'features',
        id: feature.id,
        shape: placed,
        elevation: null,
        properties: propertiesOf(feature),
      });
  }
  return {
    title: site.settings.title,
    verticalDatum: site.settings.verticalDatum,
    things,
    left,
    note: grid.datum.note,
  };
}

/** A degree is some 111 km: eight decimals are a millimetre. */
const DECIMALS = 8;

/** A longitude or latitude to the millimetre, without zeros at its end. */
export const angle = (degrees: number) => Number(degrees.toFixed(DECIMALS));
