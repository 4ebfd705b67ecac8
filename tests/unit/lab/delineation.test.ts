import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  delineate,
  isOpen,
  type Reach,
  type ScreenVerdict,
  type Way,
} from '../../../src/domain/lab/delineation';
import { VERDICTS, type Verdict } from '../../../src/domain/lab/verdict';

const REACH: Reach = { within: 30, below: 6, combinedFactor: 1 };
const toward =
  (azimuth: number): (() => Way) =>
  () => ({ azimuth, reason: null });

const at = (
  location: string,
  easting: number,
  northing: number,
  verdict: Verdict,
  more: Partial<ScreenVerdict> = {},
): ScreenVerdict => ({
  location,
  screen: `${location}-S1`,
  easting,
  northing,
  depth: 5,
  zone: 'shallow',
  verdict,
  ...more,
});

/** The answers for one point by side. */
function sidesOf(screens: readonly ScreenVerdict[], azimuth = 90, reach = REACH) {
  const { answers } = delineate(screens, toward(azimuth), reach);
  return Object.fromEntries(
    answers.filter(({ location }) => location === 'DP-1').map((one) => [one.side, one]),
  );
}

const hot = at('DP-1', 0, 0, 'exceeds');

// Worked by hand: flow to the east, so north is to its left and south to its right.
describe('a point that exceeds, with water going east', () => {
  test('alone is open on every side and below, and each has its next push', () => {
    const sides = sidesOf([hot]);
    expect(Object.keys(sides)).toHaveLength(5);
    for (const side of Object.values(sides)) expect(side.status).toBe('nothing there');
    expect(sides['down-gradient']?.next?.easting).toBeCloseTo(15, 9);
    expect(sides['down-gradient']?.next?.northing).toBeCloseTo(0, 9);
    expect(sides['side-gradient, left']?.next?.northing).toBeCloseTo(15, 9);
    expect(sides['side-gradient, right']?.next?.northing).toBeCloseTo(-15, 9);
    expect(sides.below?.next?.depth).toBeCloseTo(8, 9);
  });

  test('is delineated toward the points that do not exceed', () => {
    const sides = sidesOf([
      hot,
      at('DP-2', 20, 3, 'does-not-exceed'),
      at('DP-3', 2, 25, 'not-detected'),
      at('DP-4', -5, -29, 'does-not-exceed'),
    ]);
    expect(sides['down-gradient']).toMatchObject({
      status: 'delineated',
      by: { location: 'DP-2' },
    });
    expect(sides['side-gradient, left']?.status).toBe('delineated');
    expect(sides['side-gradient, right']?.status).toBe('delineated');
    expect(sides['up-gradient']?.status).toBe('nothing there');
  });

  test('stays open where the limit exceeds the level: no push, the same point again', () => {
    const side = sidesOf([hot, at('DP-2', 20, 0, 'cannot-tell')])['down-gradient'];
    expect(side).toMatchObject({ status: 'limit exceeds level', next: null });
    expect(isOpen(side!)).toBe(true);
  });

  test('is delineated beyond a point that cannot tell by one that does not exceed', () => {
    const sides = sidesOf([
      hot,
      at('DP-2', 10, 0, 'cannot-tell'),
      at('DP-3', 25, 0, 'does-not-exceed'),
    ]);
    expect(sides['down-gradient']).toMatchObject({
      status: 'delineated',
      by: { location: 'DP-3' },
    });
  });

  test('goes on to the next that exceeds, which answers for the side', () => {
    const { answers } = delineate([hot, at('DP-2', 20, 0, 'exceeds-estimated')], toward(90), REACH);
    const down = answers.filter(({ side }) => side === 'down-gradient');
    expect(down.map(({ location, status }) => [location, status])).toEqual([
      ['DP-1', 'goes on'],
      ['DP-2', 'nothing there'],
    ]);
  });

  test('is not closed by a point too far away, in another zone, or without a usable result', () => {
    const down = (other: ScreenVerdict) => sidesOf([hot, other])['down-gradient']?.status;
    expect(down(at('DP-2', 30.1, 0, 'does-not-exceed'))).toBe('nothing there');
    expect(down(at('DP-2', 10, 0, 'does-not-exceed', { zone: 'deep' }))).toBe('nothing there');
    expect(down(at('DP-2', 10, 0, 'rejected'))).toBe('no usable result');
    expect(down(at('DP-2', 10, 0, 'no-level'))).toBe('no usable result');
  });

  test('is delineated below by a deeper screen of the same place, not by a shallower one', () => {
    const deeper = at('DP-1', 0, 0, 'not-detected', { screen: 'DP-1-S2', depth: 9, zone: 'deep' });
    expect(sidesOf([hot, deeper]).below).toMatchObject({ status: 'delineated', distance: 4 });
    expect(sidesOf([hot, { ...deeper, depth: 3 }]).below?.status).toBe('nothing there');
    expect(sidesOf([hot, { ...deeper, depth: 12 }]).below?.status).toBe('nothing there');
    expect(sidesOf([{ ...hot, depth: null }, deeper]).below?.status).toBe('depth not known');
  });

  test('distances are on the ground, not in the grid', () => {
    const point = at('DP-2', 30.1, 0, 'does-not-exceed');
    const reach = { ...REACH, combinedFactor: 1.01 };
    expect(sidesOf([hot, point], 90, reach)['down-gradient']?.status).toBe('delineated');
  });
});

