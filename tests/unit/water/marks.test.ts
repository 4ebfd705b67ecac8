import { describe, expect, test } from 'vitest';
import { printWork } from '../../../src/domain/print-work';
import { inUnits, metres } from '../../../src/domain/units';
import { decisionOn, readingName } from '../../../src/domain/water/decided';
import { headsOf, leftOutWords, type LeftOut } from '../../../src/domain/water/event-heads';
import {
  marksOf,
  measuringPointElevation,
  measuringPointOf,
} from '../../../src/domain/water/measuring-point';
import { intervalOf, noIntervalWords } from '../../../src/domain/water/screen-interval';
import { tideWindow } from '../../../src/domain/water/tide';
import { siteFrom } from '../site-from';

type Tables = Parameters<typeof siteFrom>[0];

/** One well A on ground of 101.20 ft, read as the lines say. */
const wellRead = (levels: readonly string[], more: Tables = {}) =>
  siteFrom({
    locations: [
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      'A,0,0,101.20,surveyed,monitoring well,installed',
    ],
    screens: ['id,location,tip_depth,exposed_length,zone', 'A,A,60,10,shallow'],
    measuring_points: ['id,screen,elevation', 'A-mp,A,103.5'],
    events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-02', 'E2,2026-07-01,2026-07-01'],
    water_levels: [
      'screen,event,measuring_point,time,depth_to_water,depth_to_product,product_density,status,use,why',
      ...levels,
    ],
    ...more,
  });

