import { fail, ok, type Result } from '../../domain/result';
import type { GridDefinition } from '../../domain/site/settings';
import { METRES_PER, type LengthUnit } from '../../domain/units';
import type { Coordinates } from '../import/source-table';
import { openGrid } from '../projection/open-grid';
import { gridProblemSentence } from '../projection/problem';
import { allSystems, findSystem, type System } from '../projection/systems';
import { nodeOf, nodesOf, numberOf, parsed, textOf, type Node } from './well-known-text';

const squeezed = (text: string) =>
  text
    .toLowerCase()
    .replace(/^d_/, '')
    .replace(/[^a-z0-9]/g, '');

/** Datums by the name they go by in such files, and in the list of grids. */
const DATUMS: Readonly<Record<string, string>> = {
  northamerican1983: 'NAD83',
  northamericandatum1983: 'NAD83',
  northamerican1927: 'NAD27',
  northamericandatum1927: 'NAD27',
  nad1983harn: 'NAD83(HARN)',
  northamerican1983harn: 'NAD83(HARN)',
  nad83highaccuracyreferencenetwork: 'NAD83(HARN)',
  nad19832011: 'NAD83(2011)',
  nad83nationalspatialreferencesystem2011: 'NAD83(2011)',
  northamerican1983csrs: 'NAD83(CSRS)',
  nad83canadianspatialreferencesystem: 'NAD83(CSRS)',
  wgs1984: 'WGS 84',
  etrs1989: 'ETRS89',
  europeanterrestrialreferencesystem1989: 'ETRS89',
  osgb1936: 'OSGB36',
  ordnancesurveyofgreatbritain1936: 'OSGB36',
  gda1994: 'GDA94',
  geocentricdatumofaustralia1994: 'GDA94',
  gda2020: 'GDA2020',
  geocentricdatumofaustralia2020: 'GDA2020',
};

/** PROJ's word for a datum, where it has one that does not change the ellipsoid given. */
const DATUM_WORDS: Readonly<Record<string, string>> = {
  NAD83: 'NAD83',
  NAD27: 'NAD27',
  'WGS 84': 'WGS84',
};

/** Methods by their names in well-known text; parameters as PROJ has them. */
const METHODS: Readonly<Record<string, string>> = {
  transversemercator: 'tmerc',
  gausskruger: 'tmerc',
  lambertconformalconic: 'lcc',
  lambertconformalconic1sp: 'lcc',
  lambertconformalconic2sp: 'lcc',
  albers: 'aea',
  albersconicequalarea: 'aea',
  obliquestereographic: 'sterea',
  doublestereographic: 'sterea',
  hotineobliquemercator: 'omerc',
  rectifiedskeworthomorphicnaturalorigin: 'omerc',
  hotineobliquemercatorazimuthnaturalorigin: 'omerc',
};

/** Parameters by their names in well-known text. */
const PARAMETERS: Readonly<Record<string, string>> = {
  latitudeoforigin: 'lat_0',
  latitudeofcenter: 'lat_0',
  latitudeofcentre: 'lat_0',
  centralmeridian: 'lon_0',
  longitudeofcenter: 'lon_0',
  longitudeofcentre: 'lon_0',
  longitudeoforigin: 'lon_0',
  standardparallel1: 'lat_1',
  standardparallel2: 'lat_2',
  scalefactor: 'k',
  falseeasting: 'x_0',
  falsenorthing: 'y_0',
  azimuth: 'alpha',
  rectifiedgridangle: 'gamma',
  xyplanerotation: 'gamma',
};

function lengthUnitOf(metres: number): LengthUnit | null {
  // Files write as many digits as their makers liked: the two feet differ by 2 parts in a million.
  for (const [unit, size] of Object.entries(METRES_PER))
    if (Math.abs(metres / size - 1) < 5e-8) return unit as LengthUnit;
  return null;
}

const CHOOSE = 'Choose the grid its coordinates are in.';

/**
 * What the .prj of a shapefile says its coordinates are in. A code is taken at
 * its word; without one, the projection is read from its parameters, and found
 * in the list of grids where it is there.
 */
