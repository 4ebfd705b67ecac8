import { fail, ok, type Result } from '../../domain/result';
import { isLengthUnit, METRES_PER, type LengthUnit } from '../../domain/units';
import { figureOf, isDatum, MERIDIANS, type Figure } from './figure';
import type { GridProblem } from './problem';

/** A projection string taken apart and found sound. */
export type Definition = {
  /** The value of +proj. */
  readonly method: string;
  /** Null: the string names no unit, and is in whatever the site says. */
  readonly unit: LengthUnit | null;
  /** Parameters that place the grid on its own ellipsoid: no datum, no shift, no unit, no figure. */
  readonly projection: ReadonlyMap<string, string>;
  readonly figure: Figure;
  readonly datum: string | null;
  /** Three or seven numbers, position-vector convention: metres, arc-seconds, parts per million. */
  readonly towgs84: readonly number[] | null;
  /** Names of grid-shift files the string asks for; empty for @null. */
  readonly gridFiles: readonly string[];
};

/**
 * The methods this app works in. True: conformal, as they are defined (J. P.
 * Snyder, 1987, Map Projections: A Working Manual, USGS Professional Paper
 * 1395; EPSG Guidance Note 7-2). `facts.ts` checks it in numbers.
 */
const METHODS: ReadonlyMap<string, boolean> = new Map([
  ['lcc', true],
  ['tmerc', true],
  ['etmerc', true],
  ['utm', true],
  ['omerc', true],
  ['somerc', true],
  ['sterea', true],
  ['stere', true],
  ['merc', true],
  ['krovak', true],
  ['nzmg', true],
  ['aea', false],
  ['laea', false],
  ['aeqd', false],
  ['cass', false],
  ['eqdc', false],
  ['poly', false],
]);

export const isConformalMethod = (method: string) => METHODS.get(method) ?? false;

const GEOGRAPHIC = new Set(['longlat', 'latlong', 'lonlat', 'latlon']);
const NUMBERS = new Set(
  'lat_0 lon_0 lat_1 lat_2 lat_ts lonc alpha gamma k k_0 x_0 y_0 zone'.split(' '),
);
const FIGURE_NUMBERS = new Set(['a', 'b', 'rf', 'f', 'R']);
const FLAGS = new Set(['south', 'no_uoff', 'no_off', 'no_rot', 'approx']);
/** Said by some strings, with no bearing on eastings and northings. */
const IDLE = new Set([
  'no_defs',
  'type',
  'wktext',
  'over',
  'title',
  'vunits',
  'vto_meter',
  'geoidgrids',
]);

/** Plain decimal degrees or metres: "39d20'N", which PROJ reads too, is refused rather than read as 39. */
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** The only units of a grid this app handles, found by name or by metres in one. */
function unitOf(units: string | undefined, toMetre: string | undefined): string | null {
  if (toMetre !== undefined) {
    const size = NUMBER.test(toMetre) ? Number(toMetre) : NaN;
    const named = Object.entries(METRES_PER).find(([, m]) => Math.abs(size / m - 1) < 1e-12);
    return named ? named[0] : toMetre;
  }
  if (units === undefined) return null;
  return units;
}

function parameters(text: string): Result<Map<string, string>, GridProblem> {
  const given = new Map<string, string>();
  for (const word of text.trim().split(/\s+/)) {
    const [, name, value] = /^\+([A-Za-z_0-9]+)(?:=(.*))?$/.exec(word) ?? [];
    if (name === undefined) return fail({ kind: 'not-a-definition', found: text.trim() });
    if (given.has(name)) return fail({ kind: 'repeated-parameter', parameter: name });
    given.set(name, value ?? '');
  }
  return ok(given);
}

