import { describe, expect, expectTypeOf, test } from 'vitest';
import { USUAL_RULES, type LevelInput, type SetRules } from '../../../src/domain/lab/level';
import { legendsFrom } from '../../../src/domain/lab/qualifiers';
import { resultReader, type ResultInput } from '../../../src/domain/lab/reading';
import { DECIMAL_POINT } from '../../../src/domain/lab/reported';
import { cautionsOf, levelSets, ratioToLevel, verdictOf } from '../../../src/domain/lab/screening';
import { VERDICT_WORDS, VERDICTS, type Verdict } from '../../../src/domain/lab/verdict';
import { verdictSentence } from '../../../src/domain/lab/verdict-words';
import type { Row } from '../../../src/domain/site/schema';
import { aLevel, aResult } from './a-result';

const verdict = (
  value: string | null,
  more: Partial<ResultInput> = {},
  level: LevelInput | null = aLevel(),
  rules: Partial<SetRules> = {},
): Verdict => verdictOf(aResult(value, more), level, { ...USUAL_RULES, ...rules }).outcome.verdict;

test('rows of the tables are results and levels as they stand', () => {
  expectTypeOf<Row<'results'>>().toExtend<ResultInput>();
  expectTypeOf<Row<'screening_levels'>>().toExtend<LevelInput>();
});

// The decision table of one result against one level is professional practice (no
// single published text); benzene, 5 µg/L, 40 CFR 141.61(a)(2).
describe('benzene against 5 µg/L', () => {
  test.each<[string, string | null, Partial<ResultInput>, Verdict]>([
    ['5.1 detected', '5.1', {}, 'exceeds'],
    ['5.0 detected: equal is not above', '5.0', {}, 'does-not-exceed'],
    ['0.3 detected', '0.3', {}, 'does-not-exceed'],
    ['7.2 J', '7.2', { lab_qualifier: 'J' }, 'exceeds-estimated'],
    ['7.2 J in the value’s own cell', '7.2 J', {}, 'exceeds-estimated'],
    ['2 J', '2', { lab_qualifier: 'J' }, 'does-not-exceed'],
    ['< 0.5', '<0.5', {}, 'not-detected'],
    ['< 5: the limit reaches the level', '<5', {}, 'not-detected'],
    ['< 25, diluted: it could be 10', '<25', {}, 'cannot-tell'],
    ['25 U', '25', { lab_qualifier: 'U' }, 'cannot-tell'],
    ['25 with detected = no', '25', { detected: false }, 'cannot-tell'],
    ['ND with a reporting limit of 1', 'ND', { reporting_limit: '1' }, 'not-detected'],
    [
      'a blank with U and a reporting limit of 1',
      null,
      { lab_qualifier: 'U', reporting_limit: '1' },
      'not-detected',
    ],
    ['ND with no limit: an error, not a zero', 'ND', {}, 'cannot-tell'],
    ['U with no number at all', null, { lab_qualifier: 'U' }, 'cannot-tell'],
    ['5 UJ: as U', '5 UJ', {}, 'not-detected'],
    ['6 UJ', '6 UJ', {}, 'cannot-tell'],
    ['12 R', '12', { lab_qualifier: 'R' }, 'rejected'],
    ['R alone', 'R', {}, 'rejected'],
    ['12 NJ: not confirmed to be benzene', '12', { lab_qualifier: 'NJ' }, 'not-comparable'],
    ['> 200', '>200', {}, 'exceeds'],
    ['> 4: it could be 6', '>4', {}, 'cannot-tell'],
    ['> 5', '>5', {}, 'cannot-tell'],
    ['210 E with no dilution: at least', '210', { lab_qualifier: 'E' }, 'exceeds-estimated'],
    ['4 E: over range under the level is no comfort', '4', { lab_qualifier: 'E' }, 'cannot-tell'],
    ['blank', '', {}, 'no-result'],
    ['blank with a limit beside it', null, { reporting_limit: '0.5' }, 'no-result'],
    ['not sampled', 'NS', {}, 'no-result'],
    ['detected, but no value', '', { detected: true }, 'no-result'],
    ['0: nobody measured that', '0', {}, 'no-result'],
    [
      '0 U with a reporting limit',
      '0',
      { lab_qualifier: 'U', reporting_limit: '1' },
      'not-detected',
    ],
    ['-9999', '-9999', {}, 'no-result'],
    ['a word', 'trace', {}, 'no-result'],
    ['0,5 in a file with decimal points', '0,5', {}, 'no-result'],
    ['1,200', '1,200', {}, 'exceeds'],
    ['12 in a unit nobody knows', '12', { unit: 'lb/gal' }, 'not-comparable'],
    ['12 in no unit', '12', { unit: null }, 'not-comparable'],
    ['12 pCi/L', '12', { unit: 'pCi/L' }, 'not-comparable'],
    ['12 MFL', '12', { unit: 'MFL' }, 'not-comparable'],
    ['12 mg/kg of soil', '12', { unit: 'mg/kg' }, 'not-comparable'],
  ])('%s', (_, value, more, expected) => {
    expect(verdict(value, more)).toBe(expected);
  });

  test('no level, no verdict, whatever the result', () => {
    for (const value of ['7', '<1', 'R', '', 'trace'])
      expect(verdict(value, {}, null)).toBe('no-level');
  });
});

