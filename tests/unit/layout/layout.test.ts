import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { along, azimuthBetween, distanceBetween } from '../../../src/domain/geometry/compass';
import { selfCrossing } from '../../../src/domain/geometry/crossing';
import { distanceTo } from '../../../src/domain/geometry/nearest';
import type { XY } from '../../../src/domain/geometry/shape';
import { blocksAt, isClear } from '../../../src/domain/layout/blocks';
import { everySoFar, layGrid, layTransects } from '../../../src/domain/layout/grids';
import { groundPlanOf, reachOf } from '../../../src/domain/layout/ground-plan';
import {
  areaPerPoint,
  betweenRows,
  nodesAround,
  randomStart,
  repeatFor,
} from '../../../src/domain/layout/lattice';
import { seeded } from '../../../src/domain/layout/seeded';
import { nearestClear, SHIFT_MARGIN } from '../../../src/domain/layout/shift';
import { shifted, stakesAt, tally } from '../../../src/domain/layout/stakes';
import { rings, stepOuts } from '../../../src/domain/layout/step-outs';
import type { Feature } from '../../../src/domain/site/schema';
import { azimuth, metres } from '../../../src/domain/units';
import { siteFrom } from '../site-from';
import { drawn, planOf, shape } from './ground';

const site = drawn('boundary', 'Property line', 'POLYGON ((0 0, 200 0, 200 100, 0 100, 0 0))');
const gas = drawn('utility', 'Gas main', 'LINESTRING (0 50, 200 50)', 1, 5);
const shed = drawn('building', 'Shed', 'POLYGON ((20 20, 40 20, 40 40, 20 40, 20 20))');

describe('spacing for so many points on so much ground', () => {
  // √(A/n) and √(2A/(√3·n)): computed independently for 1 acre, 43,560 ft², and 16 points.
  test('one acre, 16 points: 52.178 ft square; 56.068 ft triangular, rows 48.557 ft', () => {
    expect(repeatFor('square', 43560, 16)?.spacing).toBeCloseTo(52.178, 3);
    const triangular = repeatFor('triangular', 43560, 16);
    expect(triangular?.spacing).toBeCloseTo(56.068, 3);
    expect(triangular && betweenRows(triangular)).toBeCloseTo(48.557, 3);
  });

  test('rows twice as far apart as points along them: G = √(A/2n)', () => {
    const repeat = repeatFor('rectangular', 20_000, 100, 2);
    expect(repeat).toEqual({ pattern: 'rectangular', spacing: 10, between: 20 });
  });

  // D. F. Parkhurst, 1984, ES&T 18: for one farthest distance to the nearest point a
  // triangular grid needs 23 % fewer points (abstract); exactly 0.7698 of them.
  test('a triangular grid covers as well with 23 % fewer points', () => {
    const [square, triangular] = [1 * Math.SQRT2, 1 * Math.sqrt(3)]; // spacing for reach 1
    const fewer =
      areaPerPoint({ pattern: 'square', spacing: square }) /
      areaPerPoint({ pattern: 'triangular', spacing: triangular });
    expect(fewer).toBeCloseTo(0.7698, 4);
  });

  test.each([
    [0, 10],
    [100, 0],
    [-5, 10],
    [NaN, 10],
  ])('ground %d and %d points have no spacing', (area, count) => {
    expect(repeatFor('square', area, count)).toBeNull();
  });
});

