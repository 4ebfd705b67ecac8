import { describe, expect, test } from 'vitest';
import {
  covers,
  levelFinder,
  levelFrom,
  USUAL_RULES,
  type LevelInput,
  type SetRules,
} from '../../../src/domain/lab/level';
import { addLevel, EMPTY_LEVEL, type LevelDraft } from '../../../src/domain/lab/level-draft';
import { chosenRuns } from '../../../src/domain/lab/runs';
import { resultReader, valueOf, type ResultInput } from '../../../src/domain/lab/reading';
import { cautionsOf, levelSets, ratioToLevel, verdictOf } from '../../../src/domain/lab/screening';
import { becauseOf, levelText, verdictSentence } from '../../../src/domain/lab/verdict-words';
import { verdictWork } from '../../../src/domain/lab/verdict-work';
import { worstBy } from '../../../src/domain/lab/worst';
import { worstByScreen } from '../../../src/domain/lab/worst-by-screen';
import { siteFrom } from '../site-from';
import { aLevel, aResult } from './a-result';

const judged = (
  value: string | null,
  more: Partial<ResultInput> = {},
  level: LevelInput | null = aLevel(),
  rules: Partial<SetRules> = {},
) => verdictOf(aResult(value, more), level, { ...USUAL_RULES, ...rules });
const because = (...of: Parameters<typeof judged>) => becauseOf(judged(...of));
const NITRATE = { cas: '14797-55-8', analyte: 'Nitrate' };

describe('why a verdict is what it is, in a sentence with its numbers', () => {
  test.each<[string, Parameters<typeof judged>]>([
    ['7.2 µg/L is above the level of 5 µg/L.', ['7.2']],
    ['5 µg/L equals the level of 5 µg/L; equal is not above.', ['5']],
    ['5 µg/L equals the level of 5 µg/L, which in this set counts as exceeding.', ['5', {}, aLevel(), { equalExceeds: true }]],
    ['0.3 µg/L is below the level of 5 µg/L.', ['0.3']],
    ['It is at least 200 µg/L, above the level of 5 µg/L.', ['>200']],
    ['It is at least 4 µg/L, which is not above the level of 5 µg/L: it could exceed.', ['>4']],
    ['7.2 µg/L, estimated, is above the level of 5 µg/L.', ['7.2 J']],
    ['5 µg/L, estimated, is above the level of 5 µg/L.', ['5 J', {}, aLevel(), { equalExceeds: true }]],
    ['200 µg/L, estimated, is above the level of 5 µg/L.', ['>200 J']],
    ['It is over the calibration range, at least about 210 µg/L: above the level of 5 µg/L.', ['210 E']],
    ['It is over the calibration range, at least about 4 µg/L, with no dilution run to use: it could exceed 5 µg/L.', ['4 E']],
    ['Not detected; the limit of 0.5 µg/L is not above the level of 5 µg/L.', ['<0.5']],
    ['Not detected, but the limit of 25 µg/L is above the level of 5 µg/L: it could exceed.', ['<25']],
    ['Not detected, but no limit is given that can be read.', ['ND']],
    ['Rejected: not usable for any purpose; a data gap.', ['12 R']],
    ['The compound is only tentatively identified, so it is not screened under this name.', ['12 NJ']],
    ['The unit, lb/gal, is not one we can compare.', ['12', { unit: ' lb/gal ' }]],
    ['The unit, blank, is not one we can compare.', ['12', { unit: null }]],
    ['The unit, blank, is not one we can compare.', ['12', { unit: '  ' }]],
    ['The level, see note µg/L, is not one number above zero in a unit we know.', ['12', {}, aLevel(' see note ')]],
    ['A result in mg/kg cannot be compared with a level of 5 µg/L.', ['12', { unit: 'mg/kg' }]],
    ['The level is for the dissolved fraction; this result is total.', ['12', { fraction: 'total' }, aLevel('5', 'µg/L', { fraction: 'dissolved' })]],
    ['The level is for the dissolved fraction; this result is of a fraction not stated.', ['12', {}, aLevel('5', 'µg/L', { fraction: 'dissolved' })]],
    ['The level is for soil; this sample is groundwater.', ['12', { matrix: 'groundwater' }, aLevel('5', 'µg/kg', { matrix: 'soil' })]],
    ['No level has been chosen for this analyte.', ['12', {}, null]],
    ['No result is given.', ['']],
    ['Marked as detected, but without a value.', ['', { detected: true }]],
    ['Reported as 0 with no limit: not a concentration that was measured.', ['0']],
    ['Expected a result such as 5.2, <0.5, ND, 0.5 U or >200, found “trace”.', [' trace ']],
    ['Expected a concentration above zero, found “-3”.', ['-3']],
    ['The result is counted as NO3, the level as N; they are not turned into one another.', ['12', { ...NITRATE, unit: 'mg/L as NO3' }, aLevel('10', 'mg/L as N', NITRATE)]],
    ['The result is counted as two things at once, the level as N; they are not turned into one another.', ['12', { cas: '14797-55-8', analyte: 'Nitrate as N', unit: 'mg/L as NO3' }, aLevel('10', 'mg/L as N', NITRATE)]],
    ['It is not said what both count (nitrogen or the whole ion), so they cannot be compared.', ['12', { ...NITRATE, unit: 'mg/L' }, aLevel('10', 'mg/L as N', NITRATE)]],
    ['It is not said what both count (nitrogen or the whole ion), so they cannot be compared.', ['12', { ...NITRATE, unit: 'mg/L as N' }, aLevel('10', 'mg/L', NITRATE)]],
    ['It is not said what both count (nitrogen or the whole ion), so they cannot be compared.', ['12', { ...NITRATE, unit: 'mg/L' }, aLevel('10', 'mg/L', NITRATE)]],
  ])('%s', (sentence, of) => expect(because(...of)).toBe(sentence)); // prettier-ignore

  test('the verdict stands before it; room around a unit or a level is not printed', () => {
    expect(verdictSentence(judged('7.2', { unit: ' µg/L ' }, aLevel(' 5 ', ' µg/L ')))).toBe(
      'exceeds: 7.2 µg/L is above the level of 5 µg/L.',
    );
    expect(levelText(levelFrom(aLevel(' 0.005 ', ' mg/L ')))).toBe('0.005 mg/L');
  });

  test('both counted in two ways at once are not compared, however alike', () => {
    const twofold = { cas: '14797-55-8', analyte: 'Nitrate as N' };
    const found = judged(
      '12',
      { ...twofold, unit: 'mg/L as NO3' },
      aLevel('10', 'mg/L as NO3', twofold),
    );
    expect(found.outcome).toEqual({ verdict: 'not-comparable', reason: 'different basis' });
  });

  test('a reading that came without its reason cannot be read, and that is all that is said', () => {
    const one = judged('trace');
    expect(becauseOf({ ...one, reading: { ...one.reading, why: null } })).toBe(
      'The result cannot be read.',
    );
  });
});