test('where the direction is not resolved the sides are those of the compass, and it is said', () => {
  const { answers, unresolved } = delineate(
    [hot],
    () => ({ azimuth: null, reason: 'The gradient is within its error.' }),
    REACH,
  );
  expect(answers.map(({ side }) => side)).toEqual(['north', 'west', 'south', 'east', 'below']);
  expect(answers[1]?.next?.easting).toBeCloseTo(-15, 9);
  expect(answers[3]?.next?.easting).toBeCloseTo(15, 9);
  expect(unresolved).toBe('The gradient is within its error.');
});

const anyScreen = fc.record({
  location: fc.constantFrom('DP-1', 'DP-2', 'DP-3', 'DP-4', 'DP-5'),
  verdict: fc.constantFrom(...VERDICTS),
  depth: fc.integer({ min: 1, max: 12 }),
});
const PLACES: Readonly<Record<string, readonly [number, number]>> = {
  'DP-1': [0, 0],
  'DP-2': [12, 5],
  'DP-3': [-9, 14],
  'DP-4': [3, -21],
  'DP-5': [40, 2],
};

test('whatever the verdicts, turning the site and the flow together changes no answer', () => {
  fc.assert(
    fc.property(
      fc.array(anyScreen, { maxLength: 12 }),
      fc.integer({ min: 1, max: 359 }),
      (some, by) => {
        const turn = (by * Math.PI) / 180;
        const screens = (angle: number) =>
          some.map(({ location, verdict, depth }, i) => {
            const [x, y] = PLACES[location] ?? [0, 0];
            const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
            return at(location, x * cos + y * sin, y * cos - x * sin, verdict, {
              depth,
              screen: `${i}`,
            });
          });
        const said = (angle: number) =>
          delineate(screens(angle), toward(77 + (angle * 180) / Math.PI), REACH).answers.map(
            ({ location, side, status }) => [location, side, status],
          );
        expect(said(turn)).toEqual(said(0));
      },
    ),
    { numRuns: 150 },
  );
});

test('nothing is said to be delineated by a point that cannot tell', () => {
  fc.assert(
    fc.property(fc.array(anyScreen, { maxLength: 12 }), (some) => {
      const screens = some.map(({ location, verdict, depth }, i) =>
        at(location, ...(PLACES[location] ?? [0, 0]), verdict, { depth, screen: `${i}` }),
      );
      for (const { status, by } of delineate(screens, toward(10), REACH).answers)
        if (status === 'delineated')
          expect(['does-not-exceed', 'not-detected']).toContain(by?.verdict);
    }),
    { numRuns: 150 },
  );
});
