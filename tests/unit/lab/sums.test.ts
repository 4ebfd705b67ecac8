import { describe, expect, test } from 'vitest';
import { levelFrom, USUAL_RULES } from '../../../src/domain/lab/level';
import { resultReader, type ResultInput } from '../../../src/domain/lab/reading';
import {
  COMBINED_RADIUM,
  PFAS_HAZARD_INDEX,
  TOTAL_TRIHALOMETHANES,
  TOTAL_XYLENES,
} from '../../../src/domain/lab/sum-rules';
import { reportedAsSuch, sumVerdict, type NonDetectRule } from '../../../src/domain/lab/sums';
import { sumWork } from '../../../src/domain/lab/sum-work';
import { aLevel, aResult } from './a-result';
import { expectToWorkOut, printed } from './printed-lines';

const read = resultReader();
const part = (cas: string, value: string, more: Partial<ResultInput> = {}) =>
  read(aResult(value, { cas, analyte: cas, ...more }));

describe('the PFAS hazard index, 40 CFR 141.61(c): HFPO-DA/10 + PFBS/2000 + PFNA/10 + PFHxS/10 ng/L', () => {
  const ng = (hfpo: string, pfbs: string, pfna: string, pfhxs: string) => [
    part('13252-13-6', hfpo, { unit: 'ng/L' }),
    part('375-73-5', pfbs, { unit: 'ng/L' }),
    part('375-95-1', pfna, { unit: 'ng/L' }),
    part('355-46-4', pfhxs, { unit: 'ng/L' }),
  ];
  const index = (readings: ReturnType<typeof ng>, nonDetects?: NonDetectRule) =>
    sumVerdict(PFAS_HAZARD_INDEX, readings, null, nonDetects);

  // Computed independently: 0.4 + 0.4 + 0.2 + 0.3 = 1.3.
  test('4, 800, 2 and 3 ng/L make 1.3 and exceed 1, though none exceeds its own level', () => {
    expect(index(ng('4', '800', '2', '3'))).toMatchObject({
      low: expect.closeTo(1.3, 12),
      high: expect.closeTo(1.3, 12),
      verdict: 'exceeds',
    });
  });
  test('exactly 1 does not exceed: 0.1 + 0.2 + 0.3 + 0.4', () => {
    expect(index(ng('1', '400', '3', '4'))).toMatchObject({ low: 1, verdict: 'does-not-exceed' });
    expect(index(ng('1', '400', '3', '4.0000000001')).verdict).toBe('exceeds');
  });
  test('the same in µg/L and mg/L', () => {
    const mixed = [
      part('13252-13-6', '0.004'),
      part('375-73-5', '0.0008', { unit: 'mg/L' }),
      part('375-95-1', '0.002'),
      part('355-46-4', '0.003'),
    ];
    expect(index(mixed)).toMatchObject({ low: expect.closeTo(1.3, 12), verdict: 'exceeds' });
  });
  test('non-detects leave a range: 0.8 at least, 1.2 at most, cannot tell', () => {
    expect(index(ng('4', '800', '<2', '<2'))).toMatchObject({
      low: expect.closeTo(0.8, 12),
      high: expect.closeTo(1.2, 12),
      verdict: 'cannot-tell',
    });
  });
  test('the rule for non-detects is the user’s and decides it', () => {
    const sample = ng('4', '800', '<2', '<2.2');
    expect(index(sample, 'zero').verdict).toBe('does-not-exceed');
    expect(index(sample, 'half the limit')).toMatchObject({
      low: expect.closeTo(1.01, 12),
      verdict: 'exceeds',
    });
    expect(index(sample, 'the limit')).toMatchObject({
      low: expect.closeTo(1.22, 12),
      nonDetects: 'the limit',
    });
  });
  test('it is for two or more together: one alone at 15 ng/L is its own level’s affair', () => {
    expect(index(ng('<1', '<10', '<1', '15')).verdict).toBe('not-comparable');
    expect(index(ng('<5', '<10', '<5', '3')).verdict).toBe('cannot-tell');
    expect(index(ng('<1', '<10', '<1', '3')).verdict).toBe('does-not-exceed');
    expect(index(ng('<1', '<10', '<1', '<1')).verdict).toBe('not-detected');
  });
});

