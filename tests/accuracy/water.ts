/** Heads, planes, directions, triangles and vertical gradients. */
import { inUnits } from '../../src/domain/units';
import { headsOf } from '../../src/domain/water/event-heads';
import { flowOf } from '../../src/domain/water/flow';
import { leaveOneOut } from '../../src/domain/water/leave-one-out';
import { simulateDirection, statedErrors } from '../../src/domain/water/monte-carlo';
import { fitPlane } from '../../src/domain/water/plane';
import { confidenceOf } from '../../src/domain/water/plane-confidence';
import { randomFrom } from '../../src/domain/water/random';
import { threePoint } from '../../src/domain/water/three-point';
import { triangleAt, trianglesOf } from '../../src/domain/water/triangles';
import { cellText } from '../../src/domain/site/table';
import { openFolder } from '../unit/folder';
import { siteFrom } from '../unit/site-from';
import {
  fixture,
  ORACLE,
  oracleCase,
  oracleWells,
  SIX_IN_FEET,
  valueOf,
  well,
} from '../unit/water/wells';
import { same, turned, value, values, worst, type AccuracyCase } from './case';

const BASIS_SIX =
  'six invented wells, case 3.1 of the project’s basis, by a program in another language';
const HEATH = 'R. C. Heath, 1983, USGS WSP 2220, p. 11, solved exactly';
const FREEZE =
  'R. A. Freeze and J. A. Cherry, 1979, Groundwater, ch. 2 (attribution from memory), solved exactly';
const RATIONALS = 'synthetic sets in exact rationals, checked by numpy';

/** Wells gauged once, each in its own place: measuring point, then the level as written. */
const gauged = (marks: readonly number[], levels: readonly string[]) =>
  siteFrom({
    locations: [
      'id,easting,northing,kind,status',
      ...marks.map((_, i) => `W${i},${i * 100},${i * i * 50},monitoring well,installed`),
    ],
    screens: ['id,location,zone', ...marks.map((_, i) => `W${i},W${i},shallow`)],
    measuring_points: ['id,screen,elevation', ...marks.map((mp, i) => `mp${i},W${i},${mp}`)],
    events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-01'],
    water_levels: [
      'screen,event,measuring_point,time,depth_to_water,depth_to_product,product_density,status',
      ...levels.map((level, i) => `W${i},E1,mp${i},2026-04-01T09:0${i},${level},static`),
    ],
  });

const headsIn = (site: ReturnType<typeof siteFrom>) =>
  headsOf(site, 'E1').map(({ head }) => (head ? inUnits(head.value, 'ft') : null));

const heads = (): AccuracyCase[] => {
  const inl = openFolder('tests/fixtures/inl-southwest/site');
  const published = inl.package.tables.water_levels;
  return [
    values(
      { quantity: 'head', source: 'a public monitoring report, 1993', known: 'published' },
      [-28.78, -28.66, -28.89],
      headsIn(gauged([10.87, 9.65, 10.28], ['39.65,,', '38.31,,', '39.17,,'])),
      { decimals: 2, unit: 'ft', tolerance: 1e-9 },
    ),
    worst(
      {
        quantity: 'head',
        source: 'USGS wells: Fisher and others, 2024, inldata 1.2.5',
        known: 'published',
      },
      'elevations',
      ['Levels 2008', 'Levels 2019']
        .flatMap((event) => headsOf(inl.site, event))
        .map(({ head, reading }) => [
          published ? Number(cellText(published, reading.row - 2, 'sl_lev_va')) : NaN,
          head && inUnits(head.value, 'ft'),
        ]),
      { unit: 'ft', tolerance: 0.01 + 1e-9 },
    ),
    values(
      {
        quantity: 'head under floating product',
        source: 'a public monitoring report: 0.33 and 0.52 ft at 0.83',
        known: 'published',
      },
      [39.41, 39.27],
      headsIn(gauged([48.22, 48.22], ['9.08,8.75,0.83', '9.38,8.86,0.83'])),
      { decimals: 2, unit: 'ft', tolerance: 0.005 }, // printed to the hundredth
    ),
    values(
      {
        quantity: 'head under floating product',
        source: 'another: 0.32 ft at 0.83 below a mark taken as 0',
        known: 'published',
      },
      [-9.33],
      headsIn(gauged([0], ['9.60,9.28,0.83'])),
      { decimals: 2, unit: 'ft', tolerance: 0.0051 },
    ),
  ];
};

const three = (...wells: Parameters<typeof threePoint>[0]) => valueOf(threePoint(wells));

