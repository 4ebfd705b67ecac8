/** Surfaces through heads, their contours, vertical gradients and seepage. */
import { metres, type Metres } from '../../src/domain/units';
import { groupBy } from '../../src/domain/group';
import { krigingLeftOut } from '../../src/domain/water/surface/cross-validation';
import { lineLength, tinContours } from '../../src/domain/water/surface/contour';
import { estimateAt, kriged } from '../../src/domain/water/surface/kriging';
import { headOnTin, triangulate } from '../../src/domain/water/surface/tin';
import {
  inVelocityUnits,
  metresPerDay,
  seepage,
  travelTime,
  type VelocityUnit,
} from '../../src/domain/water/seepage';
import { verticalGradient } from '../../src/domain/water/vertical';
import type { Source, Worked } from '../../src/domain/work';
import { jobSurface } from '../unit/surface/gstat';
import { number, oracleRows, oracleText, point, SIX_WELLS } from '../unit/surface/oracle';
import { valueOf } from '../unit/water/wells';
import { value, values, worst, type AccuracyCase } from './case';

const GSTAT = 'R 4.2.2, gstat 2.1: ';
const NEST = 'an invented nest, by a program in another language';
const FORTY_DIGITS = 'six invented wells, the system solved in 40 digits, mpmath';

const kriging = (): AccuracyCase[] => {
  const jobs = groupBy(
    oracleRows('c_kriging.csv').filter((row) => !row.model?.includes('nmax')),
    (row) => `${row.dataset} ${row.model} ${row.kriging}`,
  );
  const pairs = [...jobs].flatMap(([job, rows]) => {
    const surface = jobSurface(job);
    return rows.map((row) => ({
      row,
      ours: estimateAt(surface, number(row, 'x'), number(row, 'y')),
    }));
  });
  const leftOut = groupBy(
    oracleRows('c_kriging_loo.csv'),
    (row) => `${row.dataset} ${row.model} ${row.kriging}`,
  );
  const six = valueOf(
    kriged(SIX_WELLS, {
      model: { shape: 'linear', slope: 0.0005, nugget: 0, anisotropy: null },
      drift: 'linear',
      errors: 'ignored',
    }),
  );
  const at = estimateAt(six, 1100, 5080);
  return [
    worst(
      {
        quantity: 'kriged head',
        source: `${GSTAT}26 jobs of four shapes, two drifts`,
        known: 'computed independently',
      },
      'heads',
      pairs.map(({ row, ours }) => [number(row, 'pred'), ours.head]),
      { unit: 'ft or m', tolerance: 1e-8 },
    ),
    worst(
      { quantity: 'kriging variance', source: `${GSTAT}the same`, known: 'computed independently' },
      'variances',
      pairs.map(({ row, ours }) => [number(row, 'var'), ours.variance]),
      { unit: 'ft² or m²', tolerance: 1e-8 },
    ),
    value(
      { quantity: 'kriged head', source: FORTY_DIGITS, known: 'computed independently' },
      92.4124278687679,
      at.head,
      10,
      'ft',
      1e-10,
    ),
    value(
      { quantity: 'kriging error', source: FORTY_DIGITS, known: 'computed independently' },
      0.186157052976,
      at.sigma,
      10,
      'ft',
      1e-10,
    ),
    worst(
      {
        quantity: 'each well left out of the surface',
        source: `${GSTAT}12 jobs of krige.cv`,
        known: 'computed independently',
      },
      'residuals',
      [...leftOut].flatMap(([job, rows]) => {
        const { places } = krigingLeftOut(jobSurface(job));
        return rows.map((row, i) => [number(row, 'residual'), places[i]?.residual] as const);
      }),
      { unit: 'ft or m', tolerance: 1e-9 },
    ),
  ];
};

type TinSet = {
  readonly name: string;
  readonly unique: boolean;
  readonly vertices: readonly { id: string; x: number; y: number; z: number }[];
  readonly targets: readonly { x: number; y: number; value: number | null }[];
  readonly contours: readonly { level: number; total_length: number }[];
};

const triangulated = (): AccuracyCase[] => {
  const { sets } = JSON.parse(oracleText('d_tin.json')) as { sets: TinSet[] };
  const tins = sets
    .filter(({ unique }) => unique)
    .map((set) => ({
      set,
      tin: valueOf(triangulate(set.vertices.map(({ id, x, y, z }) => point(id, x, y, z)))),
    }));
  const cone = 40;
  const round = valueOf(
    triangulate(
      Array.from({ length: 720 }, (_, i) => {
        const turn = (Math.PI * 2 * i) / 360;
        const radius = i < 360 ? cone : 2 * cone;
        return point(`${i}`, radius * Math.cos(turn), radius * Math.sin(turn), radius);
      }).concat(point('middle', 0, 0, 0)),
    ),
  );
  const circle = tinContours(round, metres(cone / 2));
  return [
    worst(
      {
        quantity: 'triangulated head',
        source: 'exact rational barycentric values, checked by scipy',
        known: 'computed independently',
      },
      'heads',
      tins.flatMap(({ set, tin }) =>
        set.targets.flatMap(({ x, y, value }) =>
          value === null ? [] : [[value, headOnTin(tin, x, y)] as const],
        ),
      ),
      { unit: 'relative', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'triangulated head',
        source: 'six invented wells, by a program in another language',
        known: 'computed independently',
      },
      [92.4173170732],
      [headOnTin(valueOf(triangulate(SIX_WELLS)), 1100, 5080)],
      { decimals: 10, unit: 'ft', tolerance: 1e-10 },
    ),
    worst(
      {
        quantity: 'contour length',
        source: 'exact rational crossings, checked by scipy',
        known: 'computed independently',
      },
      'contours',
      tins.flatMap(({ set, tin }) =>
        set.contours.map(({ level, total_length: length }) => {
          const lines = tinContours(tin, metres(level));
          return [length, lines.reduce((sum, { points }) => sum + lineLength(points), 0)] as const;
        }),
      ),
      { unit: 'ft or m', tolerance: 1e-3 },
    ),
    values(
      {
        quantity: 'contour length',
        source: 'a cone of 360 sides, 360·2r·sin(½°) in closed form',
        known: 'worked by hand',
      },
      [360 * cone * Math.sin(Math.PI / 360)],
      [circle.reduce((sum, { points }) => sum + lineLength(points), 0)],
      { decimals: 6, unit: 'm', tolerance: 1e-9 },
    ),
  ];
};

