/** What is recorded in the field, as edits to the tables and as sentences said at once. */
import { describe, expect, test } from 'vitest';
import { intervalEdit, previewOf, remarksOn } from '../../../src/domain/record/as-pushed';
import { fieldPoints, nextPoint, progressOf } from '../../../src/domain/record/field-points';
import { gapAt, gapsOf, gapWords } from '../../../src/domain/record/gaps';
import { closeEdit, fillRemark, holeEdit, notClosed } from '../../../src/domain/record/holes';
import {
  dropEdit,
  moveEdit,
  notDroppable,
  placeFrom,
  standsAt,
  takeUpEdit,
} from '../../../src/domain/record/on-the-spot';
import { clearingWords, purgedSoFar, purgeOf } from '../../../src/domain/record/purge';
import { custodyRows, dueOf, sampleName, samplesOf } from '../../../src/domain/record/sampling';
import { asWritten, typedProblem } from '../../../src/domain/record/typed';
import { readingsOf, waterEdit } from '../../../src/domain/record/water-readings';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { readSite } from '../../../src/domain/site/site';
import { cellText } from '../../../src/domain/site/table';
import { clearedOn } from '../../../src/domain/layout/cleared';
import { QUALITY_RATES } from '../../../src/domain/layout/sample-counts';
import { USUAL_STATIC_RULE } from '../../../src/domain/survey/static-level';
import { litres, metres } from '../../../src/domain/units';
import { flatGrid, packageFrom, settingsIn } from '../site-from';

const planned = () =>
  packageFrom({
    locations: [
      'id,kind,status,planned_easting,planned_northing',
      'P-1,direct push,planned,100.00,200.00',
      'P-2,direct push,planned,120.00,200.00',
      'MW-1,monitoring well,installed,,',
    ],
    screens: [
      'id,location,planned_tip_depth,planned_exposed_length,zone',
      'P-1-S1,P-1,14.00,4.00,shallow',
    ],
    strata: ['location,top,bottom,description,class', 'P-1,0,11,Sand,sand', 'P-1,11,20,Clay,clay'],
  });

const siteOf = (site: DataPackage) => readSite(site, flatGrid());

const done = (site: DataPackage, edit: Edit) => {
  const made = apply(site, edit);
  if (!made.ok) throw new Error(made.problem);
  return made.value;
};

const pointOf = (site: DataPackage, name: string) => {
  const found = fieldPoints(siteOf(site)).find(({ location }) => location.id === name);
  if (!found) throw new Error(`no ${name}`);
  return found;
};

const REACHED = { suffix: '', offset: '', depth: '14.05', outcome: 'reached', day: '2026-06-01' };
const SET = {
  tip_depth: '14.05',
  tool_offset: '0.15',
  retraction: '4.0',
  screen_length: '4.0',
  exposed_length: '4.0',
  sounded_depth: '13.88',
};

describe('holes', () => {
  test('one that reached its depth at the stake takes the staked coordinates', () => {
    const after = done(planned(), holeEdit(pointOf(planned(), 'P-1'), REACHED));
    const { location, steps, next } = pointOf(after, 'P-1');
    expect([location.status, location.easting?.text, location.northing?.text]).toEqual([
      'pushed',
      '100.00',
      '200.00',
    ]);
    expect([steps.hole, next]).toEqual(['done', 'interval']);
  });

  test('one off its stake does not', () => {
    const typed = { ...REACHED, offset: '3 ft north' };
    const { location } = pointOf(
      done(planned(), holeEdit(pointOf(planned(), 'P-1'), typed)),
      'P-1',
    );
    expect(location.easting).toBeNull();
  });

  test('a point where every hole met refusal needs no water, but closing', () => {
    const typed = { ...REACHED, outcome: 'refusal', depth: '6' };
    const after = done(planned(), holeEdit(pointOf(planned(), 'P-2'), typed));
    const { location, steps, next } = pointOf(after, 'P-2');
    expect([location.status, steps.water, next]).toEqual(['refused', 'not needed', 'close']);
  });

  test('none closes without material, volume, manner, day and who, or a reason', () => {
    const typed = { decommission_material: 'Bentonite grout', decommission_day: '2026-06-01' };
    expect(notClosed(typed)).toContain('volume placed, how it was placed, who filled it');
    expect(notClosed({ open_reason: 'Casing left for the second round' })).toBeNull();
  });

  test('closing the last one decommissions the point and pulls its screen', () => {
    let site = done(planned(), holeEdit(pointOf(planned(), 'P-1'), REACHED));
    const { location, screens } = pointOf(site, 'P-1');
    const [screen] = screens;
    site = done(
      site,
      intervalEdit(siteOf(site), location, screen ?? null, SET, '1.42', '2026-06-01'),
    );
    const point = pointOf(site, 'P-1');
    const [hole] = point.attempts;
    if (!hole) throw new Error('no hole');
    const typed = {
      decommission_material: 'Bentonite grout',
      decommission_volume: '3',
      decommission_how: 'tremie',
      decommission_day: '2026-06-01',
      decommission_by: 'A.B.',
    };
    expect(notClosed(typed)).toBeNull();
    const after = pointOf(done(site, closeEdit(point, hole, typed, '2026-06-01T15:00')), 'P-1');
    expect(after.location.status).toBe('decommissioned');
    expect(after.screens[0]?.pulled_time).toBe('2026-06-01T15:00');
    expect(after.steps.close).toBe('done');
    expect([after.steps.water, after.next]).toEqual(['missed', null]); // a filled hole is not gauged
  });

  test('less grout than the hole holds is said to have bridged', () => {
    const remark = fillRemark(2, litres(10), settingsIn({ volumeUnit: 'L' }));
    expect(remark?.against).toBe(true);
    expect(remark?.says).toContain('bridged');
  });
});

