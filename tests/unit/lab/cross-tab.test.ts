import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { ASKED_AT_FIRST, askedOf, choicesIn } from '../../../src/domain/lab/asked-results';
import { resultsIn, resultsOf } from '../../../src/domain/lab/site-results';
import { groupBy } from '../../../src/domain/group';
import { crossTab } from '../../../src/domain/lab/cross-tab';
import type { LevelInput } from '../../../src/domain/lab/level';
import { levelSets } from '../../../src/domain/lab/screening';
import { listed } from '../../../src/domain/lab/selection';
import { levelSetsOf } from '../../../src/domain/lab/site-results';
import { countVerdicts } from '../../../src/domain/lab/worst';
import { cellText } from '../../../src/domain/site/table';
import { readCsv } from '../../../src/io/csv';
import { openFolder } from '../folder';
import { siteFrom } from '../site-from';

const site = siteFrom({
  locations: [
    'id,easting,northing,kind,status',
    'DP-1,0,0,direct push,pushed',
    'DP-2,50,0,direct push,pushed',
  ],
  screens: [
    'id,location,tip_depth,zone',
    'DP-1-S1,DP-1,10,shallow',
    'DP-1-S2,DP-1,30,deep',
    'DP-2-S1,DP-2,10,shallow',
  ],
  events: ['id,first_day,last_day', 'E1,2025-01-01,2025-01-02', 'E2,2025-06-01,2025-06-02'],
  samples: [
    'id,screen,event,kind,matrix,laboratory',
    'A,DP-1-S1,E1,field sample,groundwater,Lab A',
    'B,DP-1-S2,E1,field sample,groundwater,Lab B',
    'C,DP-2-S1,E1,field duplicate,groundwater,Lab A',
    'D,,E1,trip blank,water,Lab A',
    'E,DP-2-S1,E2,field sample,groundwater,Lab A',
  ],
  results: [
    'sample,cas,analyte,fraction,method,run,value,unit,lab_qualifier,validation_qualifier,reporting_limit',
    'A,71-43-2,Benzene,,M1,,12,µg/L,,,1',
    'A,71-43-2,Benzene,,M2,,3,µg/L,,,1',
    'A,108-88-3,Toluene,,M1,,1,µg/L,U,,1',
    'B,71-43-2,Benzene,,M1,,7,µg/L,E,J,1',
    'C,71-43-2,Benzene,,M1,,25,µg/L,U,UJ,25',
    'D,71-43-2,Benzene,,M1,,1,µg/L,U,,1',
    'E,7439-92-1,Lead,dissolved,M3,,2,µg/L,,,1',
  ],
  screening_levels: [
    'set,cas,analyte,value,unit',
    'One,71-43-2,Benzene,5,µg/L',
    'One,108-88-3,Toluene,1,mg/L',
    'Two,71-43-2,Benzene,0.05,mg/L',
  ],
  qualifier_legends: ['laboratory,letter,meaning', 'Lab B,E,estimated'],
});
const sets = ['One', 'Two'].flatMap((name) => levelSetsOf(site).get(name) ?? []);

describe('which results are asked for', () => {
  const analytes = (asked: Partial<typeof ASKED_AT_FIRST>, event = 'E1') =>
    listed(askedOf(site, event, { ...ASKED_AT_FIRST, ...asked })).map(
      ({ row }) => row.sample + row.method,
    );

  test('at first: field samples of the event', () => {
    expect(analytes({})).toEqual(['AM1', 'AM2', 'AM1', 'BM1']);
  });
  test('by event, zone, matrix, group and kind of sample', () => {
    expect(analytes({ allEvents: true }).at(-1)).toBe('EM3');
    expect(analytes({ zone: 'deep' })).toEqual(['BM1']);
    expect(analytes({ samples: 'all samples', matrix: 'water' })).toEqual(['DM1']);
    expect(analytes({ samples: 'all samples' })).toHaveLength(6);
    expect(analytes({ group: 'Metals' })).toEqual([]);
    expect(analytes({ group: 'Metals', allEvents: true })).toEqual(['EM3']);
  });
  test('of an event alone they are what is read of the whole table', () => {
    for (const event of new Set([...site.samples.values()].map((sample) => sample.event)))
      expect(resultsIn(site, event).used).toEqual(
        resultsOf(site).used.filter(({ sample }) => sample.event === event),
      );
  });
  test('every choice offered has results', () => {
    expect(choicesIn(site)).toEqual({
      zones: ['deep', 'shallow'],
      matrices: ['groundwater', 'water'],
      groups: ['BTEX', 'Metals'],
    });
  });
});

