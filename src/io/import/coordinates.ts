import { moved, type XY } from '../../domain/geometry/shape';
import { readShape, writeShape } from '../../domain/geometry/wkt';
import type { Grid } from '../../domain/grid';
import type { GridDefinition } from '../../domain/site/settings';
import { isLengthUnit, type LengthUnit } from '../../domain/units';
import { openDefined } from '../projection/open-defined';
import { readAngle, readLngLat } from '../projection/angles';
import type { Cell, Refusal } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { converted } from './length-columns';
import { digitsOf, numberExpected } from './reader';
import { gridInTitles } from './title-lines';

/** A place on the site's grid, in its unit; or why there is none. */
type Placed = readonly [easting: string, northing: string] | Refusal;

/** Coordinates are written to the millimetre, or a thousandth of a foot. */
const DECIMALS = 3;

const written = ([easting, northing]: XY): readonly [string, string] => [
  easting.toFixed(DECIMALS),
  northing.toFixed(DECIMALS),
];

const isRefused = (placed: Placed): placed is Refusal => !Array.isArray(placed);

/** How places of a file get onto the site's grid: a function of its two numbers; null if they can't. */
type Mover = { readonly move: (x: number, y: number) => XY | null; readonly why: string };

const LOCAL =
  'a site with a grid on earth: its grid is local and tied to nothing, so that longitudes and latitudes have no place on it';

/** Longitudes and latitudes onto the site's grid. */
function fromLngLat(grid: Grid, datum: 'own' | 'WGS 84'): Mover {
  const forth = datum === 'own' ? grid.fromOwnLngLat : grid.fromLngLat;
  return {
    move: (lng, lat) => forth(lng, lat),
    why: grid.datum.name === null ? LOCAL : `a place that ${grid.name} reaches`,
  };
}

/** Eastings and northings of another grid onto the site's. */
function fromGrid(there: Grid, here: Grid): Mover {
  const isOneDatum = there.datum.name !== null && there.datum.name === here.datum.name;
  return {
    move: (x, y) => {
      const place = isOneDatum ? there.toOwnLngLat(x, y) : there.toLngLat(x, y);
      if (!place) return null;
      return isOneDatum ? here.fromOwnLngLat(...place) : here.fromLngLat(...place);
    },
    why: here.datum.name === null ? LOCAL : `a place that ${here.name} reaches`,
  };
}

const isSameGrid = (a: GridDefinition, b: GridDefinition) => {
  if (a.unit !== b.unit) return false;
  if (a.code !== null) return a.code === b.code;
  if (a.projection !== null) return a.projection === b.projection;
  return a.local !== undefined && JSON.stringify(a.local) === JSON.stringify(b.local);
};

/** How the coordinates of a file are moved; null where they are in the site's grid; a sentence where they can't be. */
export function moverOf(context: Context): Mover | null | string {
  const { coordinates } = context.mapping;
  const { grid } = context.target;
  if (coordinates.kind === 'site grid') return null;
  if (coordinates.kind === 'lng-lat') {
    const isWorld = coordinates.datum === 'WGS 84';
    if (grid.datum.name !== null)
      context.say(
        `Longitudes and latitudes are taken on ${isWorld ? 'WGS 84' : `${grid.datum.name}, the datum of the site’s grid,`} and turned into ${grid.name}${isWorld && grid.datum.shifted ? `. ${grid.datum.note}` : '.'}`,
      );
    return fromLngLat(grid, coordinates.datum);
  }
  const own = context.target.package.settings.grid;
  if (isSameGrid(coordinates.grid, own)) return null;
  const there = openDefined(coordinates.grid);
  if (!there.ok) return there.problem;
  context.say(
    `Coordinates are turned from ${there.value.name} into ${grid.name}${there.value.datum.name === grid.datum.name ? '.' : `, by way of WGS 84. ${there.value.datum.note}`}`,
  );
  return fromGrid(there.value, grid);
}

/** A column pair of eastings and northings made from what the file has; none where it has no coordinates. */
export function coordinateColumns(context: Context): Made[] {
  const mover = moverOf(context);
  const { kind } = context.mapping.coordinates;
  const isAngles = kind === 'lng-lat';
  const made = isAngles
    ? angles(context, mover)
    : pair(context, 'locations.easting', 'locations.northing', ['easting', 'northing'], mover);
  const planned = isAngles
    ? []
    : pair(
        context,
        'locations.planned_easting',
        'locations.planned_northing',
        ['planned_easting', 'planned_northing'],
        mover,
      );
  return [...made, ...planned];
}

function both(
  from: readonly number[],
  names: readonly [string, string],
  place: (texts: readonly string[]) => Placed | null,
): Made[] {
  return names.map((column, which) => ({
    column,
    from,
    make: (texts): Cell => {
      const placed = place(texts);
      if (placed === null) return '';
      return isRefused(placed) ? placed : (placed[which] ?? '');
    },
  }));
}