describe('the numbers are as good as equal', () => {
  test('5.0 µg/L does not exceed 0.005 mg/L', () => {
    expect(verdict('5.0', {}, aLevel('0.005', 'mg/L'))).toBe('does-not-exceed');
  });
  test('4.9 µg/L does not exceed 0.0049 mg/L, which in binary is 4.8999999999999995 µg/L', () => {
    expect(0.0049 * 1000).toBeLessThan(4.9);
    expect(verdict('4.9', {}, aLevel('0.0049', 'mg/L'))).toBe('does-not-exceed');
    expect(verdict('<4.9', {}, aLevel('0.0049', 'mg/L'))).toBe('not-detected');
  });
  test('a hair above is above', () => {
    expect(verdict('5.00000000000000001', {}, aLevel('0.005', 'mg/L'))).toBe('exceeds');
    expect(verdict('4.99999999999999999', {}, aLevel('0.005', 'mg/L'))).toBe('does-not-exceed');
  });
});

describe('which limit decides a non-detect', () => {
  const limits = { lab_qualifier: 'U', detection_limit: '0.4', reporting_limit: '8' };
  test('the reporting limit, unless the set says otherwise', () => {
    expect(verdict('8', limits)).toBe('cannot-tell');
    expect(verdict('8', limits, aLevel(), { decides: 'detection limit' })).toBe('not-detected');
    expect(verdict('8', limits, aLevel('5', 'µg/L', { decides: 'detection limit' }))).toBe(
      'not-detected',
    );
    expect(verdict('0.4', limits)).toBe('cannot-tell');
  });
  test('a limit raised by dilution is not hidden by the one in the column', () => {
    expect(verdict('<25', { reporting_limit: '1', detection_limit: '0.2' })).toBe('cannot-tell');
    const rules = { decides: 'detection limit' } as const;
    expect(verdict('<25', { reporting_limit: '1', detection_limit: '0.2' }, aLevel(), rules)).toBe(
      'cannot-tell',
    );
  });
  test('a column that cannot be read is not passed over for a smaller one', () => {
    expect(verdict('ND', { reporting_limit: 'see report', detection_limit: '0.2' })).toBe(
      'cannot-tell',
    );
  });
  test('nor one beside a result that states its own', () => {
    expect(verdict('<2', { reporting_limit: 'see report' })).toBe('cannot-tell');
  });
  test('a detection made a non-detect stands at its value, though that is the reporting limit', () => {
    const raised = { detected: true, validation_qualifier: 'U', reporting_limit: '12' };
    const rules = { decides: 'detection limit' } as const;
    expect(verdict('12', { ...raised, detection_limit: '0.2' }, aLevel(), rules)).toBe(
      'cannot-tell',
    );
  });
  test('where only the other limit is given it serves, and that is said', () => {
    const judged = verdictOf(aResult('ND', { detection_limit: '0.2' }), aLevel());
    expect(judged.outcome.verdict).toBe('not-detected');
    expect(cautionsOf(judged)).toContain('judged by another limit than the one that decides');
  });
});

