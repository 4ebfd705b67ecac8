import { expect, test } from 'vitest';
import { areaOf } from '../../../src/domain/geometry/measure';
import { featureItems } from '../../../src/map/scene/from-features';
import { stripsWithin } from '../../../src/map/scene/offset';
import { siteFrom } from '../site-from';

const SQUARE = [
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
] as const;

/** Ground of all strips: they tile, so it is the ring's less what is left within. */
const ground = (strips: ReturnType<typeof stripsWithin>) =>
  strips.reduce((sum, [ring = []]) => sum + areaOf([ring.slice(0, -1)]), 0);

test('10 m within a square of 100 m cover 100² − 80² of it, whichever way round it was drawn', () => {
  expect(ground(stripsWithin(SQUARE, 10))).toBeCloseTo(3600, 6);
  expect(ground(stripsWithin(SQUARE.toReversed(), 10))).toBeCloseTo(3600, 6);
});

test('10 m outside a hole of 100 m cover 120² − 100²', () => {
  expect(ground(stripsWithin(SQUARE, -10))).toBeCloseTo(4400, 6);
});

test('a boundary that keeps points off is hatched within, and a utility’s name is always drawn', () => {
  const site = siteFrom({
    features: [
      'id,kind,name,buffer,shape',
      'F-1,boundary,Lot line,10,"POLYGON ((0 0, 100 0, 100 100, 0 100, 0 0))"',
      'F-2,utility,Gas main,10,"LINESTRING (0 50, 100 50)"',
    ],
  });
  const items = site.features.flatMap((feature) => featureItems(feature, 'ft'));
  const means = items.flatMap((item) => ('means' in item && item.means ? [item.means] : []));
  expect(means).toContain('Kept off the boundary');
  const names = items.flatMap((item) => (item.kind === 'text' ? [[item.text, item.always]] : []));
  expect(names).toEqual([
    ['Lot line', undefined],
    ['Gas main', true],
  ]);
});
