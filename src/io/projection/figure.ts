import { fail, ok, type Result } from '../../domain/result';
import type { GridProblem } from './problem';

/** The ellipsoid a projection is computed on. */
export type Figure = {
  /** PROJ's short name where the string gave one; else its numbers. */
  readonly name: string;
  /** Semi-major axis, metres. */
  readonly a: number;
  /** Inverse flattening; null on a sphere. */
  readonly inverseFlattening: number | null;
  /** Eccentricity squared. */
  readonly es: number;
};

const byRf = (a: number, rf: number) => ({ a, rf });
const byB = (a: number, b: number) => ({ a, rf: a / (a - b) });

/** As `proj -le` of PROJ 9.1.1 lists them; modified Airy as the EPSG dataset has it. */
const ELLIPSOIDS: ReadonlyMap<string, { a: number; rf: number }> = new Map([
  ['MERIT', byRf(6378137, 298.257)],
  ['SGS85', byRf(6378136, 298.257)],
  ['GRS80', byRf(6378137, 298.257222101)],
  ['IAU76', byRf(6378140, 298.257)],
  ['airy', byRf(6377563.396, 299.3249646)],
  ['APL4.9', byRf(6378137, 298.25)],
  ['NWL9D', byRf(6378145, 298.25)],
  ['mod_airy', byRf(6377340.189, 299.3249646)],
  ['andrae', byRf(6377104.43, 300)],
  ['danish', byRf(6377019.2563, 300)],
  ['aust_SA', byRf(6378160, 298.25)],
  ['GRS67', byRf(6378160, 298.247167427)],
  ['GSK2011', byRf(6378136.5, 298.2564151)],
  ['bessel', byRf(6377397.155, 299.1528128)],
  ['bess_nam', byRf(6377483.865, 299.1528128)],
  ['clrk66', byB(6378206.4, 6356583.8)],
  ['clrk80', byRf(6378249.145, 293.4663)],
  ['clrk80ign', byRf(6378249.2, 293.4660212936269)],
  ['CPM', byRf(6375738.7, 334.29)],
  ['delmbr', byRf(6376428, 311.5)],
  ['engelis', byRf(6378136.05, 298.2566)],
  ['evrst30', byRf(6377276.345, 300.8017)],
  ['evrst48', byRf(6377304.063, 300.8017)],
  ['evrst56', byRf(6377301.243, 300.8017)],
  ['evrst69', byRf(6377295.664, 300.8017)],
  ['evrstSS', byRf(6377298.556, 300.8017)],
  ['fschr60', byRf(6378166, 298.3)],
  ['fschr60m', byRf(6378155, 298.3)],
  ['fschr68', byRf(6378150, 298.3)],
  ['helmert', byRf(6378200, 298.3)],
  ['hough', byRf(6378270, 297)],
  ['intl', byRf(6378388, 297)],
  ['krass', byRf(6378245, 298.3)],
  ['kaula', byRf(6378163, 298.24)],
  ['lerch', byRf(6378139, 298.257)],
  ['mprts', byRf(6397300, 191)],
  ['new_intl', byB(6378157.5, 6356772.2)],
  ['plessis', byB(6376523, 6355863)],
  ['PZ90', byRf(6378136, 298.25784)],
  ['SEasia', byB(6378155, 6356773.3205)],
  ['walbeck', byB(6376896, 6355834.8467)],
  ['WGS60', byRf(6378165, 298.3)],
  ['WGS66', byRf(6378145, 298.25)],
  ['WGS72', byRf(6378135, 298.26)],
  ['WGS84', byRf(6378137, 298.257223563)],
]);

/** Degrees east of Greenwich, as PROJ names them. */
export const MERIDIANS: ReadonlyMap<string, number> = new Map([
  ['greenwich', 0],
  ['lisbon', -9.131906111111],
  ['paris', 2.337229166667],
  ['bogota', -74.080916666667],
  ['madrid', -3.687938888889],
  ['rome', 12.452333333333],
  ['bern', 7.439583333333],
  ['jakarta', 106.807719444444],
  ['ferro', -17.666666666667],
  ['brussels', 4.367975],
  ['stockholm', 18.058277777778],
  ['athens', 23.7163375],
  ['oslo', 10.722916666667],
]);