describe('laboratory and validator', () => {
  test('a detection the validator turned into a non-detect is one at its own value', () => {
    const blankContaminated = { validation_qualifier: 'U', reporting_limit: '1', detected: true };
    expect(verdict('12', blankContaminated)).toBe('cannot-tell');
    expect(verdict('3', blankContaminated)).toBe('not-detected');
  });
  test('the validator’s R stands over the laboratory’s J, and the validator’s J over its R', () => {
    expect(verdict('12', { lab_qualifier: 'J', validation_qualifier: 'R' })).toBe('rejected');
    expect(verdict('12', { lab_qualifier: 'R', validation_qualifier: 'J' })).toBe(
      'exceeds-estimated',
    );
  });
  test('a letter that contradicts the column “detected” is not settled by us', () => {
    const judged = verdictOf(aResult('12', { lab_qualifier: 'U', detected: true }), aLevel());
    expect(judged.outcome.verdict).toBe('no-result');
    expect(verdictSentence(judged)).toBe(
      'no result: Expected a detection, as the column “detected” says, found “12”.',
    );
    expect(verdict('>200', { detected: false })).toBe('no-result');
  });
  test('E means what the laboratory says', () => {
    const legends = legendsFrom([
      { laboratory: 'USGS', letter: 'E', meaning: 'estimated', source: null },
    ]);
    const read = resultReader({ dress: DECIMAL_POINT, ...legends('USGS') });
    const judged = verdictOf(aResult('4', { lab_qualifier: 'E' }), aLevel(), USUAL_RULES, read);
    expect(judged.outcome.verdict).toBe('does-not-exceed');
    expect(cautionsOf(judged)).toEqual(['estimated']);
  });
  test('a letter nobody explains leaves the number and a caution', () => {
    const judged = verdictOf(aResult('4', { lab_qualifier: 'Q' }), aLevel());
    expect(judged.outcome.verdict).toBe('does-not-exceed');
    expect(cautionsOf(judged)).toEqual(['letters not in the legend']);
    expect(judged.reading.unknownLetters).toEqual(['Q']);
  });
});

describe('options of a set', () => {
  test('equal counts as exceeding only where the set says so', () => {
    expect(verdict('5', {}, aLevel(), { equalExceeds: true })).toBe('exceeds');
    expect(verdict('5 J', {}, aLevel(), { equalExceeds: true })).toBe('exceeds-estimated');
    expect(verdict('>5', {}, aLevel(), { equalExceeds: true })).toBe('exceeds');
    expect(verdict('<5', {}, aLevel(), { equalExceeds: true })).toBe('not-detected');
  });
  // Rounding to the level's digits as drinking-water compliance does: value from memory.
  test('0.0054 mg/L exceeds 0.005 unless rounded to its digits, 0.0055 either way', () => {
    const level = aLevel('0.005', 'mg/L');
    const rounded = { roundToLevel: true };
    expect(verdict('0.0054', { unit: 'mg/L' }, level)).toBe('exceeds');
    expect(verdict('0.0054', { unit: 'mg/L' }, level, rounded)).toBe('does-not-exceed');
    expect(verdict('5.4', {}, level, rounded)).toBe('does-not-exceed');
    expect(verdict('5.5', {}, level, rounded)).toBe('exceeds');
    expect(verdict('<5.4', {}, level, rounded)).toBe('cannot-tell');
  });
  test('rounding in Bq/L against a level in pCi/L is done in pCi/L', () => {
    const level = aLevel('5', 'pCi/L');
    const rounded = { roundToLevel: true };
    // 5.4 pCi/L = 0.1998 Bq/L, 5.5 pCi/L = 0.2035 Bq/L
    expect(verdict('0.1998', { unit: 'Bq/L' }, level, rounded)).toBe('does-not-exceed');
    expect(verdict('0.2035', { unit: 'Bq/L' }, level, rounded)).toBe('exceeds');
  });
});