export function readPrj(text: string): Result<Coordinates, string> {
  const root = parsed(text.trim().replace(/^\uFEFF/, ''));
  if (!root) return fail(`Its .prj can’t be read. ${CHOOSE}`);
  if (root.name === 'GEOGCS' || root.name === 'GEOGCRS') return geographic(root);
  if (root.name !== 'PROJCS') return fail(`Its .prj is of another kind than PROJCS. ${CHOOSE}`);
  const code = numberedCode(root);
  const system = code === null ? null : findSystem(code);
  if (system) return ok(gridOf(system));

  const projection = projectionOf(root);
  if (!projection.ok) return projection;
  const { definition, datum } = projection.value;
  const listed = inList(definition, datum);
  if (listed) return ok(gridOf(listed));
  const grid = openGrid(definition);
  return grid.ok
    ? ok({ kind: 'grid', grid: definition })
    : fail(`Its .prj: ${gridProblemSentence(grid.problem)}`);
}

function numberedCode(root: Node): string | null {
  const authority = nodeOf(root, 'AUTHORITY');
  const number = authority?.parts[1];
  return textOf(authority).toUpperCase() === 'EPSG' && typeof number !== 'object'
    ? `EPSG:${number ?? ''}`
    : null;
}

const gridOf = ({ name, code, unit }: System): Coordinates => ({
  kind: 'grid',
  grid: { name, code, projection: null, unit },
});

const datumOf = (geographic: Node | undefined) => {
  const key = squeezed(textOf(nodeOf(geographic, 'DATUM')));
  return Object.hasOwn(DATUMS, key) ? (DATUMS[key] ?? null) : null;
};

/** Longitudes and latitudes: on WGS 84, or on a datum within a metre or two of it. */
function geographic(root: Node): Result<Coordinates, string> {
  const spheroid = nodeOf(nodeOf(root, 'DATUM'), 'SPHEROID');
  const [a, rf] = [numberOf(spheroid, 1), numberOf(spheroid, 2)];
  const isModern = a === 6_378_137 && Math.abs((rf ?? 0) - 298.2572) < 1e-3;
  const greenwich = numberOf(nodeOf(root, 'PRIMEM')) ?? 0;
  const degree = numberOf(nodeOf(root, 'UNIT')) ?? 0;
  if (greenwich !== 0 || Math.abs(degree - Math.PI / 180) > 1e-9)
    return fail(`Its .prj counts from another meridian or in another unit than degrees. ${CHOOSE}`);
  return isModern
    ? ok({ kind: 'lng-lat', datum: 'WGS 84' })
    : fail(
        `Its .prj is longitude and latitude on ${textOf(root) || 'an older datum'}, which lies tens or hundreds of metres from WGS 84. ${CHOOSE}`,
      );
}

type Read = { readonly definition: GridDefinition; readonly datum: string | null };

function projectionOf(root: Node): Result<Read, string> {
  const name = textOf(root);
  const method = textOf(nodeOf(root, 'PROJECTION'));
  const word = METHODS[squeezed(method)];
  if (word === undefined)
    return fail(
      `Its .prj uses the projection “${method.slice(0, 60)}”, which is not read here. ${CHOOSE}`,
    );
  const metres = numberOf(nodeOf(root, 'UNIT')) ?? 0;
  const unit = lengthUnitOf(metres);
  if (unit === null)
    return fail(`Its .prj is in a unit of ${metres} m, which is not handled here.`);
  const spheroid = nodeOf(nodeOf(nodeOf(root, 'GEOGCS'), 'DATUM'), 'SPHEROID');
  const [a, rf] = [numberOf(spheroid, 1), numberOf(spheroid, 2)];
  const meridian = numberOf(nodeOf(nodeOf(root, 'GEOGCS'), 'PRIMEM')) ?? 0;
  if (a === null || rf === null || rf === 0) return fail(`Its .prj names no ellipsoid. ${CHOOSE}`);

  const given = new Map<string, number>();
  for (const parameter of nodesOf(root, 'PARAMETER')) {
    const key = PARAMETERS[squeezed(textOf(parameter))];
    const value = numberOf(parameter);
    if (value === null) return fail(`Its .prj has a parameter without a number. ${CHOOSE}`);
    if (key === undefined) {
      if (value !== 0)
        return fail(`Its .prj has the parameter “${textOf(parameter).slice(0, 60)}”, which is not read here. ${CHOOSE}`); // prettier-ignore
      continue;
    }
    given.set(key, key === 'x_0' || key === 'y_0' ? value * METRES_PER[unit] : value);
  }
  const datum = datumOf(nodeOf(root, 'GEOGCS'));
  const projection = stringOf(word, given, { a, rf, meridian, datum, unit });
  return ok({
    definition: { name: name.slice(0, 120) || 'Grid of the file', code: null, projection, unit },
    datum,
  });
}