const feet = (value: number, symbol: string): Worked<Metres> => ({
  value: metres(value, 'ft'),
  work: {
    title: symbol,
    symbol,
    formula: symbol,
    terms: [],
    answer: { value: metres(value, 'ft'), dimension: 'length' },
    decimals: 2,
  },
});

const nested = (id: string, mid: number, head: number) => ({
  id,
  top: feet(mid + 2, 'top'),
  base: feet(mid - 2, 'base'),
  head: feet(head, 'head'),
  sigma: metres(0.01, 'ft'),
});

const vertical = (): AccuracyCase[] => {
  const nest = valueOf(verticalGradient(nested('S', 81.2, 91.85), nested('D', 61.2, 91.47)));
  const wet = valueOf(
    verticalGradient(
      { ...nested('S', 90, 0), top: feet(95, 'top'), base: feet(85, 'base'), head: feet(91, 'h') },
      nested('D', 68, 90.5),
    ),
  );
  return [
    value(
      { quantity: 'vertical gradient', source: NEST, known: 'computed independently' },
      0.019,
      nest.gradient.value,
      4,
      'down',
      1e-12,
    ),
    value(
      { quantity: 'vertical gradient’s error', source: NEST, known: 'computed independently' },
      0.0007,
      nest.sigma.value,
      4,
      '–',
      5e-5,
    ),
    value(
      { quantity: 'vertical gradient’s error', source: '√2 · 0.01 / 20', known: 'worked by hand' },
      (Math.SQRT2 * 0.01) / 20,
      nest.sigma.value,
      6,
      '–',
      1e-12,
    ),
    values(
      {
        quantity: 'vertical gradient, water table in the screen',
        source: 'middle of the wetted screen, 88 ft: 0.5 ft over 20 ft',
        known: 'worked by hand',
      },
      [0.025],
      [wet.gradient.value],
      { decimals: 6, unit: 'down', tolerance: 1e-12 },
    ),
  ];
};

const from: Source = { kind: 'citation', text: 'accuracy table' };

const speed = (k: number, unit: VelocityUnit, i: number, n: number) =>
  valueOf(
    seepage({
      conductivity: { low: metresPerDay(k, unit), high: metresPerDay(k, unit), from },
      gradient: { low: i, high: i, from },
      porosity: { low: n, high: n, from },
    }),
  );

const moving = (): AccuracyCase[] => {
  const slowly = speed(10, 'ft/d', 0.005, 0.25);
  const distance = { low: metres(500, 'ft'), high: metres(500, 'ft'), from };
  return [
    value(
      { quantity: 'seepage velocity', source: 'a public monitoring report', known: 'published' },
      50.5,
      inVelocityUnits(speed(10_100, 'ft/yr', 0.0015, 0.3).slowest.value, 'ft/yr'),
      1,
      'ft/yr',
      0.05,
    ),
    value(
      { quantity: 'seepage velocity', source: 'another', known: 'published' },
      0.0565,
      inVelocityUnits(speed(6.28, 'ft/d', 0.0027, 0.3).slowest.value, 'ft/d'),
      4,
      'ft/d',
      5e-5,
    ),
    values(
      {
        quantity: 'seepage velocity',
        source: 'R. C. Heath, 1983, USGS WSP 2220, p. 25: sand and clay',
        known: 'from memory',
      },
      [0.3, 0.00002],
      [speed(60, 'm/d', 0.001, 0.2).slowest.value, speed(0.0001, 'm/d', 0.1, 0.5).slowest.value],
      { decimals: 5, unit: 'm/d', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'travel time',
        source: 'K 10 ft/d, i 0.005, n 0.25, 500 ft, by a program in another language',
        known: 'computed independently',
      },
      [2500],
      [travelTime(distance, slowly, 'ft/d').longest?.value],
      { decimals: 1, unit: 'd', tolerance: 1e-6 },
    ),
    values(
      {
        quantity: 'travel time',
        source: '90 m at 5 m/d · 0.002 / 0.3 = 2700 d',
        known: 'worked by hand',
      },
      [2700],
      [
        travelTime({ low: metres(90), high: metres(90), from }, speed(5, 'm/d', 0.002, 0.3), 'm/d')
          .longest?.value,
      ],
      { decimals: 1, unit: 'd', tolerance: 1e-6 },
    ),
  ];
};

export const surface = (): AccuracyCase[] => [
  ...kriging(),
  ...triangulated(),
  ...vertical(),
  ...moving(),
];