describe('the unit traps', () => {
  const nitrate = { cas: '14797-55-8', analyte: 'Nitrate' };
  const asN = aLevel('10', 'mg/L as N', nitrate);
  test('44 mg/L as the ion is never compared with 10 mg/L as nitrogen', () => {
    const ion = { ...nitrate, unit: 'mg/L as NO3' };
    expect(verdict('44', ion, asN)).toBe('not-comparable');
    expect(verdict('44', { ...nitrate, analyte: 'Nitrate as NO3', unit: 'mg/L' }, asN)).toBe(
      'not-comparable',
    );
    expect(verdict('12', { ...nitrate, unit: 'mg/L as N' }, asN)).toBe('exceeds');
    expect(verdict('12', { ...nitrate, analyte: 'Nitrate-N', unit: 'mg/L' }, asN)).toBe('exceeds');
  });
  test('nitrate in plain mg/L says neither, and is not compared, even with its like', () => {
    const judged = verdictOf(aResult('44', { ...nitrate, unit: 'mg/L' }), asN);
    expect(judged.outcome).toEqual({ verdict: 'not-comparable', reason: 'basis not stated' });
    expect(verdict('44', { ...nitrate, unit: 'mg/L' }, aLevel('10', 'mg/L', nitrate))).toBe(
      'not-comparable',
    );
  });
  test('12 ppb is 12 µg/L in dilute water, and the caution says so', () => {
    const judged = verdictOf(aResult('12', { unit: 'ppb' }), aLevel());
    expect(judged.outcome.verdict).toBe('exceeds');
    expect(cautionsOf(judged)).toEqual([
      'parts per million or billion taken as mass per litre of dilute water',
    ]);
  });
  test('12 ppb of soil is not compared with a level for water', () => {
    expect(verdict('12', { unit: 'ppb', matrix: 'soil' })).toBe('not-comparable');
  });
  // A state agency's page printed 104 µg/L for total xylenes: 10⁴ without its raised 4.
  // 40 CFR 141.61(a)(18) has 10 mg/L.
  test('a page that lost an exponent: 500 µg/L of xylenes does not exceed 10 mg/L, and would 104 µg/L', () => {
    const xylenes = { cas: '1330-20-7', analyte: 'Xylenes (total)' };
    expect(verdict('500', xylenes, aLevel('10', 'mg/L', xylenes))).toBe('does-not-exceed');
    expect(verdict('500', xylenes, aLevel('104', 'ug/L', xylenes))).toBe('exceeds');
    // Written with its sign of power it is not a number we take for another.
    expect(verdict('500', xylenes, aLevel('10^4', 'ug/L', xylenes))).toBe('not-comparable');
    expect(verdict('500', xylenes, aLevel('1E4', 'ug/L', xylenes))).toBe('does-not-exceed');
  });
  test('a level that is a range is not one level', () => {
    expect(verdict('0.1', { unit: 'mg/L' }, aLevel('0.05-0.2', 'mg/L'))).toBe('not-comparable');
  });
  test('counting radioactivity may end below zero, and that does not exceed', () => {
    const tritium = { cas: '10028-17-8', analyte: 'Tritium', unit: 'pCi/L' };
    expect(verdict('-12', tritium, aLevel('20000', 'pCi/L', tritium))).toBe('does-not-exceed');
    expect(verdict('0', tritium, aLevel('20000', 'pCi/L', tritium))).toBe('does-not-exceed');
  });
});

