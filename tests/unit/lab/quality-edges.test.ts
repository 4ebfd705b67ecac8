import { describe, expect, test } from 'vitest';
import { decimalsFor, writtenOut } from '../../../src/domain/lab/amount-work';
import { blankFlag } from '../../../src/domain/lab/blanks';
import { duplicateAgreement, USUAL_DUPLICATE_LIMITS } from '../../../src/domain/lab/duplicates';
import type { HoldingLimit } from '../../../src/domain/lab/holding-time-list';
import { heldFor, holdingLimitFor, holdingTimes } from '../../../src/domain/lab/holding-times';
import { levelFrom } from '../../../src/domain/lab/level';
import { resultReader, type ResultInput } from '../../../src/domain/lab/reading';
import { sumTexts, changeProposed } from '../../../src/domain/lab/site-sums';
import { summarySentence } from '../../../src/domain/lab/summary-words';
import { PFAS_HAZARD_INDEX, SUM_RULES, TOTAL_XYLENES } from '../../../src/domain/lab/sum-rules';
import { reportedAsSuch, sumVerdict } from '../../../src/domain/lab/sums';
import { sumWork } from '../../../src/domain/lab/sum-work';
import { aLevel, aResult } from './a-result';

const read = resultReader();
const reading = (value: string, more: Partial<ResultInput> = {}) => read(aResult(value, more));

describe('a duplicate beside its parent', () => {
  const pair = (
    a: string,
    b: string,
    more: Partial<ResultInput> = {},
    other: Partial<ResultInput> = {},
  ) =>
    duplicateAgreement(
      reading(a, { reporting_limit: '1', ...more }),
      reading(b, { sample: 'DP-1-S1-D', reporting_limit: '1', ...other }),
    );

  test('exactly five limits from nothing the percentage is used, a hair under it the difference', () => {
    expect(pair('5', '6').kind).toBe('rpd');
    expect(pair('6', '4.99').kind).toBe('difference');
    expect(pair('4.99', '6').kind).toBe('difference');
  });

  test('exactly at the allowed percentage they agree; alike they differ by nothing', () => {
    // 8 and 12 differ by 4 of 10.
    const limits = { ...USUAL_DUPLICATE_LIMITS, rpd: 40 };
    const at = (b: string) => duplicateAgreement(reading('8'), reading(b, { sample: 'D' }), limits);
    expect(at('12')).toMatchObject({ kind: 'rpd', value: 40, agrees: true });
    expect(at('12.1')).toMatchObject({ kind: 'rpd', agrees: false });
    expect(at('8')).toMatchObject({ kind: 'rpd', value: 0, agrees: true });
  });

  test('so many reporting limits apart they agree, were it not for binary too', () => {
    expect(pair('1.3', '0.3')).toMatchObject({ kind: 'difference', agrees: true });
    expect(pair('3', '2')).toMatchObject({ kind: 'difference', agrees: true });
    expect(pair('3', '1.99')).toMatchObject({ kind: 'difference', agrees: false });
  });

  test('the larger of the two reporting limits counts, in the parent’s unit', () => {
    expect(pair('6', '6', { reporting_limit: '1' }, { reporting_limit: '2' })).toMatchObject({
      kind: 'difference',
      allowed: 2,
    });
    expect(
      pair('6', '0.006', { reporting_limit: '1' }, { unit: 'mg/L', reporting_limit: '0.002' }),
    ).toMatchObject({ kind: 'difference', allowed: 2, unit: 'µg/L' });
    expect(
      pair('0.006', '7', { unit: 'mg/L', reporting_limit: '0.002' }, { reporting_limit: '1' }),
    ).toMatchObject({
      kind: 'difference',
      allowed: 0.002,
      value: expect.closeTo(0.001, 12),
      unit: 'mg/L',
    });
  });

  test('no limit at all is taken as far from it, and said', () => {
    const found = duplicateAgreement(reading('12'), reading('15', { sample: 'D' }));
    expect(found).toMatchObject({
      kind: 'rpd',
      why: 'No reporting limit is given; taken as far from it.',
    });
    expect(pair('12', '15')).toMatchObject({
      why: 'Both are at least 5 times the reporting limit.',
    });
  });

  test('why the difference is used is said: near the limit, or one not detected', () => {
    expect(pair('2', '1')).toMatchObject({ why: 'One is under 5 times the reporting limit.' });
    expect(pair('40', '<1')).toMatchObject({
      why: 'One was not detected and is taken at its limit: the least the difference can be.',
    });
  });

  test.each<[string, Partial<ResultInput>]>([
    ['They are not of one analyte.', { cas: '108-88-3' }],
    ['One is filtered and the other is not.', { fraction: 'dissolved' }],
    ['A unit is not known.', { unit: 'barrels' }],
    ['Their units cannot be compared.', { unit: 'pCi/L' }],
    ['Their units cannot be compared.', { unit: 'µg/L as N' }],
    ['One of them is not a plain result: rejected.', { lab_qualifier: 'R' }],
    ['One of them is not a plain result: more than.', { lab_qualifier: 'E' }],
  ])('%s', (why, more) => {
    expect(pair('12', '15', {}, more)).toEqual({ kind: 'not compared', why });
    expect(duplicateAgreement(reading('15', more), reading('12'))).toEqual({
      kind: 'not compared',
      why,
    });
  });

  test('a non-detect without a limit is not compared, on either side', () => {
    const why = 'One is a non-detect without a limit.';
    expect(pair('12', 'ND', {}, { reporting_limit: null })).toEqual({ kind: 'not compared', why });
    expect(pair('ND', '12', { reporting_limit: null })).toEqual({ kind: 'not compared', why });
    expect(pair('ND', 'ND', { reporting_limit: null }, { reporting_limit: null })).toEqual({
      kind: 'neither detected',
    });
  });

  test('two activities of nothing have no relative difference', () => {
    const none = (sample: string) => reading('0', { unit: 'pCi/L', cas: '10028-17-8', sample });
    expect(duplicateAgreement(none('A'), none('B'))).toEqual({
      kind: 'not compared',
      why: 'Both are zero.',
    });
  });

  test('the terms are named by sample, as written, and cite their cells', () => {
    const found = pair(
      '12.0',
      '0.0150',
      { row: 4 },
      { unit: ' mg/L ', row: 9, reporting_limit: '0.001' },
    );
    if (!('work' in found)) throw new Error('no work');
    expect(found.work.terms).toMatchObject([
      { symbol: 'a', name: 'result of DP-1-S1, 12.0 µg/L', value: 12, text: '12.0', from: { kind: 'cell', table: 'results', row: 4, column: 'value' } },
      { symbol: 'b', name: 'result of DP-1-S1-D, 0.0150 mg/L', value: 15, from: { row: 9 } },
    ]); // prettier-ignore
    expect(found.work.terms[1]).not.toHaveProperty('text');
    expect(found.work).toMatchObject({ decimals: 1, note: 'Limit 30 %' });
    const near = pair('2.05', '1');
    if (!('work' in near)) throw new Error('no work');
    expect(near.work).toMatchObject({
      decimals: 2,
      title: 'Difference of duplicates, µg/L',
      note: 'Allowed: 1 × the reporting limit',
    });
    expect(near.work.terms[0]?.from).toEqual({ kind: 'citation', text: 'as reported' });
    const unseen = pair('40', '<1');
    expect('work' in unseen && unseen.work.terms[1]?.name).toBe('limit of DP-1-S1-D, 1 µg/L');
  });
});