describe('the interval', () => {
  const at = (over: Partial<typeof SET>) => {
    const site = siteOf(planned());
    const location = site.locations.get('P-1');
    if (!location) throw new Error('no P-1');
    return remarksOn(previewOf(site, location, { ...SET, ...over }), 'ft');
  };

  test('within tolerance of the sounding, across sand and clay, is said to belong to no one zone', () => {
    const says = at({}).map((remark) => remark.says);
    // Base 14.05 − 0.15 = 13.90; sounded 13.88, so 0.02 ft above. By hand.
    expect(says[0]).toBe('Sounded 0.02 ft above the screen base: within 0.20 ft.');
    expect(says[1]).toContain('contact of sand over clay at 11.00 ft');
  });

  test('sounded 0.35 ft high is marked uncertain at once', () => {
    const [sounding] = at({ sounded_depth: '13.55' });
    expect(sounding?.against).toBe(true);
    expect(sounding?.says).toContain('0.35 ft above');
    expect(sounding?.says).toContain('ridden up');
  });

  test('more screen exposed than was retracted cannot be', () => {
    expect(at({ retraction: '3.0' })[0]?.says).toContain('more screen is exposed');
  });

  test('a crossed contact takes the zone away, and the stick-up is a new mark', () => {
    const site = siteOf(planned());
    const location = site.locations.get('P-1');
    const screen = site.screens.get('P-1-S1');
    if (!location || !screen) throw new Error('no screen');
    const after = siteOf(
      done(planned(), intervalEdit(site, location, screen, SET, '1.42', '2026-06-01')),
    );
    expect(after.screens.get('P-1-S1')?.zone).toBeNull();
    expect(after.measuringPoints.get('P-1-S1-MP1')?.stick_up?.text).toBe('1.42');
    const again = intervalEdit(after, location, screen, SET, '1.42', '2026-06-01');
    expect(again.kind === 'together' && again.edits.length).toBe(1);
  });
});

describe('water', () => {
  test('two readings that agree are recovering still; fifteen quiet minutes are static', () => {
    let site = planned();
    const read = (time: string, depth: string) => {
      const typed = { depth_to_water: depth, time };
      const now = siteOf(site);
      site = done(site, waterEdit(now, 'P-1-S1', '2026-06-01', typed, 'water', USUAL_STATIC_RULE));
    };
    read('2026-06-01T10:00:00', '9.90');
    read('2026-06-01T10:02:00', '9.90');
    read('2026-06-01T10:16:00', '9,90'); // a keypad's comma
    const readings = readingsOf(siteOf(site), 'P-1-S1', '2026-06-01');
    expect(readings.map(({ status }) => status)).toEqual(['recovering', 'recovering', 'static']);
    expect(readings[2]?.depth_to_water?.text).toBe('9.90');
    expect(siteOf(site).events.get('2026-06-01')?.last_day).toBe('2026-06-01');
    expect(siteOf(site).problems).toEqual([]);
  });

  test('a dry screen has no depth whatever stands in the field', () => {
    const edit = waterEdit(
      siteOf(planned()),
      'P-1-S1',
      '2026-06-01',
      { depth_to_water: '9.9', time: '2026-06-01T10:00' },
      'dry',
      USUAL_STATIC_RULE,
    );
    const site = done(planned(), edit);
    const table = site.tables.water_levels;
    if (!table) throw new Error('no levels');
    expect(cellText(table, 0, 'depth_to_water')).toBe('');
    expect(cellText(table, 0, 'status')).toBe('dry');
  });
});

