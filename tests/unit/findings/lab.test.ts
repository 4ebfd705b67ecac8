import { describe, expect, test } from 'vitest';
import { USUAL_HOLDING_LIMITS } from '../../../src/domain/lab/holding-time-list';
import type { LabSettings } from '../../../src/domain/lab/lab-settings';
import { siteFrom } from '../site-from';
import { found, ofRule, one } from './a-site';

type Tables = Parameters<typeof siteFrom>[0];

const SAMPLES =
  'id,screen,event,time,kind,parent,matrix,cooler,received_time,receipt_temperature,laboratory,note';
const RESULTS =
  'sample,cas,analyte,fraction,method,run,value,unit,detected,lab_qualifier,validation_qualifier,detection_limit,reporting_limit';

/** A push point with a shallow and a deep screen, a well, and what came back from the laboratory. */
const lab = (
  samples: readonly string[],
  results: readonly string[],
  more: Tables = {},
  settings: LabSettings = {},
) =>
  found(
    siteFrom(
      {
        events: ['id,title,first_day,last_day', 'E1,Round,2025-09-15,2025-09-19'],
        locations: [
          'id,easting,northing,ground_elevation,ground_how,kind,status',
          'DP-1,1000,2000,101.2,surveyed,direct push,decommissioned',
          'MW-1,1100,2000,101.2,surveyed,monitoring well,installed',
        ],
        screens: [
          'id,location,tip_depth,tool_offset,retraction,exposed_length,sounded_depth,zone,set_time,pulled_time',
          'DP-1-S1,DP-1,13.15,0.15,4.0,4.0,13.0,sand,2025-09-15T09:00,2025-09-15T10:00',
          'DP-1-S2,DP-1,21.15,0.15,4.0,4.0,19.5,sand,2025-09-15T10:30,2025-09-15T11:30',
          'MW-1,MW-1,17.0,0.3,,10.0,16.7,sand,2025-08-15T09:00,',
        ],
        decisions: ['what,on,reason', 'clear point,DP-1,Ticket'],
        samples: [SAMPLES, ...samples],
        results: [RESULTS, ...results],
        ...more,
      },
      { lab: settings },
    ),
    'E1',
  ).filter(({ rule }) => rule !== 'sounded depth');

const MW1 =
  'MW-1-A,MW-1,E1,2025-09-16T10:00,field sample,,groundwater,C1,2025-09-17T09:00,4.0,Lab A,';
const voc = (sample: string, value: string, more = 'yes,,,0.2,1.0') =>
  `${sample},79-01-6,Trichloroethylene,total,EPA 8260D,initial,${value},µg/L,${more}`;

test('one good sample in a cold cooler: nothing is doubtful', () => {
  expect(lab([MW1], [voc('MW-1-A', '12')])).toEqual([]);
});

describe('duplicates', () => {
  const duplicate = (parent: string) =>
    `MW-1-D,MW-1,E1,2025-09-16T10:00,field duplicate,${parent},groundwater,C1,2025-09-17T09:00,4.0,Lab A,`;

  test('a duplicate names the sample it repeats', () => {
    const all = lab([MW1, duplicate('')], [voc('MW-1-A', '12'), voc('MW-1-D', '12')]);
    expect(one(all, 'duplicates without a parent')).toMatchObject({
      severity: 'caution',
      who: ['MW-1'],
    });
  });

  test('a parent of another screen, or a blank, is none', () => {
    const push =
      'DP-1-A,DP-1-S1,E1,2025-09-15T09:30,field sample,,groundwater,C1,2025-09-17T09:00,4.0,Lab A,';
    const all = lab([MW1, push, duplicate('DP-1-A')], []);
    expect(one(all, 'duplicate and parent').says).toContain(
      'of another screen (DP-1-S1, not MW-1)',
    );
  });

  // EPA arithmetic of the RPD: 12 and 15 make 22.22 %, 100 and 73.9 make 30.02 % (computed independently).
  test('12 and 15 agree within 30 %, 100 and 73.9 do not', () => {
    expect(lab([MW1, duplicate('MW-1-A')], [voc('MW-1-A', '12'), voc('MW-1-D', '15')])).toEqual([]);
    const all = lab([MW1, duplicate('MW-1-A')], [voc('MW-1-A', '100'), voc('MW-1-D', '73.9')]);
    expect(one(all, 'duplicate disagrees').says).toContain(
      'Trichloroethylene 100 and 73.9 µg/L (RPD 30 %, limit 30 %)',
    );
  });

  test('near the limit the difference counts: 2 and 3.5 with a limit of 1', () => {
    const all = lab([MW1, duplicate('MW-1-A')], [voc('MW-1-A', '2.0'), voc('MW-1-D', '3.5')]);
    expect(one(all, 'duplicate disagrees').says).toContain('apart by 1.5 µg/L, limit 1.0');
  });
});

