/** Where points are laid: grids, transects, step-outs, and the ground between surveyed points. */
import { readFileSync } from 'node:fs';
import type { Area, XY } from '../../src/domain/geometry/shape';
import { chosen } from '../../src/domain/layout/given';
import { layGrid, layTransects } from '../../src/domain/layout/grids';
import { groundBetween } from '../../src/domain/layout/ground-elevation';
import type { Repeat } from '../../src/domain/layout/lattice';
import { rings, stepOuts } from '../../src/domain/layout/step-outs';
import { azimuth, inUnits } from '../../src/domain/units';
import { drawn, planOf } from '../unit/layout/ground';
import { same, values, worst, type AccuracyCase } from './case';

const fixture = (name: string) =>
  readFileSync(new URL(`../fixtures/oracles/${name}`, import.meta.url), 'utf8');

type ClipCase = {
  readonly grid: 'square' | 'triangular' | 'rectangular';
  readonly spacing: number | [number, number];
  readonly rotation_deg_ccw: number;
  readonly origin: [number, number];
  readonly parts: readonly Area[];
  readonly count: number;
};

const clipped = (): AccuracyCase[] => {
  const { cases } = JSON.parse(fixture('g_grid_clip.json')) as { cases: ClipCase[] };
  const inside = cases.map(({ grid, spacing, rotation_deg_ccw: turn, origin, parts }) => {
    const [along, between] = typeof spacing === 'number' ? [spacing, spacing] : spacing;
    const repeat: Repeat =
      grid === 'rectangular'
        ? { pattern: grid, spacing: along, between }
        : { pattern: grid, spacing: along };
    const boundary = drawn('boundary', 'site', { kind: 'areas', areas: parts });
    const laid = layGrid({ ...repeat, rows: azimuth(90 - turn), start: origin }, planOf(boundary));
    return laid.ok ? laid.value.filter(({ blocks }) => blocks.length === 0).length : 0;
  });
  const square = drawn('boundary', 'site', 'POLYGON ((0 0, 100 0, 100 100, 0 100, 0 0))');
  const hundred = layGrid(
    { pattern: 'square', spacing: 10, rows: azimuth(90), start: [5, 5] },
    planOf(square),
  );
  return [
    worst(
      {
        quantity: 'grid nodes inside a boundary',
        source: 'shapely 2 and exact rationals',
        known: 'computed independently',
      },
      'layouts',
      cases.map(({ count }, i) => [count, inside[i]]),
      { unit: 'nodes', tolerance: 0 },
    ),
    values(
      {
        quantity: 'grid nodes inside a boundary',
        source: 'a square of 100 at 10, from 5: ten by ten',
        known: 'worked by hand',
      },
      [100],
      [hundred.ok ? hundred.value.length : null],
      { decimals: 0, unit: 'nodes', tolerance: 0 },
    ),
  ];
};

const COMPLEX = 'numpy, complex numbers turned by their azimuth';

type Directions = {
  readonly step_outs: readonly {
    readonly at: XY;
    readonly flow: number;
    readonly downgradient: readonly number[];
    readonly upgradient: readonly number[];
    readonly across: readonly number[];
    readonly places: readonly XY[];
  }[];
  readonly rings: readonly {
    readonly at: XY;
    readonly first: number;
    readonly radii: readonly number[];
    readonly each: number;
    readonly staggered: boolean;
    readonly places: readonly XY[];
  }[];
  readonly transects: readonly {
    readonly corners: readonly XY[];
    readonly flow: number;
    readonly through: XY;
    readonly downgradient: readonly number[];
    readonly every: number;
    readonly staggered: boolean;
    readonly places: readonly XY[];
  }[];
};

const directions = () => JSON.parse(fixture('laying_directions.json')) as Directions;

const closed = (corners: readonly XY[]): XY[] => [...corners, ...corners.slice(0, 1)];

/** Their coordinates and ours, place by place in the order laid; one too many of ours is told by a place that is none. */
const sameOrder = (
  theirs: readonly XY[],
  ours: readonly { readonly at: XY }[],
): [theirs: number, ours: number | undefined][] =>
  ours.length > theirs.length
    ? [[theirs.length, undefined]]
    : theirs.flatMap(([x, y], i): [number, number | undefined][] => [
        [x, ours[i]?.at[0]],
        [y, ours[i]?.at[1]],
      ]);

