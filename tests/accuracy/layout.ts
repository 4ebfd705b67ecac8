/** Clearances, the chance of a hit, screens, volumes and level loops. */
import { readFileSync } from 'node:fs';
import { distanceTo } from '../../src/domain/geometry/nearest';
import { chanceAsLaid } from '../../src/domain/layout/as-laid';
import { clearancesAt } from '../../src/domain/layout/clearance';
import { chosen } from '../../src/domain/layout/given';
import { hitChance, spacingForChance } from '../../src/domain/layout/hit-chance';
import { intervalOf } from '../../src/domain/layout/interval';
import { areaPerPoint, betweenRows, repeatFor, type Repeat } from '../../src/domain/layout/lattice';
import { oneInEach } from '../../src/domain/layout/sample-counts';
import { seeded } from '../../src/domain/layout/seeded';
import { setScreen } from '../../src/domain/layout/setting-rules';
import { capacityOf, cylinder, minimumPurge } from '../../src/domain/layout/volumes';
import { azimuth, inUnits, inVolumeUnits, litres, metres } from '../../src/domain/units';
import { intervalOf as screenInterval } from '../../src/domain/water/screen-interval';
import { openFolder } from '../unit/folder';
import { drawn, planOf, shape } from '../unit/layout/ground';
import { valueOf } from '../unit/water/wells';
import { values, worst, type AccuracyCase } from './case';

const fixture = (name: string) =>
  readFileSync(new URL(`../fixtures/${name}`, import.meta.url), 'utf8');

const ELSEWHERE = 'by a program in another language';

const clearance = (): AccuracyCase[] => {
  const { cases } = JSON.parse(fixture('geometry/jts.json')) as {
    cases: { wkt: string; points: { at: [number, number]; distance: number }[] }[];
  };
  const gas = planOf(drawn('utility', 'Gas', 'LINESTRING (0 0, 100 0)', 1, 5));
  return [
    worst(
      {
        quantity: 'distance to a drawn line or area',
        source: 'JSTS 2.7.1, a port of the JTS Topology Suite',
        known: 'computed independently',
      },
      'distances',
      cases.flatMap(({ wkt, points }) =>
        points.map(({ at, distance }) => [distance, distanceTo(shape(wkt), at)] as const),
      ),
      { unit: 'grid unit', tolerance: 1e-8 },
    ),
    values(
      {
        quantity: 'clearance from a utility',
        source: '3-4-5 off the end of a line 2 wide: 5 − 1',
        known: 'worked by hand',
      },
      [4],
      [clearancesAt([103, 4], gas)[0]?.distance],
      { decimals: 3, unit: 'grid unit', tolerance: 1e-12 },
    ),
  ];
};

const gridNamed = (name: string): Repeat =>
  name.startsWith('rect')
    ? { pattern: 'rectangular', spacing: 1, between: Number(name.slice(4)) }
    : { pattern: name as 'square' | 'triangular', spacing: 1 };