const threePoints = (): AccuracyCase[] => {
  const east = (165 ** 2 - 150 ** 2 + 215 ** 2) / (2 * 215);
  const heath = three(
    well('1', 0, 0, 26.26),
    well('2', east, Math.sqrt(165 ** 2 - east ** 2), 26.2),
    well('3', 215, 0, 26.07),
  );
  const masters = three(well('1', 0, 0, -10), well('2', 100, 0, -10.2), well('3', 100, 100, -10.1));
  const freeze = three(
    well('A', 0, 0, 90),
    well('B', 0, 1000, 80),
    well('C', 500 * Math.sqrt(3), 500, 100),
  );
  const sets = ORACLE.cases.filter((set) => set.wells.length === 3 && set.expected.status === 'ok');
  return [
    value(
      { quantity: 'three-point: low well to contour', source: HEATH, known: 'from memory' },
      134.6,
      heath.construction?.perpendicular.distance,
      1,
      'm',
      0.05,
    ),
    value(
      { quantity: 'three-point: gradient', source: HEATH, known: 'from memory' },
      0.000966,
      heath.construction?.gradient,
      6,
      '–',
      5e-7,
    ),
    values(
      {
        quantity: 'three-point: flow azimuth',
        source: 'G. M. Masters, Introduction to Environmental Engineering and Science, ch. 5',
        known: 'published',
      },
      [90 + 26.6],
      [masters.azimuth],
      { decimals: 1, unit: '°', tolerance: 0.05 },
    ),
    value(
      { quantity: 'three-point: gradient', source: FREEZE, known: 'computed independently' },
      0.02,
      freeze.plane.gradient,
      6,
      '–',
      1e-12,
    ),
    value(
      { quantity: 'three-point: flow azimuth', source: FREEZE, known: 'computed independently' },
      300,
      freeze.azimuth,
      3,
      '°',
      1e-9,
    ),
    worst(
      { quantity: 'three-point: gradient', source: RATIONALS, known: 'computed independently' },
      'sets',
      sets
        .filter(({ expected }) => expected.collinearity_ratio >= 1e-5)
        .map((set) => [
          set.expected.gradient,
          valueOf(threePoint(oracleWells(set))).construction?.gradient,
        ]),
      { unit: 'relative', tolerance: 1e-9 },
    ),
  ];
};

const planes = (): AccuracyCase[] => {
  const solved = ORACLE.cases.filter(
    ({ expected }) => expected.status === 'ok' && expected.collinearity_ratio >= 1e-5,
  );
  const fits = solved.map((set) => ({
    set,
    plane: valueOf(fitPlane(oracleWells(set), { weighted: set.weights !== null })),
  }));
  const six = valueOf(fitPlane(SIX_IN_FEET, { weighted: false }));
  const utm = openFolder('tests/fixtures/inl-southwest/site').site;
  const inl = flowOf(utm, 'Levels 2008', 'aquifer', undefined, { weighted: false });
  return [
    worst(
      { quantity: 'best-fit plane: gradient', source: RATIONALS, known: 'computed independently' },
      'sets',
      fits.map(({ set, plane }) => [set.expected.gradient, plane.gradient]),
      { unit: 'relative', tolerance: 1e-9 },
    ),
    worst(
      { quantity: 'best-fit plane: azimuth', source: RATIONALS, known: 'computed independently' },
      'sets',
      fits
        .filter(({ set }) => set.expected.azimuth_deg !== null)
        .map(({ set, plane }) => [0, turned(set.expected.azimuth_deg ?? NaN, plane.azimuth)]),
      { unit: '°', tolerance: 1e-6 },
    ),
    worst(
      {
        quantity: 'best-fit plane: gradient, azimuth’s error, R²',
        source: 'R 4.2.2, lm',
        known: 'computed independently',
      },
      'values',
      inR(),
      { unit: 'relative', tolerance: 1e-9 },
    ),
    value(
      { quantity: 'best-fit plane: gradient', source: BASIS_SIX, known: 'computed independently' },
      0.0032403502,
      six.gradient,
      10,
      '–',
      5.1e-11,
    ),
    value(
      { quantity: 'best-fit plane: azimuth', source: BASIS_SIX, known: 'computed independently' },
      128.91587,
      six.azimuth,
      5,
      '°',
      5.1e-6,
    ),
    value(
      { quantity: 'best-fit plane: R²', source: BASIS_SIX, known: 'computed independently' },
      0.9839201071,
      six.rSquared,
      10,
      '–',
      5.1e-11,
    ),
    values(
      {
        quantity: 'best-fit plane: gradient of a real event',
        source: '53 USGS wells of April 2008, a regression by numpy; the agency says south-west',
        known: 'computed independently',
      },
      [0.000351],
      [inl.gradient?.value],
      { decimals: 6, unit: '–', tolerance: 5e-7 },
    ),
  ];
};

/** Gradient, direction's error and R² of each set that R fitted and that has a direction. */
const inR = () =>
  fixture<{ cases: { id: string; gradient: number; se_az: number; r2: number }[] }>(
    'oracles/b_planes_R_lm.json',
  ).cases.flatMap((theirs) => {
    const set = oracleCase(theirs.id);
    if (set.expected.azimuth_deg === null || set.expected.collinearity_ratio < 1e-5) return [];
    const plane = valueOf(fitPlane(oracleWells(set), { weighted: set.weights !== null }));
    return [
      [theirs.gradient, plane.gradient] as const,
      [theirs.se_az, plane.fromResiduals?.azimuth] as const,
      [theirs.r2, plane.rSquared] as const,
    ];
  });

