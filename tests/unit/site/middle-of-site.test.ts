/** Convergence and scale are those where the site is, also while nothing of it is pushed or even planned. */
import { describe, expect, test } from 'vitest';
import { northOf } from '../../../src/domain/grid';
import type { TableName } from '../../../src/domain/site/schema';
import { gridOf, siteOf } from '../../../src/io/open-site';
import { packageFrom } from '../site-from';

const INDIANA = {
  name: 'NAD83 / Indiana East (ftUS)',
  code: 'EPSG:2965',
  projection: null,
  unit: 'us-ft',
} as const;

/** The central meridian of Indiana East, 85°40′ W: NOAA Manual NOS NGS 5 (J. E. Stem, 1990). */
const MERIDIAN = -(85 + 40 / 60);

/** A yard west of the meridian. */
const [LNG, LAT] = [-86.139, 40.0505];

const RADIAN = Math.PI / 180;

/** Of a transverse Mercator on a sphere: J. P. Snyder, 1987, Map Projections, eq. 8-9; the ellipsoid changes it by less than 0.001° here. */
const CONVERGENCE =
  Math.atan(Math.tan((LNG - MERIDIAN) * RADIAN) * Math.sin(LAT * RADIAN)) / RADIAN;

const opened = (lines: Readonly<Partial<Record<TableName, readonly string[]>>>) => {
  const given = packageFrom(lines, { grid: INDIANA });
  const { grid, problem } = gridOf(given);
  return { facts: siteOf(given, grid, problem).grid, grid };
};

const { grid } = opened({});
const [E, N] = grid.fromLngLat(LNG, LAT)!;
const HEAD = 'id,easting,northing,planned_easting,planned_northing,kind,status';

describe('true north and scale', () => {
  test.each([
    ['points as they stand', { locations: [HEAD, `DP-1,${E},${N},,,direct push,pushed`] }],
    ['planned points only', { locations: [HEAD, `DP-1,,,${E},${N},direct push,planned`] }],
    [
      'a boundary only',
      {
        features: [
          'id,kind,shape',
          `F1,boundary,"POLYGON ((${E - 100} ${N - 100}, ${E + 100} ${N - 100}, ${E + 100} ${N + 100}, ${E - 100} ${N - 100}))"`,
        ],
      },
    ],
  ])('are those of the yard, with %s', (_, lines) => {
    const { facts } = opened(lines);
    expect(northOf(facts)).toBeCloseTo(CONVERGENCE, 2);
    expect(facts.convergence).toBeCloseTo(-0.3, 2);
    expect(facts.pointScale).toBeCloseTo(grid.factsAt(E, N, facts.elevation).pointScale!, 6);
    expect(facts.caution).toBeNull();
  });

  test('are of the points that stand, though others are planned far away', () => {
    const { facts } = opened({
      locations: [HEAD, `DP-1,${E},${N},,,direct push,pushed`, 'DP-2,,,0,0,direct push,planned'],
    });
    expect(facts.convergence).toBeCloseTo(CONVERGENCE, 2);
  });

  test('are not said of a site with nothing in it', () => {
    const { facts } = opened({});
    expect(northOf(facts)).toBeUndefined();
    expect([facts.convergence, facts.pointScale, facts.combinedFactor, facts.caution]).toEqual(
      Array(4).fill(null),
    );
  });
});