describe('a random start', () => {
  const repeat = { pattern: 'triangular', spacing: 20, rows: azimuth(30) } as const;

  test('is the same for the same seed, and another for another', () => {
    const start = (seed: number) => randomStart(repeat, [1000, 1000], seeded(seed));
    expect(start(7)).toEqual(start(7));
    expect(start(7)).not.toEqual(start(8));
  });

  test('favours no place: over 4,000 seeds each quarter of the cell has its share', () => {
    const cell = { pattern: 'square', spacing: 2, rows: azimuth(90) } as const;
    const quarters = [0, 0, 0, 0];
    for (let seed = 0; seed < 4000; seed++) {
      const [x, y] = randomStart(cell, [0, 0], seeded(seed));
      const quarter = (x < 1 ? 0 : 1) + (y < 1 ? 0 : 2);
      quarters[quarter] = (quarters[quarter] ?? 0) + 1;
    }
    // 1000 each; five standard deviations of a binomial of 4,000 at 1/4 are 137.
    for (const count of quarters) expect(Math.abs(count - 1000)).toBeLessThan(137);
  });

  test('on average as many points fall inside as the ground divided by the ground for each', () => {
    const counts = Array.from({ length: 400 }, (_, seed) => {
      const random = seeded(seed);
      const turned = { pattern: 'square', spacing: 17, rows: azimuth(360 * random()) } as const;
      const laid = layGrid(
        { ...turned, start: randomStart(turned, [100, 50], random) },
        planOf(site),
      );
      return laid.ok ? laid.value.length : NaN;
    });
    const mean = counts.reduce((sum, count) => sum + count, 0) / counts.length;
    expect(mean).toBeCloseTo(20_000 / 17 ** 2, 0);
  });
});

describe('a grid over a site with a gas main and a shed', () => {
  const lattice = { pattern: 'square', spacing: 10, rows: azimuth(90), start: [5, 5] } as const;
  const laid = layGrid(lattice, planOf(site, gas, shed));
  const stakes = laid.ok ? laid.value : [];
  const at = (x: number, y: number) =>
    stakes.find((stake) => stake.at[0] === x && stake.at[1] === y);

  test('200 nodes, 44 of them blocked and kept with their reason', () => {
    expect(stakes).toHaveLength(200);
    expect(tally(stakes)).toEqual({
      clear: 156,
      shifted: 0,
      outside: 0,
      inside: 4,
      withinBuffer: 40,
    });
  });

  test('a node in the shed says so', () => {
    expect(at(25, 35)?.blocks).toEqual([
      { kind: 'inside', of: { id: 'Shed', kind: 'building', name: 'Shed' } },
    ]);
  });

  test('a node 5 ft from the middle of the main is 4 ft from its outside edge, asked for 5', () => {
    expect(at(105, 55)?.blocks).toEqual([
      {
        kind: 'within-buffer',
        of: { id: 'Gas main', kind: 'utility', name: 'Gas main' },
        distance: 4,
        buffer: 5,
      },
    ]);
  });

  test('rows and columns count from 1 at the south-west', () => {
    expect(at(5, 5)?.counts).toEqual({ row: 1, column: 1 });
    expect(at(195, 95)?.counts).toEqual({ row: 10, column: 20 });
  });

  test('a fringe keeps nodes just outside, with how far', () => {
    const wide = layGrid(lattice, planOf(site), 6);
    const outside = (wide.ok ? wide.value : []).filter(({ blocks }) => blocks.length > 0);
    expect(outside).toHaveLength(2 * 20 + 2 * 10);
    expect(
      outside.every(({ blocks }) => JSON.stringify(blocks) === '[{"kind":"outside","distance":5}]'),
    ).toBe(true);
  });

  test('columns of a triangular grid stand above each other, like bricks', () => {
    const tri = layGrid({ ...lattice, pattern: 'triangular' }, planOf(site));
    const third = (tri.ok ? tri.value : []).filter(({ counts }) => counts.column === 3);
    const easts = third.map((stake) => stake.at[0]);
    expect(Math.max(...easts) - Math.min(...easts)).toBeCloseTo(5, 9);
  });

  test.each([
    ['nothing', 0],
    ['less than nothing', -10],
    ['no number', NaN],
  ])('a spacing of %s is refused', (_, spacing) => {
    expect(layGrid({ ...lattice, spacing }, planOf(site))).toEqual({
      ok: false,
      problem: { kind: 'no-spacing' },
    });
  });

  test('a spacing far too small is refused before it is laid', () => {
    expect(layGrid({ ...lattice, spacing: 1e-4 }, planOf(site))).toMatchObject({
      ok: false,
      problem: { kind: 'too-many', about: 2e12 },
    });
  });

  test('without a boundary there is nothing to lay it over', () => {
    expect(layGrid(lattice, planOf(gas))).toEqual({ ok: false, problem: { kind: 'no-boundary' } });
  });

  test('a long thin site at a slant gets its points though its rectangle is a thousand times larger', () => {
    const strip = drawn(
      'boundary',
      'Strip',
      'POLYGON ((0 0, 40000 40000, 39990 40010, -10 10, 0 0))',
    );
    const thin = layGrid({ ...lattice, start: [5, 8] }, planOf(strip));
    expect(thin.ok && Math.abs(thin.value.length - 8000)).toBeLessThan(100);
  });
});