describe('rounded to the level’s last place, as compliance is reckoned (value from memory)', () => {
  const at = (value: string, level = aLevel('0.005', 'mg/L'), more: Partial<SetRules> = {}) =>
    judged(value, {}, level, { roundToLevel: true, ...more }).outcome.verdict;

  test('5.4 µg/L counts as 0.005 mg/L, 5.5 µg/L as 0.006 mg/L', () => {
    expect(at('5.4')).toBe('does-not-exceed');
    expect(at('5.5')).toBe('exceeds');
    expect(judged('5.4').outcome.verdict).toBe('exceeds');
  });

  test('a non-detect is not rounded', () => {
    expect(at('<5.4')).toBe('cannot-tell');
    expect(at('<5')).toBe('not-detected');
  });

  test('a level without places rounds to whole numbers', () => {
    expect(at('5.4', aLevel('5'))).toBe('does-not-exceed');
    expect(at('5.4', aLevel('5.0'))).toBe('exceeds');
  });
});

describe('where equal counts as exceeding', () => {
  const at = (value: string) => judged(value, {}, aLevel(), { equalExceeds: true }).outcome;

  test('a value below the level still does not, however close', () => {
    expect(at('4.9').reason).toBe('value below level');
    expect(at('4.99999999999999999').verdict).toBe('does-not-exceed');
    expect(at('5.0').verdict).toBe('exceeds');
    expect(at('0.3 J').verdict).toBe('does-not-exceed');
  });

  test('at least a value below it could exceed, over range too; a limit at it is not above', () => {
    expect(at('>4').reason).toBe('at least a value not above level');
    expect(at('>5').verdict).toBe('exceeds');
    expect(at('4 E').reason).toBe('over range, not above level');
    expect(at('<5').verdict).toBe('not-detected');
  });
});

