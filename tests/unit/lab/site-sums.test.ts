import { describe, expect, test } from 'vitest';
import { readLabSettings, rulesOfSet, withLab } from '../../../src/domain/lab/lab-settings';
import { levelSetsOf, resultsOf } from '../../../src/domain/lab/site-results';
import { changeProposed, sumColumns, sumCounts, sumTexts } from '../../../src/domain/lab/site-sums';
import type { NonDetectRule } from '../../../src/domain/lab/sums';
import { totalOf } from '../../../src/domain/lab/worst';
import { readSettings, writeSettings } from '../../../src/io/package/settings';
import { siteFrom } from '../site-from';

const RESULTS =
  'sample,cas,analyte,fraction,method,run,value,unit,detected,lab_qualifier,validation_qualifier,detection_limit,reporting_limit';
const detected = (sample: string, cas: string, name: string, value: string, unit = 'µg/L') =>
  `${sample},${cas},${name},total,,initial,${value},${unit},yes,,,,`;
const notDetected = (sample: string, cas: string, name: string, limit: string, unit = 'µg/L') =>
  `${sample},${cas},${name},total,,initial,<${limit},${unit},no,U,,,${limit}`;

/** A well sampled twice; 80 µg/L is the level of total trihalomethanes, 40 CFR 141.64(b). */
const siteOf = (results: readonly string[]) =>
  siteFrom({
    events: ['id,title,first_day,last_day', 'E1,Round,2025-09-15,2025-09-19'],
    locations: ['id,easting,northing,kind,status', 'W,0,0,monitoring well,installed'],
    screens: ['id,location,tip_depth,tool_offset,exposed_length,zone', 'W-S,W,20,0,5,sand'],
    samples: [
      'id,screen,event,time,kind,matrix',
      'A,W-S,E1,2025-09-16,field sample,groundwater',
      'B,W-S,E1,2025-09-17,field sample,groundwater',
    ],
    results: [RESULTS, ...results],
    screening_levels: [
      'set,cas,analyte,matrix,value,unit',
      'Federal,,Total trihalomethanes,water,0.080,mg/L',
      'Federal,1330-20-7,Xylenes (total),water,10,mg/L',
      'Site,,Total trihalomethanes,water,60,µg/L',
    ],
  });

const columnsOf = (results: readonly string[], rule: NonDetectRule = 'range') => {
  const site = siteOf(results);
  return sumColumns(resultsOf(site).used, [...levelSetsOf(site).values()], rule);
};

const FOUR = [
  detected('A', '67-66-3', 'Chloroform', '30'),
  detected('A', '75-27-4', 'Bromodichloromethane', '0.020', 'mg/L'),
  detected('A', '124-48-1', 'Dibromochloromethane', '15'),
  notDetected('A', '75-25-2', 'Bromoform', '5'),
];

describe('total trihalomethanes of a sample, 30 + 20 + 15 µg/L and one below 5', () => {
  test('are 65 to 70: over a site level of 60, under the federal 80', () => {
    const [column, ...more] = columnsOf(FOUR);
    expect(more).toEqual([]);
    expect(column?.levels).toEqual(['0.080 mg/L', '60 µg/L']);
    const sum = column?.sums.get('A');
    expect(sum?.against.map(({ verdict }) => verdict)).toEqual(['does-not-exceed', 'exceeds']);
    expect(sum?.against.map(sumTexts)).toEqual([
      { least: '0.0650 mg/L', most: '0.0700 mg/L', unbounded: false },
      { least: '65.0 µg/L', most: '70.0 µg/L', unbounded: false },
    ]);
  });

  test('by the rule chosen for the non-detect: 65, 67.5 or 70 µg/L', () => {
    const most = (rule: NonDetectRule) => {
      const second = columnsOf(FOUR, rule)[0]?.sums.get('A')?.against[1];
      return second && sumTexts(second);
    };
    expect(most('zero')).toEqual({ least: '65.0 µg/L', most: null, unbounded: false });
    expect(most('half the limit')?.least).toBe('67.5 µg/L');
    expect(most('the limit')?.least).toBe('70.0 µg/L');
  });

  test('with one part missing nothing bounds the most, and the sum cannot tell', () => {
    const [column] = columnsOf(FOUR.slice(0, 2));
    const [federal] = column?.sums.get('A')?.against ?? [];
    expect(federal?.verdict).toBe('cannot-tell');
    expect(federal && sumTexts(federal)).toMatchObject({ most: null, unbounded: true });
  });

  test('each sample has its own, and counts add up', () => {
    const [column] = columnsOf([...FOUR, detected('B', '67-66-3', 'Chloroform', '90')]);
    expect(column && sumCounts(column)).toMatchObject({ 'does-not-exceed': 1, exceeds: 1 });
    expect(column && totalOf(sumCounts(column))).toBe(2);
  });
});

