import { EARTH_RADIUS } from '../grid';
import { cell, recorded } from '../site/cite';
import type { Site } from '../site/site';
import type { Azimuth, Degrees, Metres } from '../units';
import type { Term, Work, Worked } from '../work';
import type { FlowPoint, FlowPoints } from './flow-points';
import type { Plane } from './plane';

const METHOD =
  'Best-fit plane by least squares in centred ground coordinates (Devlin, 2003, Ground Water 41(3)). Flow runs down the plane; azimuths are clockwise from grid north.';

/** The heads the plane rests on, each opening into its own work, and the slopes they give. */
function planeWork(
  site: Site,
  { points, middle }: FlowPoints,
  plane: Plane,
  slope: 'a' | 'b',
): Work {
  const toward = slope === 'a' ? 'east' : 'north';
  const [own, other] = slope === 'a' ? (['Sxx', 'Syy'] as const) : (['Syy', 'Sxx'] as const);
  const [withOwn, withOther] =
    slope === 'a' ? (['Sxh', 'Syh'] as const) : (['Syh', 'Sxh'] as const);
  const sums = sumsOf(points, plane);
  const term = (symbol: keyof typeof sums, name: string): Term => ({
    symbol,
    name,
    value: sums[symbol],
    dimension: 'area',
    from: { kind: 'citation', text: 'sums over the wells of the table, about their middle' },
  });
  return {
    title: `Slope of the plane toward ${toward}`,
    symbol: slope,
    formula: `(${withOwn} * ${other} - ${withOther} * Sxy) / (Sxx * Syy - Sxy^2)`,
    terms: [
      term(own, `weighted sum of squares toward ${toward}`),
      term(other, 'the same in the other direction'),
      term('Sxy', 'weighted sum of products of the two'),
      term(withOwn, `weighted sum of products with the head, toward ${toward}`),
      term(withOther, 'the same in the other direction'),
    ],
    answer: { value: plane[slope], dimension: 'slope' },
    decimals: 9,
    note: `${METHOD} Distances are on the ground: those in the grid over the combined factor ${site.grid.combinedFactor?.toFixed(7) ?? '1, none being known'}.`,
    table: {
      columns: [
        { name: 'well', dimension: 'text' },
        { name: 'x', dimension: 'distance' },
        { name: 'y', dimension: 'distance' },
        { name: 'head', dimension: 'length' },
        { name: 'fitted', dimension: 'length' },
        { name: 'residual', dimension: 'length' },
        { name: 'weight', dimension: 'number' },
      ],
      works: points.map((point) => rowWorks(site, middle, point)),
      rows: points.map(({ id, x, y, head }, i) => [
        id,
        x,
        y,
        head,
        plane.fitted[i] ?? null,
        plane.residuals[i] ?? null,
        plane.weights[i] ?? null,
      ]),
    },
  };
}

/** Head, and place on the ground, of one well: down to its cells. */
function rowWorks(site: Site, middle: FlowPoints['middle'], point: FlowPoint): Work[] {
  const { head, location } = point.gauged;
  const factor = factorWork(site);
  const from = (
    symbol: 'x' | 'y',
    column: 'easting' | 'northing',
    value: Metres,
  ): readonly Work[] => {
    const written = location[column];
    if (!written || !middle) return [];
    const from = middle[column];
    return [
      {
        title: `Ground distance of ${point.id} ${symbol === 'x' ? 'east' : 'north'} of the middle`,
        symbol,
        formula: `(${column} - middle) / factor`,
        terms: [
          recorded(
            column,
            `${column} of ${location.id}`,
            written,
            cell('locations', location, column),
            'distance',
          ),
          {
            symbol: 'middle',
            name: 'mean of the wells in the plane',
            value: from,
            dimension: 'distance',
            from: { kind: 'citation', text: `the ${column}s of the wells in the plane` },
          },
          {
            symbol: 'factor',
            name: 'grid distance over ground distance',
            value: factor.answer.value,
            dimension: 'number',
            from: { kind: 'work', work: factor },
          },
        ],
        answer: { value, dimension: 'distance' },
        decimals: 2,
      },
    ];
  };
  return [
    ...(head ? [head.work] : []),
    ...from('x', 'easting', point.x),
    ...from('y', 'northing', point.y),
  ];
}