describe('the mark a reading was taken from', () => {
  const marks = {
    measuring_points: [
      'id,screen,from_day,elevation',
      'first,A,,103.10',
      'raised,A,2024-05-01,103.50',
      'cut,A,2026-04-02,102.00',
      'other,B,2020-01-01,99.00',
    ],
    screens: ['id,location,zone', 'A,A,shallow', 'B,A,shallow'],
  };
  const markOf = (line: string, more: Tables = marks) => {
    const site = wellRead([line], more);
    const [reading] = site.waterLevels;
    return measuringPointOf(site, reading!)?.id ?? null;
  };

  test('the one it names, whatever the day; one that is not listed is none', () => {
    expect(markOf('A,E1,first,2026-04-01T09:00,8.31,,,static,,')).toBe('first');
    const site = wellRead(['A,E1,first,2026-04-01T09:00,8.31,,,static,,'], marks);
    const gone = { ...site.waterLevels[0]!, measuring_point: 'gone' };
    expect(measuringPointOf(site, gone)).toBeNull();
  });

  test('else the last in use on the day it was read', () => {
    expect(markOf('A,E1,,2024-04-30T09:00,8.31,,,static,,')).toBe('first');
    expect(markOf('A,E1,,2024-05-01T09:00,8.31,,,static,,')).toBe('raised');
    expect(markOf('A,E1,,2026-04-01T23:59,8.31,,,static,,')).toBe('raised');
    expect(markOf('A,E1,,2026-04-02T00:01,8.31,,,static,,')).toBe('cut');
  });

  test('a reading without a time is of the last day of its event', () => {
    expect(markOf('A,E1,,,8.31,,,static,,')).toBe('cut');
    expect(markOf('A,E1,,,8.31,,,static,,', { ...marks, events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-01'] })).toBe('raised'); // prettier-ignore
  });

  test('of two from one day the later in the table, in whatever order the days stand', () => {
    const twice = [
      'id,screen,from_day,elevation',
      'x,A,2024-05-01,1',
      'y,A,2024-05-01,2',
      'z,A,2020-01-01,3',
    ];
    expect(
      markOf('A,E1,,2026-04-01T09:00,8.31,,,static,,', { ...marks, measuring_points: twice }),
    ).toBe('y');
  });

  test('a screen’s own marks alone, in the order of the table', () => {
    const site = wellRead([], marks);
    expect(marksOf(site, 'A').map(({ id }) => id)).toEqual(['first', 'raised', 'cut']);
    expect(marksOf(site, 'B').map(({ id }) => id)).toEqual(['other']);
    expect(marksOf(site, 'C')).toEqual([]);
    const read = wellRead(['A,E1,,2026-04-01T09:00,8.31,,,static,,'], marks);
    expect(measuringPointOf(read, { ...read.waterLevels[0]!, screen: 'C' })).toBeNull();
  });
});

describe('the elevation of a mark', () => {
  const elevationOf = (point: string, location: string) => {
    const site = wellRead([], {
      locations: ['id,easting,northing,ground_elevation,ground_how,kind,status', location],
      measuring_points: ['id,screen,elevation,stick_up,description', point],
    });
    return measuringPointElevation(site, [...site.measuringPoints.values()][0]!);
  };
  const GROUND = 'A,0,0,101.20,surveyed,monitoring well,installed';

  test('as surveyed, by its description', () => {
    const found = elevationOf('A-mp,A,103.5,2.25,north side of casing', GROUND);
    if (!found.ok) throw new Error(found.reason);
    expect(found.estimated).toBe(false);
    expect(found.elevation.work.terms).toMatchObject([
      { symbol: 'elevation', name: 'north side of casing', from: { kind: 'cell', table: 'measuring_points', column: 'elevation' } },
    ]); // prettier-ignore
    expect(found.elevation.work).toMatchObject({ decimals: 1, answer: { dimension: 'length' } });
    const plain = elevationOf('A-mp,A,103.5,,', GROUND);
    expect(plain.ok && plain.elevation.work.terms[0]?.name).toBe('measuring point');
  });

  test('else ground and stick-up, each from its cell, to the finer of the two', () => {
    const found = elevationOf('A-mp,A,,2.255,', GROUND);
    if (!found.ok) throw new Error(found.reason);
    expect(inUnits(found.elevation.value, 'ft')).toBeCloseTo(103.455, 9);
    expect(found.elevation.work.decimals).toBe(3);
    expect(found.elevation.work.answer).toEqual({
      value: found.elevation.value,
      dimension: 'length',
    });
    expect(found.elevation.work.terms.map(({ symbol, from }) => [symbol, from.kind === 'cell' && `${from.table}.${from.column}`])).toEqual([
      ['ground', 'locations.ground_elevation'],
      ['stickup', 'measuring_points.stick_up'],
    ]); // prettier-ignore
    expect(found.elevation.work.terms[0]?.name).toBe('ground elevation at A, surveyed');
    expect(found.estimated).toBe(false);
  });

  test('on an estimated ground it is estimated', () => {
    const found = elevationOf('A-mp,A,,2.25,', 'A,0,0,101.20,estimated,monitoring well,installed');
    expect(found).toMatchObject({ ok: true, estimated: true });
  });

  test.each([
    ['not-surveyed', 'A-mp,A,,2.25,', 'A,0,0,101.20,none,monitoring well,installed'],
    ['not-surveyed', 'A-mp,A,,2.25,', 'A,0,0,101.20,,monitoring well,installed'],
    ['not-surveyed', 'A-mp,A,,2.25,', 'A,0,0,,surveyed,monitoring well,installed'],
    ['no-stick-up', 'A-mp,A,,,', GROUND],
  ])('%s: %s on %s', (reason, point, location) => {
    expect(elevationOf(point, location)).toEqual({ ok: false, reason });
  });
});

describe('a head', () => {
  test('is printed to the finer of mark and depth, with its time, or its event where none is written', () => {
    const [timed, untimed] = ['2026-04-01T09:00', ''].map((time) => {
      const [gauged] = headsOf(wellRead([`A,E1,,${time},8.315,,,static,,`]), 'E1');
      return gauged!.head!.work;
    });
    expect(timed).toMatchObject({
      title: 'Head in A, 2026-04-01 09:00',
      decimals: 3,
      formula: 'mp - dtw',
    });
    expect(untimed?.title).toBe('Head in A, E1');
    expect(timed?.terms.map(({ symbol, name }) => [symbol, name])).toEqual([
      ['mp', 'elevation of the measuring point'],
      ['dtw', 'depth to water'],
    ]);
    expect(printWork(timed!, { vertical: 'ft', grid: 'ft' }).answer).toBe('95.185');
  });

  test('under product: thickness from its two depths, to the finer of them', () => {
    const [gauged] = headsOf(wellRead(['A,E1,,2026-04-01T09:00,9.380,8.86,0.83,static,,']), 'E1');
    const { work, value } = gauged!.head!;
    expect(inUnits(value, 'ft')).toBeCloseTo(103.5 - 9.38 + 0.52 * 0.83, 9);
    expect(work.title).toBe('Head in A corrected for product, 2026-04-01 09:00');
    expect(work.answer).toEqual({ value, dimension: 'length' });
    const [measured, thickness, density] = work.terms;
    expect([measured?.symbol, thickness?.symbol, density?.symbol]).toEqual([
      'measured',
      'thickness',
      'density',
    ]);
    expect(density).toMatchObject({ value: 0.83, dimension: 'number', text: '0.83', from: { table: 'water_levels', column: 'product_density' } }); // prettier-ignore
    if (thickness?.from.kind !== 'work') throw new Error('a thickness is worked');
    expect(thickness.from.work).toMatchObject({
      title: 'Product in A',
      formula: 'dtw - dtp',
      decimals: 3,
    });
    expect(thickness.from.work.terms.map(({ symbol }) => symbol)).toEqual(['dtw', 'dtp']);
    expect(inUnits(metres(thickness.from.work.answer.value), 'ft')).toBeCloseTo(0.52, 9);
  });

  test('no product where both depths are one: the level as read', () => {
    const [gauged] = headsOf(wellRead(['A,E1,,2026-04-01T09:00,9.38,9.38,,static,,']), 'E1');
    expect(inUnits(gauged!.head!.value, 'ft')).toBeCloseTo(94.12, 9);
  });
});

describe('why a reading does not count, each in its words', () => {
  const reasonOf = (line: string, more: Tables = {}) =>
    headsOf(wellRead([line], more), 'E1')[0]?.leftOut ?? null;
  const kind = (name: string): Tables => ({
    locations: [
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      `A,0,0,101.20,surveyed,${name},installed`,
    ],
  });
  const STATIC = 'A,E1,,2026-04-01T09:00,8.31,,,static,,';

  test.each<[LeftOut | null, string, Tables]>([
    [null, STATIC, {}],
    ['flowing', 'A,E1,,2026-04-01T09:00,8.31,,,flowing,,', {}],
    ['flowing', 'A,E1,,2026-04-01T09:00,,,,flowing,,', {}],
    ['no-measuring-point', STATIC, { measuring_points: ['id,screen,elevation', 'B-mp,B,103.5'] }],
    ['no-stick-up', STATIC, { measuring_points: ['id,screen,stick_up', 'A-mp,A,'] }],
    ['push-point', STATIC, kind('direct push')],
    ['staff-gauge', STATIC, kind('staff gauge')],
    ['supply-well', STATIC, kind('supply well')],
    [null, STATIC, kind('piezometer')],
    ['product-in-push-point', 'A,E1,,2026-04-01T09:00,8.31,8.00,0.83,static,,', kind('direct push')],
    ['product-too-dense', 'A,E1,,2026-04-01T09:00,8.31,8.00,1,static,,', {}],
    ['excluded', STATIC, { decisions: ['what,on,reason,who,when', 'exclude,A @ E1,pump left on,RK,2026-04-03'] }],
    ['no-zone', STATIC, { screens: ['id,location,tip_depth,exposed_length,zone', 'A,A,60,10,', 'B,A,90,10,deep'] }],
    ['no-coordinates', STATIC, { locations: ['id,easting,northing,ground_elevation,ground_how,kind,status', 'A,0,,101.20,surveyed,monitoring well,installed'] }],
    ['no-coordinates', STATIC, { locations: ['id,easting,northing,ground_elevation,ground_how,kind,status', 'A,,0,101.20,surveyed,monitoring well,installed'] }],
    ['estimated-elevation', STATIC, { locations: ['id,easting,northing,ground_elevation,ground_how,kind,status', 'A,0,0,101.20,estimated,monitoring well,installed'], measuring_points: ['id,screen,stick_up', 'A-mp,A,2.25'] }],
  ])('%s: %s', (reason, line, more) => {
    expect(reasonOf(line, more)).toBe(reason);
    if (reason !== null) expect(leftOutWords(reason)).toMatch(/^[a-z].{10,}/);
  }); // prettier-ignore

  test('water below the base of the screen is dry, at the base it is not, nor where the base is not known', () => {
    // Ground 101.20, tip 60 ft: base 41.20 ft; the mark at 103.5 ft.
    expect(reasonOf('A,E1,,2026-04-01T09:00,62.31,,,static,,')).toBe('dry');
    expect(reasonOf('A,E1,,2026-04-01T09:00,62.29,,,static,,')).toBeNull();
    const noTip = { screens: ['id,location,tip_depth,zone', 'A,A,,shallow'] };
    expect(reasonOf('A,E1,,2026-04-01T09:00,62.31,,,static,,', noTip)).toBeNull();
    const offset = { screens: ['id,location,tip_depth,tool_offset,zone', 'A,A,60,0.5,shallow'] };
    expect(reasonOf('A,E1,,2026-04-01T09:00,62.29,,,static,,', offset)).toBe('dry');
    expect(reasonOf('A,E1,,2026-04-01T09:00,61.79,,,static,,', offset)).toBeNull();
  });

  test('the reason somebody gave stands beside it; a decision before the crew’s own', () => {
    const because = (line: string, more: Tables = {}) =>
      headsOf(wellRead([line], more), 'E1')[0]?.because ?? null;
    const decisions = [
      'what,on,reason,who,when',
      'include,A @ E1,agreed in the office,RK,2026-04-03',
    ];
    expect(because(STATIC)).toBeNull();
    expect(because('A,E1,,2026-04-01T09:00,8.31,,,static,,tape sticky')).toBeNull();
    expect(because('A,E1,,2026-04-01T09:00,8.31,,,static,no,tape wet')).toBe('tape wet');
    expect(because('A,E1,,2026-04-01T09:00,8.31,,,static,no,tape wet', { decisions })).toBe(
      'agreed in the office',
    );
  });

  test('of a screen read again the last static reading counts, else the last', () => {
    const of = (...levels: string[]) =>
      headsOf(wellRead(levels), 'E1').map(({ leftOut }) => leftOut);
    const at = (time: string, status: string) =>
      `A,E1,,${time && `2026-04-01T${time}`},8.31,,,${status},,`;
    expect(of(at('11:00', 'static'), at('09:00', 'static'))).toEqual([null, 'read-again']);
    expect(of(at('09:00', 'recovering'), at('11:00', 'recovering'))).toEqual([
      'read-again',
      'recovering',
    ]);
    expect(of(at('11:00', 'recovering'), at('09:00', 'static'))).toEqual(['read-again', null]);
    expect(of(at('09:00', 'static'), at('11:00', 'recovering'))).toEqual([null, 'read-again']);
    expect(of(at('09:00', 'static'), at('', 'static'))).toEqual([null, 'read-again']);
  });

  test('a reading of a screen nobody listed, or of one whose location nobody did, is none', () => {
    expect(headsOf(wellRead(['Z,E1,,2026-04-01T09:00,8.31,,,static,,']), 'E1')).toEqual([]);
    const lost = { screens: ['id,location,tip_depth,exposed_length,zone', 'A,Q,60,10,shallow'] };
    expect(headsOf(wellRead([STATIC], lost), 'E1')).toEqual([]);
    expect(headsOf(wellRead([STATIC]), 'E2')).toEqual([]);
  });

  test('the error of a head: that of its mark with reading and tape, else the site’s', () => {
    const sigma = (more: Tables) =>
      inUnits(headsOf(wellRead([STATIC], more), 'E1')[0]!.sigma, 'ft');
    const marks = { measuring_points: ['id,screen,elevation,accuracy', 'A-mp,A,103.5,0.02'] };
    expect(sigma(marks)).toBeCloseTo(Math.hypot(0.02, 0.01, 0.005), 6);
    expect(sigma({})).toBeCloseTo(0.015, 9);
  });
});

test('the last decision on a reading stands; comments and other kinds are none', () => {
  const site = wellRead([], {
    decisions: [
      'what,on,reason,who,when',
      'exclude,A @ E1,pump left on,RK,2026-04-03',
      'include,A @ E1,it was off by then,RK,2026-04-04',
      'exclude,A @ E2,tape wet,RK,2026-07-03',
    ],
  });
  expect(readingName('A', 'E1')).toBe('A @ E1');
  expect(decisionOn(site, 'A', 'E1')).toMatchObject({
    what: 'include',
    reason: 'it was off by then',
  });
  expect(decisionOn(site, 'A', 'E2')).toMatchObject({ what: 'exclude' });
  expect(decisionOn(site, 'B', 'E1')).toBeNull();
});

test('a tide window needs both its ends, and an event', () => {
  const site = wellRead([], {
    events: [
      'id,first_day,last_day,tide_from,tide_to',
      'both,2026-04-01,2026-04-01,2026-04-01T09:00,2026-04-01T10:00',
      'from,2026-04-01,2026-04-01,2026-04-01T09:00,',
      'to,2026-04-01,2026-04-01,,2026-04-01T10:00',
    ],
  });
  expect(tideWindow(site, 'both')).toEqual({ from: '2026-04-01T09:00', to: '2026-04-01T10:00' });
  for (const event of ['from', 'to', 'none', null]) expect(tideWindow(site, event)).toBeNull();
});

describe('the interval a screen opened', () => {
  test('depths and elevations, and how water stands to it', () => {
    const site = wellRead([]);
    const found = intervalOf(site.screens.get('A')!, site.locations.get('A')!);
    if (!found.ok) throw new Error(found.problem);
    const { topDepth, baseDepth, topElevation, baseElevation, waterAt } = found.value;
    expect([topDepth, baseDepth, topElevation!, baseElevation!].map(({ value }) => Number(inUnits(value, 'ft').toFixed(2)))).toEqual([50, 60, 51.2, 41.2]); // prettier-ignore
    const states = [60, 45, 30].map((head) => waterAt(metres(head, 'ft')));
    expect(new Set(states).size).toBe(3);
    expect(states).not.toContain(null);
  });

  test('without ground there are depths and no elevations', () => {
    const site = wellRead([], {
      locations: ['id,easting,northing,kind,status', 'A,0,0,monitoring well,installed'],
    });
    const found = intervalOf(site.screens.get('A')!, site.locations.get('A')!);
    expect(found).toMatchObject({ ok: true, value: { topElevation: null, baseElevation: null } });
    expect(found.ok && found.value.waterAt(metres(5))).toBeNull();
  });

  test('why there is none is said', () => {
    const site = wellRead([], {
      screens: ['id,location,tip_depth,exposed_length,zone', 'A,A,,10,shallow', 'B,A,60,,shallow'],
    });
    const why = (id: string) => intervalOf(site.screens.get(id)!, site.locations.get('A')!);
    expect(why('A')).toEqual({ ok: false, problem: 'no-tip-depth' });
    expect(why('B')).toEqual({ ok: false, problem: 'no-exposed-length' });
    expect(noIntervalWords('no-tip-depth')).toBe('the tip depth is not recorded');
  });
});