describe('purge and samples', () => {
  const purged = packageFrom({
    locations: ['id,kind,status', 'P-1,direct push,pushed'],
    screens: ['id,location', 'P-1-S1,P-1'],
    events: ['id,first_day,last_day', 'R,2026-06-01,2026-06-01'],
    purge_readings: [
      'screen,event,time,turbidity,rate',
      'P-1-S1,R,2026-06-01T10:00,80,200',
      'P-1-S1,R,2026-06-01T10:05,40,200',
      'P-1-S1,R,2026-06-01T10:10,12,200',
    ],
    samples: [
      'id,screen,event,time,kind,container,cooler,blind_alias',
      'P-1-S1-20260601,P-1-S1,R,2026-06-01T10:30,field sample,3 vials,C1,',
      'P-1-S1-20260601-FD,P-1-S1,R,2026-06-01T10:35,field duplicate,3 vials,C1,X-7',
    ],
  });

  test('200 mL/min for ten minutes is 2 L, and 12 NTU is not yet clear', () => {
    const rows = purgeOf(siteOf(purged), 'P-1-S1', 'R');
    expect(purgedSoFar(rows)).toEqual({ minutes: 10, litres: 2 });
    expect(clearingWords(rows, 10)).toContain('down from 80 NTU: not clear');
  });

  test('a name already taken gets a number, and a duplicate its own ending', () => {
    const site = siteOf(purged);
    const screen = site.screens.get('P-1-S1') ?? null;
    const name = (kind: 'field sample' | 'trip blank') =>
      sampleName(site, '[screen]-[day]', kind === 'trip blank' ? null : screen, kind, '2026-06-01');
    expect(name('field sample')).toBe('P-1-S1-20260601-2');
    expect(name('trip blank')).toBe('20260601-TB');
    expect(sampleName(site, '[well]', screen, 'field sample', '2026-06-01')).toBeNull();
  });

  test('the custody list keeps a blind duplicate blind, and blanks due are counted', () => {
    const samples = samplesOf(siteOf(purged), 'R');
    const rows = custodyRows(samples);
    expect(rows[1]?.slice(0, 4)).toEqual(['X-7', '2026-06-01', '10:35', 'field sample']);
    const [rates] = QUALITY_RATES;
    if (!rates) throw new Error('no rates');
    expect(dueOf(samples, rates).map(({ taken, due }) => [taken, due])).toEqual([
      [1, 1],
      [0, 1],
      [0, 1],
    ]);
  });
});

describe('the list of points', () => {
  test('holds push points alone, and goes round to the next with something to do', () => {
    const points = fieldPoints(siteOf(planned()));
    expect(points.map(({ location }) => location.id)).toEqual(['P-1', 'P-2']);
    expect(nextPoint(points, 'P-2')?.location.id).toBe('P-1');
    expect(nextPoint(points, null)?.location.id).toBe('P-1');
    expect(progressOf(points)).toMatchObject({ points: 2, hole: 0, close: 0 });
  });
});

describe('typed texts', () => {
  test.each([
    ['9,87', '9.87'],
    [' 12.5 ', '12.5'],
    ['3 × 40 mL, HCl', '3 × 40 mL, HCl'],
  ])('“%s” is written “%s”', (typed, written) => {
    expect(asWritten(typed)).toBe(written);
  });

  test('a depth that is none is said with what was expected', () => {
    const settings = settingsIn({ soundingTolerance: metres(0.2, 'ft') });
    expect(typedProblem('screens', 'tip_depth', 'abc', settings)).toBe(
      'A number in ft, 0 or more.',
    );
    expect(typedProblem('screens', 'tip_depth', '14,05', settings)).toBeNull();
  });
});