describe('which level is for a result', () => {
  const of = (more: Partial<LevelInput>, value: string) => levelFrom(aLevel(value, 'µg/L', more));
  const read = resultReader();
  const find = (levels: ReturnType<typeof levelFrom>[], more: Partial<ResultInput> = {}) => {
    const { level, misfit } = levelFinder(levels)(read(aResult('7', more)));
    return [level?.input.value ?? null, misfit];
  };

  test('the one of its fraction, then that of its matrix, then any; in whatever order they are listed', () => {
    const levels = [
      of({}, '1'),
      of({ matrix: 'water' }, '2'),
      of({ fraction: 'total' }, '3'),
      of({ fraction: 'total', matrix: 'water' }, '4'),
    ];
    for (const listed of [levels, levels.toReversed()]) {
      expect(find(listed, { fraction: 'total', matrix: 'groundwater' })).toEqual(['4', null]);
      expect(find(listed, { fraction: 'total', matrix: 'soil' })).toEqual(['3', null]);
      expect(find(listed, { fraction: 'dissolved', matrix: 'groundwater' })).toEqual(['2', null]);
      expect(find(listed, { fraction: 'dissolved', matrix: 'soil' })).toEqual(['1', null]);
    }
  });

  test('one that names the fraction comes before one that names the matrix', () => {
    const levels = [of({ matrix: 'water' }, '2'), of({ fraction: 'total' }, '3')];
    expect(find(levels, { fraction: 'total', matrix: 'groundwater' })).toEqual(['3', null]);
  });

  test('where none fits it is said which, and a fraction that does not fit before a matrix that does not', () => {
    const soil = of({ matrix: 'soil' }, '1');
    const sludge = of({ matrix: 'sludge' }, '2');
    const dissolved = of({ fraction: 'dissolved' }, '3');
    expect(find([soil], { matrix: 'groundwater' })).toEqual(['1', 'matrix']);
    expect(find([soil, sludge], { matrix: 'groundwater' })).toEqual(['1', 'matrix']);
    expect(find([dissolved], { fraction: 'total' })).toEqual(['3', 'fraction']);
    expect(find([dissolved, soil], { fraction: 'total', matrix: 'groundwater' })).toEqual([
      '3',
      'fraction',
    ]);
    expect(find([], {})).toEqual([null, null]);
    // A sample whose matrix nobody wrote down is covered by all.
    expect(find([soil], { matrix: null })).toEqual(['1', null]);
    expect(find([soil], { matrix: '' })).toEqual(['1', null]);
  });

  test('one level asked about many matrices answers each', () => {
    const finder = levelFinder([of({ matrix: 'water' }, '1')]);
    const misfit = (matrix: string) => finder(read(aResult('7', { matrix }))).misfit;
    for (let again = 0; again < 2; again++)
      expect(['groundwater', 'soil', 'Surface Water', 'air'].map(misfit)).toEqual([
        null,
        'matrix',
        null,
        'matrix',
      ]);
  });

  test.each([
    [null, 'soil', true],
    ['soil', null, true],
    ['soil', undefined, true],
    ['', 'soil', true],
    ['  ', 'soil', true],
    ['soil', '  ', true],
    ['soil', 'soil', true],
    [' Soil', 'soil ', true],
    ['water', 'Groundwater', true],
    ['Water ', 'surface water', true],
    ['groundwater', 'water', false],
    ['groundwater', 'surface water', false],
    ['water', 'soil', false],
    ['soil', 'groundwater', false],
  ])('a level for “%s” and a sample of “%s”', (level, sample, expected) => {
    expect(covers(level, sample)).toBe(expected);
  });

  test('parts per billion in a level for soil are a mass per mass, else a mass per litre', () => {
    const dimension = (matrix: string | null) =>
      levelFrom(aLevel('5', 'ppb', { matrix })).value?.unit.dimension;
    expect(['soil', 'Subsurface soil', 'sediment', 'solid', 'sludge'].map(dimension)).toEqual(
      Array(5).fill('mass per mass'),
    );
    expect([null, 'groundwater', 'subsoil water'].map(dimension)).toEqual(
      Array(3).fill('mass per volume'),
    );
  });

  test('a level is one number above zero in a unit we know', () => {
    const amount = (value: string, unit = 'mg/L') => levelFrom(aLevel(value, unit)).amount;
    expect(amount(' 0.005 ')).toBe(5);
    expect(amount('1,200')).toBe(1.2e6);
    for (const none of ['0', '0.0', '-5', '<5', '5-10', '', 'none']) {
      expect(levelFrom(aLevel(none)).value).toBeNull();
      expect(amount(none)).toBe(0);
    }
    expect(levelFrom(aLevel('5', 'furlong')).value).toBeNull();
    expect(levelFrom(aLevel('0.0050', 'mg/L')).place).toBe(-4);
    expect(levelFrom(aLevel('see note')).place).toBe(0);
  });
});