describe('samples by analytes', () => {
  const everything = { ...ASKED_AT_FIRST, samples: 'all samples', allEvents: true } as const;
  const tab = crossTab(listed(askedOf(site, 'E1', everything)), sets, site.qualifierLegends);
  const rowOf = (sample: string) => tab.rows.find((row) => row.sample === sample)!;

  test('columns with most exceedances first, each with its level in every set', () => {
    expect(tab.columns.map(({ analyte, fraction }) => [analyte, fraction])).toEqual([
      ['Benzene', null],
      ['Toluene', null],
      ['Lead', 'dissolved'],
    ]);
    expect(tab.columns[0]?.levels.map((level) => level?.input.value)).toEqual(['5', '0.05']);
    expect(tab.columns[2]?.levels).toEqual([null, null]);
  });

  test('rows by point and depth, blanks last', () => {
    expect(tab.rows.map(({ sample }) => sample)).toEqual(['A', 'B', 'C', 'E', 'D']);
  });

  test('a value is as reported with its unit; the worse of two stands and the other is counted', () => {
    expect(rowOf('A').cells[0]).toMatchObject({ text: '12 µg/L', others: 1, ratio: '2.4 ×' });
    expect(rowOf('C').cells[0]).toMatchObject({
      text: '<25 µg/L',
      letters: 'U · UJ',
      ratio: '<5.0 ×',
    });
    expect(rowOf('C').cells[0]?.judged.map(({ outcome }) => outcome.verdict)).toEqual([
      'cannot-tell',
      'not-detected',
    ]);
    expect(rowOf('E').cells[0]).toBeNull();
  });

  test('every letter used has a footnote, and one letter means what its laboratory says', () => {
    const used = tab.rows.flatMap(({ cells }) => cells.flatMap((cell) => cell?.notes ?? []));
    expect([...new Set(used)].toSorted()).toEqual(tab.footnotes.map(({ number }) => number));
    expect(tab.footnotes.map(({ letters, says }) => `${letters}: ${says}`)).toEqual([
      'U: not detected at the limit shown (Lab A)',
      'E: estimated (Lab B)',
      'J: estimated (validation)',
      'UJ: not detected at the limit shown; estimated (validation)',
    ]);
  });
});

/**
 * INL south-west (R package inldata 1.2.5, USGS, CC0) against the federal set
 * that comes with the app, units converted. Its own levels compare 1,309 field
 * results. The totals and the difference were counted from a listing by analyte.
 */
describe('real wells against the federal set that comes with the app', () => {
  const inl = openFolder('tests/fixtures/inl-southwest/site').site;
  const { table } = readCsv(readFileSync('src/io/levels/federal-drinking-water-2024.csv', 'utf8'));
  const rows = Array.from({ length: table.size }, (_, row) =>
    Object.fromEntries(
      table.columns.map((column) => [column, cellText(table, row, column) || null]),
    ),
  );
  const [federal] = levelSets(rows as unknown as LevelInput[]).values();
  const [own] = levelSetsOf(inl).values();
  const field = listed(askedOf(inl, null, ASKED_AT_FIRST)).map(({ row, reading }) => ({
    analyte: row.analyte,
    federal: federal!.judge(reading).outcome.verdict,
    own: own!.judge(reading).outcome.verdict,
  }));

  test('24 exceed, 239 do not, 769 are not detected; 2,179 of 3,211 have no level there', () => {
    expect(countVerdicts(field.map((one) => one.federal))).toEqual({
      exceeds: 24,
      'exceeds-estimated': 0,
      'does-not-exceed': 239,
      'not-detected': 769,
      'cannot-tell': 0,
      rejected: 0,
      'not-comparable': 0,
      'no-level': 2179,
      'no-result': 0,
    });
  });

  test('the 277 fewer are trihalomethanes one by one and two radionuclides; no verdict else differs', () => {
    // The federal set has a level for the sum of trihalomethanes only, and for these no
    // concentration: tritium and strontium-90 go by a dose. Milligrams turned to micrograms
    // change no verdict.
    const differing = field.filter((one) => one.own !== one.federal);
    expect(differing.every((one) => one.federal === 'no-level')).toBe(true);
    const counts = [...groupBy(differing, ({ analyte }) => analyte)].map(([analyte, of]) => [
      analyte,
      of.length,
    ]);
    expect(Object.fromEntries(counts)).toEqual({
      Chloroform: 44,
      Dichlorobromomethane: 44,
      Chlorodibromomethane: 44,
      Tribromomethane: 44,
      Tritium: 71,
      'Strontium-90': 30,
    });
  });
});