describe('blanks', () => {
  const trip = (cooler: string) =>
    `TB,,E1,2025-09-16T07:00,trip blank,,water,${cooler},2025-09-17T09:00,4.0,Lab A,`;

  // Five times the blank: EPA 540/R-99/008, 1999 (values from memory).
  test('a trip blank concerns its cooler: less than five times as much is flagged, more is not', () => {
    const all = (value: string, cooler: string) =>
      one(lab([MW1, trip(cooler)], [voc('MW-1-A', value), voc('TB', '2.5')]), 'found in a blank');
    expect(all('12', 'C1')).toMatchObject({ severity: 'caution', who: ['MW-1'] });
    expect(all('12', 'C1').says).toContain('Trichloroethylene 2.5 µg/L');
    expect(all('13', 'C1')).toMatchObject({ severity: 'note', who: [] });
    expect(all('12', 'C2')).toMatchObject({ severity: 'note', who: [] });
  });

  test('an equipment blank without a cooler concerns the samples of its day', () => {
    const rinse = (day: string) =>
      `EB,,E1,${day}T15:00,equipment blank,,water,,2025-09-17T09:00,4.0,Lab A,`;
    const flagged = (day: string) =>
      one(lab([MW1, rinse(day)], [voc('MW-1-A', '3'), voc('EB', '2.5')]), 'found in a blank').who;
    expect(flagged('2025-09-16')).toEqual(['MW-1']);
    expect(flagged('2025-09-15')).toEqual([]);
  });

  test('a clean blank, and one with nothing but oxygen in it, say nothing', () => {
    const oxygen = 'TB,7782-44-7,Oxygen,total,,initial,6.4,mg/L,yes,,,,';
    expect(
      lab([MW1, trip('C1')], [voc('MW-1-A', '12'), voc('TB', '1.0', 'no,U,,0.2,1.0'), oxygen]),
    ).toEqual([]);
  });
});

describe('on the way', () => {
  const late = (received: string, temperature = '4.0') =>
    lab([MW1.replace('2025-09-17T09:00,4.0', `${received},${temperature}`)], [voc('MW-1-A', '12')]);

  // 14 days for volatile compounds: 40 CFR 136.3, Table II (value from memory).
  test('received after fifteen days: volatile compounds may be held fourteen', () => {
    expect(one(late('2025-10-01T10:00'), 'holding time').says).toContain(
      'volatile organic compounds may be held 14 days',
    );
    expect(late('2025-09-30T09:00')).toEqual([]);
  });

  test('a cooler at 7.2 °C, and one below freezing; 6.0 °C is cold enough', () => {
    expect(one(late('2025-09-17T09:00', '7.2'), 'receipt temperature').says).toContain('7.2 °C');
    expect(one(late('2025-09-17T09:00', '-1.0'), 'receipt temperature').says).toContain('frozen');
    expect(late('2025-09-17T09:00', '6.0')).toEqual([]);
  });

  test('received before it was taken; taken after the screen was pulled', () => {
    expect(one(late('2025-09-15T10:00'), 'times of a sample').says).toContain(
      'before it was taken',
    );
    const push =
      'DP-1-A,DP-1-S1,E1,2025-09-15T10:20,field sample,,groundwater,C1,2025-09-17T09:00,4.0,Lab A,';
    expect(one(lab([push], []), 'times of a sample').says).toContain('after DP-1-S1 was pulled');
  });
});

