import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ringArea } from '../../../src/domain/geometry/measure';
import {
  extentInSteps,
  FEWEST_POINTS,
  type Extent,
  type ExtentMethod,
} from '../../../src/domain/lab/extent';
import { isInBand } from '../../../src/domain/lab/extent-bands';
import { extentPointsOf, type ExtentPoint } from '../../../src/domain/lab/extent-points';
import { contradictionWords, openSentence } from '../../../src/domain/lab/extent-words';
import { allAtOnce } from '../../../src/domain/steps';
import type { VariogramModel } from '../../../src/domain/water/surface/variogram-model';
import { metres } from '../../../src/domain/units';
import { siteHeads } from '../surface/oracle';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import { openFolder } from '../folder';

const point = (id: string, x: number, y: number, exceeds: boolean, amount?: number) =>
  ({
    id,
    screen: `${id}-S1`,
    x: metres(x),
    y: metres(y),
    exceeds,
    amount: amount ?? (exceeds ? 50 : 1),
    notDetected: false,
  }) satisfies ExtentPoint;

const LEVEL = 5;

function drawn(
  points: readonly ExtentPoint[],
  method: ExtentMethod = 'indicator kriging',
  model: VariogramModel | null = null,
  level = LEVEL,
): Extent {
  const extent = allAtOnce(extentInSteps({ points, level, method, model }));
  if (!extent.ok) throw new Error(extent.problem);
  return extent.value;
}

const chanceAt = ({ grid }: Extent, column: number, row: number) =>
  grid.heads[row * grid.frame.columns + column];

// The 24 wells of siteA, half of them above 40.825, under a spherical variogram of sill 0.25
// and range 400. Computed independently: the ordinary kriging system with its Lagrange
// multiplier, dense, by numpy 2.4 (linalg.solve) and scipy 1.17 (norm.cdf); cut to 0 to 1.
describe('the chance of passing, at nodes of the grid over 24 wells', () => {
  const MEDIAN = 40.825;
  const wells = siteHeads('siteA');
  const mean = (of: (well: (typeof wells)[number]) => number) =>
    wells.reduce((sum, well) => sum + of(well) / wells.length, 0);
  const [x0, y0] = [mean(({ x }) => x), mean(({ y }) => y)];
  const points = wells.map(({ id, x, y, head }) => point(id, x - x0, y - y0, head > MEDIAN, head));
  const model: VariogramModel = {
    shape: 'spherical',
    sill: 0.25,
    range: metres(400),
    nugget: 0,
    anisotropy: null,
  };

  test.each([
    [10, 20, 1, 0.511088832723],
    [20, 40, 1, 0.512865842365],
    [33, 41, 0.873237180001, 0.493709925444],
    [40, 30, 0.440975490689, 0.478397325285],
    [55, 50, 0.164589975032, 0.487657364909],
    [60, 20, 0.027308578973, 0.4477435868],
  ])('node %i, %i: %f by indicators, %f by logarithms', (column, row, indicator, log) => {
    const byIndicator = drawn(points, 'indicator kriging', model);
    expect([byIndicator.grid.frame.columns, byIndicator.grid.frame.rows]).toEqual([81, 73]);
    expect(chanceAt(byIndicator, column, row)).toBeCloseTo(indicator, 8);
    const byLog = drawn(points, 'log kriging', model, MEDIAN);
    expect(chanceAt(byLog, column, row)).toBeCloseTo(log, 6);
  });

  test('bands fill the outline of the wells once, and nothing outside it', () => {
    const { bands, hull, outline, edges } = drawn(points, 'indicator kriging', model);
    const area = bands.flat().reduce((sum, polygon) => sum + ringArea(polygon), 0);
    expect(area / ringArea(hull)).toBeCloseTo(1, 3);
    for (const [x, y] of [...outline, ...edges].flatMap((line) => line.points)) {
      const inward = [x * (1 - 1e-9), y * (1 - 1e-9)] as const;
      expect(isInBand(hull, inward)).toBe(true);
    }
  });
});

// By symmetry alone: at the middle of a square all four corners weigh alike, a quarter each.
test('in the middle of a square, one corner of four exceeding makes the chance a quarter', () => {
  const model: VariogramModel = { shape: 'linear', slope: 0.01, nugget: 0, anisotropy: null };
  const square = [
    point('A', -40, -40, true),
    point('B', 40, -40, false),
    point('C', 40, 40, false),
    point('D', -40, 40, false),
  ];
  // Two more far along an axis of symmetry would break it, so they stand in two of the corners.
  const points = [...square, point('E', 40, -40, false), point('F', -40, 40, false)];
  const { grid } = drawn(points, 'indicator kriging', model);
  const middle = (grid.frame.rows >> 1) * grid.frame.columns + (grid.frame.columns >> 1);
  expect(grid.heads[middle]).toBeCloseTo(0.25, 10);
});

/** Points on a lattice of 20 m, exceeding within 35 m of the middle. */
const lattice = Array.from({ length: 49 }, (_, i) => {
  const [x, y] = [((i % 7) - 3) * 20, (Math.floor(i / 7) - 3) * 20];
  return point(`P${i}`, x, y, Math.hypot(x, y) < 35);
});

