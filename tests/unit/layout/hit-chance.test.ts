import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chanceAsLaid, COULD_HIDE, hidingPlaces, HIT } from '../../../src/domain/layout/as-laid';
import {
  hitChance,
  largestMissed,
  spacingForChance,
  type Target,
} from '../../../src/domain/layout/hit-chance';
import { nodesAround, type Pattern, type Repeat } from '../../../src/domain/layout/lattice';
import { seeded } from '../../../src/domain/layout/seeded';
import { azimuth } from '../../../src/domain/units';
import { shape as drawing } from './ground';

const fixture = (name: string) =>
  readFileSync(new URL(`../../fixtures/oracles/${name}`, import.meta.url), 'utf8');

const EAST = azimuth(90);

const repeatOf = (pattern: Pattern, spacing = 1, ratio = 2): Repeat =>
  pattern === 'rectangular' ? { pattern, spacing, between: ratio * spacing } : { pattern, spacing };

const circle = (radius: number): Target => ({ radius, shape: 1, lies: null });

/** The oracle turns the long axis counter-clockwise from the rows; rows east, so clockwise from east is less. */
const ellipse = (radius: number, shape: number, turned: number | null): Target => ({
  radius,
  shape,
  lies: turned === null ? null : azimuth(90 - turned),
});

/** "rect1.5": rows 1.5 spacings apart. */
const gridNamed = (name: string): Repeat =>
  name.startsWith('rect')
    ? repeatOf('rectangular', 1, Number(name.slice(4)))
    : repeatOf(name as 'square' | 'triangular');

describe('every row of the reference table, made with scipy and checked by shapely and by trial', () => {
  const rows = fixture('h_hotspot.csv')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .slice(1)
    .map((line) => line.split(','));

  test('there are 1536', () => {
    expect(rows).toHaveLength(1536);
  });

  const groups = [...new Set(rows.map(([grid, shape, , turned]) => `${grid},${shape},${turned}`))];
  test.each(groups)('grid, shape, turned: %s', (group) => {
    for (const [grid = '', shape, radius, turned, chance] of rows) {
      if (`${grid},${shape},${turned}` !== group) continue;
      const any = turned === 'random';
      const target = ellipse(Number(radius), Number(shape), any ? null : Number(turned));
      const found = hitChance(gridNamed(grid), EAST, target) ?? NaN;
      expect(Math.abs(found - Number(chance)), `radius ${radius}`).toBeLessThan(any ? 1e-4 : 1e-6);
    }
  });
});

describe('the reference checks: polygon bounds, trial, and spacing for a wanted chance', () => {
  type Check = {
    grid: string;
    S: number;
    L_over_G: number;
    theta: number | 'random';
    shapely_lower?: number;
    shapely_upper?: number;
    mc: number;
    mc_se: number;
  };
  const { checks, spacing } = JSON.parse(fixture('h_hotspot_checks.json')) as {
    checks: Check[];
    spacing: { grid: string; S: number; L: number; P: number; G: number }[];
  };
  const found = ({ grid, S, L_over_G, theta }: Check) =>
    hitChance(gridNamed(grid), EAST, ellipse(L_over_G, S, theta === 'random' ? null : theta)) ??
    NaN;

  test('forty chances lie between the bounds of inscribed and circumscribed polygons', () => {
    const bounded = checks.filter(({ shapely_lower }) => shapely_lower !== undefined);
    expect(bounded).toHaveLength(40);
    for (const check of bounded) {
      expect(found(check)).toBeGreaterThanOrEqual((check.shapely_lower ?? NaN) - 1e-9);
      expect(found(check)).toBeLessThanOrEqual((check.shapely_upper ?? NaN) + 1e-9);
    }
  });

  test('sixty chances agree with 200,000 trials each, within four standard errors', () => {
    expect(checks).toHaveLength(60);
    for (const check of checks)
      expect(Math.abs(found(check) - check.mc)).toBeLessThanOrEqual(4 * check.mc_se + 1e-9);
  });

  test.each(spacing.map((c) => [c.grid, c.S, c.L, c.P, c.G] as const))(
    '%s, shape %d, radius %d, chance %d: spacing %d',
    (grid, S, L, P, G) => {
      const { pattern, ...rest } = gridNamed(grid);
      const ratio = 'between' in rest ? rest.between : 1;
      const found = spacingForChance(pattern, EAST, ellipse(L, S, null), P, ratio);
      expect(found?.spacing).toBeCloseTo(G, S === 1 ? 8 : 2);
    },
  );
});