describe('how many times the level, and what to know beside it', () => {
  test('the value, the least it can be, or the limit; nothing where nothing was compared', () => {
    expect(ratioToLevel(judged('12'))).toEqual({ value: 2.4, of: 'value' });
    expect(ratioToLevel(judged('>200'))).toEqual({ value: 40, of: 'at least' });
    expect(ratioToLevel(judged('<25'))).toEqual({ value: 5, of: 'limit' });
    expect(ratioToLevel(judged('0.5 J'))).toEqual({ value: 0.1, of: 'value' });
    expect(ratioToLevel(judged('7 J'))).toEqual({ value: 1.4, of: 'value' });
    for (const none of [
      judged('ND'),
      judged('12 R'),
      judged('12', {}, null),
      judged(''),
      judged('12', { unit: 'mg/kg' }),
      judged('12', {}, aLevel('none')),
    ])
      expect(ratioToLevel(none)).toBeNull();
  });

  const cautions = (...of: Parameters<typeof judged>) => cautionsOf(judged(...of));
  test.each<[readonly string[], Parameters<typeof judged>]>([
    [[], ['12']],
    [['estimated'], ['12 J']],
    [['estimated, biased high'], ['12 J+']],
    [['estimated, biased low'], ['12 J-']],
    [['limit estimated'], ['12 UJ', { reporting_limit: '12' }]],
    [['over the calibration range'], ['12 E']],
    [['from a dilution'], ['12 D']],
    [['found in a blank'], ['12 B']],
    [['letters not in the legend'], ['12 Q']],
    [['estimated', 'from a dilution', 'found in a blank'], ['12 BDJ']],
    [['parts per million or billion taken as mass per litre of dilute water'], ['12', { unit: 'ppb' }]],
    [['parts per million or billion taken as mass per litre of dilute water'], ['12', {}, aLevel('5', 'ppb')]],
    [[], ['12', {}, null]],
    [['judged by another limit than the one that decides'], ['ND', { detection_limit: '1' }]],
    [[], ['ND', { reporting_limit: '1' }]],
    [['judged by another limit than the one that decides'], ['<1']],
  ])('%j', (expected, of) => expect(cautions(...of)).toEqual(expected)); // prettier-ignore

  test('only a measured result in a unit we know has a value to show', () => {
    const read = resultReader();
    const text = (value: string, more: Partial<ResultInput> = {}) =>
      valueOf(read(aResult(value, more)))?.text ?? null;
    expect([text('12'), text('>12'), text('<12'), text('12 R'), text('12 NJ'), text('0'), text('12', { unit: 'lb' })]).toEqual(
      ['12', '12', null, null, null, null, null],
    ); // prettier-ignore
  });

  test('a level without a row is cited by its source and section, or as given', () => {
    const cited = (more: Partial<LevelInput>) =>
      verdictWork(judged('12', {}, aLevel('5', 'µg/L', more)))?.terms[1];
    expect(cited({ source: '40 CFR 141.61', section: '(a)(2)' })?.from).toEqual({
      kind: 'citation',
      text: '40 CFR 141.61, (a)(2)',
    });
    expect(cited({ section: '(a)(2)' })?.from).toEqual({ kind: 'citation', text: '(a)(2)' });
    expect(cited({})).toMatchObject({
      name: 'Benzene, A, µg/L',
      from: { kind: 'citation', text: 'as given' },
    });
    const roomy = verdictWork(judged('12', { unit: ' mg/L ' }, aLevel('5', ' µg/L ')));
    expect(roomy?.title).toBe('Benzene in DP-1-S1: 12 mg/L against 5 µg/L');
    expect(roomy?.terms.map(({ name }) => name)).toEqual(['result in µg/L', 'Benzene, A, µg/L']);
    expect(cited({ row: 3 })?.from).toEqual({
      kind: 'cell',
      table: 'screening_levels',
      row: 3,
      column: 'value',
    });
  });

  test('sets without rules of their own have the usual ones', () => {
    const set = levelSets([aLevel('5')]).get('A')!;
    const read = resultReader();
    expect(set.outcomeFor(read(aResult('5'))).reason).toBe('value equal to level');
    expect(set.judge(read(aResult('7'))).outcome.verdict).toBe('exceeds');
    const strict = levelSets([aLevel('5')], () => ({ ...USUAL_RULES, equalExceeds: true })).get(
      'A',
    )!;
    expect(strict.outcomeFor(read(aResult('5'))).reason).toBe('equal counts as above');
  });
});

