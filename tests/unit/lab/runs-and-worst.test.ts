import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { resultReader, type ResultInput } from '../../../src/domain/lab/reading';
import { chosenRuns } from '../../../src/domain/lab/runs';
import { levelSets } from '../../../src/domain/lab/screening';
import { VERDICTS } from '../../../src/domain/lab/verdict';
import {
  countVerdicts,
  totalOf,
  worseFirst,
  WORST_FIRST,
  worstBy,
  worstOf,
} from '../../../src/domain/lab/worst';
import { aLevel, aResult } from './a-result';

const read = resultReader();
const reading = (value: string | null, more: Partial<ResultInput> = {}) =>
  read(aResult(value, more));

describe('runs of one sample', () => {
  const values = (...readings: ReturnType<typeof reading>[]) => {
    const { used, replaced } = chosenRuns(readings);
    expect(used.length + replaced.length).toBe(readings.length);
    return used.map(({ result }) => result.value);
  };

  test('an over-range result gives way to its dilution run', () => {
    const first = reading('210', { lab_qualifier: 'E', run: 'initial' });
    const diluted = reading('340', { lab_qualifier: 'D', run: 'dilution' });
    expect(chosenRuns([first, diluted])).toEqual({
      used: [diluted],
      replaced: [{ reading: first, by: diluted, why: 'over range, measured in a dilution' }],
    });
  });
  test('told by its letter where the column run is blank', () => {
    expect(
      values(reading('210', { lab_qualifier: 'E' }), reading('340', { lab_qualifier: 'D' })),
    ).toEqual(['340']);
  });
  test('without a dilution run it stays, as “at least”', () => {
    expect(values(reading('210', { lab_qualifier: 'E' }))).toEqual(['210']);
  });
  test('a dilution run that is over range itself, or rejected, or sees nothing, replaces nothing', () => {
    const first = reading('210', { lab_qualifier: 'E', run: 'initial' });
    for (const letters of ['E', 'R', 'U'])
      expect(values(first, reading('300', { lab_qualifier: letters, run: 'dilution' }))).toEqual([
        '210',
        '300',
      ]);
  });
  test('the raised limits of a dilution run give way to a first run in range', () => {
    expect(values(reading('<1', { run: 'initial' }), reading('<50', { run: 'dilution' }))).toEqual([
      '<1',
    ]);
    expect(values(reading('3', { run: 'initial' }), reading('4', { run: 'dilution' }))).toEqual([
      '3',
    ]);
  });
  test('a detection in a dilution run never gives way to a non-detect', () => {
    expect(values(reading('<1', { run: 'initial' }), reading('60', { run: 'dilution' }))).toEqual([
      '<1',
      '60',
    ]);
  });
  test('a reanalysis stands beside the first run: which holds is the validator’s to say', () => {
    expect(values(reading('3', { run: 'initial' }), reading('9', { run: 'reanalysis' }))).toEqual([
      '3',
      '9',
    ]);
  });
  test('another sample, fraction or analyte is another matter', () => {
    const first = reading('210', { lab_qualifier: 'E', run: 'initial' });
    const diluted = { lab_qualifier: 'D', run: 'dilution' } as const;
    expect(values(first, reading('340', { ...diluted, sample: 'DP-2-S1' }))).toHaveLength(2);
    expect(values(first, reading('340', { ...diluted, fraction: 'dissolved' }))).toHaveLength(2);
    expect(values(first, reading('340', { ...diluted, cas: '108-88-3' }))).toHaveLength(2);
  });
});

describe('worst first', () => {
  test('every verdict has its place', () => {
    expect([...WORST_FIRST].sort()).toEqual([...VERDICTS].sort());
  });
  test('nothing that cannot be told hides behind what does not exceed', () => {
    expect(worstOf(['does-not-exceed', 'cannot-tell', 'not-detected'])).toBe('cannot-tell');
    expect(worstOf(['does-not-exceed', 'rejected'])).toBe('rejected');
    expect(worstOf(['rejected', 'cannot-tell', 'not-comparable'])).toBe('cannot-tell');
    expect(worstOf(['cannot-tell', 'exceeds-estimated', 'exceeds'])).toBe('exceeds');
    expect(worstOf([])).toBeNull();
  });
  test('the worst of any is among them, and none is worse', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...VERDICTS), { minLength: 1 }), (verdicts) => {
        const worst = worstOf(verdicts)!;
        expect(verdicts).toContain(worst);
        expect(verdicts.every((verdict) => worseFirst(worst, verdict) <= 0)).toBe(true);
      }),
    );
  });
  test('of two exceedances at a screen the larger ratio shows', () => {
    const set = levelSets([
      aLevel('5'),
      aLevel('70', 'µg/L', { cas: '156-59-2', analyte: 'cis-1,2-DCE' }),
    ]).get('A')!;
    const judged = [
      reading('20'),
      reading('700', { cas: '156-59-2' }),
      reading('<1', { sample: 'DP-2-S1' }),
      reading('<50', { sample: 'DP-2-S1' }),
    ].map(set.judge);
    const worst = worstBy(judged, ({ reading: { result } }) => result.sample);
    expect(
      [...worst].map(
        ([
          sample,
          {
            reading: { result },
          },
        ]) => [sample, result.value],
      ),
    ).toEqual([
      ['DP-1-S1', '700'],
      ['DP-2-S1', '<50'],
    ]);
  });
});

test('counts of nine classes add up to all there were', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...VERDICTS)), (verdicts) => {
      const counts = countVerdicts(verdicts);
      expect(totalOf(counts)).toBe(verdicts.length);
      for (const verdict of VERDICTS)
        expect(counts[verdict]).toBe(verdicts.filter((v) => v === verdict).length);
    }),
  );
});