describe('what blocks a place', () => {
  test.each<[string, XY, string[]]>([
    ['well clear', [100, 80], []],
    ['outside', [100, 103], ['outside']],
    ['on the boundary', [100, 100], ['on-boundary']],
    ['in the shed', [30, 30], ['inside']],
    ['on the edge of the shed', [40, 30], ['inside']],
    ['on the main', [100, 50.5], ['inside']],
    ['on its outside edge', [100, 51], ['inside']],
    ['short of its buffer', [100, 55.9], ['within-buffer']],
    ['exactly as far as its buffer asks', [100, 56], []],
    ['outside and near the main', [-3, 50], ['outside', 'within-buffer']],
  ])('%s', (_, at, kinds) => {
    const plan = planOf(site, gas, shed);
    expect(blocksAt(at, plan).map(({ kind }) => kind)).toEqual(kinds);
    expect(isClear(at, plan)).toBe(kinds.length === 0);
  });

  test('a boundary with a set-back keeps points off its inside', () => {
    const plan = planOf({ ...site, buffer: 10 });
    expect(blocksAt([100, 95], plan)).toMatchObject([
      { kind: 'within-buffer', distance: 5, buffer: 10 },
    ]);
    expect(blocksAt([100, 90], plan)).toEqual([]);
  });

  test('with two boundaries, inside either is inside', () => {
    const yard = drawn('boundary', 'Yard', 'POLYGON ((200 0, 300 0, 300 100, 200 100, 200 0))');
    const plan = planOf(site, yard);
    expect(blocksAt([250, 50], plan)).toEqual([]);
    expect(blocksAt([310, 50], plan)).toEqual([{ kind: 'outside', distance: 10 }]);
  });

  test('a utility without a buffer still blocks its own width', () => {
    const sewer = drawn('utility', 'Sewer', 'LINESTRING (0 0, 100 0)', 2);
    expect(blocksAt([50, 2], planOf(sewer))).toMatchObject([{ kind: 'inside' }]);
    expect(blocksAt([50, 2.1], planOf(sewer))).toEqual([]);
  });
});

describe('the plan from the features of a site', () => {
  const feature = (kind: Feature['kind'], text: string, more: Partial<Feature> = {}): Feature => ({
    row: 2,
    id: kind,
    kind,
    name: null,
    shape: text,
    carries: null,
    width: null,
    buffer: null,
    note: null,
    ...more,
  });
  const feet = (n: number) => ({ value: metres(n, 'ft'), text: `${n}`, unit: 'ft' as const });

  test('widths are halved and lengths put into the grid’s unit', () => {
    const { plan, problems } = groundPlanOf(
      [
        feature('utility', 'LINESTRING (0 0, 9 9)', {
          carries: 'gas',
          width: feet(2),
          buffer: feet(5),
        }),
        feature('boundary', 'POLYGON ((0 0, 9 0, 9 9, 0 0))'),
        feature('section line', 'LINESTRING (0 0, 9 9)'),
      ],
      'us-ft',
    );
    expect(problems).toEqual([]);
    expect(plan.boundaries).toHaveLength(1);
    expect(plan.obstacles).toMatchObject([{ name: 'gas', kind: 'utility' }]);
    const [main] = plan.obstacles;
    expect(main?.halfWidth).toBeCloseTo(1 - 2e-6, 8); // a survey foot is 2 ppm longer
    expect(main?.buffer).toBeCloseTo(5 - 1e-5, 8);
  });

  test('what cannot be read is not silently left out', () => {
    const { plan, problems } = groundPlanOf(
      [feature('utility', 'LINESTRING (0 0'), feature('boundary', 'LINESTRING (0 0, 1 1)')],
      'm',
    );
    expect(plan.obstacles).toEqual([]);
    expect(problems).toMatchObject([
      { id: 'utility', problem: { kind: 'expected', at: 16 } },
      { id: 'boundary', problem: { kind: 'boundary-is-no-area' } },
    ]);
  });
});

