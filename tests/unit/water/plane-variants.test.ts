import { describe, expect, test } from 'vitest';
import { headsOf } from '../../../src/domain/water/event-heads';
import {
  oneOfEachNest,
  planeVariants,
  withoutPushLevels,
  withPushLevels,
} from '../../../src/domain/water/plane-variants';
import { siteFrom } from '../site-from';

/**
 * Three wells on a plane falling 1 ft in 300 to the east; a fourth with a deeper
 * screen beside it; push points: one included, two waiting, one in another zone;
 * and a well left out by decision.
 */
const site = siteFrom({
  locations: [
    'id,easting,northing,ground_elevation,kind,status',
    'A,0,0,100,monitoring well,installed',
    'B,300,0,100,monitoring well,installed',
    'C,0,300,100,monitoring well,installed',
    'D,300,300,100,monitoring well,installed',
    'E,150,150,100,monitoring well,installed',
    'P1,100,200,100,direct push,pushed',
    'P2,200,100,100,direct push,pushed',
    'P3,250,200,100,direct push,pushed',
    'P4,50,50,100,direct push,pushed',
  ],
  screens: [
    'id,location,tip_depth,exposed_length,zone',
    'D-deep,D,40,10,shallow', // the deeper is listed first
    'A,A,20,10,shallow',
    'B,B,20,10,shallow',
    'C,C,20,10,shallow',
    'D,D,20,10,shallow',
    'E,E,20,10,shallow',
    'P1,P1,20,4,shallow',
    'P2,P2,20,4,shallow',
    'P3,P3,20,4,shallow',
    'P4,P4,60,4,deep',
  ],
  measuring_points: [
    'id,screen,elevation,accuracy',
    ...['A', 'B', 'C', 'D', 'E', 'D-deep', 'P1', 'P2', 'P3', 'P4'].map(
      (id) => `${id}-MP,${id},102,${id === 'D' ? 0.5 : 0.01}`,
    ),
  ],
  events: ['id,first_day,last_day', 'E1,2026-01-01,2026-01-02'],
  water_levels: [
    'screen,event,measuring_point,time,depth_to_water,status,use,why',
    'D-deep,E1,D-deep-MP,2026-01-01T09:50,9.40,static,,',
    'A,E1,A-MP,2026-01-01T10:00,8.00,static,,',
    'B,E1,B-MP,2026-01-01T10:10,9.00,static,,',
    'C,E1,C-MP,2026-01-01T10:20,8.00,static,,',
    'D,E1,D-MP,2026-01-01T10:30,9.30,static,,',
    'E,E1,E-MP,2026-01-01T10:40,7.00,static,no,sampled an hour before',
    'P1,E1,P1-MP,2026-01-01T11:00,8.20,static,yes,0.00 ft in 30 minutes',
    'P2,E1,P2-MP,2026-01-01T11:10,8.90,static,,',
    'P3,E1,P3-MP,2026-01-01T11:20,9.10,static,,',
    'P4,E1,P4-MP,2026-01-01T11:30,12.00,static,,',
  ],
});
const heads = headsOf(site, 'E1');
const counted = (from: typeof heads) =>
  from.filter(({ leftOut }) => leftOut === null).map(({ screen }) => screen.id);

test('six heads count: five of wells and the push point somebody included', () => {
  expect(counted(heads)).toEqual(['D-deep', 'A', 'B', 'C', 'D', 'P1']);
});

test('with push points, those that only waited count; a reading marked not to be used does not', () => {
  expect(counted(withPushLevels(heads))).toEqual([
    'D-deep',
    'A',
    'B',
    'C',
    'D',
    'P1',
    'P2',
    'P3',
    'P4',
  ]);
});

test('wells only: the included push point is left out as one, everything else as it was', () => {
  const without = withoutPushLevels(heads);
  expect(counted(without)).toEqual(['D-deep', 'A', 'B', 'C', 'D']);
  expect(without.map(({ screen, leftOut }) => [screen.id, leftOut])).toContainEqual([
    'P1',
    'push-point',
  ]);
  expect(without.find(({ screen }) => screen.id === 'E')?.leftOut).toBe('marked-not-used');
});

test('one screen of each nest, the shallowest, whichever was read first', () => {
  const single = oneOfEachNest(site, 'shallow', heads);
  expect(counted(single)).toEqual(['A', 'B', 'C', 'D', 'P1']);
  expect(single.find(({ screen }) => screen.id === 'D-deep')?.leftOut).toBe('excluded');
  expect(single.map(({ screen }) => screen.id)).toEqual(heads.map(({ screen }) => screen.id));
});

test('a screen that does not count takes no other’s place in its nest', () => {
  const shallowOut = heads.map((one) =>
    one.screen.id === 'D' ? { ...one, leftOut: 'recovering' as const } : one,
  );
  expect(counted(oneOfEachNest(site, 'shallow', shallowOut))).toContain('D-deep');
  // Nor does one of another zone.
  const other = heads.map((one) =>
    one.screen.id === 'D' ? { ...one, screen: { ...one.screen, zone: 'perched' } } : one,
  );
  expect(counted(oneOfEachNest(site, 'shallow', other))).toContain('D-deep');
});

test('wells that do not fit are tried left out all at once', () => {
  const [, , third] = planeVariants(site, 'E1', 'shallow', heads, ['A', 'B']);
  expect(third?.name).toBe('Without A and B, which do not fit the others');
  expect(third?.flow.fitted.map(({ gauged }) => gauged.screen.id)).not.toContain('A');
  expect(third?.flow.fitted).toHaveLength(4);
});

describe('the planes a reviewer would try first', () => {
  const variants = planeVariants(site, 'E1', 'shallow', heads);

  test('each with the heads in it; the one on the map is the first', () => {
    expect(variants.map(({ name, flow, shown }) => [name, flow.fitted.length, shown])).toEqual([
      ['Weighed by the error of each head', 6, true],
      ['All heads weighed alike', 6, false],
      ['With E, left out by decision', 7, false],
      ['With 2 push-point levels more', 8, false],
      ['One screen of each nest, the shallowest: 1 fewer', 5, false],
      ['Wells only', 5, false],
    ]);
  });

  test('weighed alike, the mark good to half a foot pulls as hard as the rest', () => {
    const [weighed, alike] = variants.map(({ flow }) => flow.plane);
    expect(weighed?.weighted).toBe(true);
    expect(alike?.weighted).toBe(false);
    const at = weighed!.ids.indexOf('D');
    expect(weighed!.weights[at]).toBeLessThan(0.01);
    expect(alike!.weights[at]).toBe(1);
  });

  test('in a zone with neither push points nor nests there are the two', () => {
    const plain = heads.filter(({ screen }) => ['A', 'B', 'C', 'P4'].includes(screen.id));
    expect(planeVariants(site, 'E1', 'shallow', plain).map(({ name }) => name)).toEqual([
      'Weighed by the error of each head',
      'All heads weighed alike',
    ]);
  });
});
