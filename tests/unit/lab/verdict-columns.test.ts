import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { LevelInput, SetRules } from '../../../src/domain/lab/level';
import { resultReader, type ResultInput } from '../../../src/domain/lab/reading';
import { levelSets } from '../../../src/domain/lab/screening';
import {
  countCodes,
  outcomeCodes,
  outcomeWithCode,
  resultColumns,
} from '../../../src/domain/lab/verdict-columns';
import { countVerdicts } from '../../../src/domain/lab/worst';
import { aLevel, aResult } from './a-result';
import { level, result } from './random-results';

const analyte = fc.constantFrom(
  { cas: '71-43-2', analyte: 'Benzene' },
  { cas: null, analyte: 'TCE' },
  { cas: '14797-55-8', analyte: 'Nitrate' },
  { cas: '14797-55-8', analyte: 'Nitrate as N' },
  { cas: '108-88-3', analyte: 'Toluene' }, // no level
);
const results = fc.array(
  fc
    .tuple(
      result,
      analyte,
      fc.constantFrom('total', 'dissolved', null),
      fc.constantFrom('groundwater', 'soil', null),
    )
    .map(([r, names, fraction, matrix]): ResultInput => ({ ...r, ...names, fraction, matrix })),
  { maxLength: 60 },
);
const levels = fc
  .tuple(level, level, level)
  .map(([a, b, c]): LevelInput[] => [
    a,
    { ...b, cas: '79-01-6', analyte: 'Trichloroethylene', fraction: 'total', matrix: 'water' },
    { ...c, cas: '14797-55-8', analyte: 'Nitrate (as N)' },
  ]);
const rules: fc.Arbitrary<SetRules> = fc.record({
  equalExceeds: fc.boolean(),
  roundToLevel: fc.boolean(),
  decides: fc.constantFrom('reporting limit', 'detection limit'),
});

test('a table judged as columns gives, row by row, what each result gives alone', () => {
  const read = resultReader();
  fc.assert(
    fc.property(results, levels, rules, (rows, chosen, how) => {
      const set = levelSets(chosen, () => how).get('A')!;
      const readings = rows.map(read);
      const codes = outcomeCodes(resultColumns(readings, rows.length), set);
      expect([...codes].map(outcomeWithCode)).toEqual(readings.map(set.outcomeFor));
      expect(countCodes(codes)).toEqual(
        countVerdicts(readings.map((reading) => set.outcomeFor(reading).verdict)),
      );
    }),
    { numRuns: 400 },
  );
});

test('the same columns serve one set after another', () => {
  const read = resultReader();
  const readings = fc.sample(result, { numRuns: 500, seed: 3 }).map(read);
  const columns = resultColumns(readings, 500);
  for (const value of ['1', '5', '70', '0.5', '5']) {
    const set = levelSets([aLevel(value)]).get('A')!;
    expect([...outcomeCodes(columns, set)].map(outcomeWithCode)).toEqual(
      readings.map(set.outcomeFor),
    );
  }
});

test('fewer results than room for them is no harm', () => {
  const columns = resultColumns([resultReader()(fc.sample(result, 1)[0]!)], 10);
  expect(columns.size).toBe(1);
  expect(outcomeCodes(columns, levelSets([aLevel()]).get('A')!)).toHaveLength(1);
});

test('limits of non-detects are not rounded to the level, values are', () => {
  const rules = { equalExceeds: false, roundToLevel: true, decides: 'reporting limit' } as const;
  const set = levelSets([aLevel('5')], () => rules).get('A')!;
  const readings = ['<5.4', '5.4', '5.5'].map((value) => resultReader()(aResult(value)));
  const verdicts = [...outcomeCodes(resultColumns(readings, 3), set)].map(
    (code) => outcomeWithCode(code).verdict,
  );
  expect(verdicts).toEqual(['cannot-tell', 'does-not-exceed', 'exceeds']);
});
