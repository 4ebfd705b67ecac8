import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/domain/arithmetic';
import { blankFlag } from '../../../src/domain/lab/blanks';
import {
  duplicateAgreement,
  relativePercentDifference,
  USUAL_DUPLICATE_LIMITS,
} from '../../../src/domain/lab/duplicates';
import { holdingLimitFor, holdingTimes, heldFor } from '../../../src/domain/lab/holding-times';
import { USUAL_HOLDING_LIMITS } from '../../../src/domain/lab/holding-time-list';
import { isCas } from '../../../src/domain/lab/cas';
import { resultReader, type ResultInput } from '../../../src/domain/lab/reading';
import { printWork } from '../../../src/domain/print-work';
import { aResult } from './a-result';

const read = resultReader();
const reading = (value: string, more: Partial<ResultInput> = {}) => read(aResult(value, more));

describe('field duplicates', () => {
  // Computed independently.
  test.each([
    [12, 15, 22.22],
    [2, 1, 66.67],
    [100, 73.9, 30.02],
  ])('%d and %d differ by %d %', (a, b, percent) => {
    expect(relativePercentDifference(a, b)).toBeCloseTo(percent, 2);
    expect(relativePercentDifference(b, a)).toBeCloseTo(percent, 2);
  });
  test('two zeros have no relative difference', () => {
    expect(relativePercentDifference(0, 0)).toBeNull();
  });

  const pair = (
    a: string,
    b: string,
    more: Partial<ResultInput> = {},
    limits = USUAL_DUPLICATE_LIMITS,
  ) =>
    duplicateAgreement(
      reading(a, { reporting_limit: '1', ...more }),
      reading(b, { reporting_limit: '1', sample: 'DP-1-S1-D', ...more }),
      limits,
    );

  test('well above the limit: 12 and 15 agree within 30 %, 100 and 73.9 do not', () => {
    expect(pair('12', '15')).toMatchObject({ kind: 'rpd', agrees: true, allowed: 30, unit: '%' });
    expect(pair('100', '73.9')).toMatchObject({ kind: 'rpd', agrees: false });
  });
  test('the limit is the user’s', () => {
    expect(pair('12', '15', {}, { ...USUAL_DUPLICATE_LIMITS, rpd: 20 })).toMatchObject({
      agrees: false,
    });
  });
  test('near the limit the difference counts: 2 and 1 are one reporting limit apart', () => {
    expect(pair('2', '1')).toMatchObject({
      kind: 'difference',
      value: 1,
      allowed: 1,
      agrees: true,
    });
    expect(pair('2.1', '1')).toMatchObject({ kind: 'difference', agrees: false });
    expect(pair('1.3', '0.3')).toMatchObject({ kind: 'difference', agrees: true });
  });
  test('one not detected: the difference from its limit, no percentage', () => {
    expect(pair('1.8', '<1')).toMatchObject({
      kind: 'difference',
      value: expect.closeTo(0.8, 12),
      agrees: true,
    });
    expect(pair('40', '<1')).toMatchObject({ kind: 'difference', value: 39, agrees: false });
    expect(pair('40', 'ND', { reporting_limit: null })).toMatchObject({ kind: 'not compared' });
  });
  test('neither detected', () => {
    expect(pair('<1', 'ND')).toEqual({ kind: 'neither detected' });
  });
  test('in other units the pair is the same', () => {
    const mixed = duplicateAgreement(
      reading('12', { reporting_limit: '1' }),
      reading('0.015', { unit: 'mg/L', reporting_limit: '0.001', sample: 'DP-1-S1-D' }),
    );
    expect(mixed).toMatchObject({ kind: 'rpd', value: expect.closeTo(22.22, 2) });
  });
  test.each<[string, Partial<ResultInput>]>([
    ['another analyte', { cas: '108-88-3' }],
    ['another fraction', { fraction: 'dissolved' }],
    ['another dimension', { unit: 'pCi/L' }],
    ['an unknown unit', { unit: 'barrels' }],
    ['rejected', { lab_qualifier: 'R' }],
  ])('not compared: %s', (_, more) => {
    expect(duplicateAgreement(reading('12'), reading('15', more)).kind).toBe('not compared');
  });
  test('the printed line works out to the printed answer', () => {
    for (const [a, b] of [
      ['12', '15'],
      ['100', '73.9'],
      ['2', '1'],
    ] as const) {
      const found = pair(a, b);
      if (!('work' in found)) throw new Error('no work');
      const { substituted, answer } = printWork(found.work, { vertical: 'm', grid: 'm' });
      expect(evaluate(substituted, new Map())).toBeCloseTo(Number(answer), found.work.decimals);
    }
  });
});

