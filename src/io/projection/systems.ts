import type { LngLat } from '../../domain/grid';
import type { LengthUnit, Metres } from '../../domain/units';
import type { Shift } from './display-datum';
import { readLngLat } from './angles';
import { AREAS, CONVERSIONS, DATUMS, SHIFTS } from './list';

/** A grid the app offers by name. */
export type System = {
  /** EPSG:2278 */
  readonly code: string;
  /** "NAD83 / Texas South Central (ftUS)" */
  readonly name: string;
  readonly datum: string;
  readonly unit: LengthUnit;
  /** State Plane zone, four digits: "4204"; null for others. */
  readonly zone: string | null;
  /** A projection string on its own ellipsoid, without datum or shift. */
  readonly projection: string;
  readonly shift: Shift | null;
  readonly area: Box;
  /** Line of `places.ts` that says it in words. */
  readonly place: number;
};

/** Degrees; east is less than west across the 180th meridian. */
export type Box = {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
};

const lines = (text: string) => text.split('\n').map((line) => line.split('|'));
const plus = (parameters: string) => parameters.replace(/\S+/g, '+$&');

const EVERYWHERE: Box = { west: -180, south: -90, east: 180, north: 90 };

type Listed = {
  readonly systems: ReadonlyMap<string, System>;
  readonly geographic: ReadonlyMap<string, string>;
};
let read: Listed | null = null;

/** Reads the list once, when first asked. */
function list(): Listed {
  if (read) return read;
  const areas = AREAS.split('\n').map((line): Box => {
    const [west = 0, south = 0, east = 0, north = 0] = line.split(' ').map(Number);
    return { west, south, east, north };
  });
  const shifts = new Map(
    lines(SHIFTS).map(([code = '', name = '', accuracy, towgs84 = '', place = '']) => [
      code,
      {
        operation: `EPSG:${code}`,
        name,
        accuracy: Number(accuracy) as Metres,
        towgs84: towgs84.split(',').map(Number),
        place,
      } satisfies Shift,
    ]),
  );
  const conversions = new Map(lines(CONVERSIONS).map(([code = '', ...rest]) => [code, rest]));

  const systems = new Map<string, System>();
  const geographic = new Map<string, string>();
  for (const [base = '', datum = '', ellipsoid = '', entries = ''] of lines(DATUMS)) {
    geographic.set(`EPSG:${base}`, datum);
    for (const entry of entries.split(';')) {
      const [code = '', conversion = '', area, shift = '', ownName] = entry.split(',');
      const [name = '', unit = '', zone, projection = ''] = conversions.get(conversion) ?? [];
      systems.set(`EPSG:${code}`, {
        code: `EPSG:${code}`,
        name: datum === name ? name : `${datum} / ${ownName ?? name}`,
        datum,
        unit: unit as LengthUnit,
        zone: zone || null,
        projection: `${plus(projection)} ${plus(ellipsoid)} +units=${unit}`,
        shift: shifts.get(shift) ?? null,
        area: areas[Number(area)] ?? EVERYWHERE,
        place: Number(area),
      });
    }
  }
  read = { systems, geographic };
  return read;
}

/** "epsg:2278", "2278" and "urn:ogc:def:crs:EPSG::2278" are all EPSG:2278; null: not a code. */
export function epsgCode(text: string): string | null {
  const number = /^(?:(?:urn:ogc:def:crs:)?epsg:(?:[\d.]*:)?)?(\d{4,6})$/i.exec(text.trim())?.[1];
  return number === undefined ? null : `EPSG:${number}`;
}

/** All the grids offered, by datum and then by code. */
export const allSystems = (): readonly System[] => [...list().systems.values()];

export const findSystem = (code: string): System | null => list().systems.get(code) ?? null;

/** Name of the datum whose longitudes and latitudes have this code; null for any other code. */
export const geographicName = (code: string): string | null =>
  code === 'EPSG:4979' ? 'WGS 84' : (list().geographic.get(code) ?? null);

const withoutUnit = (name: string) => name.replace(/ \((ft|ftUS|m)\)$/, '');

/** The same zone on the same datum in another unit; null where there is none. */
export const inUnit = (system: System, unit: LengthUnit): System | null =>
  allSystems().find(
    (other) => other.unit === unit && withoutUnit(other.name) === withoutUnit(system.name),
  ) ?? null;

export const isInside = (
  { west, south, east, north }: Box,
  longitude: number,
  latitude: number,
) => {
  const across = east < west;
  const between = across
    ? longitude >= west || longitude <= east
    : longitude >= west && longitude <= east;
  return between && latitude >= south && latitude <= north;
};