/** The combined factor, k·R/(R + h); 1 where the grid has none. */
function factorWork({ grid, settings }: Site): Work {
  const { combinedFactor, pointScale } = grid;
  const known = combinedFactor !== null && pointScale !== null;
  return {
    title: 'Combined factor: grid distance over ground distance',
    symbol: 'factor',
    formula: known ? 'k * R / (R + h)' : 'one',
    terms: known
      ? [
          {
            symbol: 'k',
            name: 'scale of the grid at the middle of the site',
            value: pointScale,
            dimension: 'number',
            from: { kind: 'citation', text: grid.name },
          },
          {
            symbol: 'R',
            name: 'mean radius of the earth',
            value: EARTH_RADIUS,
            dimension: 'length',
            from: {
              kind: 'citation',
              text: 'J. E. Stem, 1990, NOAA Manual NOS NGS 5 (value from memory)',
            },
          },
          {
            symbol: 'h',
            name: 'elevation of the site',
            value: settings.elevation,
            dimension: 'length',
            from: { kind: 'setting', name: 'elevation' },
          },
        ]
      : [
          {
            symbol: 'one',
            name: 'no factor is known for this grid: distances are taken as they are',
            value: 1,
            dimension: 'number',
            from: { kind: 'citation', text: grid.name },
          },
        ],
    answer: { value: combinedFactor ?? 1, dimension: 'number' },
    decimals: 7,
  };
}

function sumsOf(points: FlowPoints['points'], { centre, c, weights }: Plane) {
  const sums = { Sxx: 0, Sxy: 0, Syy: 0, Sxh: 0, Syh: 0 };
  points.forEach(({ x, y, head }, i) => {
    const [dx, dy, dh] = [x - centre.x, y - centre.y, head - c];
    const w = weights[i] ?? 0;
    sums.Sxx += w * dx * dx;
    sums.Sxy += w * dx * dy;
    sums.Syy += w * dy * dy;
    sums.Sxh += w * dx * dh;
    sums.Syh += w * dy * dh;
  });
  return sums;
}

function slopes(site: Site, points: FlowPoints, plane: Plane): readonly Term[] {
  return (['a', 'b'] as const).map((symbol) => ({
    symbol,
    name: `rise of head toward ${symbol === 'a' ? 'east' : 'north'}, per distance`,
    value: plane[symbol],
    dimension: 'slope',
    from: { kind: 'work', work: planeWork(site, points, plane, symbol) },
  }));
}

/** Decimals that show a gradient to four figures. */
const gradientDecimals = (gradient: number) =>
  gradient > 0 ? Math.max(2, 3 - Math.floor(Math.log10(gradient))) : 6;

/** Gradient of the plane, √(a² + b²). */
export const gradientOf = (site: Site, points: FlowPoints, plane: Plane): Worked<number> => ({
  value: plane.gradient,
  work: {
    title: 'Horizontal gradient',
    symbol: 'i',
    formula: 'sqrt(a^2 + b^2)',
    terms: slopes(site, points, plane),
    answer: { value: plane.gradient, dimension: 'slope' },
    decimals: gradientDecimals(plane.gradient),
    note: METHOD,
  },
});

/** Direction of flow from grid north: down the plane, along (−a, −b). */
export const azimuthOf = (
  site: Site,
  points: FlowPoints,
  plane: Plane,
  value: Azimuth,
): Worked<Azimuth> => ({
  value,
  work: {
    title: 'Direction of flow, clockwise from grid north',
    symbol: 'θ',
    formula: 'azimuth(-a, -b)',
    terms: slopes(site, points, plane),
    answer: { value, dimension: 'angle' },
    decimals: 1,
    note: 'azimuth(east, north) is the direction of a step so far east and so far north.',
  },
});

/** The same direction from true north. */
export const trueAzimuthOf = (
  grid: Worked<Azimuth>,
  convergence: Degrees,
  value: Azimuth,
  gridName: string,
): Worked<Azimuth> => ({
  value,
  work: {
    title: 'Direction of flow, clockwise from true north',
    symbol: 'true',
    formula: 'turn(θ + γ)',
    terms: [
      {
        symbol: 'θ',
        name: 'direction from grid north',
        value: grid.value,
        dimension: 'angle',
        from: { kind: 'work', work: grid.work },
      },
      {
        symbol: 'γ',
        name: 'convergence, positive where grid north is east of true north',
        value: convergence,
        dimension: 'angle',
        from: { kind: 'citation', text: `${gridName}, at the middle of the site` },
      },
    ],
    answer: { value, dimension: 'angle' },
    decimals: 1,
  },
});
