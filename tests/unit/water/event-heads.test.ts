import { describe, expect, test } from 'vitest';
import { printWork } from '../../../src/domain/print-work';
import { lengthNumber } from '../../../src/domain/show';
import { headsOf, leftOutWords, type GaugedScreen } from '../../../src/domain/water/event-heads';
import { changesSince } from '../../../src/domain/water/over-time';
import { siteFrom } from '../site-from';

const feet = ({ head }: GaugedScreen) => (head ? lengthNumber(head.value, 'ft', 2) : null);
const units = { vertical: 'ft', grid: 'ft' } as const;

/** One monitoring well of each name given, gauged once, with a level line as written. */
function wells(points: readonly string[], levels: readonly string[], more: object = {}) {
  return siteFrom({
    locations: [
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      ...points.map((p, i) => `${p},${i * 100},${i * 50},12.00,surveyed,monitoring well,installed`),
    ],
    screens: ['id,location,tip_depth,zone', ...points.map((p) => `${p},${p},60,shallow`)],
    measuring_points: ['id,screen,elevation', ...points.map((p) => `${p}-mp,${p},48.22`)],
    events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-02'],
    water_levels: [
      'screen,event,measuring_point,time,depth_to_water,depth_to_product,product_density,status,use,why',
      ...levels,
    ],
    ...more,
  });
}

describe('elevations below sea level: a public monitoring report of 1993', () => {
  const site = siteFrom({
    locations: [
      'id,easting,northing,kind,status',
      ...['A', 'B', 'C'].map((p, i) => `${p},${i * 100},${i * i * 50},monitoring well,installed`),
    ],
    screens: ['id,location,zone', 'A,A,shallow', 'B,B,shallow', 'C,C,shallow'],
    measuring_points: ['id,screen,elevation', 'a,A,10.87', 'b,B,9.65', 'c,C,10.28'],
    events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-01'],
    water_levels: [
      'screen,event,measuring_point,time,depth_to_water,status',
      'A,E1,a,2026-04-01T09:00,39.65,static',
      'B,E1,b,2026-04-01T09:10,38.31,static',
      'C,E1,c,2026-04-01T09:20,39.17,static',
    ],
  });
  test('are measuring point less depth to water', () => {
    expect(headsOf(site, 'E1').map(feet)).toEqual(['−28.78', '−28.66', '−28.89']);
  });
  test('open into the two cells they came from', () => {
    const work = headsOf(site, 'E1')[0]?.head?.work;
    expect(work && printWork(work, units).substituted).toBe('10.87 - 39.65');
    expect(work?.terms[1]?.from).toEqual({
      kind: 'cell',
      table: 'water_levels',
      row: 2,
      column: 'depth_to_water',
    });
  });
});

describe('floating product, density 0.83: a public monitoring report', () => {
  test('0.33 ft on a depth of 9.08 ft below 48.22 ft: 39.41 ft', () => {
    const site = wells(['A'], ['A,E1,,2026-04-01T09:00,9.08,8.75,0.83,static,,']);
    expect(headsOf(site, 'E1').map(feet)).toEqual(['39.41']);
  });
  test('0.52 ft on a depth of 9.38 ft: 38.84 ft uncorrected, 39.27 ft corrected', () => {
    const site = wells(['A'], ['A,E1,,2026-04-01T09:00,9.38,8.86,0.83,static,,']);
    const [gauged] = headsOf(site, 'E1');
    const work = gauged?.head?.work;
    expect(work && printWork(work, units)).toMatchObject({
      substituted: '38.84 + 0.52 * 0.83',
      answer: '39.27',
    });
  });
  test('0.32 ft raises a level 0.27 ft: depth 9.60 ft counts as 9.33 ft', () => {
    const site = wells(['A'], ['A,E1,,2026-04-01T09:00,9.60,9.28,0.83,static,,']);
    expect(headsOf(site, 'E1').map(feet)).toEqual([(48.22 - 9.33).toFixed(2)]);
  });
  test.each([
    [
      'without a measured density',
      'A,E1,,2026-04-01T09:00,9.60,9.28,,static,,',
      'product-without-density',
    ],
    [
      'not lighter than water',
      'A,E1,,2026-04-01T09:00,9.60,9.28,1.46,static,,',
      'product-too-dense',
    ],
  ])('%s there is no head', (_, line, reason) => {
    expect(headsOf(wells(['A'], [line]), 'E1')).toMatchObject([{ head: null, leftOut: reason }]);
  });
});