describe('points moved and dropped on the spot', () => {
  const points = (site: DataPackage) => fieldPoints(siteOf(site));
  const NOW = { who: 'RK', when: '2026-06-01T09:00' };

  test('a move of 10 ft east keeps the stake and the reason', () => {
    const site = siteOf(planned());
    const { location } = pointOf(planned(), 'P-1');
    const at = standsAt(location);
    if (!at) throw new Error('no place');
    const to = placeFrom(site, at, 10, 90);
    const moved = pointOf(done(planned(), moveEdit(site, location, to, 'gas line', NOW)), 'P-1');
    expect([moved.location.easting?.text, moved.location.northing?.text]).toEqual([
      '110.00',
      '200.00',
    ]);
    expect(moved.location.planned_easting?.text).toBe('100.00');
    expect(moved.location.note).toBe('Moved in the field: gas line');
    const gap = gapAt(points(planned()), 'P-1', at, to, 'moved');
    expect(gapWords(gap, site.settings)).toBe(
      'P-1 stands 10.0 ft from its stake: nothing is sampled nearer to that place.',
    );
  });

  test('a clearance was for the old place: moved in the field, the point is not cleared', () => {
    const ticket = {
      kind: 'decide',
      what: 'clear point',
      on: 'P-1',
      reason: 'ticket T-1',
    } as const;
    const cleared = done(planned(), { ...ticket, ...NOW });
    const site = siteOf(cleared);
    expect(clearedOn(site, 'P-1')?.words).toBe('ticket T-1');
    const { location } = pointOf(cleared, 'P-1');
    const moved = siteOf(done(cleared, moveEdit(site, location, [40, 50], 'gas line', NOW)));
    expect(clearedOn(moved, 'P-1')).toBeNull();
    expect(moved.decisions.at(-1)).toMatchObject({
      reason: 'NOT CLEARED any more: Moved in the field: gas line',
      ...NOW,
    });
  });

  test('a dropped point stays with its screens and its reason, and what is missed is said', () => {
    const point = pointOf(planned(), 'P-1');
    const site = done(planned(), dropEdit(point, 'parked lorry', 'A.B.', '2026-06-01T10:00'));
    const after = siteOf(site);
    expect(after.locations.get('P-1')?.status).toBe('dropped');
    expect(after.locations.get('P-1')?.note).toBe('Dropped in the field: parked lorry');
    expect(after.screens.size).toBe(1);
    expect(after.decisions[0]).toMatchObject({ who: 'A.B.', on: 'P-1' });
    expect(after.problems).toEqual([]);
    expect(progressOf(points(site))).toMatchObject({ points: 1, dropped: 1 });
    expect(nextPoint(points(site), null)?.location.id).toBe('P-2');
    // P-2 stands 20 ft east: a round patch about P-1 of less than 20 ft radius meets nothing.
    expect(gapsOf(points(site)).map((gap) => gapWords(gap, after.settings))).toEqual([
      'P-1 dropped: nothing is sampled within 20.0 ft of it; the nearest is P-2. A round patch there could be 40 ft across and not be met.',
    ]);
  });

  test('and can be taken up again; with none left to stand for it that is said', () => {
    let site = planned();
    for (const name of ['P-1', 'P-2'])
      site = done(site, dropEdit(pointOf(site, name), 'rain', '', '2026-06-01T10:00'));
    expect(gapsOf(points(site)).map(({ nearest }) => nearest)).toEqual([null, null]);
    site = done(site, takeUpEdit(pointOf(site, 'P-1'), '2026-06-02'));
    expect(pointOf(site, 'P-1')).toMatchObject({ isDropped: false, next: 'hole' });
    expect(pointOf(site, 'P-1').location.note).toContain('Taken up again 2026-06-02');
  });

  test('a point refused at every try is missed just as one dropped', () => {
    const typed = { ...REACHED, outcome: 'refusal', depth: '6' };
    const site = done(planned(), holeEdit(pointOf(planned(), 'P-2'), typed));
    expect(gapsOf(points(site))).toMatchObject([{ id: 'P-2', why: 'not reached' }]);
  });

  test('one with a hole in the ground cannot be dropped', () => {
    const site = done(planned(), holeEdit(pointOf(planned(), 'P-1'), REACHED));
    expect(notDroppable(pointOf(site, 'P-1'))).toContain('it stays');
  });
});
