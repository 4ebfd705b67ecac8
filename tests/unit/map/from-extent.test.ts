import { expect, test } from 'vitest';
import { extentInSteps } from '../../../src/domain/lab/extent';
import type { ExtentPoint } from '../../../src/domain/lab/extent-points';
import { allAtOnce } from '../../../src/domain/steps';
import { metres } from '../../../src/domain/units';
import { chanceItems, extentItems, extentPlaces } from '../../../src/map/scene/from-extent';

/** A lattice of 20 m, exceeding within 35 m of the middle, and by itself in one corner. */
const points = Array.from({ length: 49 }, (_, i): ExtentPoint => {
  const [x, y] = [((i % 7) - 3) * 20, (Math.floor(i / 7) - 3) * 20];
  const exceeds = Math.hypot(x, y) < 35 || i === 48;
  return {
    id: `P${i}`,
    screen: `P${i}-S1`,
    x: metres(x),
    y: metres(y),
    exceeds,
    amount: exceeds ? 50 : 1,
    notDetected: false,
  };
});

// So rough a variogram that a point by itself is smoothed away.
const extent = allAtOnce(
  extentInSteps({
    points,
    level: 5,
    method: 'indicator kriging',
    model: { shape: 'spherical', sill: 0.2, range: metres(60), nugget: 0.2, anisotropy: null },
  }),
);
if (!extent.ok) throw new Error(extent.problem);
const placeOf = extentPlaces({ easting: 1000, northing: 2000 }, 0.5);

test('each band of the chance has a pattern of its own, so that no colour is needed', () => {
  const areas = chanceItems(extent.value, placeOf).filter((item) => item.kind === 'area');
  const patterns = areas.map(({ hatch }) => hatch?.pattern);
  expect(areas.length).toBeGreaterThanOrEqual(2);
  expect(new Set(patterns).size).toBe(areas.length);
  expect(new Set(areas.map(({ means }) => means)).size).toBe(areas.length);
});

test('the outline says that exceeding is as likely as not, and a contradicting point is crossed', () => {
  const items = extentItems(extent.value, placeOf);
  const lines = items.filter((item) => item.kind === 'line');
  expect(lines.length).toBeGreaterThan(0);
  expect(lines.every(({ means }) => means?.includes('as likely as not'))).toBe(true);
  const crossed = items.flatMap((item) => (item.kind === 'symbol' ? [item.who] : []));
  expect(crossed).toContain('P48');
  expect(crossed).toEqual(extent.value.contradictions.map(({ point: { id } }) => id));
});

test('ground metres become grid metres by the combined factor', () => {
  expect(placeOf(60, -20)).toEqual([1030, 1990]);
});