/**
 * What PROJ means by +datum=…: the ellipsoid and the way to WGS 84, position
 * vector, metres, arc-seconds and parts per million. NAD27 needs grid files and
 * has no numbers of its own; `display-datum.ts` says what is done instead.
 */
export const DATUMS_OF_STRINGS: ReadonlyMap<
  string,
  { readonly ellipsoid: string; readonly towgs84: readonly number[] | null }
> = new Map([
  ['WGS84', { ellipsoid: 'WGS84', towgs84: [0, 0, 0] }],
  ['NAD83', { ellipsoid: 'GRS80', towgs84: [0, 0, 0] }],
  ['NAD27', { ellipsoid: 'clrk66', towgs84: null }],
  ['GGRS87', { ellipsoid: 'GRS80', towgs84: [-199.87, 74.79, 246.62] }],
  ['potsdam', { ellipsoid: 'bessel', towgs84: [598.1, 73.7, 418.2, 0.202, 0.045, -2.455, 6.7] }],
  ['carthage', { ellipsoid: 'clrk80ign', towgs84: [-263, 6, 431] }],
  [
    'hermannskogel',
    { ellipsoid: 'bessel', towgs84: [577.326, 90.129, 463.919, 5.137, 1.474, 5.297, 2.4232] },
  ],
  [
    'ire65',
    { ellipsoid: 'mod_airy', towgs84: [482.53, -130.596, 564.557, -1.042, -0.214, -0.631, 8.15] },
  ],
  ['nzgd49', { ellipsoid: 'intl', towgs84: [59.47, -5.04, 187.44, 0.47, -0.1, 1.024, -4.5993] }],
  [
    'OSGB36',
    {
      ellipsoid: 'airy',
      towgs84: [446.448, -125.157, 542.06, 0.1502, 0.247, 0.8421, -20.4894],
    },
  ],
]);

export const isDatum = (name: string) => DATUMS_OF_STRINGS.has(name);

const figure = (name: string, a: number, rf: number | null): Figure => ({
  name,
  a,
  inverseFlattening: rf,
  es: rf === null ? 0 : (2 - 1 / rf) / rf,
});

/**
 * The ellipsoid a string asks for: by its numbers, by name, or by its datum, in
 * that order; GRS 1980 where it says nothing, as PROJ has it. An ellipsoid name
 * that proj4 does not know would silently become WGS 84 there, so names are
 * looked up here and proj4 is given numbers.
 */
export function figureOf(
  given: ReadonlyMap<string, string>,
  datum: string | null,
): Result<Figure, GridProblem> {
  const named = given.get('ellps') ?? (datum && DATUMS_OF_STRINGS.get(datum)?.ellipsoid) ?? 'GRS80';
  const number = (name: string) => (given.has(name) ? Number(given.get(name)) : null);

  const radius = number('R');
  if (radius !== null) return ok(figure(`a sphere of ${radius} m`, radius, null));
  if (named === 'sphere' && !given.has('a')) return ok(figure('sphere', 6370997, null));

  const a = number('a');
  if (a === null) {
    const known = ELLIPSOIDS.get(named);
    return known
      ? ok(figure(named, known.a, known.rf))
      : fail({ kind: 'bad-value', parameter: 'ellps', found: named });
  }
  const [b, f] = [number('b'), number('f')];
  const rf = number('rf') ?? (f !== null ? 1 / f : b !== null ? a / (a - b) : null);
  if (rf === null || rf === Infinity) return ok(figure(`a sphere of ${a} m`, a, null));
  if (rf <= 1) return fail({ kind: 'bad-value', parameter: 'rf', found: String(rf) });
  return ok(figure(`a ${a} m, 1/f ${rf}`, a, rf));
}