describe('the limits a person has set', () => {
  const duplicate =
    'MW-1-D,MW-1,E1,2025-09-16T10:00,field duplicate,MW-1-A,groundwater,C1,2025-09-17T09:00,4.0,Lab A,';
  const pair = [voc('MW-1-A', '12'), voc('MW-1-D', '15')];

  // 12 and 15: RPD 22.22 % (computed independently); USGS asks 10 % of replicates (value from memory).
  test('an RPD of 22 % agrees within 30 % and not within 10 %', () => {
    const strict = { rpd: 10, farFromLimit: 5, differenceInLimits: 1 };
    const all = lab([MW1, duplicate], pair, {}, { duplicates: strict });
    expect(one(all, 'duplicate disagrees').says).toContain('(RPD 22 %, limit 10 %)');
    expect(lab([MW1, duplicate], pair)).toEqual([]);
  });

  test('of blanks: 12 is under five times 2.5, not under four times', () => {
    const trip = 'TB,,E1,2025-09-16T07:00,trip blank,,water,C1,2025-09-17T09:00,4.0,Lab A,';
    const who = (settings: LabSettings) =>
      one(
        lab([MW1, trip], [voc('MW-1-A', '12'), voc('TB', '2.5')], {}, settings),
        'found in a blank',
      ).who;
    expect(who({})).toEqual(['MW-1']);
    expect(who({ blanks: { times: 4, timesForUsual: 10 } })).toEqual([]);
  });

  test('of turbidity: 35 NTU is clear where 50 is called so', () => {
    const purge = {
      purge_readings: ['screen,event,time,turbidity', 'MW-1,E1,2025-09-16T09:58,35'],
    };
    expect(ofRule(lab([MW1], [], purge), 'turbid sample')).toHaveLength(1);
    expect(lab([MW1], [], purge, { clearBelow: 50 })).toEqual([]);
  });
});

describe('dates of analysis', () => {
  const DATED = `${RESULTS},prepared,analysed`;
  const dated = (line: string, settings: LabSettings = {}) =>
    lab([MW1], [], { results: [DATED, line] }, settings);
  const on = (analysed: string) => `${voc('MW-1-A', '12')},,${analysed}`;

  // 14 days for acidified volatile compounds: 40 CFR 136.3, Table II (value from memory).
  test('volatile compounds analysed on the fifteenth day were held too long, on the fourteenth not', () => {
    const finding = one(dated(on('2025-10-01T10:00')), 'holding time');
    expect(finding.says).toContain(
      'volatile organic compounds 15 days from sampling to analysis, 14 days allowed (40 CFR 136.3',
    );
    expect(finding.cells).toContainEqual(expect.objectContaining({ column: 'analysed' }));
    expect(dated(on('2025-09-30T10:00'))).toEqual([]);
    expect(dated(on('2025-09-30T10:01'))).toHaveLength(1);
  });

  // 7 days to extraction, 40 more to analysis: the same table.
  test('extraction has a clock of its own', () => {
    const semivolatile = (dates: string) =>
      dated(`MW-1-A,91-20-3,Naphthalene,total,EPA 8270E,initial,2,µg/L,yes,,,0.1,1,${dates}`);
    expect(one(semivolatile('2025-09-24,2025-09-30'), 'holding time').says).toContain(
      '8 days from sampling to extraction, 7 days allowed',
    );
    expect(one(semivolatile('2025-09-20,2025-10-31'), 'holding time').says).toContain(
      '41 days from extraction to analysis, 40 days allowed',
    );
    expect(semivolatile('2025-09-20,2025-10-30')).toEqual([]);
  });

  test('by the person’s own list', () => {
    const halved = USUAL_HOLDING_LIMITS.map((limit) => ({
      ...limit,
      toAnalysis: limit.toAnalysis && limit.toAnalysis / 2,
      source: 'Sampling plan, table 3',
    }));
    const finding = one(dated(on('2025-09-24T10:00'), { holding: halved }), 'holding time');
    expect(finding.says).toContain('7 days allowed (Sampling plan, table 3)');
  });

  test('analysed before it was taken is a doubt of its own', () => {
    const finding = one(dated(on('2025-09-15')), 'times of a sample');
    expect(finding.says).toContain('analysed at 2025-09-15, before it was taken');
  });
});

