import { describe, expect, test } from 'vitest';
import {
  duplicateOverSaid,
  samplesApartSaid,
} from '../../../src/domain/findings/lab/exceedance-words';
import { ASKED_AT_FIRST, askedOf } from '../../../src/domain/lab/asked-results';
import { duplicatesOver } from '../../../src/domain/lab/duplicates-over';
import { parentsNotFound } from '../../../src/domain/lab/sample-place';
import { sentenceOf } from '../../../src/domain/site/problem';
import { screensSampledAgain } from '../../../src/domain/lab/sample-rows';
import { samplesApart } from '../../../src/domain/lab/samples-apart';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import { firstWalk } from '../../../src/domain/walk/first-walk';
import { plain } from '../../../src/domain/walk/stop';
import { found, ofRule, one } from '../findings/a-site';
import { siteFrom } from '../site-from';

const LEVELS = 'Drinking water';
const SAMPLES = 'id,screen,event,time,kind,parent,matrix';
const FIELD = [
  'A,GP-01,E1,2025-10-14T14:05,field sample,,groundwater',
  'B,GP-02,E1,2025-10-14T15:05,field sample,,groundwater',
  'C,GP-03,E1,2025-10-15T14:05,field sample,,groundwater',
];
const vc = (sample: string, value: string) =>
  `${sample},75-01-4,Vinyl chloride,${value},µg/L,yes,0.5`;

/** Three push points sampled on two days; vinyl chloride against 2 µg/L, the federal maximum (40 CFR 141.61, value from memory). */
const tablesWith = (samples: readonly string[], results: readonly string[]) => ({
  events: ['id,first_day,last_day', 'E1,2025-10-14,2025-10-15'],
  locations: [
    'id,easting,northing,kind,status',
    ...[1, 2, 3].map((n) => `GP-0${n},${n * 100},${n * n * 10},direct push,pushed`),
  ],
  screens: ['id,location', ...[1, 2, 3].map((n) => `GP-0${n},GP-0${n}`)],
  decisions: ['what,on,reason', ...[1, 2, 3].map((n) => `clear point,GP-0${n},Ticket`)],
  samples: [SAMPLES, ...FIELD, ...samples],
  results: ['sample,cas,analyte,value,unit,detected,reporting_limit', ...results],
  screening_levels: [
    'set,cas,analyte,matrix,value,unit,edition,looked_up,chosen_by',
    `${LEVELS},75-01-4,Vinyl chloride,groundwater,2,µg/L,2025,2025-10-01,R.O.`,
  ],
});

const siteWith = (samples: readonly string[], results: readonly string[]) =>
  siteFrom(tablesWith(samples, results));

const CLEAN = [vc('A', '0.6'), vc('B', '0.7'), vc('C', '0.8')];

describe('a blind duplicate over a level', () => {
  const site = siteWith(
    ['DUP-1,,E1,2025-10-14T12:00,field duplicate,,groundwater'],
    [...CLEAN, vc('DUP-1', '3.32')],
  );

  test('may be of every point sampled on its day, and of none sampled on another', () => {
    const [over] = duplicatesOver(site, LEVELS, 'E1');
    expect(over).toMatchObject({ points: ['GP-01', 'GP-02'], by: 'day' });
    expect(over && duplicateOverSaid(over)).toBe(
      'DUP-1, a duplicate whose parent is not told, exceeds: Vinyl chloride 3.32 µg/L (level 2 µg/L). It repeats one of the points sampled on 2025-10-14, GP-01 and GP-02; the field samples of none of them exceed it.',
    );
  });

  test('has its level in the unit of the result, whatever the set is written in', () => {
    const inMilligrams = siteFrom({
      ...tablesWith(
        ['DUP-1,,E1,2025-10-14T12:00,field duplicate,,groundwater'],
        [...CLEAN, vc('DUP-1', '3.32')],
      ),
      screening_levels: [
        'set,cas,analyte,matrix,value,unit,edition,looked_up,chosen_by',
        `${LEVELS},75-01-4,Vinyl chloride,groundwater,0.002,mg/L,2025,2025-10-01,R.O.`,
      ],
    });
    const [over] = duplicatesOver(inMilligrams, LEVELS, 'E1');
    expect(over && duplicateOverSaid(over)).toContain('3.32 µg/L (level 2 µg/L)');
  });

  test('is a finding at these points', () => {
    const finding = one(found(site), 'duplicate exceeds');
    expect(finding).toMatchObject({ severity: 'caution', who: ['GP-01', 'GP-02'] });
    expect(finding.says).toContain('Vinyl chloride 3.32 µg/L');
  });

  test('is told on the walk, which calls nothing clean', () => {
    const stop = firstWalk(site, { event: 'E1', zone: null, levelSet: LEVELS }).find(
      ({ made }) => made === 'exceeds',
    );
    expect(stop?.title).toBe('Only a duplicate exceeds a screening level');
    expect(stop?.sentences.map(plain).join(' ')).toContain('DUP-1, a duplicate whose parent');
  });

  test('with a point that exceeds too, that point is named', () => {
    const hot = siteWith(
      ['DUP-1,,E1,2025-10-14T12:00,field duplicate,,groundwater'],
      [vc('A', '4'), ...CLEAN.slice(1), vc('DUP-1', '3.32')],
    );
    const [over] = duplicatesOver(hot, LEVELS, 'E1');
    expect(over && duplicateOverSaid(over)).toContain(
      'of these GP-01 exceeds it by its own sample',
    );
  });

  test('under its level it says nothing', () => {
    const quiet = siteWith(
      ['DUP-1,,E1,2025-10-14T12:00,field duplicate,,groundwater'],
      [...CLEAN, vc('DUP-1', '1.9')],
    );
    expect(duplicatesOver(quiet, LEVELS, 'E1')).toEqual([]);
    expect(ofRule(found(quiet), 'duplicate exceeds')).toEqual([]);
  });
});