test('a total the laboratory reports itself is not added again', () => {
  const parts = [
    detected('A', '179601-23-1', '"m,p-Xylene"', '3'),
    detected('A', '95-47-6', 'o-Xylene', '2'),
  ];
  expect(columnsOf(parts).map(({ rule }) => rule.name)).toEqual(['Xylenes (total)']);
  const total = detected('A', '1330-20-7', 'Xylenes (total)', '5');
  expect(columnsOf([...parts, total])).toEqual([]);
});

test('filtered and unfiltered are never added together', () => {
  const [first = '', ...others] = FOUR;
  const columns = columnsOf([first.replace('total', 'dissolved'), ...others]);
  expect(columns.map(({ fraction }) => fraction).toSorted()).toEqual(['dissolved', 'total']);
});

// 89 FR 32532, 26 April 2024: 4/10 + 800/2000 + 2/10 + 3/10 = 1.3 (computed independently).
test('the PFAS hazard index has its own level and says that a change is proposed', () => {
  const [column] = columnsOf([
    detected('A', '13252-13-6', 'HFPO-DA', '4', 'ng/L'),
    detected('A', '375-73-5', 'PFBS', '800', 'ng/L'),
    detected('A', '375-95-1', 'PFNA', '2', 'ng/L'),
    detected('A', '355-46-4', 'PFHxS', '3', 'ng/L'),
  ]);
  expect(column?.levels[0]).toBe('1, an index');
  expect(column && changeProposed(column.rule)).toContain('check whether it still stands');
  const [index] = column?.sums.get('A')?.against ?? [];
  expect(index?.verdict).toBe('exceeds');
  expect(index && sumTexts(index).least).toBe('1.30');
});

describe('what a person chose for the laboratory’s results', () => {
  test('comes back as it was written, and what cannot be read is named and usual again', () => {
    const chosen = {
      sums: 'half the limit' as const,
      sets: { Federal: { equalExceeds: true } },
      duplicates: { rpd: 20, farFromLimit: 5, differenceInLimits: 2 },
      boxes: { W: [12, -40] as const },
    };
    expect(readLabSettings(JSON.parse(JSON.stringify(chosen)))).toEqual({ lab: chosen, wrong: [] });
    expect(readLabSettings({ sums: 'a guess', clearBelow: 5 })).toEqual({
      lab: { clearBelow: 5 },
      wrong: ['lab.sums'],
    });
    expect(readLabSettings(undefined)).toEqual({ lab: null, wrong: [] });
    expect(readLabSettings('no')).toEqual({ lab: null, wrong: ['lab'] });
  });

  test('is kept in the descriptor of the site, and a wrong part is named with its place', () => {
    const { settings } = siteOf(FOUR);
    const lab = { sums: 'zero' as const, sets: { Site: { roundToLevel: true } } };
    const written = { downgradient: writeSettings({ ...settings, lab }) };
    const read = readSettings(JSON.parse(JSON.stringify(written)) as Record<string, unknown>);
    expect(read.settings.lab).toEqual(lab);
    const odd = { downgradient: { ...written.downgradient, lab: { sums: 'a guess' } } };
    const { problems } = readSettings(odd);
    expect(problems.map(({ column }) => column)).toContain('downgradient.lab.sums');
  });

  test('goes back to usual part by part', () => {
    const { lab } = withLab({ lab: { sums: 'zero', clearBelow: 5 } }, { sums: null });
    expect(lab).toEqual({ clearBelow: 5 });
  });

  test('“equal exceeds” and rounding hold for the set they were chosen for, and at once', () => {
    const site = siteOf([detected('A', '1330-20-7', 'Xylenes (total)', '10000')]);
    const verdict = (lab: NonNullable<typeof site.settings.lab>) => {
      const changed = { ...site, settings: { ...site.settings, lab } };
      const [reading] = resultsOf(changed).used;
      return reading && levelSetsOf(changed).get('Federal')?.judge(reading.reading).outcome.verdict;
    };
    expect(verdict({})).toBe('does-not-exceed');
    expect(verdict({ sets: { Federal: { equalExceeds: true } } })).toBe('exceeds');
    expect(verdict({ sets: { Site: { equalExceeds: true } } })).toBe('does-not-exceed');
    expect(rulesOfSet({ lab: {} }, 'constructor').equalExceeds).toBe(false);
  });
});