describe('a blank at its edges', () => {
  const trip = { sample: 'TB-1' };
  test('five times to a hair under is five times; why is said with both names', () => {
    expect(blankFlag(reading('0.5'), reading('0.1', trip))).toBeNull(); // 0.5 / 0.1 = 5
    expect(blankFlag(reading('4.99'), reading('1', trip))?.why).toBe(
      'Benzene was found in TB-1; DP-1-S1 holds less than 5 times as much. The number is as reported.',
    );
  });
  test('at least so much is not under the limit for certain; a blank over range counts as it stands', () => {
    expect(blankFlag(reading('>4'), reading('1', trip))).toBeNull();
    expect(blankFlag(reading('4'), reading('>1', trip))).not.toBeNull();
    expect(blankFlag(reading('4 R'), reading('1', trip))).toBeNull();
  });
  test('another basis is another thing, and an activity of nothing is nothing', () => {
    const nitrate = { cas: '14797-55-8', analyte: 'Nitrate' };
    expect(
      blankFlag(
        reading('4', { ...nitrate, unit: 'mg/L as N' }),
        reading('1', { ...nitrate, ...trip, unit: 'mg/L as NO3' }),
      ),
    ).toBeNull();
    const tritium = { cas: '10028-17-8', analyte: 'Tritium', unit: 'pCi/L' };
    expect(blankFlag(reading('4', tritium), reading('-1', { ...tritium, ...trip }))).toBeNull();
    expect(blankFlag(reading('4', tritium), reading('0', { ...tritium, ...trip }))).toBeNull();
    expect(blankFlag(reading('4', tritium), reading('1', { ...tritium, ...trip }))?.ratio).toBe(4);
  });
});