/** Reads a projection string of the PROJ kind, "+proj=tmerc +lat_0=37.5 … +units=us-ft". */
export function readDefinition(text: string): Result<Definition, GridProblem> {
  const read = parameters(text);
  if (!read.ok) return read;
  const given = read.value;

  const method = given.get('proj');
  if (method === undefined) return fail({ kind: 'not-a-definition', found: text.trim() });
  if (GEOGRAPHIC.has(method)) return fail({ kind: 'geographic', found: `+proj=${method}` });
  if (method === 'geocent' || method === 'cart')
    return fail({ kind: 'geocentric', found: `+proj=${method}` });
  if (method === 'webmerc') return fail({ kind: 'web-mercator', found: '+proj=webmerc' });
  if (!METHODS.has(method)) return fail({ kind: 'unknown-projection', found: method });
  // Web Mercator in its usual dress: the sphere through the equator, and an order to forget the ellipsoid.
  const sphere = given.has('R') || (given.has('a') && given.get('a') === given.get('b'));
  if (method === 'merc' && sphere)
    return fail({ kind: 'web-mercator', found: '+proj=merc on a sphere' });

  const projection = new Map([['proj', method]]);
  const figureGiven = new Map<string, string>();
  for (const [name, value] of given) {
    const number = NUMBER.test(value);
    if (NUMBERS.has(name) || FIGURE_NUMBERS.has(name)) {
      const valid = number && (!FIGURE_NUMBERS.has(name) || Number(value) > 0);
      if (!valid) return fail({ kind: 'bad-value', parameter: name, found: value });
      (NUMBERS.has(name) ? projection : figureGiven).set(name, String(Number(value)));
    } else if (FLAGS.has(name)) projection.set(name, '');
    else if (name === 'pm') {
      const meridian = number ? Number(value) : MERIDIANS.get(value);
      if (meridian === undefined) return fail({ kind: 'bad-value', parameter: name, found: value });
      projection.set(name, String(meridian));
    } else if (name === 'ellps') figureGiven.set(name, value);
    else if (name === 'axis') {
      if (value !== 'enu') return fail({ kind: 'other-axes', found: value });
    } else if (
      !IDLE.has(name) &&
      !['proj', 'units', 'to_meter', 'datum', 'towgs84', 'nadgrids'].includes(name)
    )
      return fail({ kind: 'unknown-parameter', parameter: name });
  }

  const zone = given.get('zone');
  if (method === 'utm' && !(zone !== undefined && /^\d+$/.test(zone) && +zone >= 1 && +zone <= 60))
    return fail({ kind: 'bad-value', parameter: 'zone', found: zone ?? '' });
  for (const scale of ['k', 'k_0'])
    if (Number(given.get(scale) ?? 1) <= 0)
      return fail({ kind: 'bad-value', parameter: scale, found: given.get(scale) ?? '' });
  if (given.has('k') && given.has('k_0'))
    return fail({ kind: 'repeated-parameter', parameter: 'k' });
  // proj4 reads a standard parallel of exactly 0 as one not given.
  for (const parallel of ['lat_1', 'lat_2'])
    if (Number(projection.get(parallel) ?? 1) === 0) projection.set(parallel, '1e-12');

  const datum = given.get('datum') ?? null;
  if (datum !== null && !isDatum(datum))
    return fail({ kind: 'bad-value', parameter: 'datum', found: datum });
  const figure = figureOf(figureGiven, datum);
  if (!figure.ok) return figure;
  // proj4 keeps to Bessel's ellipsoid and to no false origin here, whatever it is given.
  if (method === 'krovak') {
    if (figure.value.name !== 'bessel')
      return fail({ kind: 'bad-value', parameter: 'ellps', found: figure.value.name });
    for (const origin of ['x_0', 'y_0'])
      if (Number(projection.get(origin) ?? 0) !== 0)
        return fail({ kind: 'bad-value', parameter: origin, found: projection.get(origin) ?? '' });
  }

  const unit = unitOf(given.get('units'), given.get('to_meter'));
  if (unit !== null && !isLengthUnit(unit)) return fail({ kind: 'unit-not-handled', found: unit });

  const shift = given.get('towgs84');
  const towgs84 = shift?.split(',').map((n) => (NUMBER.test(n) ? Number(n) : NaN)) ?? null;
  if (towgs84 && (towgs84.some(Number.isNaN) || ![3, 7].includes(towgs84.length)))
    return fail({ kind: 'bad-value', parameter: 'towgs84', found: shift ?? '' });

  return ok({
    method,
    unit,
    projection,
    figure: figure.value,
    datum,
    towgs84,
    gridFiles: (given.get('nadgrids') ?? '').split(',').filter((f) => f !== '' && f !== '@null'),
  });
}
