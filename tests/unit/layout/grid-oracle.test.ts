import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { shapeArea } from '../../../src/domain/geometry/measure';
import type { Area, XY } from '../../../src/domain/geometry/shape';
import { layGrid } from '../../../src/domain/layout/grids';
import { nodeAt, type Lattice, type Repeat } from '../../../src/domain/layout/lattice';
import { azimuth } from '../../../src/domain/units';
import { drawn, planOf } from './ground';

/**
 * Nodes of lattices in polygons by shapely 1.8.5 (GEOS 3.11.1), those near the
 * boundary decided again in exact rationals. Angles there are counter-clockwise
 * from east, ours clockwise from north.
 */
type Case = {
  id: string;
  polygon: string;
  parts: Area[];
  grid: 'square' | 'triangular' | 'rectangular';
  spacing: number | [number, number];
  rotation_deg_ccw: number;
  origin: XY;
  area: number;
  count: number;
  boundary_nodes: number;
  nodes: [column: number, row: number, x: number, y: number][];
  nodes_on_boundary?: [column: number, row: number, x: number, y: number][];
};

const { cases } = JSON.parse(
  readFileSync(new URL('../../fixtures/oracles/g_grid_clip.json', import.meta.url), 'utf8'),
) as { cases: Case[] };

const latticeOf = ({ grid, spacing, rotation_deg_ccw, origin }: Case): Lattice => {
  const [along, between] = typeof spacing === 'number' ? [spacing, spacing] : spacing;
  const repeat: Repeat =
    grid === 'rectangular'
      ? { pattern: grid, spacing: along, between }
      : { pattern: grid, spacing: along };
  return { ...repeat, rows: azimuth(90 - rotation_deg_ccw), start: origin };
};

const key = ([x, y]: XY) => `${x.toFixed(5)} ${y.toFixed(5)}`;

test('all 54 cases are at hand, 142 nodes in them on a boundary', () => {
  expect(cases).toHaveLength(54);
  expect(cases.reduce((sum, { boundary_nodes }) => sum + boundary_nodes, 0)).toBe(142);
});

describe('grids clipped to a boundary, against shapely and exact rationals', () => {
  test.each(cases.map((c) => [c.id, c.grid, c.polygon, c] as const))('%s: %s in %s', (...all) => {
    const given = all[3];
    const boundary = { kind: 'areas', areas: given.parts } as const;
    expect(shapeArea(boundary)).toBeCloseTo(given.area, 4);
    const laid = layGrid(latticeOf(given), planOf(drawn('boundary', 'site', boundary)));
    const stakes = laid.ok ? laid.value : [];

    const clear = stakes.filter(({ blocks }) => blocks.length === 0);
    expect(clear.map(({ at }) => key(at)).sort()).toEqual(
      given.nodes.map(([, , x, y]) => key([x, y])).sort(),
    );
    // The rule for ties: on the boundary is not inside, and is said.
    const onBoundary = stakes.filter(({ blocks: [block] }) => block?.kind === 'on-boundary');
    expect(onBoundary.map(({ at }) => key(at)).sort()).toEqual(
      (given.nodes_on_boundary ?? []).map(([, , x, y]) => key([x, y])).sort(),
    );
    expect(stakes).toHaveLength(given.count + given.boundary_nodes);
  });

  test('a node asked for by row and column stands where the reference has it', () => {
    for (const given of cases)
      for (const [column, row, x, y] of given.nodes.slice(0, 5)) {
        const [east, north] = nodeAt(latticeOf(given), column, row).at;
        expect(Math.hypot(east - x, north - y)).toBeLessThan(1e-7);
      }
  });
});
