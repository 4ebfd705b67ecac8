import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { contoursParted, outside } from '../../../src/map/scene/contour-labels';
import type { Item, LineItem, Place, TextItem } from '../../../src/map/scene/scene';
import { wordsPlaced } from '../../../src/map/scene/svg';

const contour = (path: Place[]): LineItem => ({
  kind: 'line',
  layer: 'contours',
  path,
  weight: 2,
  colour: 'water',
});
const level = (at: Place): TextItem => ({
  kind: 'text',
  layer: 'captions',
  at,
  text: '58.80',
  sides: ['centre'],
  away: 0,
  size: 14,
  face: 'semibold',
  colour: 'water',
  priority: 2,
});
const lengthOf = (path: readonly Place[]) =>
  path.slice(1).reduce((sum, [x, y], i) => {
    const [x0, y0] = path[i] ?? [x, y];
    return sum + Math.hypot(x - x0, y - y0);
  }, 0);

describe('a line outside a circle', () => {
  test('is the line less the chord, in order', () => {
    expect(outside([[0, 0], [100, 0]], [50, 0], 10)).toEqual([[[0, 0], [40, 0]], [[60, 0], [100, 0]]]); // prettier-ignore
  });

  test('bends where it bent', () => {
    const parts = outside([[0, 0], [50, 0], [50, 50]], [50, 0], 5); // prettier-ignore
    expect(parts).toEqual([[[0, 0], [45, 0]], [[50, 5], [50, 50]]]); // prettier-ignore
  });

  test('never comes into it, and loses no more than a piece may have in it', () => {
    const place = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }));
    fc.assert(
      fc.property(fc.array(place, { minLength: 2, maxLength: 6 }), (path) => {
        const parts = outside(path, [0, 0], 10);
        for (const [x, y] of parts.flat())
          expect(Math.hypot(x, y)).toBeGreaterThanOrEqual(10 - 1e-6);
        const kept = parts.reduce((sum, part) => sum + lengthOf(part), 0);
        expect(kept).toBeLessThanOrEqual(lengthOf(path) + 1e-6);
        // A chord of this circle is 20 long at the most.
        expect(kept).toBeGreaterThanOrEqual(lengthOf(path) - 20 * (path.length - 1) - 1e-6);
      }),
    );
  });
});

describe('a contour and its level', () => {
  const room = { extent: { west: 0, south: 0, east: 200, north: 100 }, width: 200, height: 100 };
  const laid = (scene: readonly Item[]) => contoursParted(scene, wordsPlaced(scene, room, 1), 1);

  test('the contour leaves room for the words, and is whole elsewhere', () => {
    const scene = laid([contour([[0, 50], [200, 50]]), level([100, 50])]); // prettier-ignore
    const lines = scene.filter((item) => item.kind === 'line');
    expect(lines).toHaveLength(2);
    const [left] = lines;
    // "58.80" is four digits of 0.513 and a point of 0.275 sizes wide: 32.6 px, and 4 to each side.
    expect(left?.kind === 'line' && left.path[1]?.[0]).toBeCloseTo(100 - (14 * 2.327) / 2 - 4, 1);
  });

  test('another contour near by is not parted', () => {
    const other = contour([[0, 60], [200, 60]]); // prettier-ignore
    expect(laid([other, contour([[0, 50], [200, 50]]), level([100, 50])])).toContain(other); // prettier-ignore
  });

  test('a level that finds no room is left off, and its contour stays whole', () => {
    const well: Item = { kind: 'symbol', layer: 'points', at: [100, 50], shape: 'monitoring well, installed', size: 18, colour: 'ink' }; // prettier-ignore
    const line = contour([[0, 50], [200, 50]]); // prettier-ignore
    expect(laid([well, line, level([100, 50])])).toEqual([well, line]);
  });
});