describe('a duplicate that names its parent', () => {
  const named = (parent: string, screen = '') =>
    siteWith(
      [`DUP-1,${screen},E1,2025-10-14T12:00,field duplicate,${parent},groundwater`],
      [...CLEAN, vc('DUP-1', '3.32')],
    );

  test('needs no screen of its own: it is of its parent’s', () => {
    const site = named('B');
    expect(ofRule(found(site), 'duplicate and parent')).toEqual([]);
    expect(ofRule(found(site), 'duplicates without a parent')).toEqual([]);
    const result = judgedAgainst(site, LEVELS, { event: 'E1' }).find(({ row }) => row.sample === 'DUP-1'); // prettier-ignore
    expect(result?.location?.id).toBe('GP-02');
    const [over] = duplicatesOver(site, LEVELS, 'E1');
    expect(over && duplicateOverSaid(over)).toBe(
      'DUP-1 exceeds where B, which it repeats, does not: Vinyl chloride 3.32 µg/L (level 2 µg/L).',
    );
  });

  test('a screen of its own that is another is said, with both', () => {
    expect(one(found(named('B', 'GP-03')), 'duplicate and parent').says).toContain(
      'of another screen (GP-02, not GP-03)',
    );
  });

  test('a point in place of a sample is answered with the samples there, in its cell too', () => {
    expect(parentsNotFound(named('GP-02')).map(sentenceOf)).toEqual([
      'samples.csv, row 5, parent: expected the id of a sample, such as B, found “GP-02”.',
    ]);
    expect(parentsNotFound(named('B'))).toEqual([]);
    expect(one(found(named('GP-02')), 'duplicate and parent').says).toContain(
      'GP-02 is a point; its sample is B.',
    );
  });
});

describe('two field samples of one point that contradict each other', () => {
  const site = siteWith(
    ['C2,GP-03,E1,2025-10-15T14:05,field sample,,groundwater'],
    [vc('A', '0.6'), vc('B', '0.7'), vc('C', '9.23'), vc('C2', '1.03')],
  );
  const results = judgedAgainst(site, LEVELS, { event: 'E1', fieldSamples: true });

  test('are told with both values', () => {
    expect(samplesApart(results).map(samplesApartSaid)).toEqual([
      'GP-03 was sampled more than once, and one sample exceeds where another does not: Vinyl chloride 9.23 µg/L and 1.03 µg/L (level 2 µg/L).',
    ]);
    const stop = firstWalk(site, { event: 'E1', zone: null, levelSet: LEVELS }).find(
      ({ made }) => made === 'exceeds',
    );
    expect(stop?.sentences.map(plain).join(' ')).toContain('9.23 µg/L and 1.03 µg/L');
  });

  test('both over the level are no contradiction', () => {
    expect(samplesApart(results.filter(({ row }) => row.sample !== 'C2'))).toEqual([]);
  });

  test('the list of results says which sample a value is of, at that point alone', () => {
    expect([...screensSampledAgain(askedOf(site, 'E1', ASKED_AT_FIRST))]).toEqual(['GP-03']);
  });
});