const hits = (): AccuracyCase[] => {
  const rows = fixture('oracles/h_hotspot.csv')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .slice(1)
    .map((line) => line.split(','));
  const circle = (radius: number) => ({ radius, shape: 1, lies: null });
  const acre = repeatFor('square', 43_560, 16);
  const brick = repeatFor('triangular', 43_560, 16);
  const yard = shape('POLYGON ((0 0, 100 0, 100 100, 0 100, 0 0))');
  const tried = chanceAsLaid([[50, 50]], yard, circle(30), 20_000, seeded(11));
  const reach = { square: Math.SQRT2, triangular: Math.sqrt(3) }; // spacings for one farthest distance
  const ground = (pattern: 'square' | 'triangular') =>
    areaPerPoint({ pattern, spacing: reach[pattern] });
  return [
    worst(
      {
        quantity: 'chance of hitting a circle or ellipse',
        source: 'scipy, bounded by shapely and by 200,000 trials each',
        known: 'computed independently',
      },
      'chances, fixed orientation',
      rows
        .filter(([, , , turned]) => turned !== 'random')
        .map(([grid = '', s, radius, turned, chance]) => [
          Number(chance),
          hitChance(gridNamed(grid), azimuth(90), {
            radius: Number(radius),
            shape: Number(s),
            lies: azimuth(90 - Number(turned)),
          }),
        ]),
      { unit: 'chance', tolerance: 1e-6 },
    ),
    values(
      {
        quantity: 'chance of hitting a circle',
        source: 'square grid, πr² for r ≤ ½ in closed form',
        known: 'worked by hand',
      },
      [Math.PI * 0.16],
      [hitChance(gridNamed('square'), azimuth(90), circle(0.4))],
      { decimals: 6, unit: 'chance', tolerance: 1e-12 },
    ),
    values(
      {
        quantity: 'chance of a hit as laid, 20,000 trials',
        source: 'one point in a yard of 100, circle of 30: π·30²/100²',
        known: 'worked by hand',
      },
      [(Math.PI * 900) / 10_000],
      [tried?.chance],
      { decimals: 3, unit: 'chance', tolerance: 4 * (tried?.standardError ?? 0) },
    ),
    values(
      {
        quantity: 'spacing for a wanted chance',
        source:
          'R. O. Gilbert, 1987, ch. 10: circle of 100 cm, 90 % on a square grid, read off Fig. 10.3',
        known: 'from memory',
      },
      [180],
      [spacingForChance('square', azimuth(90), circle(100), 0.9)?.spacing],
      { decimals: 1, unit: 'cm', tolerance: 1.5 }, // as a figure can be read
    ),
    values(
      {
        quantity: 'spacing for a wanted chance',
        source: `L/G 0.5575, 0.4981 for 90 %, ${ELSEWHERE}`,
        known: 'computed independently',
      },
      [1 / 0.5575, 1 / 0.4981],
      [
        spacingForChance('square', azimuth(90), circle(1), 0.9)?.spacing,
        spacingForChance('triangular', azimuth(90), circle(1), 0.9)?.spacing,
      ],
      { decimals: 4, unit: 'radii', tolerance: 4e-4 },
    ),
    values(
      {
        quantity: 'spacing for so many points',
        source: `16 points on an acre, ${ELSEWHERE}`,
        known: 'computed independently',
      },
      [52.178, 56.068, 48.557],
      [acre?.spacing, brick?.spacing, brick && betweenRows(brick)],
      { decimals: 3, unit: 'ft', tolerance: 5.1e-4 },
    ),
    values(
      {
        quantity: 'points saved by a triangular grid',
        source: 'D. F. Parkhurst, 1984, ES&T 18: 23 % (abstract)',
        known: 'published',
      },
      [23],
      [100 * (1 - ground('square') / ground('triangular'))],
      { decimals: 0, unit: '%', tolerance: 0.5 },
    ),
    values(
      {
        quantity: 'duplicates and blanks, one in ten, one in twenty',
        source: 'ceil(n / rate) of 41 samples',
        known: 'worked by hand',
      },
      [5, 3],
      [oneInEach(41, 10), oneInEach(41, 20)],
      { decimals: 0, unit: 'samples', tolerance: 0 },
    ),
  ];
};

const ft = (n: number) => chosen(n, 'ft', 'accuracy table');
const inFeet = (n: number) => inUnits(metres(n), 'ft');