describe('readings at their edges', () => {
  const state = (value: string | null, more: Partial<ResultInput> = {}) => {
    const { state: found, why, raised } = resultReader()(aResult(value, more));
    return [found, why?.kind ?? null, raised];
  };

  test('activity may be nothing or less, a concentration may not', () => {
    const activity = { unit: 'pCi/L', cas: '10028-17-8', analyte: 'Tritium' };
    expect(state('-0.4', activity)).toEqual(['detected', null, false]);
    expect(state('0', activity)).toEqual(['detected', null, false]);
    expect(state('-0.4')).toEqual(['unreadable', 'unreadable', false]);
    expect(state('0')).toEqual(['none', 'zero', false]);
  });

  test('a non-detect only in the validator’s eyes raises the value to a limit', () => {
    expect(state('3', { validation_qualifier: 'U' })).toEqual(['not detected', null, true]);
    for (const lab of [{ lab_qualifier: 'U' }, { detected: false }])
      expect(state('3', { ...lab, validation_qualifier: 'U' })).toEqual([
        'not detected',
        null,
        false,
      ]);
    expect(state('<3', { validation_qualifier: 'U' })).toEqual(['not detected', null, false]);
    expect(state('3')).toEqual(['detected', null, false]);
  });

  test('words and columns that contradict each other are not guessed between', () => {
    expect(state('<3', { detected: true })[0]).toBe('unreadable');
    expect(state('>3', { lab_qualifier: 'U' })[0]).toBe('unreadable');
    expect(state('', { detected: true })).toEqual(['none', 'detected without a value', false]);
    expect(state(null)).toEqual(['none', 'blank', false]);
    expect(state('U')).toEqual(['not detected', null, false]);
    expect(state('J')[0]).toBe('unreadable');
  });

  test('a limit of nothing, or one that cannot be read, is none; room around it does not matter', () => {
    const limit = (reporting_limit: string | null) =>
      resultReader()(aResult('ND', { reporting_limit })).reportingLimit;
    expect([limit(' 0.5 ')?.text, limit('0'), limit('-1'), limit('low'), limit('  '), limit(''), limit(null)]).toEqual(
      ['0.5', null, null, null, undefined, undefined, undefined],
    ); // prettier-ignore
  });

  test('parts per billion in soil are a mass per mass', () => {
    const dimension = (matrix: string | null) =>
      resultReader()(aResult('5', { unit: 'ppb', matrix })).unit?.dimension;
    expect([null, '', 'groundwater', 'soil'].map(dimension)).toEqual(['mass per volume', 'mass per volume', 'mass per volume', 'mass per mass']); // prettier-ignore
  });

  test('letters no legend explains are named; where all are known there are none', () => {
    const unknown = (value: string, more: Partial<ResultInput> = {}) =>
      resultReader()(aResult(value, more)).unknownLetters;
    expect(unknown('5 J')).toEqual([]);
    expect(unknown('5 Q', { validation_qualifier: 'X' })).toEqual(
      expect.arrayContaining(['Q', 'X']),
    );
  });
});

test('the worst verdict of each screen, and none for a blank, which stands in no screen', () => {
  const one = (id: string | null, value: string) =>
    ({ screen: id === null ? null : { id }, judged: judged(value) }) as never;
  const worst = worstByScreen([
    one('A', '2'),
    one('A', '7'),
    one('B', '<1'),
    one('B', '2'),
    one(null, '9'),
  ]);
  expect([...worst]).toEqual([['A', 'exceeds'], ['B', 'does-not-exceed']]); // prettier-ignore
  expect([...worstByScreen([])]).toEqual([]);
});