test.each(['osier-bend', 'quellmoor'])(
  'everything drawn on the %s demo site can be read',
  (name) => {
    const lines = readFileSync(
      new URL(`../../../demo-sites/${name}/features.csv`, import.meta.url),
      'utf8',
    );
    const { features } = siteFrom({ features: lines.trimEnd().split('\n') });
    const { plan, problems } = groundPlanOf(features, 'us-ft');
    expect(problems).toEqual([]);
    expect(plan.boundaries).toHaveLength(1);
    expect(plan.obstacles.length).toBeGreaterThan(2);
    for (const { shape: drawnShape } of [...plan.boundaries, ...plan.obstacles])
      expect(selfCrossing(drawnShape)).toBeNull();
    const laid = layGrid(
      { ...repeatFor('triangular', 50_000, 40)!, rows: azimuth(90), start: [0, 0] },
      plan,
    );
    expect(laid.ok).toBe(true);
  },
);

describe('a blocked stake is shifted to the nearest clear place', () => {
  test('off the gas main: straight across, 6 ft from its middle and a hundredth more', () => {
    const [stake] = stakesAt([{ at: [100, 52], counts: {} }], planOf(site, gas));
    const moved = stake && shifted(stake, planOf(site, gas), 10);
    expect(moved).toMatchObject({
      ok: true,
      value: { blocks: [], shift: { from: [100, 52], azimuth: 0 } },
    });
    expect(moved?.ok && moved.value.at[1]).toBeCloseTo(56 + SHIFT_MARGIN, 9);
    expect(moved?.ok && moved.value.shift?.distance).toBeCloseTo(4 + SHIFT_MARGIN, 9);
  });

  test('into a corner, where two buffers meet', () => {
    const water = drawn('utility', 'Water', 'LINESTRING (100 0, 100 200)', 0, 10);
    const power = drawn('utility', 'Power', 'LINESTRING (0 100, 200 100)', 0, 10);
    const found = nearestClear([101, 102], planOf(water, power), 20);
    expect(found.ok && found.value.to[0]).toBeCloseTo(110 + SHIFT_MARGIN, 9);
    expect(found.ok && found.value.to[1]).toBeCloseTo(110 + SHIFT_MARGIN, 9);
  });

  test('in from outside the boundary', () => {
    const found = nearestClear([100, 103], planOf(site), 5);
    expect(found).toMatchObject({ ok: true, value: { azimuth: 180 } });
    expect(found.ok && found.value.to[1]).toBeCloseTo(100 - SHIFT_MARGIN, 9);
  });

  test('from the very middle of a round buffer', () => {
    const found = nearestClear([0, 0], planOf(drawn('exclusion', 'Tank', 'POINT (0 0)', 0, 8)), 20);
    expect(found.ok && found.value.distance).toBeCloseTo(8 + SHIFT_MARGIN, 9);
  });

  test('a margin for the error of staking is kept beyond the buffer', () => {
    const plan = planOf(drawn('utility', 'Gas', 'LINESTRING (0 0, 200 0)', 0, 5));
    const found = nearestClear([100, 3], plan, 20, 0.5);
    expect(found.ok && found.value.to[1]).toBeCloseTo(5.5 + SHIFT_MARGIN, 9);
  });

  test('where none is near enough it says how far it looked', () => {
    expect(nearestClear([100, 50], planOf(site, gas), 5)).toEqual({
      ok: false,
      problem: { kind: 'no-clear-place', limit: 5 },
    });
    expect(nearestClear([100, 50], planOf(site, gas), 0).ok).toBe(false);
  });

  test('a clear stake stays, and a second shift counts from the first place', () => {
    const plan = planOf(site, gas);
    const [clear] = stakesAt([{ at: [10, 80], counts: {} }], plan);
    expect(clear && shifted(clear, plan, 10)).toEqual({ ok: true, value: clear });
    const [blocked] = stakesAt([{ at: [100, 52], counts: {} }], plan);
    const once = blocked && shifted(blocked, plan, 10);
    const again =
      once?.ok && shifted({ ...once.value, blocks: [{ kind: 'on-boundary' }] }, plan, 10);
    expect(again).toMatchObject({ ok: true, value: { shift: { from: [100, 52] } } });
  });

  const coordinate = fc.integer({ min: 0, max: 60 });
  const line = fc
    .tuple(coordinate, coordinate, coordinate, coordinate, fc.integer({ min: 0, max: 9 }))
    .map(([a, b, c, d, buffer]) =>
      drawn(
        'utility',
        'line',
        {
          kind: 'lines',
          lines: [
            [
              [a, b],
              [c, d],
            ],
          ],
        },
        1,
        buffer,
      ),
    );
  const yard = drawn('boundary', 'yard', 'POLYGON ((0 0, 60 0, 60 60, 30 25, 0 60, 0 0))');
  const limit = 25;

  test('among any lines: it is clear, and no place looked at on a fine mesh is clear and nearer', () => {
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 5 }),
        coordinate,
        coordinate,
        (lines, x, y) => {
          const plan = planOf(yard, ...lines);
          const from: XY = [x + 0.25, y + 0.125];
          fc.pre(!isClear(from, plan));
          const found = nearestClear(from, plan, limit);
          const reach = found.ok ? found.value.distance : limit;
          if (found.ok) {
            expect(isClear(found.value.to, plan)).toBe(true);
            const rounded = found.value.to.map((n) => Math.round(n * 100) / 100) as unknown as XY;
            expect(isClear(rounded, plan)).toBe(true);
            expect(azimuthBetween(from, found.value.to)).toBeCloseTo(found.value.azimuth, 9);
          }
          for (let angle = 0; angle < 360; angle += 7.5)
            for (let r = 0.5; r < reach - 0.02; r += 0.5) {
              const [east, north] = along(azimuth(angle));
              expect(isClear([from[0] + r * east, from[1] + r * north], plan, SHIFT_MARGIN)).toBe(
                false,
              );
            }
        },
      ),
      { numRuns: 150 },
    );
  });

  test('blocked is the same as nearer than its reach, whatever is drawn', () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 5 }), coordinate, coordinate, (lines, x, y) => {
        const at: XY = [x + 0.3, y + 0.7];
        const near = lines.filter((one) => (distanceTo(one.shape, at) ?? Infinity) < reachOf(one));
        expect(blocksAt(at, planOf(...lines))).toHaveLength(near.length);
      }),
    );
  });
});