function stringOf(
  method: string,
  given: Map<string, number>,
  of: {
    readonly a: number;
    readonly rf: number;
    readonly meridian: number;
    readonly datum: string | null;
    readonly unit: LengthUnit;
  },
): string {
  const words = [`+proj=${method}`];
  const put = (key: string, value: number) => words.push(`+${key}=${fixed(value)}`);
  // With one parallel, that is where the cone touches, and the origin's latitude with it.
  if (method === 'lcc' && !given.has('lat_1')) given.set('lat_1', given.get('lat_0') ?? 0);
  for (const [key, value] of given) {
    if (method === 'omerc' && key === 'lon_0') put('lonc', value);
    else put(key, value);
  }
  if (method === 'omerc') words.push('+no_uoff');
  if (of.meridian !== 0) put('pm', of.meridian);
  const datum = of.datum === null ? undefined : DATUM_WORDS[of.datum];
  if (datum) words.push(`+datum=${datum}`);
  else words.push(`+a=${of.a}`, `+rf=${of.rf}`);
  return [...words, `+units=${of.unit}`, '+no_defs'].join(' ');
}

/** Without powers of ten, which the reader of projection strings takes too, but people don't. */
const fixed = (value: number) => {
  const text = String(value);
  return text.includes('e') ? value.toFixed(15) : text;
};

/** The numbers that place a projection, by PROJ's names for them; UTM as the transverse Mercator it is. */
function placing(projection: string): ReadonlyMap<string, number | string> {
  const given = new Map<string, number>();
  for (const [, key = '', value = ''] of projection.matchAll(/\+(\w+)=([-+\d.eE]+)(?=\s|$)/g))
    given.set(key === 'k_0' ? 'k' : key, Number(value));
  const method = /\+proj=(\w+)/.exec(projection)?.[1] ?? '';
  const zone = given.get('zone');
  if (method === 'utm' && zone !== undefined)
    return new Map<string, number | string>([
      ['proj', 'tmerc'],
      ['lon_0', 6 * zone - 183],
      ['k', 0.9996],
      ['x_0', 500_000],
      ['y_0', projection.includes('+south') ? 10_000_000 : 0],
    ]);
  // Two standard parallels make the same cone in either order.
  const [one, other] = [given.get('lat_1'), given.get('lat_2')];
  if (one !== undefined && other !== undefined && one > other)
    given.set('lat_1', other).set('lat_2', one);
  return new Map<string, number | string>([['proj', method], ...given]);
}

const LINEAR = new Set(['x_0', 'y_0']);
const NUMBERS = ['lat_0', 'lon_0', 'lonc', 'lat_1', 'lat_2', 'k', 'x_0', 'y_0', 'alpha', 'gamma'];

/** The grid of the list with the same projection, datum and unit. */
function inList({ projection, unit }: GridDefinition, datum: string | null): System | null {
  if (datum === null || projection === null) return null;
  const ours = placing(projection);
  const near = (key: string, a: number, b: number) =>
    // Metres to two millimetres; degrees to about as much on the ground.
    Math.abs(a - b) < (LINEAR.has(key) ? 2e-3 : 2e-8);
  const same = (system: System) => {
    if (system.datum !== datum || system.unit !== unit) return false;
    const theirs = placing(system.projection);
    const number = (of: ReadonlyMap<string, number | string>, key: string) =>
      Number(of.get(key) ?? (key === 'k' ? 1 : 0));
    return (
      theirs.get('proj') === ours.get('proj') &&
      NUMBERS.every((key) => near(key, number(ours, key), number(theirs, key)))
    );
  };
  return allSystems().find(same) ?? null;
}
