import { describe, expect, test } from 'vitest';
import type { ResultInput } from '../../../src/domain/lab/reading';
import { verdictOf } from '../../../src/domain/lab/screening';
import { verdictWork } from '../../../src/domain/lab/verdict-work';
import type { LevelInput } from '../../../src/domain/lab/level';
import { aLevel, aResult } from './a-result';
import { expectToWorkOut, lines, printed } from './printed-lines';

const workOf = (value: string, more: Partial<ResultInput> = {}, level: LevelInput = aLevel()) =>
  verdictWork(verdictOf(aResult(value, more), level));

test('12 µg/L against 0.005 mg/L: first into the level’s unit by a power of ten, then over it', () => {
  const work = workOf('12', { row: 7 }, aLevel('0.005', 'mg/L', { row: 3 }));
  expect(printed(work!)).toEqual([
    {
      title: 'Benzene in DP-1-S1: 12 µg/L against 0.005 mg/L',
      formula: 'ratio = result / level',
      line: '0.012000 / 0.005 = 2.40',
    },
    {
      title: 'Result in mg/L',
      formula: 'result = reported / divisor',
      line: '12 / 1000 = 0.012',
    },
  ]);
  expect(work?.note).toBe('12 µg/L is above the level of 0.005 mg/L (5 µg/L).');
});

test('the lines end in the cells somebody typed', () => {
  const work = workOf('12', { row: 7 }, aLevel('0.005', 'mg/L', { row: 3 }))!;
  const cells = lines(work).flatMap(({ terms }) =>
    terms.flatMap(({ from }) =>
      from.kind === 'cell' ? [[from.table, from.row, from.column]] : [],
    ),
  );
  expect(cells).toEqual([
    ['screening_levels', 3, 'value'],
    ['results', 7, 'value'],
  ]);
});

test('a non-detect is worked by its limit, from the column that decided', () => {
  const work = workOf('ND', { row: 7, reporting_limit: '25' })!;
  expect(printed(work)[0]).toEqual({
    title: 'Benzene in DP-1-S1: 25 µg/L against 5 µg/L',
    formula: 'ratio = limit / level',
    line: '25 / 5 = 5.00',
  });
  expect(work.terms[0]?.from).toMatchObject({ table: 'results', column: 'reporting_limit' });
});

test('0.2 Bq/L against 5 pCi/L goes by 1 pCi = 37 mBq', () => {
  const tritium = { cas: '10028-17-8', analyte: 'Tritium' };
  const work = workOf('0.2', { ...tritium, unit: 'Bq/L' }, aLevel('5', 'pCi/L', tritium))!;
  expect(printed(work).map(({ line }) => line)).toEqual([
    '5.4054 / 5 = 1.08',
    '0.2 * 1000 / 37 = 5.405',
  ]);
});

test('nothing compared, nothing to show', () => {
  for (const value of ['R', '', 'trace', 'ND']) expect(workOf(value)).toBeNull();
  expect(workOf('12', { unit: 'pCi/L' })).toBeNull();
});

describe('every printed line works out to its printed answer within half its last digit', () => {
  const CASES: [string, Partial<ResultInput>, LevelInput][] = [
    ['1,200', {}, aLevel()],
    ['1.2E-3', { unit: 'mg/L' }, aLevel('0.0005', 'g/L')],
    ['0.0000000003', { unit: 'g/L' }, aLevel('0.00000003', 'mg/L')],
    ['<0.5 U', { unit: 'ng/L' }, aLevel('4.0', 'ng/L')],
    ['>200', {}, aLevel('0.0049', 'mg/L')],
    ['4.9', {}, aLevel('0.0049', 'mg/L')],
    ['12345.678', { unit: 'pCi/L' }, aLevel('3.7', 'Bq/L')],
    ['7', { unit: 'MFL' }, aLevel('7000000', 'fibers/L')],
  ];
  test.each(CASES)('%s', (value, more, level) => {
    const work = workOf(value, more, level);
    expect(work).not.toBeNull();
    expectToWorkOut(work!);
  });
});
