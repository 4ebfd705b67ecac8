import { describe, expect, test } from 'vitest';
import { flowAt, headsAt } from '../../../src/domain/findings/history';
import { zonesOf } from '../../../src/domain/water/flow';
import { but, found, GOOD, siteOfWells } from './a-site';

/** The wells of `GOOD` with no zone in the tables; some of them said to be in one. */
const unnamed = (
  zoned: Readonly<Record<string, string>> = {},
  tips: Readonly<Record<string, string>> = {},
) => ({
  screens: [
    'id,location,tip_depth,tool_offset,exposed_length,zone,set_time',
    ...GOOD.map(
      ({ id }) => `${id},${id},${tips[id] ?? '20.3'},0.3,5.0,${zoned[id] ?? ''},2025-08-01T10:00`,
    ),
  ],
});

/** Sand over clay at 18 ft: the screens, 15 to 20 ft, cross the contact. */
const clayAt = (...locations: string[]) => ({
  strata: [
    'location,top,bottom,class,description',
    ...locations.flatMap((id) => [`${id},0,18,sand,`, `${id},18,40,clay,`]),
  ],
});

const noZone = (all: ReturnType<typeof found>) =>
  all.filter(({ rule }) => rule === 'no zone named');
const leftOut = (site: ReturnType<typeof siteOfWells>) =>
  headsAt(site, 'E1').flatMap((one) => (one.leftOut ? [`${one.screen.id} ${one.leftOut}`] : []));

describe('no zone is named anywhere', () => {
  test('the plane is that of the one zone they would be in, and it is said', () => {
    const named = siteOfWells(GOOD);
    const site = siteOfWells(GOOD, unnamed());
    expect(zonesOf(headsAt(site, 'E1'))).toEqual([null]);
    const flow = flowAt(site, 'E1', null);
    expect(flow.fitted).toHaveLength(8);
    expect(flow.azimuthGrid?.value).toBe(flowAt(named, 'E1', 'sand').azimuthGrid?.value);
    expect(flow.findings[0]).toContain('No screen of the site has a zone: the 8 heads');
    const [caution] = noZone(found(site));
    expect(caution).toMatchObject({ severity: 'caution' });
    expect(caution?.todo).toContain('Screens, column zone');
    expect(noZone(found(named))).toEqual([]);
  });

  test('a screen that crosses a contact stays out, unless its interval was accepted', () => {
    const crossing = { ...unnamed(), ...clayAt('W-3') };
    expect(leftOut(siteOfWells(GOOD, crossing))).toEqual(['W-3 no-zone']);
    const accepted = siteOfWells(GOOD, {
      ...crossing,
      decisions: [
        'what,on,reason,who,when',
        'accept interval,W-3,The clay is a lens,R.O.,2025-09-02T10:00',
      ],
    });
    expect(leftOut(accepted)).toEqual([]);
  });

  test('screens at depths apart make no plane together, and both groups are named', () => {
    const site = siteOfWells(GOOD, unnamed({}, { 'W-7': '45.3', 'W-8': '46.3' }));
    expect(leftOut(site)).toHaveLength(8);
    const { plane, reason } = flowAt(site, 'E1', null);
    expect(plane).toBeNull();
    expect(reason).toContain('depths apart');
    const [said] = noZone(found(site));
    expect(said?.says).toContain('W-7 and W-8 below');
  });

  test('a gap shorter than the intervals, as between shallow water-table screens on a slope, parts nothing', () => {
    const site = siteOfWells(GOOD, unnamed({}, { 'W-7': '29.3', 'W-8': '30.3' }));
    expect(leftOut(site)).toEqual([]);
  });

  test('where one screen has a zone, those without are out of every plane and it is said where to give it', () => {
    const site = siteOfWells(GOOD, unnamed({ 'W-1': 'sand' }));
    expect(leftOut(site)).toHaveLength(7);
    const unusable = found(site).filter(({ rule }) => rule === 'level not usable');
    expect(unusable[0]?.todo).toContain('Give its screen the zone');
  });

  test('temporary push points are still left out until somebody includes them', () => {
    const wells = but('W-8', { kind: 'direct push' });
    const site = siteOfWells(wells, { screens: unnamed().screens });
    expect(leftOut(site)).toEqual(['W-8 push-point']);
  });
});