describe('total xylenes against 10 mg/L, 40 CFR 141.61(a)(18)', () => {
  const level = levelFrom(aLevel('10', 'mg/L', { cas: '1330-20-7', analyte: 'Xylenes (total)' }));
  const xylenes = (mp: string, o: string, more: Partial<ResultInput> = {}) =>
    sumVerdict(TOTAL_XYLENES, [part('179601-23-1', mp, more), part('95-47-6', o)], level);

  test.each([
    ['7000', '3000', 'does-not-exceed'],
    ['7000', '3000.1', 'exceeds'],
    ['<2', '<1', 'not-detected'],
    ['<9000', '<2000', 'cannot-tell'],
    ['9000', '<2000', 'cannot-tell'],
    ['>200', '30', 'cannot-tell'],
    ['>20000', '30', 'exceeds'],
    ['R', '30', 'cannot-tell'],
    ['R', '12000', 'exceeds'],
  ])('m,p %s and o %s: %s', (mp, o, verdict) => {
    expect(xylenes(mp, o).verdict).toBe(verdict);
  });
  test('estimated where it exceeds only with an estimated part', () => {
    expect(xylenes('9000 J', '2000').verdict).toBe('exceeds-estimated');
    expect(xylenes('9000 J', '12000').verdict).toBe('exceeds');
  });
  test('m and p reported apart are added', () => {
    const sum = sumVerdict(
      TOTAL_XYLENES,
      [part('108-38-3', '4000'), part('106-42-3', '4000'), part('95-47-6', '3000')],
      level,
    );
    expect(sum).toMatchObject({ low: 11, unit: { text: 'mg/L' }, verdict: 'exceeds' });
  });
  test('a missing part is named', () => {
    const sum = sumVerdict(TOTAL_XYLENES, [part('95-47-6', '30')], level);
    expect(sum).toMatchObject({ verdict: 'cannot-tell', high: null });
    expect(sum.why).toContain('m,p-Xylene');
  });
  test('none of its parts, no level, or a level in another dimension', () => {
    expect(sumVerdict(TOTAL_XYLENES, [], level).verdict).toBe('no-result');
    expect(sumVerdict(TOTAL_XYLENES, [], null).verdict).toBe('no-level');
    const odd = levelFrom(aLevel('10', 'barrels'));
    expect(sumVerdict(TOTAL_XYLENES, [part('95-47-6', '30')], odd).verdict).toBe('not-comparable');
  });
  test('where the laboratory gives the total itself, that is found', () => {
    const total = part('1330-20-7', '31');
    expect(reportedAsSuch(TOTAL_XYLENES, [total, part('95-47-6', '30')])).toEqual([total]);
  });
});

describe('total trihalomethanes against 0.080 mg/L, 40 CFR 141.64(b)', () => {
  const tthm = levelFrom(aLevel('0.080', 'mg/L', { cas: null, analyte: 'Total trihalomethanes' }));
  const four = (...values: string[]) =>
    ['67-66-3', '75-27-4', '124-48-1', '75-25-2'].map((cas, i) => part(cas, values[i] ?? ''));

  test('5.0 + 39.7 + 19.6 + 15.7 µg/L are 80 and do not exceed, which binary sums cannot say', () => {
    expect(5.0 + 39.7 + 19.6 + 15.7).not.toBe(80);
    expect(
      sumVerdict(TOTAL_TRIHALOMETHANES, four('5.0', '39.7', '19.6', '15.7'), tthm).verdict,
    ).toBe('does-not-exceed');
    const strict = { ...tthm, rules: { ...USUAL_RULES, equalExceeds: true } };
    expect(
      sumVerdict(TOTAL_TRIHALOMETHANES, four('5.0', '39.7', '19.6', '15.7'), strict).verdict,
    ).toBe('exceeds');
  });
});

test('radium-226 and -228 are added in pCi/L, 5 at most, 40 CFR 141.66(b)', () => {
  const level = levelFrom(aLevel('5', 'pCi/L', { cas: null, analyte: 'Radium-226 + Radium-228' }));
  const radium = (a: string, b: string) =>
    sumVerdict(
      COMBINED_RADIUM,
      [part('13982-63-3', a, { unit: 'pCi/L' }), part('15262-20-1', b, { unit: 'pCi/L' })],
      level,
    ).verdict;
  expect(radium('3', '2')).toBe('does-not-exceed');
  expect(radium('3', '2.1')).toBe('exceeds');
  expect(radium('3', '-0.2')).toBe('does-not-exceed');
});

describe('a sum opens into its parts', () => {
  const ng = (cas: string, value: string) => part(cas, value, { unit: 'ng/L' });
  test('the hazard index as it is published, at least and at most', () => {
    const sum = sumVerdict(
      PFAS_HAZARD_INDEX,
      [ng('13252-13-6', '4'), part('375-73-5', '0.8'), ng('375-95-1', '<2'), ng('355-46-4', '3')],
      null,
    );
    const [least, most] = [sumWork(sum, 'least')!, sumWork(sum, 'most')!];
    expect(printed(least).map(({ formula, line }) => [formula, line])).toEqual([
      ['sum = a / 10 + b / 2000 + c / 10', '4 / 10 + 800 / 2000 + 3 / 10 = 1.100'],
      ['b = reported * factor', '0.8 * 1000 = 800'],
    ]);
    expect(printed(most)[0]?.line).toBe('4 / 10 + 800 / 2000 + 2 / 10 + 3 / 10 = 1.300');
    [least, most].forEach(expectToWorkOut);
  });
  test('half the limit is in the formula, and nothing in place of a non-detect in the least', () => {
    const level = levelFrom(aLevel('10', 'mg/L', { cas: '1330-20-7', analyte: 'Xylenes (total)' }));
    const readings = [part('179601-23-1', '<2'), part('95-47-6', '30')];
    const half = sumWork(sumVerdict(TOTAL_XYLENES, readings, level, 'half the limit'), 'most')!;
    expect(printed(half)[0]?.formula).toBe('sum = a / 2 + b');
    expectToWorkOut(half);
    const range = sumVerdict(TOTAL_XYLENES, readings, level);
    expect(printed(sumWork(range, 'least')!)[0]?.formula).toBe('sum = a');
    expectToWorkOut(sumWork(range, 'most')!);
    const unseen = sumVerdict(
      TOTAL_XYLENES,
      [part('179601-23-1', '<2'), part('95-47-6', '<1')],
      level,
    );
    expect(sumWork(unseen, 'least')).toBeNull();
    const unbounded = sumVerdict(TOTAL_XYLENES, [part('95-47-6', '30')], level);
    expect(sumWork(unbounded, 'most')).toBeNull();
  });
});
