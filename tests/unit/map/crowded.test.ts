import { expect, test } from 'vitest';
import { roomFrom } from '../../../src/map/screen/crowded';

const names = (count: number, apart: number) => ({
  type: 'FeatureCollection' as const,
  features: Array.from({ length: count }, (_, i) => ({
    type: 'Feature' as const,
    properties: { part: 'words' as const, who: null },
    geometry: {
      type: 'Point' as const,
      coordinates: [-96 + (i % 70) * apart, 43 + Math.floor(i / 70) * apart],
    },
  })),
});

test('a few hundred names are placed at every zoom', () => {
  expect(roomFrom(names(400, 1e-6))).toBe(0);
});

test('thousands are placed from where they have room: twice as far apart, one zoom sooner', () => {
  const near = roomFrom(names(4900, 0.0002));
  expect(near).toBeGreaterThan(14);
  expect(near).toBeLessThan(22);
  expect(near - roomFrom(names(4900, 0.0004))).toBeCloseTo(1, 1);
});

test('two points mistyped a country away do not bring all names out sooner', () => {
  const site = names(4900, 0.0002);
  const [first] = site.features;
  if (!first) throw new Error('no points');
  const astray = { ...first, geometry: { type: 'Point' as const, coordinates: [10, 50] } };
  expect(roomFrom({ ...site, features: [...site.features, astray, astray] })).toBeCloseTo(
    roomFrom(site),
    1,
  );
});