describe('the chance of hitting a circle, by table', () => {
  // Computed independently and confirmed by a simulation of 400,000 trials.
  test.each([
    [0.1, 0.0314, 0.0363, 0.0157],
    [0.25, 0.1963, 0.2267, 0.0982],
    [0.4, 0.5027, 0.5804, 0.2513],
    [0.5, 0.7854, 0.9069, 0.3927],
    [0.56, 0.9036, 0.9963, 0.4722],
    [0.6, 0.9509, 1, 0.5205],
    [0.7, 0.9998, 1, 0.6348],
  ])('radius %d of the spacing: square %d, triangular %d, rectangular 1:2 %d', (r, ...chances) => {
    (['square', 'triangular', 'rectangular'] as const).forEach((pattern, i) =>
      expect(hitChance(repeatOf(pattern), EAST, circle(r))).toBeCloseTo(chances[i] ?? NaN, 4),
    );
  });

  test.each([
    [0.05, 0.5991, 0.5176, 0.9937],
    [0.1, 0.5575, 0.4981, 0.9461],
    [0.2, 0.5053, 0.4696, 0.8518],
    [0.3, 0.472, 0.4393, 0.7592],
    [0.4, 0.437, 0.4067, 0.669],
    [0.5, 0.3989, 0.3713, 0.5828],
  ])('a risk of %d of missing: radius over spacing %d, %d, %d', (risk, ...ratios) => {
    (['square', 'triangular', 'rectangular'] as const).forEach((pattern, i) => {
      const spacing = spacingForChance(pattern, EAST, circle(1), 1 - risk, 2)?.spacing ?? NaN;
      expect(1 / spacing).toBeCloseTo(ratios[i] ?? NaN, 4);
    });
  });

  // R. O. Gilbert, 1987, Statistical methods for environmental pollution monitoring, ch. 10:
  // square grid, risk 0.10, circle of 100 cm: L/G = 0.56 off Fig. 10.3, so about 180 cm.
  // Value from memory, re-derived; exactly 179.4 cm.
  test('Gilbert’s example: about 180 cm, exactly 179.4', () => {
    const spacing = spacingForChance('square', EAST, circle(100), 0.9)?.spacing ?? NaN;
    expect(spacing).toBeCloseTo(179.4, 1);
    expect(Math.abs(spacing - 180)).toBeLessThan(1);
  });

  // The closed forms for circles, written here as the books have them.
  test('square: πr² to ½, then less four overlaps, 1 from √½', () => {
    const closed = (r: number) =>
      r <= 0.5
        ? Math.PI * r * r
        : r >= Math.SQRT1_2
          ? 1
          : Math.PI * r * r - 4 * (r * r * Math.acos(1 / (2 * r)) - 0.5 * Math.sqrt(r * r - 0.25));
    for (let r = 0.01; r < 0.8; r += 0.01)
      expect(hitChance(repeatOf('square'), EAST, circle(r))).toBeCloseTo(closed(r), 12);
  });

  test('triangular: πr² over √3/2 to ½, then less six overlaps, 1 from 1/√3', () => {
    const cell = Math.sqrt(3) / 2;
    const closed = (r: number) =>
      r <= 0.5
        ? (Math.PI * r * r) / cell
        : r >= 1 / Math.sqrt(3)
          ? 1
          : (Math.PI * r * r -
              6 * (r * r * Math.acos(1 / (2 * r)) - 0.5 * Math.sqrt(r * r - 0.25))) /
            cell;
    for (let r = 0.01; r < 0.7; r += 0.01)
      expect(hitChance(repeatOf('triangular'), EAST, circle(r))).toBeCloseTo(closed(r), 12);
  });

  test('rectangular 1:3: πr²/k to ½, then [2r²·asin(1/2r) + √(r² − ¼)]/k to k/2', () => {
    const closed = (r: number) =>
      r <= 0.5
        ? (Math.PI * r * r) / 3
        : (2 * r * r * Math.asin(1 / (2 * r)) + Math.sqrt(r * r - 0.25)) / 3;
    for (let r = 0.01; r < 1.5; r += 0.01)
      expect(hitChance(repeatOf('rectangular', 1, 3), EAST, circle(r))).toBeCloseTo(closed(r), 12);
  });
});