describe('filtered and total, water and soil', () => {
  const arsenic = { cas: '7440-38-2', analyte: 'Arsenic' };
  const set = (...levels: LevelInput[]) => levelSets(levels).get('A')!;
  const read = resultReader();
  const at = (value: string, fraction: 'total' | 'dissolved' | null) => ({
    ...arsenic,
    fraction,
    value,
    set: 'A',
  });

  test('a level for the total is not used for the filtered sample, nor for one that does not say', () => {
    const total = set(aLevel('10', 'µg/L', at('10', 'total')));
    const of = (fraction: 'total' | 'dissolved' | null) =>
      total.judge(read(aResult('12', { ...arsenic, fraction }))).outcome;
    expect(of('total').verdict).toBe('exceeds');
    expect(of('dissolved')).toEqual({ verdict: 'not-comparable', reason: 'different fraction' });
    expect(of(null)).toEqual({ verdict: 'not-comparable', reason: 'different fraction' });
  });
  test('each fraction meets its own level where a set has both, and the one for any otherwise', () => {
    const both = set(
      aLevel('10', 'µg/L', at('10', 'total')),
      aLevel('20', 'µg/L', at('20', 'dissolved')),
      aLevel('30', 'µg/L', at('30', null)),
    );
    const level = (fraction: 'total' | 'dissolved' | null) =>
      both.levelFor(read(aResult('12', { ...arsenic, fraction }))).level?.input.value;
    expect([level('total'), level('dissolved'), level(null)]).toEqual(['10', '20', '30']);
  });
  test('a level for surface water is not used for groundwater, though the unit fits', () => {
    const surface = aLevel('10', 'µg/L', { ...arsenic, matrix: 'surface water' });
    const judged = verdictOf(aResult('12', { ...arsenic, matrix: 'groundwater' }), surface);
    expect(judged.outcome).toEqual({ verdict: 'not-comparable', reason: 'different matrix' });
    expect(verdict('12', { ...arsenic, matrix: 'Surface water' }, surface)).toBe('exceeds');
  });
  test('a level for water covers groundwater; one for soil does not', () => {
    const groundwater = { ...arsenic, matrix: 'groundwater' };
    expect(verdict('12', groundwater, aLevel('10', 'µg/L', { ...arsenic, matrix: 'water' }))).toBe(
      'exceeds',
    );
    expect(verdict('12', groundwater, aLevel('10', 'mg/kg', { ...arsenic, matrix: 'soil' }))).toBe(
      'not-comparable',
    );
  });
});

describe('ratio to the level', () => {
  const ratio = (value: string, more: Partial<ResultInput> = {}) =>
    ratioToLevel(verdictOf(aResult(value, more), aLevel('0.005', 'mg/L')));
  test('of a value, of a limit, of the least it can be', () => {
    expect(ratio('12')).toEqual({ value: 2.4, of: 'value' });
    expect(ratio('<25')).toEqual({ value: 5, of: 'limit' });
    expect(ratio('>200')).toEqual({ value: 40, of: 'at least' });
  });
  test('none where nothing was compared', () => {
    expect(ratio('R')).toBeNull();
    expect(ratio('')).toBeNull();
    expect(ratio('12', { unit: 'pCi/L' })).toBeNull();
    expect(ratio('ND')).toBeNull();
  });
});

test('there are nine verdicts, each with its words, and none of them says clean', () => {
  expect(VERDICTS).toHaveLength(9);
  expect(new Set(Object.values(VERDICT_WORDS)).size).toBe(9);
  expect(VERDICT_WORDS['cannot-tell']).toBe('limit exceeds level (cannot tell)');
  expect(JSON.stringify(VERDICT_WORDS)).not.toMatch(/clean/i);
});

test.each([
  ['7.2', 'exceeds: 7.2 µg/L is above the level of 5 µg/L.'],
  ['5', 'does not exceed: 5 µg/L equals the level of 5 µg/L; equal is not above.'],
  [
    '<25',
    'limit exceeds level (cannot tell): Not detected, but the limit of 25 µg/L is above the level of 5 µg/L: it could exceed.',
  ],
  [
    'ND',
    'limit exceeds level (cannot tell): Not detected, but no limit is given that can be read.',
  ],
  ['', 'no result: No result is given.'],
])('“%s” in words', (value, sentence) => {
  expect(verdictSentence(verdictOf(aResult(value), aLevel()))).toBe(sentence);
});