describe('holding times at their edges', () => {
  const limit = (more: Partial<HoldingLimit>): HoldingLimit =>
    ({
      name: 'x',
      analytes: [],
      methods: [],
      toExtraction: null,
      toAnalysis: 24,
      source: 'invented',
      ...more,
    }) as HoldingLimit;

  test('hours between two times of day; days where either is only a day; no time held is none', () => {
    expect(heldFor('2026-03-02T10:00', '2026-03-02T16:30')).toEqual({ hours: 6.5, byDays: false });
    expect(heldFor('2026-03-02T23:59', '2026-03-03')).toEqual({ hours: 24, byDays: true });
    expect(heldFor('2026-03-02', '2026-03-03T00:01')).toEqual({ hours: 24, byDays: true });
    expect(heldFor('2026-03-02T10:00', '2026-03-02T10:00')).toEqual({ hours: 0, byDays: false });
    expect(heldFor('2026-03-02T10:00', '2026-03-02')).toEqual({ hours: 0, byDays: true });
  });

  test('a limit without extraction has one step, from sampling to analysis', () => {
    const handled = {
      sampled: '2026-03-02T10:00',
      extracted: '2026-03-02T12:00',
      analysed: '2026-03-03T10:00',
    };
    expect(holdingTimes(handled, limit({}))).toMatchObject([
      { step: 'to analysis', hours: 24, allowedHours: 24, kept: true },
    ]);
    expect(holdingTimes({ ...handled, analysed: '2026-03-03T10:01' }, limit({}))).toMatchObject([
      { kept: false },
    ]);
    expect(holdingTimes(handled, limit({ toAnalysis: null }))).toEqual([]);
    expect(holdingTimes({ ...handled, analysed: '2026-03-01T10:00' }, limit({}))).toEqual([]);
  });

  test('with extraction there are two, each left out where a time or a limit is not known', () => {
    const two = limit({ toExtraction: 12, toAnalysis: 100 });
    const steps = (more: object) =>
      holdingTimes(
        {
          sampled: '2026-03-02T10:00',
          extracted: '2026-03-02T22:00',
          analysed: '2026-03-04T22:00',
          ...more,
        },
        two,
      ).map(({ step, hours, kept }) => [step, hours, kept]);
    expect(steps({})).toEqual([
      ['to extraction', 12, true],
      ['from extraction to analysis', 48, true],
    ]);
    expect(steps({ analysed: null })).toEqual([['to extraction', 12, true]]);
    expect(steps({ extracted: null })).toEqual([]);
  });

  test('the limit by CAS number, else by a method’s name in any letters, else none', () => {
    const list = [
      limit({ name: 'by method', methods: ['8260', '624'] }),
      limit({ name: 'by analyte', analytes: ['71-43-2'] }),
    ];
    const of = (cas: string | null, method: string | null) =>
      holdingLimitFor(list, cas, method)?.name ?? null;
    expect(of('71-43-2', 'EPA 8260D')).toBe('by analyte');
    expect(of('000071-43-2', null)).toBe('by analyte');
    expect(of('71-43-3', 'epa 8260d')).toBe('by method'); // the check digit is wrong
    expect(of(null, 'sw8260')).toBe('by method');
    expect(of('108-88-3', null)).toBeNull();
    expect(
      holdingLimitFor([limit({ name: 'letters', methods: ['TPH'] })], null, 'nwtph-dx')?.name,
    ).toBe('letters');
  });
});