describe('what was sampled', () => {
  test('drawn from part of a screen, or from beyond it', () => {
    const drawn = (from: string, to: string) =>
      lab([], [], { samples: [`${SAMPLES},top_depth,base_depth`, `${MW1},${from},${to}`] });
    expect(one(drawn('12', '14'), 'sampled interval')).toMatchObject({
      severity: 'note',
      says: 'MW-1-A was drawn from 12.00 ft to 14.00 ft below ground; MW-1 is open from 6.70 ft to 16.70 ft.',
    });
    expect(one(drawn('12', '19'), 'sampled interval').severity).toBe('caution');
    expect(drawn('6.7', '16.7')).toEqual([]);
    expect(drawn('', '')).toEqual([]);
  });

  test('an equipment blank concerns what was taken with that equipment', () => {
    const who = (pump: string) =>
      one(
        lab([], [voc('MW-1-A', '3'), voc('EB', '2.5')], {
          samples: [
            `${SAMPLES},equipment`,
            `${MW1},Pump 1`,
            `EB,,E1,2025-09-16T15:00,equipment blank,,water,,2025-09-17T09:00,4.0,Lab A,,${pump}`,
          ],
        }),
        'found in a blank',
      ).who;
    expect(who('Pump 1')).toEqual(['MW-1']);
    expect(who('Pump 2')).toEqual([]);
  });

  test('turbidity of the last reading before it, or its own note', () => {
    const purge = (last: string) => ({
      purge_readings: [
        'screen,event,time,turbidity',
        'MW-1,E1,2025-09-16T09:50,60',
        `MW-1,E1,2025-09-16T09:58,${last}`,
        'MW-1,E1,2025-09-16T10:30,80',
      ],
    });
    expect(one(lab([MW1], [], purge('35')), 'turbid sample').says).toContain('35 NTU');
    expect(lab([MW1], [], purge('6'))).toEqual([]);
    expect(one(lab([`${MW1}"Turbid, did not clear"`], []), 'turbid sample').says).toContain(
      'did not clear',
    );
  });

  const shallow =
    'S,DP-1-S1,E1,2025-09-15T09:30,field sample,,groundwater,C1,2025-09-17T09:00,4.0,Lab A,';
  const deep =
    'D,DP-1-S2,E1,2025-09-15T11:00,field sample,,groundwater,C1,2025-09-17T09:00,4.0,Lab A,';

  test('a screen that sounded short gives a sample of uncertain depth', () => {
    const all = lab([shallow, deep], []);
    expect(one(all, 'sample of uncertain depth').about).toBe('sample of uncertain depth: D @ E1');
  });

  test('found deep, with more of it above: drag-down, unless the sampler was sealed', () => {
    const results = [voc('S', '1300'), voc('D', '6')];
    const all = lab([shallow, deep], results, {
      attempts: [
        'location,suffix,method,depth,outcome,open_reason',
        'DP-1,,Exposed screen,21.15,reached,x',
      ],
    });
    const finding = one(all, 'possible drag-down');
    expect(finding).toMatchObject({ severity: 'caution', who: ['DP-1'] });
    expect(finding.says).toContain('Trichloroethylene 6 µg/L, and 1300 µg/L above it in S');
    const sealed = lab([shallow, deep], results, {
      attempts: [
        'location,suffix,method,depth,outcome,open_reason',
        'DP-1,,Sealed screen,21.15,reached,x',
      ],
    });
    expect(one(sealed, 'possible drag-down').severity).toBe('note');
    expect(
      ofRule(lab([shallow, deep], [voc('S', '6'), voc('D', '1300')]), 'possible drag-down'),
    ).toEqual([]);
  });
});

describe('as reported', () => {
  test('a letter that no legend explains', () => {
    const finding = one(
      lab([MW1], [voc('MW-1-A', '12', 'yes,Q,,0.2,1.0')]),
      'letter without a meaning',
    );
    expect(finding.says).toContain('The letter Q of Lab A');
    const legend = { qualifier_legends: ['laboratory,letter,meaning', 'Lab A,Q,estimated'] };
    expect(lab([MW1], [voc('MW-1-A', '12', 'yes,Q,,0.2,1.0')], legend)).toEqual([]);
  });

  test('a CAS number whose check digit fails, or of another name', () => {
    const named = (cas: string) => lab([MW1], [voc('MW-1-A', '12').replace('79-01-6', cas)]);
    expect(one(named('79-01-5'), 'CAS number in doubt').says).toContain('79-01-5');
    expect(one(named('71-43-2'), 'CAS number in doubt').says).toContain('79-01-6');
  });

  test('a non-detect without a limit is never zero', () => {
    const all = lab([MW1], [voc('MW-1-A', 'ND', 'no,U,,,')]);
    expect(one(all, 'non-detect without a limit').severity).toBe('caution');
    expect(lab([MW1], [voc('MW-1-A', '<1.0', 'no,U,,,')])).toEqual([]);
  });

  test('rejected and missing results are gaps, and stay in sight', () => {
    const all = lab([MW1], [voc('MW-1-A', '12', 'yes,,R,0.2,1.0')]);
    expect(one(all, 'rejected results').severity).toBe('note');
    expect(one(lab([MW1], [voc('MW-1-A', '', ',,,0.2,1.0')]), 'no result').severity).toBe('note');
    expect(one(lab([MW1], [voc('MW-1-A', 'see note')]), 'result not readable').severity).toBe(
      'caution',
    );
  });
});
