import { describe, expect, test } from 'vitest';
import { ASKED_AT_FIRST, askedResults } from '../../../src/domain/lab/asked-results';
import { resultBoxes } from '../../../src/map/scene/from-results';
import { siteFrom } from '../site-from';
import { found, ofRule } from './a-site';

/** A push point sampled, and a second sample joined to it by a blank after its name. */
const twice = (
  time: string,
  kind = 'field sample',
  analyte = '79-01-6,Trichloroethylene',
  depths = ',',
) =>
  siteFrom({
    events: ['id,title,first_day,last_day', 'E1,Round,2025-10-15,2025-10-15'],
    locations: [
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      'GP-05,1000,2000,101.2,surveyed,direct push,decommissioned',
    ],
    screens: ['id,location,tip_depth,exposed_length', 'GP-05,GP-05,20.0,4.0'],
    samples: [
      'id,screen,event,time,kind,matrix,top_depth,base_depth',
      'L-05,GP-05,E1,2025-10-15T11:40,field sample,groundwater,,',
      `L-11,GP-05,E1,${time},${kind},groundwater,${depths}`,
    ],
    results: [
      'sample,cas,analyte,value,unit,detected',
      'L-05,79-01-6,Trichloroethylene,9.23,µg/L,yes',
      `L-11,${analyte},3.03,µg/L,yes`,
    ],
    screening_levels: [
      'set,cas,analyte,value,unit,source,date_read',
      'State,79-01-6,Trichloroethylene,5,µg/L,Code,2026-01-05',
    ],
  });
const doubts = (site: ReturnType<typeof twice>) => ofRule(found(site), 'sampled twice at once');

describe('two field samples of one screen from one visit', () => {
  test('with results of one analyte are doubtful, and both numbers are said', () => {
    const [doubt] = doubts(twice('2025-10-15T11:40'));
    expect(doubt).toMatchObject({ severity: 'caution', who: ['GP-05'] });
    expect(doubt?.says).toContain('9.23 µg/L and Trichloroethylene 3.03 µg/L');
    expect(doubt?.says).toContain('both at 2025-10-15 11:40');
  });

  test.each([
    ['an hour and more apart', twice('2025-10-15T12:40')],
    ['one a duplicate', twice('2025-10-15T11:40', 'field duplicate')],
    ['bottles of other analyses', twice('2025-10-15T11:40', 'field sample', '7439-92-1,Lead')],
    ['of another depth', twice('2025-10-15T11:40', 'field sample', undefined, '18.0,20.0')],
  ])('are not where they are %s', (_, site) => {
    expect(doubts(site)).toEqual([]);
  });

  test('stand in a box of results under the name of each', () => {
    const site = twice('2025-10-15T11:40');
    const [box] = resultBoxes(site, askedResults(site, 'State', 'E1', ASKED_AT_FIRST));
    expect(box?.lines.map(({ text }) => text)).toEqual([
      'GP-05, L-05',
      'Trichloroethylene 9.23 µg/L',
      'GP-05, L-11',
      'Trichloroethylene 3.03 µg/L',
    ]);
  });
});