const direction = (): AccuracyCase[] => {
  const six = confidenceOf(valueOf(fitPlane(SIX_IN_FEET, { weighted: false })), 0.95);
  const side = 100;
  const equilateral = [
    [0, 0],
    [side, 0],
    [side / 2, (side * Math.sqrt(3)) / 2],
  ].map(([x = 0, y = 0], i) => well(`${i}`, x, y, 20 - 0.005 * y));
  const stated = valueOf(fitPlane(equilateral, { weighted: false })).stated;
  const simulated = ORACLE.monte_carlo.map((reference) => {
    const points = oracleWells(oracleCase(reference.case), reference.measuring_sigma);
    const choice = { weighted: false, draws: 100_000, chances: reference.percentiles };
    const found = valueOf(simulateDirection(points, statedErrors(points), choice, randomFrom(1)));
    return found.direction.map(
      ({ deviation }, i) =>
        Math.abs(deviation - (reference.azimuth_deviation_exact[i] ?? NaN)) /
        (2 * (reference.mc_standard_error[i] ?? NaN)), // a quarter of the draws, twice the error
    );
  });
  return [
    value(
      {
        quantity: 'direction ± at 95 %, by scatter',
        source: BASIS_SIX,
        known: 'computed independently',
      },
      15.26,
      six.fromResiduals?.azimuth,
      2,
      '°',
      0.0051,
    ),
    value(
      { quantity: 'is it resolved: F', source: BASIS_SIX, known: 'computed independently' },
      91.7842,
      six.slopeTests.find(({ kind }) => kind === 'slope-by-scatter')?.statistic,
      4,
      '–',
      5.1e-5,
    ),
    value(
      { quantity: 'is it a plane: Σr²/σ²', source: BASIS_SIX, known: 'computed independently' },
      100.07,
      six.lackOfFit?.statistic,
      2,
      '–',
      0.0051,
    ),
    values(
      {
        quantity: 'direction ±: from stated error',
        source: 'equilateral triangle, σ = √2·s/(L·i) in closed form',
        known: 'worked by hand',
      },
      [(Math.SQRT2 * 0.01 * 180) / (side * 0.005) / Math.PI],
      [stated.azimuth],
      { decimals: 6, unit: '°', tolerance: 1e-9 },
    ),
    worst(
      {
        quantity: 'direction ±: simulated, 100,000 draws',
        source: 'exact percentiles of the projected normal',
        known: 'computed independently',
      },
      'percentiles',
      simulated.flat().map((off) => [0, off]),
      { unit: 'standard errors', tolerance: 4 },
    ),
  ];
};

const questioned = (): AccuracyCase[] => {
  const triangles = trianglesOf(SIX_IN_FEET);
  const failing = Array.from({ length: triangles.count }, (_, k) => triangleAt(triangles, k))
    .filter((one) => one !== null && !one.wellShaped)
    .map((one) => one?.ids.join('') ?? '');
  const left = valueOf(leaveOneOut(SIX_IN_FEET, { weighted: false, confidence: 0.95 })).wells;
  const { influence } = fixture<{
    influence: Record<string, { leverage: number; studentised?: number }[]>;
  }>('planes/influence.json');
  const equilateral = trianglesOf([
    well('1', 0, 0, 3),
    well('2', 10, 0, 2),
    well('3', 5, 5 * Math.sqrt(3), 1),
  ]);
  return [
    same(
      {
        quantity: 'triangles that fail the shape rule',
        source: BASIS_SIX,
        known: 'computed independently',
      },
      'P1P2P3, P1P2P6, P2P3P4, P4P5P6',
      failing.join(', '),
    ),
    values(
      {
        quantity: 'triangle: base to height',
        source: 'equilateral, 2/√3',
        known: 'worked by hand',
      },
      [2 / Math.sqrt(3)],
      [triangleAt(equilateral, 0)?.baseToHeight],
      { decimals: 6, unit: '–', tolerance: 1e-12 },
    ),
    values(
      {
        quantity: 'azimuth with one well left out',
        source: BASIS_SIX,
        known: 'computed independently',
      },
      [130.114, 127.029, 130.919, 126.449, 131.711, 127.657],
      left.map(({ without }) => without?.azimuth),
      { decimals: 3, unit: '°', tolerance: 5.1e-4 },
    ),
    worst(
      {
        quantity: 'studentised residual and leverage',
        source: 'from the definitions at 50 digits, mpmath',
        known: 'computed independently',
      },
      'values',
      Object.entries(influence).flatMap(([id, rows]) => {
        const set = oracleCase(id);
        const choice = { weighted: set.weights !== null, confidence: 0.95 };
        const { wells } = valueOf(leaveOneOut(oracleWells(set), choice));
        return rows.flatMap(({ leverage, studentised }, i) => [
          [leverage, wells[i]?.leverage] as const,
          ...(studentised === undefined ? [] : [[studentised, wells[i]?.studentised] as const]),
        ]);
      }),
      { unit: 'relative', tolerance: 1e-7 },
    ),
  ];
};

export const water = (): AccuracyCase[] => [
  ...heads(),
  ...threePoints(),
  ...planes(),
  ...direction(),
  ...questioned(),
];