// Five times the blank, ten for the usual laboratory contaminants: values from memory,
// EPA 540/R-99/008 (1999). Numbers are never changed.
describe('blanks', () => {
  const trip = { sample: 'TB-1' };
  test('4.9 µg/L with 1 µg/L in the trip blank is flagged, 5 µg/L is not', () => {
    const sample = reading('4.9');
    expect(blankFlag(sample, reading('1', trip))).toMatchObject({ times: 5, ratio: 4.9 });
    expect(blankFlag(reading('5'), reading('1', trip))).toBeNull();
    expect(sample.written?.text).toBe('4.9');
  });
  test('acetone is flagged up to ten times', () => {
    const acetone = { cas: '67-64-1', analyte: 'Acetone' };
    expect(blankFlag(reading('9', acetone), reading('1', { ...acetone, ...trip }))?.times).toBe(10);
    expect(blankFlag(reading('10', acetone), reading('1', { ...acetone, ...trip }))).toBeNull();
  });
  test('nothing in the blank, or nothing in the sample, flags nothing', () => {
    expect(blankFlag(reading('4'), reading('<1', trip))).toBeNull();
    expect(blankFlag(reading('<4'), reading('1', trip))).toBeNull();
    expect(blankFlag(reading('4'), reading('1', { ...trip, cas: '108-88-3' }))).toBeNull();
    expect(blankFlag(reading('4'), reading('1', { ...trip, unit: 'pCi/L' }))).toBeNull();
  });
  test('across units', () => {
    expect(
      blankFlag(reading('4.9'), reading('0.001', { ...trip, unit: 'mg/L' }))?.ratio,
    ).toBeCloseTo(4.9, 12);
  });
});

describe('holding times', () => {
  const volatiles = USUAL_HOLDING_LIMITS.find(({ name }) => name.startsWith('Volatile'))!;
  const semivolatiles = USUAL_HOLDING_LIMITS.find(({ name }) => name.startsWith('Semivolatile'))!;

  test('14 days to the minute', () => {
    const at = (analysed: string) =>
      holdingTimes({ sampled: '2026-03-02T10:30', extracted: null, analysed }, volatiles)[0];
    expect(at('2026-03-16T10:30')).toMatchObject({ hours: 336, kept: true, byDays: false });
    expect(at('2026-03-16T10:31')).toMatchObject({ kept: false });
  });
  test('by the calendar where only days are written', () => {
    const at = (analysed: string) =>
      holdingTimes({ sampled: '2026-02-20T23:50', extracted: null, analysed }, volatiles)[0];
    expect(at('2026-03-06')).toMatchObject({ hours: 336, kept: true, byDays: true });
    expect(at('2026-03-07')).toMatchObject({ kept: false, byDays: true });
  });
  test('extraction and analysis are two steps', () => {
    const steps = holdingTimes(
      { sampled: '2026-03-02', extracted: '2026-03-10', analysed: '2026-04-01' },
      semivolatiles,
    );
    expect(steps.map(({ step, kept }) => [step, kept])).toEqual([
      ['to extraction', false],
      ['from extraction to analysis', true],
    ]);
  });
  test('times not known, or the wrong way round, give no answer', () => {
    const handled = { sampled: '2026-03-02', extracted: null, analysed: null };
    expect(holdingTimes(handled, volatiles)).toEqual([]);
    expect(heldFor('2026-03-02T10:00', '2026-03-01T10:00')).toBeNull();
    expect(heldFor('2026-03-02', 'soon')).toBeNull();
  });
  test('the limit is found by analyte before method', () => {
    const of = (cas: string | null, method: string | null) =>
      holdingLimitFor(USUAL_HOLDING_LIMITS, cas, method)?.name;
    expect(of('7439-97-6', 'EPA 6020B')).toBe('Mercury');
    expect(of('71-43-2', 'EPA 8260D')).toBe('Volatile organic compounds');
    expect(of(null, null)).toBeUndefined();
  });
  test('every analyte in the list has its check digit, and every limit a source', () => {
    for (const { analytes, source } of USUAL_HOLDING_LIMITS) {
      expect(analytes.filter((cas) => !isCas(cas))).toEqual([]);
      expect(source).toMatch(/from memory/);
    }
  });
});
