import type { Grid, LngLat } from '../../domain/grid';
import { fail, ok, type Result } from '../../domain/result';
import { inUnits, metres, type LengthUnit } from '../../domain/units';
import { isConformalMethod, readDefinition, type Definition } from './definition';
import { publishedShift, shiftOfString, type DisplayDatum } from './display-datum';
import { factsAt, type Named } from './facts';
import { openPlane, type Plane } from './plane';
import type { GridProblem } from './problem';
import { epsgCode, findSystem, geographicName, inUnit, isInside, type System } from './systems';

export { openLocalGrid } from './open-local-grid';

/** What a site says of its grid; `GridDefinition` of the site's settings is one. */
export type GridRequest = {
  /** As people know it; null: take the name that goes with the code. */
  readonly name?: string | null | undefined;
  /** "EPSG:2965", or null. */
  readonly code: string | null;
  /** "+proj=tmerc …", or null when the code says it all. */
  readonly projection: string | null;
  /** Unit the eastings and northings are written in. */
  readonly unit: LengthUnit;
};

const WEB_MERCATOR = new Set(
  ['3857', '3785', '900913', '102100', '102113'].map((c) => `EPSG:${c}`),
);

/** A code inside well-known text: the last AUTHORITY or ID, which is that of the whole. */
const codeInText = (text: string) => {
  const last = [...text.matchAll(/(?:AUTHORITY|ID)\["EPSG",\s*"?(\d+)"?\]/g)].at(-1);
  return last?.[1] === undefined ? null : `EPSG:${last[1]}`;
};

/**
 * Opens the grid a site's coordinates are in. A projection string stands by
 * itself; with a code beside it the two must agree. Longitudes and latitudes
 * and Web Mercator are refused, and so is a unit other than the grid's own. A
 * string without +units is in the unit the site says, its +x_0 and +y_0 in
 * metres as always.
 */
export function openGrid(request: GridRequest): Result<Grid, GridProblem> {
  const text = request.projection?.trim() ?? '';
  const named = request.code?.trim() ?? '';
  if (named === '' && text === '') return fail({ kind: 'nothing-given' });
  if (named !== '') {
    const code = epsgCode(named);
    if (code === null) return fail({ kind: 'not-a-definition', found: named });
    return openByCode(code, text, request);
  }
  if (text.startsWith('+')) return openByString(text, request);

  const short = epsgCode(text);
  const code = short ?? codeInText(text);
  if (code !== null) return openByCode(code, '', request);
  return fail(
    /^[A-Z_]+\s*\[/i.test(text)
      ? { kind: 'well-known-text', found: text }
      : { kind: 'not-a-definition', found: text },
  );
}

function openByCode(code: string, text: string, request: GridRequest): Result<Grid, GridProblem> {
  if (WEB_MERCATOR.has(code)) return fail({ kind: 'web-mercator', found: code });
  const geographic = geographicName(code);
  if (geographic !== null) return fail({ kind: 'geographic', found: `${code} (${geographic})` });
  if (code === 'EPSG:4978') return fail({ kind: 'geocentric', found: code });

  const system = findSystem(code);
  if (system === null)
    return text === '' ? fail({ kind: 'unknown-code', code }) : openByString(text, request);
  if (system.unit !== request.unit)
    return fail({
      kind: 'unit-differs',
      name: `${system.name}, ${code},`,
      expected: system.unit,
      found: request.unit,
      instead: inUnit(system, request.unit)?.code ?? null,
    });
  const definition = readDefinition(system.projection);
  if (!definition.ok) return definition;
  const shift = publishedShift(
    system.datum,
    system.shift,
    definition.value.figure.name === 'GRS80',
  );
  const opened = open(definition.value, shift, {
    name: request.name || system.name,
    unit: system.unit,
    area: system.area,
  });
  if (text === '' || !opened.ok) return opened;
  const other = openByString(text, request);
  if (!other.ok) return other;
  return agree(opened.value, other.value, system)
    ? opened
    : fail({ kind: 'code-and-projection-differ', code });
}

function openByString(text: string, request: GridRequest): Result<Grid, GridProblem> {
  const definition = readDefinition(text);
  if (!definition.ok) return definition;
  const { unit, method } = definition.value;
  const name = request.name || `+proj=${method} …`;
  if (unit !== null && unit !== request.unit)
    return fail({ kind: 'unit-differs', name: `+proj=${method} …`, expected: unit, found: request.unit, instead: null }); // prettier-ignore
  return open(definition.value, shiftOfString(definition.value), {
    name,
    unit: request.unit,
    area: null,
  });
}

/** Whether two openings of one system put the middle of its area at the same coordinates. */
function agree(one: Grid, other: Grid, { area }: System): boolean {
  const east = area.east < area.west ? area.east + 360 : area.east;
  const middle = [(area.west + east) / 2, (area.south + area.north) / 2] as const;
  const [a, b] = [one.fromOwnLngLat(...middle), other.fromOwnLngLat(...middle)];
  return a !== null && b !== null && Math.hypot(a[0] - b[0], a[1] - b[1]) < 0.001;
}

function open(
  definition: Definition,
  { towgs84, note }: DisplayDatum,
  { name, unit, area }: Named,
): Result<Grid, GridProblem> {
  const own = openPlane(definition, null);
  const shown = towgs84 === null ? own : openPlane(definition, towgs84);
  const conformalMethod = isConformalMethod(definition.method);
  const probe = own?.forward(...origin(definition));
  if (!own || !shown || !probe) return fail({ kind: 'does-not-compute', found: definition.method });

  const back = (plane: Plane) => (easting: number, northing: number) =>
    plane.inverse(metres(easting, unit), metres(northing, unit));
  const forth = (plane: Plane) => (longitude: number, latitude: number) => {
    const position = plane.forward(longitude, latitude);
    return (
      position &&
      ([inUnits(metres(position[0]), unit), inUnits(metres(position[1]), unit)] as const)
    );
  };
  const toOwnLngLat = back(own);

  return ok({
    name,
    unit,
    datum: note,
    toOwnLngLat,
    fromOwnLngLat: forth(own),
    toLngLat: back(shown),
    fromLngLat: forth(shown),
    covers: (easting, northing) => {
      if (area === null) return null;
      const place = toOwnLngLat(easting, northing);
      return place !== null && isInside(area, ...place);
    },
    factsAt: (easting, northing, elevation) =>
      factsAt(
        own,
        conformalMethod,
        { name, unit, area },
        toOwnLngLat(easting, northing),
        elevation,
      ),
  });
}

/** A place where the projection must give coordinates if it gives any. */
const origin = ({ projection, method }: Definition): LngLat => {
  const of = (parameter: string) => Number(projection.get(parameter) ?? 0);
  const zone = projection.get('zone');
  const parallels = [of('lat_1'), of('lat_2')].filter((lat) => lat !== 0);
  const onCone = parallels.reduce((sum, lat) => sum + lat, 0) / (parallels.length || 1);
  const latitude = ['lcc', 'aea', 'eqdc'].includes(method) ? onCone : of('lat_0');
  return [
    zone === undefined ? of('lon_0') + of('lonc') + of('pm') : 6 * Number(zone) - 183,
    latitude,
  ];
};