/** Longitude and latitude, in two cells or one. */
function angles(context: Context, mover: Mover | null | string): Made[] {
  const [lngAt, latAt] = [context.at('@longitude'), context.at('@latitude')];
  const placeAt = context.at('@place');
  if (!mover || typeof mover === 'string') return [];
  const onto = (lng: number, lat: number, heading: string, found: string): Placed => {
    const place = mover.move(lng, lat);
    return place ? written(place) : { column: heading, expected: mover.why, found };
  };
  // A decimal comma was settled for the whole file; angles themselves never take one.
  const plain = (text: string) =>
    context.decimals === 'comma' ? text.replace(/^(-?\d+),(\d+)$/, '$1.$2') : text;

  if (lngAt !== null && latAt !== null) {
    const [lngHeading, latHeading] = [
      context.heading(lngAt, 'Longitude'),
      context.heading(latAt, 'Latitude'),
    ];
    return both([lngAt, latAt], ['easting', 'northing'], ([lngText = '', latText = '']) => {
      if (lngText === '' && latText === '') return null;
      const lng = readAngle(plain(lngText), 'longitude');
      if (!lng.ok) return { column: lngHeading, ...lng.problem };
      const lat = readAngle(plain(latText), 'latitude');
      if (!lat.ok) return { column: latHeading, ...lat.problem };
      return onto(lng.value, lat.value, lngHeading, `${lngText}, ${latText}`);
    });
  }
  if (placeAt === null) return [];
  const heading = context.heading(placeAt, 'Place');
  return both([placeAt], ['easting', 'northing'], ([text = '']) => {
    if (text === '') return null;
    const place = readLngLat(text);
    return place.ok
      ? onto(place.value[0], place.value[1], heading, text)
      : { column: heading, ...place.problem };
  });
}

/** An easting and a northing, in the site's grid or moved onto it. */
function pair(
  context: Context,
  eastSlot: string,
  northSlot: string,
  names: readonly [string, string],
  mover: Mover | null | string,
): Made[] {
  const [eastAt, northAt] = [context.at(eastSlot), context.at(northSlot)];
  if (eastAt === null || northAt === null) return [];
  const { settings } = context.target.package;
  const { coordinates } = context.mapping;
  const recorded: LengthUnit =
    coordinates.kind === 'grid' ? coordinates.grid.unit : settings.grid.unit;
  const unitOf = (at: number): LengthUnit => {
    const unit = context.unitOf(at);
    return unit !== null && isLengthUnit(unit) ? unit : recorded;
  };
  const units = [unitOf(eastAt), unitOf(northAt)] as const;
  if (mover === null) {
    context.say(`Eastings and northings are taken in the site’s grid, ${settings.grid.name}.`);
    const named = gridInTitles(context.source.titles ?? [], settings.grid);
    if (named !== null) context.say(named);
  }
  const headings = [context.heading(eastAt, 'Easting'), context.heading(northAt, 'Northing')];
  return both([eastAt, northAt], names, (texts) => {
    if (texts.every((text) => text === '')) return null;
    const numbers: string[] = [];
    for (const [i, text] of texts.entries()) {
      const heading = headings[i] ?? '';
      const digits = digitsOf(text, context);
      if (digits === null)
        return {
          column: heading,
          expected: numberExpected(context, text, `a number in ${recorded}`),
          found: text,
        };
      numbers.push(converted(digits, units[i] ?? recorded, recorded));
    }
    const [easting = '', northing = ''] = numbers;
    if (mover === null) return [easting, northing];
    if (typeof mover === 'string')
      return { column: headings.join(', '), expected: 'a grid that can be opened', found: mover };
    const place = mover.move(Number(easting), Number(northing));
    return place
      ? written(place)
      : { column: headings.join(', '), expected: mover.why, found: `${easting}, ${northing}` };
  });
}

/** A drawn shape put onto the site's grid. */
export function shapeReader(context: Context, heading: string): (text: string) => Cell {
  const mover = moverOf(context);
  return (text) => {
    if (text === '') return '';
    const shape = readShape(text);
    if (!shape.ok)
      return {
        column: heading,
        expected: `well-known text, with ${shape.problem.expected} at character ${shape.problem.at}`,
        found: shape.problem.found,
      };
    if (mover === null) return text;
    if (typeof mover === 'string')
      return { column: heading, expected: 'a grid that can be opened', found: mover };
    let outside = false;
    const onGrid = moved(shape.value, ([x, y]) => {
      const place = mover.move(x, y);
      if (!place) outside = true;
      return place
        ? [Number(place[0].toFixed(DECIMALS)), Number(place[1].toFixed(DECIMALS))]
        : [x, y];
    });
    return outside
      ? { column: heading, expected: mover.why, found: text }
      : (writeShape(onGrid) ?? { column: heading, expected: 'a shape', found: text });
  };
}