describe('transects square to the flow', () => {
  const plan = planOf(site, shed);
  const laid = layTransects(
    {
      flow: azimuth(90),
      through: [50, 50],
      downgradient: [0, 40],
      every: 20,
      staggered: false,
    },
    plan,
  );
  const { stakes, lines } = laid.ok ? laid.value : { stakes: [], lines: [] };

  test('flow to the east: transects run north to south, 40 apart, left to right down the flow', () => {
    expect(stakes.map(({ at }) => at)).toEqual([
      [50, 90],
      [50, 70],
      [50, 50],
      [50, 30],
      [50, 10],
      [90, 90],
      [90, 70],
      [90, 50],
      [90, 30],
      [90, 10],
    ]);
    expect(stakes.at(-1)?.counts).toEqual({ transect: 2, station: 5 });
  });

  test('each is drawn as far as the boundary', () => {
    expect(lines.map(({ parts }) => parts)).toEqual([
      [
        [
          [50, 100],
          [50, 0],
        ],
      ],
      [
        [
          [90, 100],
          [90, 0],
        ],
      ],
    ]);
  });

  test('staggered, the second looks through the gaps of the first', () => {
    const over = layTransects(
      { flow: azimuth(90), through: [50, 50], downgradient: [0, 40], every: 20, staggered: true },
      plan,
    );
    const norths = (over.ok ? over.value.stakes : [])
      .filter(({ counts, blocks }) => counts.transect === 2 && blocks.length === 0)
      .map(({ at }) => at[1]);
    expect(norths).toEqual([80, 60, 40, 20]);
  });

  test('every so far, they cover the site up and down the flow', () => {
    expect(everySoFar({ flow: azimuth(90), through: [50, 50] }, 40, plan)).toEqual([
      -40, 0, 40, 80, 120,
    ]);
    expect(everySoFar({ flow: azimuth(270), through: [50, 50] }, 60, plan)).toEqual([-120, -60, 0]);
    expect(everySoFar({ flow: azimuth(90), through: [0, 0] }, 0, plan)).toEqual([]);
  });

  test.each([0, -3, NaN])('stations every %d are refused', (every) => {
    const refused = layTransects(
      { flow: azimuth(90), through: [0, 0], downgradient: [0], every, staggered: false },
      plan,
    );
    expect(refused).toEqual({ ok: false, problem: { kind: 'no-spacing' } });
  });

  test('whatever the flow, each transect is square to it and the next is down the flow', () => {
    const angle = fc.integer({ min: 0, max: 359 });
    const yard = drawn('boundary', 'yard', 'POLYGON ((-90 -90, 90 -90, 90 90, -90 90, -90 -90))');
    fc.assert(
      fc.property(angle, (flow) => {
        const turned = layTransects(
          {
            flow: azimuth(flow),
            through: [0, 0],
            downgradient: [0, 30],
            every: 10,
            staggered: false,
          },
          planOf(yard),
        );
        const all = turned.ok ? turned.value.stakes : [];
        const [east, north] = along(azimuth(flow));
        for (const { at, counts } of all)
          expect(at[0] * east + at[1] * north).toBeCloseTo(counts.transect === 1 ? 0 : 30, 9);
        const [first, second] = all;
        expect(first && second && azimuthBetween(first.at, second.at)).toBeCloseTo(
          (flow + 90) % 360,
          6,
        );
      }),
    );
  });
});