describe('sums at their edges', () => {
  const part = (cas: string, value: string, more: Partial<ResultInput> = {}) =>
    read(aResult(value, { cas, analyte: cas, ...more }));
  const level = levelFrom(aLevel('10', 'mg/L', { cas: '1330-20-7', analyte: 'Xylenes (total)' }));
  const [MP, O] = ['179601-23-1', '95-47-6'] as const;

  test('of several results for one part the one that can be most', () => {
    const sum = sumVerdict(
      TOTAL_XYLENES,
      [part(MP, '3'), part(MP, '<8'), part(MP, '5'), part(O, '1'), part(O, '2')],
      level,
    );
    expect(sum.parts.map(({ readings }) => readings.map(({ result }) => result.value))).toEqual([
      ['<8'],
      ['2'],
    ]);
    expect(sum).toMatchObject({ low: 0.002, high: 0.01 });
  });

  test('only results of the level’s dimension count', () => {
    const sum = sumVerdict(TOTAL_XYLENES, [part(MP, '3', { unit: 'mg/kg' }), part(O, '1')], level);
    expect(sum.parts.map(({ state }) => state)).toEqual(['missing', 'detected']);
    expect(sum.why).toMatch(/^No result that counts for /);
  });

  test('each reason is said', () => {
    const why = (...values: [string, string]) =>
      sumVerdict(TOTAL_XYLENES, [part(MP, values[0]), part(O, values[1])], level).why;
    expect(why('9000', '2000')).toBe('What was detected is above the level by itself.');
    expect(why('9000 J', '2000')).toBe('Above the level only with parts that are estimated.');
    expect(why('9000', '<2000')).toBe('The level lies between the least and the most it can be.');
    expect(why('<2', '<1')).toBe(
      'No part was detected; the limits together are not above the level.',
    );
    expect(why('2', '<1')).toBe('The most it can be is not above the level.');
    expect(sumVerdict(TOTAL_XYLENES, [], level).why).toBe(
      'None of its parts has a result that counts.',
    );
    expect(sumVerdict(TOTAL_XYLENES, [], null).why).toBe('No level has been chosen for this sum.');
  });

  test('a non-detect without a limit is nothing where non-detects are taken as nothing, else it does not count', () => {
    const readings = [part(MP, 'ND'), part(O, '30')];
    expect(sumVerdict(TOTAL_XYLENES, readings, level, 'zero')).toMatchObject({
      low: 0.03,
      high: 0.03,
      verdict: 'does-not-exceed',
    });
    for (const rule of ['range', 'half the limit', 'the limit'] as const)
      expect(sumVerdict(TOTAL_XYLENES, readings, level, rule)).toMatchObject({
        high: null,
        verdict: 'cannot-tell',
      });
  });

  test('the limit that decides is the level’s', () => {
    const byDetection = levelFrom(
      aLevel('10', 'mg/L', {
        cas: '1330-20-7',
        analyte: 'Xylenes (total)',
        decides: 'detection limit',
      }),
    );
    const unseen = part(MP, 'ND', { detection_limit: '2', reporting_limit: '9' });
    const most = (of: typeof level) => sumVerdict(TOTAL_XYLENES, [unseen, part(O, '1')], of).high;
    expect([most(level), most(byDetection)]).toEqual([0.01, 0.003]);
  });

  test('without a level the sum is in µg/L; an index has no unit', () => {
    const sum = sumVerdict(TOTAL_XYLENES, [part(MP, '0.3', { unit: 'mg/L' }), part(O, '1')], null);
    expect(sum).toMatchObject({ low: 301, high: 301, verdict: 'no-level', unit: { text: 'µg/L' } });
    const index = sumVerdict(PFAS_HAZARD_INDEX, [part('13252-13-6', '4', { unit: 'ng/L' })], null);
    expect(index).toMatchObject({ unit: null, low: 0.4, high: null });
    expect(sumWork(index, 'least')).toMatchObject({
      formula: 'a / 10',
      note: expect.stringContaining('nothing at least, the limit at most'),
    });
    expect(sumWork(index, 'most')).toBeNull();
  });

  test('how non-detects were taken is said beside the work', () => {
    const note = (rule: 'zero' | 'half the limit' | 'the limit') =>
      sumWork(sumVerdict(TOTAL_XYLENES, [part(MP, '<2'), part(O, '30')], level, rule), 'most')
        ?.note;
    expect(note('zero')).toContain('Non-detects: taken as nothing.');
    expect(note('half the limit')).toContain('Non-detects: taken as half the limit.');
    expect(note('the limit')).toContain('Non-detects: taken at the limit.');
  });

  test('m and p reported apart are one part: seen where either is, estimated where either is', () => {
    const apart = (m: string, p: string) =>
      sumVerdict(TOTAL_XYLENES, [part('108-38-3', m), part('106-42-3', p), part(O, '3')], level)
        .parts[0];
    expect(apart('4', '<1')).toMatchObject({ state: 'detected', estimated: false });
    expect(apart('<1', '<1')).toMatchObject({ state: 'not detected' });
    expect(apart('4 J', '4')).toMatchObject({ state: 'detected', estimated: true });
  });

  test('a non-detect taken as nothing is not in the line, taken at its limit it is, at either end', () => {
    const formula = (rule: 'zero' | 'the limit' | 'range', end: 'least' | 'most') =>
      sumWork(sumVerdict(TOTAL_XYLENES, [part(MP, '<2'), part(O, '30')], level, rule), end)
        ?.formula;
    expect([formula('zero', 'least'), formula('zero', 'most')]).toEqual(['a', 'a']);
    expect([formula('the limit', 'least'), formula('the limit', 'most')]).toEqual([
      'a + b',
      'a + b',
    ]);
    expect([formula('range', 'least'), formula('range', 'most')]).toEqual(['a', 'a + b']);
  });

  test('a number put into another unit keeps the places it was written to, and cites where it stood', () => {
    const work = sumWork(
      sumVerdict(TOTAL_XYLENES, [part(MP, '2.50'), part(O, '30', { unit: ' mg/L ' })], level),
      'most',
    )!;
    const [first, second] = work.terms;
    expect(first).toMatchObject({ name: 'result of m,p-Xylene in mg/L', value: 0.0025 });
    if (first?.from.kind !== 'work') throw new Error('it is put into mg/L');
    expect(first.from.work).toMatchObject({ title: 'Result of m,p-Xylene in mg/L', decimals: 5 });
    expect(first.from.work.terms[0]).toMatchObject({
      name: 'result of m,p-Xylene as reported, µg/L',
      text: '2.50',
      from: { kind: 'citation', text: 'as reported' },
    });
    expect(first.from.work.terms[1]?.from.kind).toBe('citation');
    expect(second).toMatchObject({
      name: 'result of o-Xylene, mg/L',
      value: 30,
      from: { kind: 'citation', text: 'as reported' },
    });
  });

  test('a blank for the total itself is not the laboratory’s sum', () => {
    expect(reportedAsSuch(TOTAL_XYLENES, [part('1330-20-7', ''), part(O, '3')])).toEqual([]);
  });

  test('least and most with their unit, once where they are the same', () => {
    const texts = (low: number, high: number | null, unit: object | null = { text: 'mg/L' }) =>
      sumTexts({ low, high, unit } as never);
    expect(texts(0, 2.5)).toEqual({ least: '0 mg/L', most: '2.50 mg/L', unbounded: false });
    expect(texts(2.5, 2.5)).toEqual({ least: '2.50 mg/L', most: null, unbounded: false });
    expect(texts(1.3, null, null)).toEqual({ least: '1.30', most: null, unbounded: true });
  });

  test('a rule whose end has been proposed says so, the others do not', () => {
    expect(changeProposed({ source: 'x, rescission Proposed 2026' } as never)).toContain(
      'check whether it still stands',
    );
    expect(changeProposed(TOTAL_XYLENES)).toBeNull();
    expect(SUM_RULES.length).toBeGreaterThan(3);
  });
});

