import type { Ring, Shape, XY } from '../../domain/geometry/shape';
import { writeShape } from '../../domain/geometry/wkt';
import { BlockBuilder } from '../import/block-builder';
import type { Coordinates, SourceTable } from '../import/source-table';

/** A thing of a drawing: a point, a line, an area, with what is said of it. */
export type Drawn = {
  readonly name: string;
  /** Null: it has none, or none that can be read, and `wrong` says why. */
  readonly shape: Shape | null;
  readonly wrong: string | null;
  /** Metres above sea level, as written; blank where none is given. */
  readonly elevation: string;
  readonly properties: ReadonlyMap<string, string>;
};

/** A drawing read from a file. */
export type Drawing = {
  readonly name: string;
  readonly things: readonly Drawn[];
  /** What its coordinates are in; null where the file does not say. */
  readonly coordinates: Coordinates | null;
  readonly said: readonly string[];
};

/** Longitude and latitude on WGS 84, as GeoJSON, KML and GPX have it by their standards. */
export const WGS_84: Coordinates = { kind: 'lng-lat', datum: 'WGS 84' };

export const nothing = (wrong: string, name = ''): Drawn => ({
  name,
  shape: null,
  wrong,
  elevation: '',
  properties: new Map(),
});

/** A corner list as a ring: without its first corner again at the end. */
export function ringOf(corners: readonly XY[]): Ring {
  const [first, last] = [corners[0], corners.at(-1)];
  const isClosed =
    first && last && corners.length > 1 && first[0] === last[0] && first[1] === last[1];
  return isClosed ? corners.slice(0, -1) : corners;
}

/** Why a shape is none; null where it is one. */
export function wrongWith(shape: Shape): string | null {
  switch (shape.kind) {
    case 'points':
      return shape.points.length > 0 ? null : 'a place';
    case 'lines':
      return shape.lines.length > 0 && shape.lines.every((line) => line.length > 1)
        ? null
        : 'two places or more in a line';
    case 'areas':
      return shape.areas.length > 0 &&
        shape.areas.every((area) => area.length > 0 && area.every((ring) => ring.length > 2))
        ? null
        : 'three corners or more in a ring';
  }
}

/** More properties than this no drawing has. */
const MOST_PROPERTIES = 300;

const isOnePoint = ({ shape }: Drawn) => shape?.kind === 'points' && shape.points.length === 1;

/**
 * A drawing as tables to be taken in like any other: its single points as
 * locations, everything else as features. A thing without a shape is a row of
 * the larger of the two, refused with its reason.
 */
export function tablesOf(drawing: Drawing): readonly SourceTable[] {
  const points = drawing.things.filter(isOnePoint);
  const shapes = drawing.things.filter((thing) => thing.shape !== null && !isOnePoint(thing));
  const lost = drawing.things.filter(({ shape }) => shape === null);
  const withLost = (things: readonly Drawn[]) =>
    lost.length === 0
      ? things
      : drawing.things.filter((t) => t.shape === null || things.includes(t));
  const lostToPoints = points.length >= shapes.length;
  const both = points.length > 0 && shapes.length > 0;
  return [
    ...(points.length > 0 || (lost.length > 0 && lostToPoints)
      ? [pointTable(drawing, lostToPoints ? withLost(points) : points, both)]
      : []),
    ...(shapes.length > 0
      ? [shapeTable(drawing, lostToPoints ? shapes : withLost(shapes), both)]
      : []),
  ];
}

function propertyNames(things: readonly Drawn[], taken: readonly string[]): readonly string[] {
  const names = new Set<string>();
  for (const { properties } of things) for (const name of properties.keys()) names.add(name);
  const own = new Set(taken);
  return [...names].filter((name) => !own.has(name.trim().toLowerCase())).slice(0, MOST_PROPERTIES);
}

function table(
  drawing: Drawing,
  suffix: string,
  headings: readonly string[],
  things: readonly Drawn[],
  cellsOf: (thing: Drawn, place: number) => readonly string[],
): SourceTable {
  const builder = new BlockBuilder(headings.length);
  const broken = new Map<number, string>();
  things.forEach((thing, row) => {
    if (thing.wrong !== null) broken.set(row, thing.wrong);
    builder.add(cellsOf(thing, row));
  });
  return {
    name: suffix === '' ? drawing.name : `${drawing.name}, ${suffix}`,
    headings,
    headerRow: 0,
    table: builder.table(headings),
    broken,
    coordinates: drawing.coordinates,
    said: drawing.said,
  };
}

function pointTable(drawing: Drawing, things: readonly Drawn[], isOneOfTwo: boolean): SourceTable {
  const isAngles = drawing.coordinates?.kind === 'lng-lat';
  const [x, y] = isAngles ? ['longitude', 'latitude'] : ['easting', 'northing'];
  const hasElevation = things.some(({ elevation }) => elevation !== '');
  const own = ['name', x, y, ...(hasElevation ? ['elevation (m)'] : [])];
  const names = propertyNames(things, own);
  return table(drawing, isOneOfTwo ? 'points' : '', [...own, ...names], things, (thing) => {
    const at = thing.shape?.kind === 'points' ? thing.shape.points[0] : undefined;
    return [
      thing.name,
      at ? plain(at[0]) : '',
      at ? plain(at[1]) : '',
      ...(hasElevation ? [thing.elevation] : []),
      ...names.map((name) => thing.properties.get(name) ?? ''),
    ];
  });
}

function shapeTable(drawing: Drawing, things: readonly Drawn[], isOneOfTwo: boolean): SourceTable {
  const own = ['id', 'name', 'shape'];
  const names = propertyNames(things, ['name', 'shape']);
  const given = names.find((name) => name.trim().toLowerCase() === 'id');
  const others = names.filter((name) => name !== given);
  const ids = new Set<string>();
  return table(
    drawing,
    isOneOfTwo ? 'lines and areas' : '',
    [...own, ...others],
    things,
    (thing, place) => {
      const wanted =
        (given && thing.properties.get(given)) || thing.name || `${drawing.name} ${place + 1}`;
      let id = wanted;
      for (let n = 2; ids.has(id); n++) id = `${wanted} (${n})`;
      ids.add(id);
      return [
        id,
        thing.name,
        (thing.shape && writeShape(thing.shape)) ?? '',
        ...others.map((name) => thing.properties.get(name) ?? ''),
      ];
    },
  );
}

/** A number as it was, without powers of ten: coordinates of a file are read again from this text. */
function plain(value: number): string {
  const text = String(value);
  return text.includes('e') ? value.toFixed(12) : text;
}