/** The intervals of a demo site, worked by hand from its tables. */
function demoIntervals(name: string): AccuracyCase {
  const { site } = openFolder(`demo-sites/${name}`);
  const { screens: theirs } = JSON.parse(
    readFileSync(new URL(`../../demo-sites/${name}/expected.json`, import.meta.url), 'utf8'),
  ) as { screens: { screen: string; topElevation: number | null; baseElevation: number | null }[] };
  const unit = site.settings.verticalUnit;
  return worst(
    {
      quantity: 'open interval of a driven screen',
      source: `demo site ${name}`,
      known: 'worked by hand',
    },
    'elevations',
    theirs.flatMap(({ screen: id, topElevation, baseElevation }) => {
      const screen = site.screens.get(id);
      const location = screen && site.locations.get(screen.location);
      const interval = screen && location ? screenInterval(screen, location) : null;
      const ours = interval?.ok ? interval.value : null;
      const inUnit = (n: { readonly value: number } | null | undefined) =>
        n ? inUnits(metres(n.value), unit) : null;
      return [
        [topElevation, inUnit(ours?.topElevation)] as const,
        [baseElevation, inUnit(ours?.baseElevation)] as const,
      ].flatMap(([a, b]) => (a === null ? [] : [[a, b] as const]));
    }),
    { unit, tolerance: 1e-9 },
  );
}

const screens = (): AccuracyCase[] => {
  const driven = { tipDepth: ft(24), toolOffset: ft(0), exposedLength: ft(4), ground: ft(101.2) };
  const { elevation } = valueOf(intervalOf(driven));
  const { top, mid, base } = valueOf(elevation);
  const straddling = valueOf(
    setScreen(
      { kind: 'straddle', exposed: ft(4), above: ft(1) },
      { ground: ft(101.2), water: ft(90), boringDepth: null, toolOffset: ft(0.3), layers: [] },
    ),
  );
  const parts = {
    casing: metres(2 / 12, 'ft'),
    column: metres(30 - 12.35, 'ft'),
    tubing: metres(0.25 / 12, 'ft'),
    tubingLength: metres(30, 'ft'),
    cell: litres(250, 'mL'),
  };
  const purge = minimumPurge({ kind: 'volumes', times: 3 }, parts);
  return [
    values(
      {
        quantity: 'open interval of a driven screen',
        source: `ground 101.20, base 24.0, 4 ft, ${ELSEWHERE}`,
        known: 'computed independently',
      },
      [81.2, 79.2, 77.2],
      [top, mid, base].map(({ value }) => inFeet(value)),
      { decimals: 2, unit: 'ft', tolerance: 1e-9 },
    ),
    ...['osier-bend', 'quellmoor'].map(demoIntervals),
    values(
      {
        quantity: 'tip depth to straddle the water table',
        source: '101.2 − (90 + 1) + 4 + 0.3',
        known: 'worked by hand',
      },
      [14.5],
      [inFeet(straddling.tipDepth.value)],
      { decimals: 2, unit: 'ft', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'what casing holds: 4, 6, 8, 10, 12 in',
        source: 'MIL-HDBK-1164, table 1 (its metric column is wrong)',
        known: 'published',
      },
      [0.65, 1.47, 2.61, 4.08, 5.88],
      [4, 6, 8, 10, 12].map((d) => capacityOf(metres(d / 12, 'ft')).gallonsPerFoot),
      { decimals: 2, unit: 'gal/ft', tolerance: 0.0051 },
    ),
    values(
      {
        quantity: 'what 30 ft of quarter-inch tubing holds',
        source: ELSEWHERE,
        known: 'computed independently',
      },
      [289.6],
      [inVolumeUnits(cylinder(parts.tubing, parts.tubingLength), 'mL')],
      { decimals: 1, unit: 'mL', tolerance: 0.051 },
    ),
    values(
      {
        quantity: 'three purge volumes, 2 in, 17.65 ft of water',
        source: 'P = π·r²·h × 7.48 × 3, a public monitoring report',
        known: 'published',
      },
      [Math.PI * (1 / 12) ** 2 * 17.65 * 7.48 * 3],
      [purge.ok ? inVolumeUnits(purge.value, 'gal') : null],
      { decimals: 2, unit: 'gal', tolerance: 0.005 },
    ),
  ];
};

export const layout = (): AccuracyCase[] => [...clearance(), ...hits(), ...screens()];