describe('numbers as they are printed', () => {
  test('to so many figures, and never more than twenty places', () => {
    expect([
      decimalsFor(2.4, 3),
      decimalsFor(0.0012, 3),
      decimalsFor(1234, 3),
      decimalsFor(0, 3),
      decimalsFor(1e-30, 3),
      decimalsFor(-0.5, 2),
    ]).toEqual([2, 5, 0, 0, 20, 2]);
  });
  test('written out without powers of ten; what is no number stays', () => {
    expect([writtenOut('1.2E-3'), writtenOut('5e2'), writtenOut('0.50'), writtenOut('x')]).toEqual([
      '0.0012',
      '500',
      '0.50',
      'x',
    ]);
  });
});

describe('a series summed up', () => {
  const points = (...values: (number | string)[]) =>
    values.map((value) => ({
      value: typeof value === 'number' ? value : Number(value.slice(1)),
      detected: typeof value === 'number',
    })) as never;
  const said = (...values: (number | string)[]) =>
    summarySentence({ points: points(...values), unit: 'µg/L' });

  test('all seen: median and mean', () => {
    expect(said(2, 4, 9)).toBe(
      'Detected in 3 of 3; by Kaplan–Meier median 4.00 µg/L, mean 5.00 µg/L.',
    );
  });
  test('more than half under the lowest detection: the median is below it', () => {
    expect(said('<1', '<1', '<1', 4)).toBe(
      'Detected in 1 of 4; by Kaplan–Meier median below 4.00 µg/L, mean about 1.75 µg/L, with the 75 % below the lowest detection taken at 1.00 µg/L.',
    );
  });
  test('nothing seen: nothing more can be said', () => {
    expect(said('<1', '<2')).toBe(
      'Detected in 0 of 2: nothing more can be said of the distribution.',
    );
  });
});
