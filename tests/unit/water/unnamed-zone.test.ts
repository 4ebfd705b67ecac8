import { describe, expect, test } from 'vitest';
import { acceptedInterval, contactCrossed } from '../../../src/domain/water/contact';
import { headsOf } from '../../../src/domain/water/event-heads';
import {
  crossingIn,
  depthsApart,
  ofOneZone,
  withoutZone,
  zonesAreNamed,
} from '../../../src/domain/water/unnamed-zone';
import { siteFrom } from '../site-from';

/** Screens as `id,tip depth,exposed length,zone` on ground of 100 ft, each gauged; strata and decisions as given. */
const siteOf = (
  screens: readonly string[],
  more: {
    readonly strata?: readonly string[];
    readonly decisions?: readonly string[];
    readonly ground?: string;
  } = {},
) => {
  const parts = screens.map((line) => line.split(','));
  return siteFrom({
    locations: [
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      ...parts.map(
        ([id], i) =>
          `${id},${i * 100},${i * i * 40},${more.ground ?? '100,surveyed'},monitoring well,installed`,
      ),
    ],
    screens: [
      'id,location,tip_depth,exposed_length,zone',
      ...parts.map(([id, tip, length, zone = '']) => `${id},${id},${tip},${length},${zone}`),
    ],
    measuring_points: ['id,screen,elevation', ...parts.map(([id]) => `${id}-mp,${id},102`)],
    events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-02'],
    water_levels: [
      'screen,event,measuring_point,time,depth_to_water,status',
      ...parts.map(([id], i) => `${id},E1,${id}-mp,2026-04-01T0${i}:00,8.${i}0,static`),
    ],
    strata: ['location,top,bottom,class', ...(more.strata ?? [])],
    decisions: ['what,on,reason,who,when', ...(more.decisions ?? [])],
  });
};
const leftOut = (...of: Parameters<typeof siteOf>) =>
  headsOf(siteOf(...of), 'E1').map(({ leftOut: why }) => why);

describe('an interval that opens two kinds of ground to each other', () => {
  /** A screen from 20 to 30 ft under the layers given. */
  const crossed = (...strata: string[]) => {
    const site = siteOf(['A,30,10'], { strata: strata.map((line) => `A,${line}`) });
    const found = contactCrossed(site.screens.get('A')!, site.locations.get('A')!, site.strata);
    return found && [found.upper.class, found.lower.class];
  };

  test('sand over clay is a contact crossed, and clay over sand, silt, till, peat or rock', () => {
    expect(crossed('0,25,sand', '25,60,clay')).toEqual(['sand', 'clay']);
    for (const holds of ['clay', 'silt', 'till', 'peat', 'rock'])
      expect(crossed(`0,25,${holds}`, '25,60,gravel')).toEqual([holds, 'gravel']);
  });

  test('two layers of one kind are none: sand over gravel, silt over clay', () => {
    expect(crossed('0,25,sand', '25,60,gravel')).toBeNull();
    expect(crossed('0,25,silt', '25,60,clay')).toBeNull();
    expect(crossed('0,60,sand')).toBeNull();
    expect(crossed()).toBeNull();
  });

  test('the first and the last of three are named', () => {
    expect(crossed('0,23,sand', '23,26,clay', '26,60,gravel')).toEqual(['sand', 'gravel']);
  });

  test('a layer with less than a tenth of the screen makes no crossing (a judgement, no source)', () => {
    expect(crossed('0,29.1,sand', '29.1,60,clay')).toBeNull();
    expect(crossed('0,28.9,sand', '28.9,60,clay')).toEqual(['sand', 'clay']);
    expect(crossed('0,20.9,clay', '20.9,60,sand')).toBeNull();
    expect(crossed('0,21.1,clay', '21.1,60,sand')).toEqual(['clay', 'sand']);
    // Layers above and below the screen are not met at all.
    expect(crossed('0,18,clay', '18,32,sand', '32,60,clay')).toBeNull();
  });

  test('a screen whose depths are not known crosses nothing that can be told', () => {
    const site = siteOf(['A,,10'], { strata: ['A,0,25,sand', 'A,25,60,clay'] });
    expect(
      contactCrossed(site.screens.get('A')!, site.locations.get('A')!, site.strata),
    ).toBeNull();
  });

  test('somebody’s decision to take an interval as it is', () => {
    const site = siteOf(['A,30,10', 'B,30,10'], {
      strata: ['A,0,25,sand', 'A,25,60,clay', 'B,0,25,sand', 'B,25,60,clay'],
      decisions: [
        'accept interval,A,the clay is a lens,RK,2026-04-03',
        'exclude,B @ E1,tape wet,RK,2026-04-03',
      ],
    });
    expect(acceptedInterval(site, 'A')).toMatchObject({ reason: 'the clay is a lens' });
    expect(acceptedInterval(site, 'B')).toBeNull();
    const crosses = crossingIn(site);
    expect([...site.screens.values()].map(crosses)).toEqual([false, true]);
  });
});