const transects = (): AccuracyCase[] => {
  const yard = drawn('boundary', 'site', 'POLYGON ((0 0, 200 0, 200 100, 0 100, 0 0))');
  const laid = layTransects(
    {
      flow: azimuth(90),
      through: [50, 50],
      downgradient: [0, 40],
      every: 20,
      staggered: false,
    },
    planOf(yard),
  );
  const { step_outs, rings: round, transects: laidOut } = directions();
  const print = (all: readonly { readonly at: readonly number[] }[]) =>
    all.map(({ at }) => at.map((n) => Math.round(n) + 0).join(' ')).join(', ');
  return [
    same(
      {
        quantity: 'stations of a transect',
        source: 'flow to the east, every 20 in a yard of 200 by 100',
        known: 'worked by hand',
      },
      '50 90, 50 70, 50 50, 50 30, 50 10',
      laid.ok ? print(laid.value.stakes.slice(0, 5)) : 'none',
    ),
    same(
      {
        quantity: 'step-outs',
        source: 'flow to the south from (100, 100)',
        known: 'worked by hand',
      },
      '100 90, 100 110, 85 100, 115 100',
      print(
        stepOuts([100, 100], azimuth(180), { downgradient: [10], upgradient: [10], across: [15] }),
      ),
    ),
    same(
      { quantity: 'ring of step-outs', source: 'four at 10 from north', known: 'worked by hand' },
      '0 10, 10 0, 0 -10, -10 0',
      print(rings([0, 0], [10], 4, azimuth(0))),
    ),
    worst(
      { quantity: 'stations of a transect', source: COMPLEX, known: 'computed independently' },
      'coordinates',
      laidOut.flatMap((each) => {
        const yard = { kind: 'areas', areas: [[closed(each.corners)]] } as const;
        const laid = layTransects(
          { ...each, flow: azimuth(each.flow) },
          planOf(drawn('boundary', 'site', yard)),
        );
        return sameOrder(each.places, laid.ok ? laid.value.stakes : []);
      }),
      { unit: 'grid unit', tolerance: 1e-6 },
    ),
    worst(
      { quantity: 'step-outs', source: COMPLEX, known: 'computed independently' },
      'coordinates',
      step_outs.flatMap((each) =>
        sameOrder(each.places, stepOuts(each.at, azimuth(each.flow), each)),
      ),
      { unit: 'grid unit', tolerance: 1e-6 },
    ),
    worst(
      { quantity: 'ring of step-outs', source: COMPLEX, known: 'computed independently' },
      'coordinates',
      round.flatMap(({ at, radii, each, first, staggered, places }) =>
        sameOrder(places, rings(at, radii, each, azimuth(first), staggered)),
      ),
      { unit: 'grid unit', tolerance: 1e-6 },
    ),
  ];
};
type TinSet = {
  readonly unique: boolean;
  readonly vertices: readonly { id: string; x: number; y: number; z: number }[];
  readonly targets: readonly { x: number; y: number; value: number | null }[];
};

const ground = (): AccuracyCase[] => {
  const { sets } = JSON.parse(fixture('d_tin.json')) as { sets: TinSet[] };
  const estimate = (vertices: TinSet['vertices']) => {
    const between = groundBetween(
      vertices.map(({ id, x, y, z }) => ({ id, at: [x, y], elevation: chosen(z, 'm', id) })),
    );
    return (x: number, y: number) => {
      const found = between([x, y]);
      return found.ok ? inUnits(found.value.elevation.value, 'm') : null;
    };
  };
  const three = estimate([
    { id: 'A', x: 0, y: 0, z: 100 },
    { id: 'B', x: 30, y: 0, z: 103 },
    { id: 'C', x: 0, y: 30, z: 106 },
  ]);
  return [
    worst(
      {
        quantity: 'ground between surveyed points',
        source: 'exact rational barycentric values, checked by scipy',
        known: 'computed independently',
      },
      'elevations',
      sets
        .filter(({ unique }) => unique)
        .flatMap(({ vertices, targets }) => {
          const at = estimate(vertices);
          return targets.flatMap(({ x, y, value }) =>
            value === null ? [] : [[value, at(x, y)] as const],
          );
        }),
      { unit: 'm', tolerance: 1e-8 },
    ),
    values(
      {
        quantity: 'ground between surveyed points',
        source: 'a third of the way along each side of 100, 103, 106',
        known: 'worked by hand',
      },
      [103],
      [three(10, 10)],
      { decimals: 2, unit: 'm', tolerance: 1e-9 },
    ),
  ];
};

export const laying = (): AccuracyCase[] => [...clipped(), ...transects(), ...ground()];