describe('which readings count', () => {
  const of = (line: string, more: object = {}) => headsOf(wells(['A'], [line], more), 'E1')[0];

  test.each([
    ['A,E1,,2026-04-01T09:00,8.31,,,static,,', null],
    ['A,E1,,2026-04-01T09:00,,,,dry,,', 'dry'],
    ['A,E1,,2026-04-01T09:00,,,,obstructed,,', 'obstructed'],
    ['A,E1,,2026-04-01T09:00,8.31,,,recovering,,', 'recovering'],
    ['A,E1,,2026-04-01T09:00,8.31,,,pumping,,', 'pumping'],
    ['A,E1,,2026-04-01T09:00,8.31,,,static,no,tape wet', 'marked-not-used'],
    ['A,E1,,2026-04-01T09:00,8.31,,,recovering,yes,two readings an hour apart agree', null],
    ['A,E1,,2026-04-01T09:00,98.00,,,static,,', 'dry'],
  ])('%s: %s', (line, reason) => {
    expect(of(line)).toMatchObject({ leftOut: reason });
    if (reason) expect(leftOutWords(reason as never)).toMatch(/\w/);
  });

  test('a mark that is not surveyed gives no head', () => {
    const gauged = of('A,E1,,2026-04-01T09:00,8.31,,,static,,', {
      locations: [
        'id,easting,northing,ground_how,kind,status',
        'A,0,0,none,monitoring well,installed',
      ],
      measuring_points: ['id,screen,stick_up', 'A-mp,A,2.00'],
    });
    expect(gauged).toMatchObject({ head: null, leftOut: 'not-surveyed' });
  });

  test('ground 101.20 ft and a stick-up of 1.27 ft, as read after retraction, make a mark', () => {
    const gauged = of('A,E1,,2026-04-01T09:00,8.31,,,static,,', {
      locations: [
        'id,easting,northing,ground_elevation,ground_how,kind,status',
        'A,0,0,101.20,surveyed,monitoring well,installed',
      ],
      measuring_points: ['id,screen,stick_up', 'A-mp,A,1.27'],
    });
    expect(gauged && feet(gauged)).toBe('94.16');
    expect(gauged?.leftOut).toBeNull();
  });

  test('a push point waits until somebody includes it with a reason', () => {
    const push = {
      locations: [
        'id,easting,northing,ground_elevation,ground_how,kind,status',
        'A,0,0,101.20,surveyed,direct push,pushed',
      ],
      measuring_points: ['id,screen,stick_up', 'A-mp,A,1.27'],
    };
    const line = 'A,E1,,2026-04-01T09:00,8.31,,,static,,';
    expect(of(line, push)).toMatchObject({ class: 'push', leftOut: 'push-point' });
    const decided = [
      'what,on,reason,who,when',
      'include,A @ E1,recovered: 0.01 ft in 15 minutes,RK,2026-04-03',
    ];
    expect(of(line, { ...push, decisions: decided })).toMatchObject({
      leftOut: null,
      because: 'recovered: 0.01 ft in 15 minutes',
    });
  });

  test('a screen read twice counts once, with its last static reading', () => {
    const heads = headsOf(
      wells(
        ['A'],
        [
          'A,E1,,2026-04-01T09:00,8.31,,,static,,',
          'A,E1,,2026-04-01T11:00,8.33,,,static,,',
          'A,E1,,2026-04-01T12:00,9.90,,,pumping,,',
        ],
      ),
      'E1',
    );
    expect(heads.map(({ leftOut }) => leftOut)).toEqual(['read-again', null, 'read-again']);
  });

  test('a level that could not be read again hides no reading before it', () => {
    const level = 'A,E1,,2026-04-01T09:26,11.19,,,static,,';
    const stuck = 'A,E1,,2026-04-01T11:20,,,,obstructed,,';
    for (const lines of [
      [level, stuck],
      [stuck, level],
    ]) {
      const heads = headsOf(wells(['A'], lines), 'E1');
      const counts = heads.filter(({ leftOut }) => leftOut !== 'read-again');
      expect(counts.map(feet)).toEqual(['37.03']);
      expect(counts.map(({ leftOut }) => leftOut)).toEqual([null]);
    }
  });

  test('nor one still recovering; among readings not at rest the last counts', () => {
    const at = (time: string, rest: string) => `A,E1,,2026-04-01T${time},${rest},,`;
    const of = (...lines: string[]) =>
      headsOf(wells(['A'], lines), 'E1').map(({ leftOut }) => leftOut);
    expect(of(at('09:00', '11.19,,,recovering'), at('11:00', ',,,obstructed'))).toEqual([
      'recovering',
      'read-again',
    ]);
    expect(of(at('09:00', '11.19,,,recovering'), at('11:00', '12.00,,,pumping'))).toEqual([
      'read-again',
      'pumping',
    ]);
  });

  test('and the change to the next event is of the reading: 710.87 ft to 710.56 ft', () => {
    // A mark at 722.06 ft, read at 11.19, stuck, and at 11.50 three weeks later: by hand −0.31 ft.
    const site = wells(
      ['A'],
      [
        'A,E1,,2026-04-01T09:26,11.19,,,static,,',
        'A,E1,,2026-04-01T11:20,,,,obstructed,,',
        'A,E2,,2026-04-22T09:23,11.50,,,static,,',
      ],
      {
        measuring_points: ['id,screen,elevation', 'A-mp,A,722.06'],
        events: ['id,first_day,last_day', 'E1,2026-04-01,2026-04-01', 'E2,2026-04-22,2026-04-22'],
      },
    );
    const changes = changesSince(headsOf(site, 'E2'), headsOf(site, 'E1'));
    expect(changes.map(({ change }) => lengthNumber(change, 'ft', 2))).toEqual(['−0.31']);
  });

  test('the mark in use on the day is taken, not a later one', () => {
    const site = wells(['A'], ['A,E1,,2026-04-01T09:00,8.31,,,static,,'], {
      measuring_points: [
        'id,screen,from_day,elevation',
        'old,A,2020-01-01,102.47',
        'cut down,A,2026-06-01,100.00',
      ],
    });
    expect(headsOf(site, 'E1')[0]?.measuringPoint?.id).toBe('old');
  });
});