describe('step-outs', () => {
  test('a ring of four from north, then one turned half a step', () => {
    const places = rings([0, 0], [10, 20], 4, azimuth(0), true);
    expect(places.slice(0, 4).map(({ at }) => at.map((n) => n + 0))).toEqual([
      [0, 10],
      [10, 0],
      [0, -10],
      [-10, 0],
    ]);
    expect(azimuthBetween([0, 0], places[4]?.at ?? [0, 0])).toBeCloseTo(45, 9);
    expect(places[4]?.counts).toEqual({ ring: 2, spoke: 1 });
  });

  test('along and across a flow to the south', () => {
    const places = stepOuts([100, 100], azimuth(180), {
      downgradient: [10, 25],
      upgradient: [10],
      across: [15],
    });
    expect(places.map(({ at }) => at)).toEqual([
      [100, 90],
      [100, 75],
      [100, 110],
      [85, 100],
      [115, 100],
    ]);
  });

  test('no points on a ring is no ring', () => {
    expect(rings([0, 0], [10], 0, azimuth(0))).toEqual([]);
  });
});

describe('size', () => {
  test('3,000 nodes and 500 utilities are laid, clipped and cleared', () => {
    const random = seeded(1);
    const at = (): XY => [1000 * random(), 1000 * random()];
    const utilities = Array.from({ length: 500 }, (_, i) => {
      const [x, y] = at();
      const bends = Array.from({ length: 8 }, (_, k): XY => [
        x + 30 * k * random(),
        y + 30 * k * random(),
      ]);
      return drawn('utility', `U-${i}`, { kind: 'lines', lines: [bends] }, 0.5, 3);
    });
    const ring = Array.from({ length: 200 }, (_, i): XY => {
      const [east, north] = along(azimuth(i * 1.8));
      return [500 + (480 + 30 * random()) * east, 500 + (480 + 30 * random()) * north];
    });
    const boundary = drawn('boundary', 'Site', { kind: 'areas', areas: [[ring]] });
    const repeat = { pattern: 'triangular', spacing: 17.2, rows: azimuth(71) } as const;

    const laid = layGrid({ ...repeat, start: [3, 4] }, planOf(boundary, ...utilities), 8);
    expect(laid.ok && laid.value.length).toBeGreaterThan(3000);
    expect(laid.ok && tally(laid.value).withinBuffer).toBeGreaterThan(300);
  });

  test('nodes are never more than was allowed', () => {
    const square = shape('POLYGON ((0 0, 100 0, 100 100, 0 100, 0 0))');
    const lattice = { pattern: 'square', spacing: 1, rows: azimuth(90), start: [0, 0] } as const;
    expect(nodesAround(lattice, square, 0, 20_000)).toHaveLength(101 * 101);
    expect(nodesAround(lattice, square, 0, 10_000)).toBeNull();
    expect(distanceBetween([0, 0], [3, 4])).toBe(5);
  });
});