describe('for any grid and target', () => {
  const pattern = fc.constantFrom<Pattern>('square', 'triangular', 'rectangular');
  const radius = fc.double({ min: 0.05, max: 3, noNaN: true });
  const flat = fc.double({ min: 0.05, max: 1, noNaN: true });
  const angle = fc.integer({ min: 0, max: 359 });

  test('turning grid and target together changes nothing', () => {
    fc.assert(
      fc.property(pattern, radius, flat, angle, angle, (kind, r, shape, lies, turn) => {
        const before = hitChance(repeatOf(kind), EAST, { radius: r, shape, lies: azimuth(lies) });
        const after = hitChance(repeatOf(kind), azimuth(90 + turn), {
          radius: r,
          shape,
          lies: azimuth(lies + turn),
        });
        expect(after).toBeCloseTo(before ?? NaN, 9);
      }),
    );
  });

  test('a larger or rounder target is never hit less, and a chance is a chance', () => {
    fc.assert(
      fc.property(pattern, radius, flat, angle, (kind, r, shape, lies) => {
        const at = (radius: number, s: number) =>
          hitChance(repeatOf(kind), EAST, { radius, shape: s, lies: azimuth(lies) }) ?? NaN;
        expect(at(r, shape)).toBeGreaterThan(0);
        expect(at(r, shape)).toBeLessThanOrEqual(1);
        expect(at(r * 1.1, shape)).toBeGreaterThanOrEqual(at(r, shape) - 1e-12);
        expect(at(r, Math.min(1, shape * 1.1))).toBeGreaterThanOrEqual(at(r, shape) - 1e-12);
      }),
    );
  });

  test('small targets do not meet: the chance is their ground over the ground for each point', () => {
    fc.assert(
      fc.property(
        pattern,
        fc.double({ min: 0.01, max: 0.49, noNaN: true }),
        flat,
        angle,
        (kind, r, shape, lies) => {
          const cell = { square: 1, triangular: Math.sqrt(3) / 2, rectangular: 2 }[kind];
          const found = hitChance(repeatOf(kind), EAST, { radius: r, shape, lies: azimuth(lies) });
          expect(found).toBeCloseTo((Math.PI * r * r * shape) / cell, 10);
        },
      ),
    );
  });

  test('the spacing for a chance gives that chance', () => {
    const chance = fc.double({ min: 0.05, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(pattern, flat, angle, chance, (kind, shape, lies, wanted) => {
        const target = { radius: 10, shape, lies: azimuth(lies) };
        const repeat = spacingForChance(kind, EAST, target, wanted, 2);
        expect(repeat && hitChance(repeat, EAST, target)).toBeCloseTo(wanted, 8);
      }),
      { numRuns: 60 },
    );
  });
});

describe('no answer', () => {
  test.each([
    ['no spacing', repeatOf('square', 0), circle(1)],
    ['no radius', repeatOf('square'), circle(0)],
    ['a shape above 1', repeatOf('square'), ellipse(1, 1.5, 0)],
    ['no shape', repeatOf('square'), ellipse(1, 0, 0)],
    ['no number', repeatOf('square'), circle(NaN)],
    ['no number for a lie', repeatOf('square'), ellipse(1, 0.5, NaN)],
  ])('%s', (_, repeat, target) => {
    expect(hitChance(repeat, EAST, target)).toBeNull();
  });

  test.each([0, -0.1, 1.01, NaN])('a wanted chance of %d', (chance) => {
    expect(spacingForChance('square', EAST, circle(1), chance)).toBeNull();
  });

  test('a target of no size has no spacing', () => {
    expect(spacingForChance('square', EAST, circle(0), 0.9)).toBeNull();
  });
});

test('the largest circle a grid can miss: √½ of a square spacing, 1/√3 of a triangular', () => {
  expect(largestMissed(repeatOf('square', 20), EAST, circle(1))).toBeCloseTo(20 * Math.SQRT1_2, 6);
  expect(largestMissed(repeatOf('triangular', 20), EAST, circle(1))).toBeCloseTo(
    20 / Math.sqrt(3),
    6,
  );
  expect(largestMissed(repeatOf('rectangular', 3, 4 / 3), EAST, circle(1))).toBeCloseTo(2.5, 6);
});

describe('the layout as it is, by trial', () => {
  const yard = drawing('POLYGON ((0 0, 400 0, 400 400, 0 400, 0 0))');
  const lattice = { pattern: 'triangular', spacing: 40, rows: azimuth(75), start: [7, 3] } as const;
  // Points go on past the boundary, as the exact chance takes for granted.
  const points = (nodesAround(lattice, yard, 100, 10_000) ?? []).map(({ at }) => at);

  test.each([
    ['a circle', { radius: 18, shape: 1, lies: null }],
    ['an ellipse along the flow', { radius: 30, shape: 0.4, lies: azimuth(110) }],
    ['an ellipse lying any way', { radius: 30, shape: 0.4, lies: null }],
  ])('%s: within four standard errors of the exact chance', (_, target) => {
    const tried = chanceAsLaid(points, yard, target, 20_000, seeded(11));
    const exact = hitChance(lattice, lattice.rows, target) ?? NaN;
    expect(tried?.trials).toBe(20_000);
    expect(Math.abs((tried?.chance ?? NaN) - exact)).toBeLessThan(4 * (tried?.standardError ?? 0));
    expect(tried?.standardError).toBeCloseTo(Math.sqrt((exact * (1 - exact)) / 20_000), 3);
  });

  test('the same seed tries the same places', () => {
    const once = () => chanceAsLaid(points, yard, circle(15), 500, seeded(3));
    expect(once()).toEqual(once());
  });

  test('with no points nothing is hit, and the error is not nothing', () => {
    const tried = chanceAsLaid([], yard, circle(15), 1000, seeded(3));
    expect(tried?.chance).toBe(0);
    expect(tried?.standardError).toBeGreaterThan(0.001);
  });

  test('without ground there is no chance to speak of', () => {
    expect(chanceAsLaid(points, { kind: 'areas', areas: [] }, circle(9), 10, seeded(1))).toBeNull();
    expect(chanceAsLaid(points, yard, circle(9), 0, seeded(1))).toBeNull();
    // Drawn twice round: by counting crossings it has no inside.
    const twice = drawing('POLYGON ((0 0, 9 0, 9 9, 0 9, 0 0, 9 0, 9 9, 0 9, 0 0))');
    expect(chanceAsLaid(points, twice, circle(9), 10, seeded(1))).toBeNull();
  });
});

describe('a picture of where a target could hide', () => {
  const yard = drawing('POLYGON ((0 0, 100 0, 100 100, 0 100, 0 0))');

  test('around one point in a yard of 100 by 100, all but a circle of 30', () => {
    const picture = hidingPlaces([[50, 50]], yard, circle(30), 400);
    expect(picture?.columns).toBe(400);
    expect(picture?.share).toBeCloseTo(1 - (Math.PI * 900) / 10_000, 3);
    const at = (x: number, y: number) =>
      picture?.squares[
        Math.floor(y / picture.side) * picture.columns + Math.floor(x / picture.side)
      ];
    expect(at(50, 50)).toBe(HIT);
    expect(at(50, 79)).toBe(HIT);
    expect(at(50, 81)).toBe(COULD_HIDE);
    expect(at(1, 1)).toBe(COULD_HIDE);
  });

  test('a streak lying north hides beside a point, not up the way from it', () => {
    const picture = hidingPlaces(
      [[50, 50]],
      yard,
      { radius: 30, shape: 0.2, lies: azimuth(0) },
      100,
    );
    const at = (x: number, y: number) => picture?.squares[y * picture.columns + x];
    expect(at(50, 75)).toBe(HIT);
    expect(at(60, 50)).toBe(COULD_HIDE);
  });

  test('its share is the miss of the same layout by trial', () => {
    const points = (
      nodesAround({ pattern: 'square', spacing: 25, rows: EAST, start: [3, 8] }, yard, 0, 1000) ??
      []
    ).map(({ at }) => at);
    const target = { radius: 14, shape: 0.6, lies: azimuth(40) };
    const tried = chanceAsLaid(points, yard, target, 40_000, seeded(5));
    const picture = hidingPlaces(points, yard, target, 500);
    expect(Math.abs(1 - (tried?.chance ?? NaN) - (picture?.share ?? NaN))).toBeLessThan(
      4 * (tried?.standardError ?? 0) + 0.001,
    );
  });

  test('a grid close enough leaves nowhere to hide', () => {
    const points = (
      nodesAround({ pattern: 'square', spacing: 10, rows: EAST, start: [5, 5] }, yard, 20, 1000) ??
      []
    ).map(({ at }) => at);
    expect(hidingPlaces(points, yard, circle(7.1), 300)?.share).toBe(0);
    expect(hidingPlaces(points, yard, circle(6.5), 300)?.share).toBeGreaterThan(0);
  });

  test('no ground, no picture', () => {
    expect(hidingPlaces([], { kind: 'lines', lines: [] }, circle(1))).toBeNull();
  });
});
