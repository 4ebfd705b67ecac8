/** Grids: eastings, northings, scale, convergence, datum shift. */
import { readFileSync } from 'node:fs';
import type { Grid } from '../../src/domain/grid';
import { isLengthUnit, metres, type LengthUnit } from '../../src/domain/units';
import { openGrid } from '../../src/io/projection/open-grid';
import { findSystem } from '../../src/io/projection/systems';
import { valueOf } from '../unit/water/wells';
import { value, values, worst, type AccuracyCase } from './case';

const fixture = <T>(name: string): T =>
  JSON.parse(readFileSync(new URL(`../fixtures/oracles/${name}`, import.meta.url), 'utf8')) as T;

const opened = (code: string | null, projection: string | null, unit: LengthUnit): Grid =>
  valueOf(openGrid({ code, projection, unit }));

const byCode = (code: string) => opened(code, null, findSystem(code)?.unit ?? 'm');

/** Easting and northing, and the scale there, of a place on the grid's own datum. */
function at(grid: Grid, lng: number, lat: number) {
  const [e = NaN, n = NaN] = grid.fromOwnLngLat(lng, lat) ?? [];
  return { e, n, ...grid.factsAt(e, n, metres(0)) };
}

const clarke = (text: string) => opened(null, `${text} +ellps=clrk66`, 'm');

const published = (): AccuracyCase[] => {
  const texas = at(byCode('EPSG:32040'), -96, 28.5);
  const britain = at(byCode('EPSG:27700'), 0.5, 50.5);
  const lambert = at(clarke('+proj=lcc +lat_1=33 +lat_2=45 +lat_0=23 +lon_0=-96'), -75, 35);
  const mercator = at(clarke('+proj=tmerc +lat_0=0 +lon_0=-75 +k=0.9996'), -73.5, 40.5);
  return [
    values(
      {
        quantity: 'projection: Lambert conformal conic',
        source: 'EPSG Guidance Note 7-2, method 9802, NAD27 / Texas South Central',
        known: 'published',
      },
      [2963503.91, 254759.8],
      [texas.e, texas.n],
      { decimals: 2, unit: 'US survey ft', tolerance: 0.005 },
    ),
    values(
      {
        quantity: 'projection: transverse Mercator',
        source: 'EPSG Guidance Note 7-2, method 9807, OSGB36',
        known: 'published',
      },
      [577274.99, 69740.5],
      [britain.e, britain.n],
      { decimals: 2, unit: 'm', tolerance: 0.01 },
    ),
    values(
      {
        quantity: 'projection: Lambert conformal conic',
        source: 'J. P. Snyder, 1987, USGS PP 1395, p. 296',
        known: 'published',
      },
      [1894410.9, 1564649.5],
      [lambert.e, lambert.n],
      { decimals: 1, unit: 'm', tolerance: 0.05 },
    ),
    value(
      {
        quantity: 'point scale',
        source: 'J. P. Snyder, 1987, USGS PP 1395, p. 296',
        known: 'published',
      },
      0.9970171,
      lambert.pointScale,
      7,
      '–',
      5.1e-8,
    ),
    values(
      {
        quantity: 'projection: transverse Mercator',
        source: 'J. P. Snyder, 1987, USGS PP 1395, p. 269',
        known: 'published',
      },
      [127106.5, 4484124.4],
      [mercator.e, mercator.n],
      { decimals: 1, unit: 'm', tolerance: 0.05 },
    ),
    value(
      {
        quantity: 'point scale',
        source: 'J. P. Snyder, 1987, USGS PP 1395, p. 269',
        known: 'published',
      },
      0.9997989,
      mercator.pointScale,
      7,
      '–',
      5.1e-8,
    ),
  ];
};

type System = {
  readonly epsg: number;
  readonly points: readonly {
    readonly lon: number;
    readonly lat: number;
    readonly E: number;
    readonly N: number;
    readonly convergence_deg_numeric: number;
  }[];
};

const unitOf = (definition: string): LengthUnit => {
  const named = /\+units=(\S+)/.exec(definition)?.[1] ?? '';
  return isLengthUnit(named) ? named : 'm';
};

const againstProj = (): AccuracyCase[] => {
  const { crs } = fixture<{ crs: System[] }>('a_projections.json');
  const found = crs
    .filter(({ epsg }) => epsg !== 3857 && findSystem(`EPSG:${epsg}`))
    .flatMap(({ epsg, points }) => {
      const grid = byCode(`EPSG:${epsg}`);
      return points.map((theirs) => ({ theirs, ours: at(grid, theirs.lon, theirs.lat) }));
    });
  const shifts = fixture<{
    points: { definition: string; lon: number; lat: number; E: number; N: number }[];
  }>('a3_helmert.json').points;
  return [
    worst(
      {
        quantity: 'projection: easting and northing',
        source: 'PROJ 9.1.1',
        known: 'computed independently',
      },
      'coordinates',
      found.flatMap(({ theirs, ours }) => [
        [theirs.E, ours.e] as const,
        [theirs.N, ours.n] as const,
      ]),
      { unit: 'm or ft', tolerance: 1e-3 },
    ),
    worst(
      { quantity: 'convergence', source: 'PROJ 9.1.1', known: 'computed independently' },
      'places',
      found.map(({ theirs, ours }) => [theirs.convergence_deg_numeric, ours.convergence]),
      { unit: '°', tolerance: 1e-6 },
    ),
    values(
      {
        quantity: 'convergence',
        source: 'EPSG 9802 again, +1°28′11.06″ from exact series in another language',
        known: 'computed independently',
      },
      [1 + 28 / 60 + 11.06 / 3600],
      [at(byCode('EPSG:32040'), -96, 28.5).convergence],
      { decimals: 6, unit: '°', tolerance: 2e-6 },
    ),
    worst(
      {
        quantity: 'datum shift by stated parameters',
        source: 'PROJ 9.1.1, 24 systems',
        known: 'computed independently',
      },
      'coordinates',
      shifts.flatMap(({ definition, lon, lat, E, N }) => {
        const [e, n] = opened(null, definition, unitOf(definition)).fromLngLat(lon, lat) ?? [];
        return [[E, e] as const, [N, n] as const];
      }),
      { unit: 'm or ft', tolerance: 0.01 },
    ),
  ];
};

export const places = (): AccuracyCase[] => [...published(), ...againstProj()];
