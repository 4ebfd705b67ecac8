import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { metresPerPixel, widened, type Size } from '../../../src/map/camera';
import { fitClear } from '../../../src/map/fit-clear';
import { besideSite, furnitureRoom } from '../../../src/map/furniture/room';
import type { Extent, Place } from '../../../src/map/scene/scene';

const SIZE: Size = [850, 690];
const OVER = [...furnitureRoom(SIZE, 1), ...besideSite(SIZE)];

/** Places that would lie under something, seen so. */
function hidden(places: readonly Place[], window: Extent, size = SIZE, over = OVER) {
  const seen = widened(window, size);
  const scale = metresPerPixel(seen, size);
  return places.filter(([e, n]) => {
    const [x, y] = [(e - seen.west) / scale, (seen.north - n) / scale];
    return over.some((box) => x > box.left && x < box.right && y > box.top && y < box.bottom);
  });
}

const around = (places: readonly Place[]): Extent => ({
  west: Math.min(...places.map(([e]) => e)) - 10,
  east: Math.max(...places.map(([e]) => e)) + 10,
  south: Math.min(...places.map(([, n]) => n)) - 10,
  north: Math.max(...places.map(([, n]) => n)) + 10,
});

describe('a site is fitted into its window clear of what stands over the map', () => {
  test('a well in the corner of the legend comes out from under it', () => {
    // A broad site: there is room above and below, none beside.
    const wells: Place[] = [
      [0, 0],
      [600, 40],
      [300, 380],
    ];
    const extent = around(wells);
    expect(hidden(wells, extent)).toEqual([[0, 0]]);
    const fitted = fitClear(extent, wells, SIZE, OVER);
    expect(hidden(wells, fitted)).toEqual([]);
  });

  test('where nothing is hidden the view stays as it was', () => {
    const wells: Place[] = [
      [200, 200],
      [400, 220],
      [300, 260],
    ];
    const extent = { west: 0, east: 600, south: 0, north: 480 };
    const [fitted, asked] = [fitClear(extent, wells, SIZE, OVER), widened(extent, SIZE)];
    for (const side of ['west', 'south', 'east', 'north'] as const)
      expect(fitted[side]).toBeCloseTo(asked[side], 9);
  });

  test('whatever the wells, they stay in view, at no more than a quarter further off', () => {
    const place = fc.tuple(fc.integer({ min: 0, max: 900 }), fc.integer({ min: 0, max: 600 }));
    fc.assert(
      fc.property(fc.array(place, { minLength: 3, maxLength: 12 }), (wells) => {
        const extent = around(wells);
        const seen = widened(fitClear(extent, wells, SIZE, OVER), SIZE);
        const near = 1e-6;
        expect(seen.west).toBeLessThanOrEqual(extent.west + near);
        expect(seen.east).toBeGreaterThanOrEqual(extent.east - near);
        expect(seen.south).toBeLessThanOrEqual(extent.south + near);
        expect(seen.north).toBeGreaterThanOrEqual(extent.north - near);
        expect(metresPerPixel(seen, SIZE)).toBeLessThanOrEqual(
          1.25 * metresPerPixel(extent, SIZE) + near,
        );
      }),
    );
  });
});