describe.each(['indicator kriging', 'log kriging'] as const)('by %s', (method) => {
  test('a patch amid clear points is outlined, and no point contradicts it', () => {
    const extent = drawn(lattice, method);
    expect(extent.contradictions).toEqual([]);
    const far = extent.outline.flatMap(({ points }) => points).map(([x, y]) => Math.hypot(x, y));
    expect(Math.min(...far)).toBeGreaterThan(25);
    expect(Math.max(...far)).toBeLessThan(50);
    expect(extent.toldOf).toBe(49);
    expect(extent.toldRightly).toBeGreaterThan(40);
  });

  test('what exceeds on the edge of the data is said to be open there', () => {
    expect(drawn(lattice, method).open).toEqual([]);
    const edge = lattice.map((one) =>
      one.id === 'P45' || one.id === 'P38' ? { ...one, exceeds: true, amount: 50 } : one,
    );
    const extent = drawn(edge, method);
    expect(extent.open.map(({ id }) => id)).toEqual(['P45']);
    expect(openSentence(extent)).toContain('Open at P45: it exceeds on the edge of the data');
  });

  test('one that exceeds alone among many and is smoothed away is named, not passed over', () => {
    const model: VariogramModel = {
      shape: 'linear',
      slope: 1e-5,
      nugget: 1,
      anisotropy: null,
    };
    const odd = lattice.map((one) =>
      one.id === 'P48' ? { ...one, exceeds: true, amount: 50 } : one,
    );
    const { contradictions } = drawn(odd, method, model);
    const named = contradictions.find(({ point: { id } }) => id === 'P48');
    expect(named?.kept).toBe('outside');
    expect(named && contradictionWords(named)).toBe('P48 exceeds, and the outline leaves it out.');
  });

  test('what is told of every point agrees with a plain look at the chance beside it', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 49, maxLength: 49 }), (flags) => {
        const points = lattice.map((one, i) => {
          const exceeds = flags[i] ?? false;
          return { ...one, exceeds, amount: exceeds ? 50 : 1 };
        });
        const extent = allAtOnce(extentInSteps({ points, level: LEVEL, method }));
        if (!extent.ok) return;
        const { grid, contradictions } = extent.value;
        const wrong = new Set(contradictions.map(({ point: { id } }) => id));
        for (const { id, x, y, exceeds } of points) {
          const column = Math.round((x - grid.frame.x) / grid.frame.step);
          const row = Math.round((y - grid.frame.y) / grid.frame.step);
          const chance = chanceAt(extent.value, column, row) ?? 0.5;
          // A node stands within half a mesh; where it is in two minds it settles nothing.
          if (Math.abs(chance - 0.5) > 0.3) expect(wrong.has(id)).toBe(exceeds !== chance >= 0.5);
        }
      }),
      { numRuns: 10 },
    );
  });
});

describe('no outline, with the reason', () => {
  const why = (points: readonly ExtentPoint[]) => {
    const extent = allAtOnce(extentInSteps({ points, level: LEVEL, method: 'indicator kriging' }));
    return extent.ok ? null : extent.problem;
  };
  test('too few points, none that exceeds, all that exceed, all in a line', () => {
    expect(why(lattice.slice(0, FEWEST_POINTS - 1))).toContain('needs 6');
    expect(why(lattice.filter(({ exceeds }) => !exceeds))).toContain('No point exceeds');
    expect(why(lattice.filter(({ exceeds }) => exceeds))).toContain('lies beyond the data');
    expect(why(lattice.slice(21, 28))).toContain('in a line');
  });
});

describe('the points of a site', () => {
  const { site } = openFolder('demo-sites/osier-bend');
  const SET = 'Federal drinking water (40 CFR 141.61(a))';
  const results = (analyte: string | null, zone: string | null) =>
    judgedAgainst(site, SET, { event: '2025-09', zone, analyte, fieldSamples: true });
  const [zone] = [...new Set([...site.screens.values()].map((screen) => screen.zone))];

  test('are of one analyte, zone and event, else the reason is said', () => {
    const said = (made: ReturnType<typeof extentPointsOf>) => (made.ok ? null : made.problem);
    expect(said(extentPointsOf(site, results(null, zone ?? null)))).toContain('one analyte');
    expect(said(extentPointsOf(site, results('Benzene', null)))).toContain('one zone');
    expect(said(extentPointsOf(site, []))).toContain('no field sample');
  });

  test('count once a location, and what cannot be told counts neither way', () => {
    const here = results('Vinyl chloride', zone ?? null);
    const points = extentPointsOf(site, here);
    if (!points.ok) throw new Error(points.problem);
    const unknown = new Set(points.value.unknown.map(({ id }) => id));
    for (const { location, judged } of here) {
      if (judged.outcome.verdict !== 'cannot-tell' || !location) continue;
      const exceedsToo = here.some(
        (other) =>
          other.location === location && other.judged.outcome.verdict.startsWith('exceeds'),
      );
      expect(unknown.has(location.id)).toBe(!exceedsToo);
    }
    const all = [...points.value.points.map(({ id }) => id), ...unknown];
    expect(new Set(all).size).toBe(all.length);
    expect(all.length).toBe(new Set(here.map(({ location }) => location?.id)).size);
  });
});