/** Grids meant for a place, most local first. */
export const systemsCovering = (longitude: number, latitude: number): readonly System[] =>
  allSystems()
    .filter(({ area }) => isInside(area, longitude, latitude))
    .sort((a, b) => extent(a.area) - extent(b.area));

const extent = ({ west, south, east, north }: Box) =>
  ((east - west + 360) % 360 || 360) * (north - south);

/** What a person typed, folded so that "nad 83" finds NAD83 and case and accents don't matter. */
const folded = (text: string) =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/\b(nad|wgs|gda|etrs)\s+(?=\d)/g, '$1');

/** A system with the words for its area, ready to be searched. */
export type Found = { readonly system: System; readonly place: string };

/**
 * Searches the grids by name, code, State Plane zone number or region (state,
 * county, country). Best first: an exact code or zone number, then names that
 * hold every word, then places that do. A latitude and a longitude bring the
 * grids meant for that place, the most local first. A function comes back so that the words
 * for the places are loaded once, and only when a chooser opens.
 */
export async function openSearch(): Promise<(query: string, most?: number) => readonly Found[]> {
  const { PLACES } = await import('./places');
  const places = PLACES.split('\n');
  const entries = allSystems().map((system) => ({
    system,
    place: places[system.place] ?? '',
    name: folded(system.name),
    all: folded(`${system.name} ${system.code} ${system.zone ?? ''} ${places[system.place] ?? ''}`),
  }));
  const find = (query: string, words: readonly string[], most: number) => {
    const text = folded(query).trim();
    if (words.length === 0) return [];
    const at = placeSought(query);
    if (at)
      return systemsCovering(...at)
        .slice(0, most)
        .map((system) => ({ system, place: places[system.place] ?? '' }));
    const code = epsgCode(text);
    const zone = /^\d{3,4}$/.test(text) ? text.padStart(4, '0') : null;
    const rank = ({ system, name, all }: (typeof entries)[number]) =>
      system.code === code
        ? 0
        : zone !== null && system.zone === zone
          ? 1
          : words.every((word) => name.includes(word))
            ? 2
            : words.every((word) => all.includes(word))
              ? 3
              : null;
    const unit = unitNamed(text);
    const other = ({ system }: (typeof entries)[number]) =>
      (unit !== null && system.unit !== unit ? 1 : 0) +
      // "NAD83" is of NAD83 itself before NAD83(2011).
      (words.includes(folded(system.datum)) ? 0 : 1);
    return entries
      .flatMap((entry) => {
        const at = rank(entry);
        return at === null ? [] : [{ entry, at }];
      })
      .sort((a, b) => a.at - b.at || other(a.entry) - other(b.entry))
      .slice(0, most)
      .map(({ entry: { system, place } }) => ({ system, place }));
  };
  return (query, most = 50) => {
    const words = folded(query).trim().split(/\s+/).filter(Boolean);
    const found = find(query, words, most);
    // "State Plane Indiana East NAD83, US survey feet", as the titles of surveys have it.
    return found.length > 0 ? found : find(query, telling(words), most);
  };
}

/** A longitude and latitude typed where a grid is sought; two bare numbers are read latitude first, as maps on a screen copy them. */
function placeSought(query: string): LngLat | null {
  const at = readLngLat(query);
  if (at.ok) return at.value;
  const bare = /^\s*([-+−]?\d{1,2}\.\d+)\s*[,;\s]\s*([-+−]?\d{1,3}\.\d+)\s*$/.exec(query);
  const [latitude, longitude] = (bare ?? []).slice(1).map((n) => Number(n.replace('−', '-')));
  return latitude !== undefined && longitude !== undefined && Math.abs(latitude) <= 90
    ? [longitude, latitude]
    : null;
}

/** Words around a grid's name that no name in the list has. */
const AROUND = new Set(
  'state plane spc spcs spcs83 spcs27 coordinate coordinates coord system grid zone projection us u.s. survey feet foot ft usft ftus sft international intl meter meters metre metres m in and of the navd88 navd 88 ngvd29 ngvd 29 epsg'.split(
    ' ',
  ),
);

const telling = (words: readonly string[]) =>
  words
    .map((word) => word.replace(/^[,;/|-]+|[,;/|-]+$/g, ''))
    .filter((word) => word !== '' && !AROUND.has(word));

/** The unit of length a grid's words name. */
const unitNamed = (text: string): LengthUnit | null =>
  /\b(?:us|u\.s\.)[\s-]*(?:survey[\s-]*)?(?:ft|feet|foot)\b|\bsurvey (?:ft|feet|foot)\b|\bftus\b/.test(
    text,
  )
    ? 'us-ft'
    : /\bint(?:ernationa)?l\.? (?:ft|feet|foot)\b/.test(text)
      ? 'ft'
      : /\bmet(?:er|re)s?\b/.test(text)
        ? 'm'
        : null;