describe('a site where nobody has named a zone', () => {
  const THREE = ['A,25,10', 'B,26,10', 'C,27,10'];

  test('screens that lie among each other count together', () => {
    expect(leftOut(THREE)).toEqual([null, null, null]);
    expect(zonesAreNamed(siteOf(THREE))).toBe(false);
  });

  test('one that crosses a contact does not; one that was not logged does', () => {
    const strata = ['A,0,20,sand', 'A,20,60,clay', 'B,0,60,sand'];
    expect(leftOut(THREE, { strata })).toEqual(['no-zone', null, null]);
    const site = siteOf(THREE, { strata });
    expect([...site.screens.values()].map(ofOneZone(site))).toEqual([false, true, true]);
    expect(withoutZone(site, headsOf(site, 'E1')).map(({ id }) => id)).toEqual(['B', 'C']);
  });

  test('a single zone named anywhere, and none is taken for granted', () => {
    const named = ['A,25,10', 'B,26,10', 'C,27,10,shallow'];
    expect(leftOut(named)).toEqual(['no-zone', 'no-zone', null]);
    const site = siteOf(named);
    expect(zonesAreNamed(site)).toBe(true);
    expect(withoutZone(site, headsOf(site, 'E1')).map(({ id }) => id)).toEqual(['A', 'B']);
    expect(withoutZone(site, headsOf(site, 'E1').slice(2))).toEqual([]);
  });

  test('each screen once, though it was read twice', () => {
    const site = siteOf(['A,25,10']);
    const twice = [...headsOf(site, 'E1'), ...headsOf(site, 'E1')];
    expect(withoutZone(site, twice).map(({ id }) => id)).toEqual(['A']);
  });
});

describe('screens at depths apart', () => {
  const parted = (...screens: string[]) => {
    const apart = depthsApart(headsOf(siteOf(screens), 'E1'));
    return apart && [apart.above, apart.below].map((of) => of.map(({ screen }) => screen.id));
  };

  test('a gap longer than the longest of the screens parts them', () => {
    // Intervals 15–25 and 16–26 ft, and 40–50: 14 ft lie between, the screens are 10 long.
    expect(parted('A,25,10', 'B,26,10', 'C,50,10')).toEqual([['A', 'B'], ['C']]);
    expect(parted('C,50,10', 'B,26,10', 'A,25,10')).toEqual([['A', 'B'], ['C']]);
    expect(leftOut(['A,25,10', 'B,26,10', 'C,50,10'])).toEqual([
      'depths-apart',
      'depths-apart',
      'depths-apart',
    ]);
  });

  test('a gap no longer than the longest screen does not', () => {
    expect(parted('A,25,10', 'B,26,10', 'C,46,10')).toBeNull(); // 10 ft between
    expect(parted('A,25,10', 'B,26,10', 'C,46.5,10')).not.toBeNull();
    expect(parted('A,25,15', 'B,26,10', 'C,50,10')).toBeNull(); // 14 ft, and a screen of 15
    expect(leftOut(['A,25,10', 'B,26,10', 'C,46,10'])).toEqual([null, null, null]);
  });

  test('of two such gaps the wider parts them', () => {
    expect(parted('A,20,5', 'B,35,5', 'C,60,5')).toEqual([['A', 'B'], ['C']]);
    expect(parted('A,20,5', 'B,45,5', 'C,60,5')).toEqual([['A'], ['B', 'C']]);
  });

  test('a long screen reaches across what would be a gap', () => {
    expect(parted('A,20,5', 'L,52,40', 'C,60,5')).toBeNull();
  });

  test('those whose elevations are not known are in neither group', () => {
    const site = siteOf(['A,25,10', 'B,,10', 'C,50,10']);
    const apart = depthsApart(headsOf(site, 'E1'));
    expect([apart?.above, apart?.below].map((of) => of?.map(({ screen }) => screen.id))).toEqual([
      ['A'],
      ['C'],
    ]);
    expect(depthsApart([])).toBeNull();
    const unknown = siteOf(['A,25,10', 'C,50,10'], { ground: ',none' });
    expect(depthsApart(headsOf(unknown, 'E1'))).toBeNull();
  });

  test('where zones are named their screens count whatever their depths', () => {
    expect(leftOut(['A,25,10,one', 'B,26,10,one', 'C,50,10,one'])).toEqual([null, null, null]);
  });

  test('a reading that does not count parts nobody', () => {
    const decisions = ['exclude,C @ E1,tape wet,RK,2026-04-03'];
    expect(leftOut(['A,25,10', 'B,26,10', 'C,50,10'], { decisions })).toEqual([
      null,
      null,
      'excluded',
    ]);
  });
});