describe('a level as it is typed', () => {
  const site = siteFrom({
    screening_levels: [
      'set,cas,analyte,matrix,fraction,value,unit,source',
      'One,71-43-2,Benzene,groundwater,,5,µg/L,40 CFR 141.61',
      'One,7440-38-2,Arsenic,groundwater,dissolved,10,µg/L,40 CFR 141.62',
    ],
  });
  const draft = (more: Partial<LevelDraft> = {}): LevelDraft => ({
    ...EMPTY_LEVEL,
    set: 'One',
    analyte: 'Toluene',
    value: '1000',
    source: '40 CFR 141.61',
    ...more,
  });
  const answer = (more: Partial<LevelDraft> = {}) => {
    const made = addLevel(site, draft(more));
    return made.ok ? 'added' : made.problem;
  };

  test('a known analyte brings its CAS number, one nobody knows brings none', () => {
    const made = addLevel(site, draft());
    expect(made.ok && made.value).toMatchObject({
      rows: [{ cas: '108-88-3', analyte: 'Toluene' }],
    });
    const other = addLevel(site, draft({ analyte: 'Compound of the site' }));
    expect(other.ok && other.value).toMatchObject({ rows: [{ cas: '' }] });
  });

  test('a second level for the same analyte, matrix and fraction is refused; for another it is not', () => {
    expect(answer({ analyte: 'Benzene' })).toContain('has a level for it already, 5 µg/L');
    expect(answer({ analyte: 'Benzene', set: 'Two' })).toBe('added');
    expect(answer({ analyte: 'Benzene', matrix: 'soil', unit: 'µg/kg' })).toBe('added');
    expect(answer({ analyte: 'Benzene', matrix: '' })).toBe('added');
    expect(answer({ analyte: 'Benzene', fraction: 'total' })).toBe('added');
    expect(answer({ analyte: 'Arsenic', fraction: 'dissolved' })).toContain('10 µg/L');
    expect(answer({ analyte: 'Arsenic' })).toBe('added');
  });

  test('a day it was read, where there is one, is a day', () => {
    expect(answer({ date_read: '' })).toBe('added');
    expect(answer({ date_read: '2026-05-31' })).toBe('added');
    expect(answer({ date_read: 'May' })).toContain('2026-05-31');
  });

  test('its value is one number above zero', () => {
    expect(answer({ value: '0' })).toContain('“0 µg/L” is not one number above zero');
    expect(answer({ value: ' 5 ' })).toBe('added');
  });
});

describe('runs of one sample at their edges', () => {
  const read = resultReader();
  const run = (value: string, more: Partial<ResultInput> = {}) => read(aResult(value, more));
  const replacedOf = (...runs: ReturnType<typeof run>[]) =>
    chosenRuns(runs).replaced.map(({ reading, why }) => [reading.result.value, why]);
  const OVER = 'over range, measured in a dilution';

  test('a run called initial is none of dilution, whatever its letters; a rerun is no first run', () => {
    const initial = run('480 D', { run: 'initial' });
    expect(replacedOf(run('210 E', { run: 'initial' }), initial)).toEqual([]);
    expect(replacedOf(run('3', { run: 'reanalysis' }), run('<50', { run: 'dilution' }))).toEqual(
      [],
    );
    expect(replacedOf(run('3'), run('<50', { run: 'dilution' }))).toEqual([
      ['<50', 'diluted run, first run in range'],
    ]);
  });

  test('a rejected run gives way to none and takes none’s place', () => {
    const diluted = run('480', { run: 'dilution' });
    expect(replacedOf(run('210 ER', { run: 'initial' }), diluted)).toEqual([]);
    expect(replacedOf(run('3 R', { run: 'initial' }), diluted)).toEqual([]);
    expect(replacedOf(run('3', { run: 'initial' }), run('50 R', { run: 'dilution' }))).toEqual([]);
    expect(replacedOf(run('3', { run: 'initial' }), run('>50', { run: 'dilution' }))).toEqual([]);
    expect(replacedOf(run('210 E', { run: 'initial' }), diluted)).toEqual([['210 E', OVER]]);
  });

  test('the dilution that measured it is not replaced by itself', () => {
    const diluted = run('480', { run: 'dilution' });
    expect(chosenRuns([diluted, run('210 E'), run('220 E')]).used).toEqual([diluted]);
  });
});

test('of one group the result furthest over its level, wherever it stands; of equals the first', () => {
  const [two, ten, three, again, below, rejected, other] = ['10', '50', '15', '50.0', '1', '9 R', '8 R'].map((value) => judged(value)); // prettier-ignore
  const worst = (...of: (typeof two)[]) =>
    worstBy(
      of.map((one) => one!),
      () => 'A',
    ).get('A');
  expect(worst(two, ten, three)).toBe(ten);
  expect(worst(ten, three, below)).toBe(ten);
  expect(worst(ten, again)).toBe(ten);
  expect(worst(again, ten)).toBe(again);
  expect(worst(rejected, other)).toBe(rejected);
});
