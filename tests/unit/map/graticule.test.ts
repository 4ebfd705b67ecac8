import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inUnits, type LengthUnit, type Metres } from '../../../src/domain/units';
import { trueNorthWords } from '../../../src/map/furniture/north';
import {
  graticule,
  graticuleLines,
  grouped,
  reachOf,
  roundDown,
} from '../../../src/map/scene/graticule';
import { scaleBar } from '../../../src/map/scene/scale-bar';

const units = fc.constantFrom<LengthUnit>('m', 'ft', 'us-ft');
const window = fc
  .tuple(
    fc.double({ min: -1e6, max: 1e6, noNaN: true }),
    fc.double({ min: -1e6, max: 6e6, noNaN: true }),
    fc.double({ min: 1, max: 60_000, noNaN: true }),
  )
  .map(([west, south, side]) => ({ west, south, east: west + side, north: south + side }));

describe('the graticule', () => {
  test('a site of 1,000 US survey feet has lines at every 200 of its own feet', () => {
    const foot = 1200 / 3937;
    const extent = {
      west: 488_480 * foot,
      south: 1_821_540 * foot,
      east: 489_535 * foot,
      north: 1_822_470 * foot,
    };
    const { eastings, northings, interval } = graticule(extent, 'us-ft', 150 * foot);
    expect(interval).toBe(200);
    expect(eastings.map(({ label }) => label)).toEqual([
      '488,600', '488,800', '489,000', '489,200', '489,400',
    ]); // prettier-ignore
    expect(northings[0]?.label).toBe('1,821,600');
    expect(eastings[0]?.at).toBeCloseTo(488_600 * foot, 9);
  });

  test('lines stand at the coordinate they name, at least as far apart as asked and not over two and a half times', () => {
    fc.assert(
      fc.property(
        window,
        units,
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        (extent, unit, share) => {
          const apart = share * (extent.east - extent.west);
          const { eastings, northings, interval } = graticule(extent, unit, apart);
          const metresApart = interval * inUnits(1 as Metres, unit) ** -1;
          expect(metresApart).toBeGreaterThanOrEqual(apart * (1 - 1e-9));
          expect(metresApart).toBeLessThanOrEqual(apart * 2.5 * (1 + 1e-9));
          for (const { at, label } of [...eastings, ...northings]) {
            const named = Number(label.replaceAll(',', '').replace('−', '-'));
            expect(Math.abs(inUnits(at, unit) - named)).toBeLessThan(1e-3 * interval);
          }
        },
      ),
    );
  });

  test('a drag within what was drawn draws nothing anew', () => {
    const extent = { west: 100, south: 100, east: 300, north: 260 };
    const moved = { west: 103, south: 98, east: 303, north: 258 };
    expect(reachOf(moved, 'm', 25)).toEqual(reachOf(extent, 'm', 25));
  });

  test('what is drawn covers the window and as much again', () => {
    const extent = { west: 1003, south: 2007, east: 1203, north: 2107 };
    const lines = graticuleLines(reachOf(extent, 'm', 20), 'm');
    const easts = lines.flatMap(({ path }) => path.map(([e]) => e));
    expect(Math.min(...easts)).toBeLessThan(1003 - 200);
    expect(Math.max(...easts)).toBeGreaterThan(1203 + 200);
  });
});

test.each([
  [1, 1], [1.9, 1], [2, 2], [4.99, 2], [5, 5], [9.9, 5], [10, 10], [0.2, 0.2], [0.07, 0.05], [730, 500],
])('the round number not above %d is %d', (value, round) => {
  expect(roundDown(value)).toBeCloseTo(round, 12);
}); // prettier-ignore

test.each([
  [1_822_400, 0, '1,822,400'],
  [999, 0, '999'],
  [0, 0, '0'],
  [-1500.25, 1, '−1,500.3'],
  [-0.01, 1, '0.0'],
  [5_862_000.4, 1, '5,862,000.4'],
])('%d to %d decimals reads %s', (value, decimals, text) => {
  expect(grouped(value, decimals)).toBe(text);
});

describe('the scale bar', () => {
  test('at 0.25 m to a px it is 20 m long in 80 px, with 10 at its middle', () => {
    expect(scaleBar(0.25, 'm', 180)).toEqual({
      length: 80,
      marks: [
        { at: 0, label: '0' },
        { at: 40, label: '10' },
        { at: 80, label: '20 m' },
      ],
    });
  });

  test('its px are as many metres as it says, in any unit', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 100, noNaN: true }), units, (scale, unit) => {
        const { length, marks } = scaleBar(scale, unit, 180);
        expect(length).toBeLessThanOrEqual(180 * (1 + 1e-9));
        expect(length).toBeGreaterThan(180 / 2.51);
        const said = Number(marks.at(-1)?.label.split(' ')[0]?.replaceAll(',', ''));
        expect(inUnits((length * scale) as Metres, unit) / said).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe('north in words', () => {
  // true azimuth = grid azimuth + convergence, so with a positive convergence
  // true north (0) is at grid azimuth −convergence: to the west of up.
  test.each([
    [0.37248, 'True north is 0.37° west of it'],
    [-1.24, 'True north is 1.24° east of it'],
    [0, 'True north is the same'],
    [0.004, 'True north is the same'],
  ])('with a convergence of %d°: %s', (convergence, said) => {
    expect(trueNorthWords(convergence)).toMatchObject({ up: 'Grid north', beside: said });
  });

  test('a site with no place yet says nothing of true north', () => {
    expect(trueNorthWords(undefined)).toEqual({ up: 'Grid north', beside: '', lines: [] });
  });

  test('a grid tied to nothing says that true north is not known', () => {
    expect(trueNorthWords(null)).toMatchObject({
      up: 'Site north',
      beside: 'True north is not known',
    });
  });
});
