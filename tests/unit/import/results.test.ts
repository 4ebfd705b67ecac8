import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { levelFinder, levelFrom } from '../../../src/domain/lab/level';
import { resultReader } from '../../../src/domain/lab/reading';
import { limitOf } from '../../../src/domain/lab/limit';
import { outcomeOf } from '../../../src/domain/lab/outcome';
import { compareAmounts } from '../../../src/domain/lab/concentration-units';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { verdictCounts } from '../../../src/io/import/verdicts';
import { readDelimitedBytes } from '../../../src/io/import/read-delimited';
import { packageFrom } from '../site-from';
import { bytesOfFile, emptySite, importInto, sourceOf, targetOf } from './target';

const ORACLES = new URL('../../fixtures/oracles/', import.meta.url);

const oracle = (name: string) => {
  const read = readDelimitedBytes(name, bytesOfFile(new URL(name, ORACLES)));
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};

test('an oracle’s made-up laboratory file counts as it says: above, equal, below, and the non-detects', () => {
  // Independent counts by exact decimals (Python's decimal), stored with the file.
  const { lab_rows_expected_counts: expected } = JSON.parse(
    readFileSync(new URL('i_screening.json', ORACLES), 'utf8'),
  ) as { lab_rows_expected_counts: Record<string, number> };

  const levels = importInto(emptySite(), oracle('i_screening_levels.csv'));
  expect(levels.preview.account).toMatchObject({ rows: 7, taken: 7 });
  const rows = oracle('i_screening_lab_rows.csv');
  expect(rows.headerRow).toBe(3);
  const taken = importInto(levels.after, rows, { 'new locations': 'direct push' });
  expect(taken.preview.account).toMatchObject({ rows: 175, taken: 175, refused: 0 });

  const { site } = targetOf(taken.after);
  const finder = levelFinder(site.screeningLevels.map((level) => levelFrom(level)));
  const reader = resultReader();
  const counts: Record<string, number> = {};
  for (const result of site.results) {
    const reading = reader(result);
    const match = finder(reading);
    const { reason } = outcomeOf(reading, match);
    const limit = reading.state === 'not detected' ? limitOf(reading, 'reporting limit') : null;
    const level = match.level?.value;
    const atLevel = limit && level && compareAmounts(limit, level) === 0;
    const named = {
      'value above level': 'above',
      'estimated value above level': 'above',
      'value equal to level': 'equal',
      'value below level': 'below',
      'limit above level': 'nd, limit above level',
      'limit at or below level': atLevel ? 'nd, limit at level' : 'nd, limit below level',
      blank: 'no result',
    } as Record<string, string>;
    const name = named[reason] ?? reason;
    counts[name] = (counts[name] ?? 0) + 1;
  }
  expect(counts).toEqual(expected);
});

const HEADER = 'Location,Sample,Date,Analyte,CAS,Result,Q,RL,Unit';
const lab = (...rows: readonly string[]) => sourceOf('lab.csv', HEADER, ...rows);
const AS_PUSHED = { 'new locations': 'direct push' };

const values = (...results: readonly string[]) =>
  results.map((result, i) => `DP-1,S${i},2025-03-31,Benzene,71-43-2,${result},,1,ug/L`);

test('results as people write them come in as they were written', () => {
  const written = ['<0.5', 'ND', '0.5 U', '5.2 J', '"1,200"', '1.2E-3', '>200', '', '0.5'];
  const { preview, after } = importInto(emptySite(), lab(...values(...written)), AS_PUSHED);
  expect(preview.account).toMatchObject({ rows: 9, taken: 9 });
  expect([...targetOf(after).site.results].map(({ value }) => value)).toEqual([
    '<0.5',
    'ND',
    '0.5 U',
    '5.2 J',
    '1,200',
    '1.2E-3',
    '>200',
    null,
    '0.5',
  ]);
});

test('what is no result is refused, and says what it should have been', () => {
  const { preview } = importInto(emptySite(), lab(...values('5.2 ug/L', 'see note')), AS_PUSHED);
  expect(preview.refused.map(({ row, why }) => [row, why])).toEqual([
    [2, 'Result: expected only qualifier letters after the number, found “5.2 ug/L”.'],
    [3, 'Result: expected a result such as 5.2, <0.5, ND, 0.5 U or >200, found “see note”.'],
  ]);
});

test('a CAS number is held to its check digit and to its name', () => {
  const { preview } = importInto(
    emptySite(),
    lab(
      'DP-1,S1,2025-03-31,Benzene,71-43-3,5,,1,ug/L',
      'DP-1,S1,2025-03-31,Benzene,108-88-3,5,,1,ug/L',
      'DP-1,S1,2025-03-31,Benzene,000071-43-2,5,,1,ug/L',
      'DP-1,S1,2025-03-31,House blend,n/a,5,,1,ug/L',
    ),
    AS_PUSHED,
  );
  expect(preview.account).toMatchObject({ taken: 2, refused: 2 });
  expect(preview.refused.map(({ why }) => why)).toEqual([
    'CAS: expected a CAS number with its check digit, found “71-43-3”.',
    'CAS: expected 71-43-2, the CAS number of Benzene, found “108-88-3”.',
  ]);
});

test('decimal commas are asked about, and become points once they are said to be there', () => {
  const source = sourceOf(
    'labor.csv',
    'Location;Sample;Date;Analyte;Result;RL;Unit',
    'DP-1;S1;2025-03-31;Benzene;<0,5;0,5;ug/L',
    'DP-1;S2;2025-03-31;Benzene;1.200;0,5;ug/L',
  );
  const open = importInto(emptySite(), source, { ...AS_PUSHED, decimals: '' });
  expect(open.preview.account).toMatchObject({ refused: 2 });
  expect(open.preview.refused[0]?.why).toContain('an answer to which sign parts the decimals');
  const { preview, after } = importInto(emptySite(), source, AS_PUSHED);
  expect(preview.asks.find(({ id }) => id === 'decimals')?.proposed).toBe('comma');
  expect([...targetOf(after).site.results].map((r) => [r.value, r.reporting_limit])).toEqual([
    ['<0.5', '0.5'],
    ['1200', '0.5'],
  ]);
});

test('analytes across: every result is told apart, with its letters and unit', () => {
  const source = sourceOf(
    'across.csv',
    'Well,Date,Benzene (ug/L),Q,Toluene (ug/L),Q',
    'DP-1,2025-03-31,5.2,J,<1,U',
    'DP-2,2025-03-31,,,3,',
    ',,,,,',
  );
  const { preview, after } = importInto(emptySite(), source, AS_PUSHED);
  expect(preview.account).toMatchObject({ rows: 3, taken: 2, blank: 1, refused: 0 });
  expect(preview.results).toMatchObject({ rows: 4, taken: 3, blank: 1 });
  expect(
    [...targetOf(after).site.results].map((r) => [r.sample, r.analyte, r.value, r.unit, r.lab_qualifier]), // prettier-ignore
  ).toEqual([
    ['DP-1 2025-03-31', 'Benzene', '5.2', 'ug/L', 'J'],
    ['DP-1 2025-03-31', 'Toluene', '<1', 'ug/L', 'U'],
    ['DP-2 2025-03-31', 'Toluene', '3', 'ug/L', null],
  ]);
});

test('analytes across with a row of units under the header, and one result that is none', () => {
  const source = sourceOf(
    'across.csv',
    'Sample,Well,Date,Benzene,Toluene',
    ',,,ug/L,mg/L',
    'S1,DP-1,2025-03-31,5.2,spilled',
    'S2,DP-1,2025-03-31,1,2',
  );
  const { preview, after } = importInto(emptySite(), source, AS_PUSHED);
  expect(preview.account).toMatchObject({ rows: 2, taken: 1, refused: 1 });
  expect(preview.results).toMatchObject({ rows: 4, taken: 3, refused: 1 });
  expect(preview.refused[0]).toMatchObject({ row: 3 });
  expect([...targetOf(after).site.results].map((r) => [r.sample, r.analyte, r.unit])).toEqual([
    ['S1', 'Benzene', 'ug/L'],
    ['S2', 'Benzene', 'ug/L'],
    ['S2', 'Toluene', 'mg/L'],
  ]);
});

test('samples across, with their locations and days in rows of their own', () => {
  const source = sourceOf(
    'across.csv',
    'Analyte,CAS,Units,MW-1-0325,MW-2-0325',
    'Location,,,MW-1,MW-2',
    'Date,,,2025-03-31,2025-04-01',
    'Benzene,71-43-2,ug/L,5.2,<1',
    'Toluene,108-88-3,ug/L,,2',
  );
  const { preview, after } = importInto(emptySite(), source, { 'new locations': 'monitoring well' }); // prettier-ignore
  expect(preview.account).toMatchObject({ rows: 2, taken: 2 });
  const { site } = targetOf(after);
  expect([...site.samples.values()].map((s) => [s.id, s.screen, s.time])).toEqual([
    ['MW-1-0325', 'MW-1', '2025-03-31'],
    ['MW-2-0325', 'MW-2', '2025-04-01'],
  ]);
  expect([...site.results].map((r) => [r.sample, r.analyte, r.cas, r.value, r.unit])).toEqual([
    ['MW-1-0325', 'Benzene', '71-43-2', '5.2', 'ug/L'],
    ['MW-2-0325', 'Benzene', '71-43-2', '<1', 'ug/L'],
    ['MW-2-0325', 'Toluene', '108-88-3', '2', 'ug/L'],
  ]);
});

test('kinds of sample in the laboratory’s words; a blank needs no location, a sample does', () => {
  const source = sourceOf(
    'lab.csv',
    'Location,Sample,Sample Type,Date,Analyte,Result,Unit',
    'DP-1,S1,Normal,2025-03-31,Benzene,5,ug/L',
    'DP-1,S2,FD,2025-03-31,Benzene,5,ug/L',
    ',S3,Trip Blank,2025-03-31,Benzene,<1,ug/L',
    ',S4,Rinsate,2025-03-31,Benzene,<1,ug/L',
    ',S5,N,2025-03-31,Benzene,<1,ug/L',
    'DP-1,S6,Mystery,2025-03-31,Benzene,<1,ug/L',
  );
  const { preview, after } = importInto(emptySite(), source, AS_PUSHED);
  expect([...targetOf(after).site.samples.values()].map(({ id, kind }) => [id, kind])).toEqual([
    ['S1', 'field sample'],
    ['S2', 'field duplicate'],
    ['S3', 'trip blank'],
    ['S4', 'equipment blank'],
  ]);
  expect(preview.refused.map(({ row }) => row)).toEqual([6, 7]);
  expect(preview.asks.map(({ id }) => id)).toContain('samples.kind Mystery');
  const answered = importInto(emptySite(), source, { ...AS_PUSHED, 'samples.kind Mystery': 'field sample' }); // prettier-ignore
  expect(answered.preview.account).toMatchObject({ taken: 5, refused: 1 });
});

test('a sample said to be in two places is refused the second time', () => {
  const { preview } = importInto(
    emptySite(),
    lab('DP-1,S1,2025-03-31,Benzene,,5,,1,ug/L', 'DP-2,S1,2025-03-31,Toluene,,5,,1,ug/L'),
    AS_PUSHED,
  );
  expect(preview.refused.map(({ why }) => why)).toEqual([
    'screen: expected “DP-1”, as in row 2, found “DP-2”.',
  ]);
  // Nothing comes of a refused row: DP-2 is not added.
  expect(preview.adds).toContainEqual({ table: 'locations', rows: 1 });
});

test('a method named in the file keeps two runs of an analyte apart', () => {
  const source = sourceOf(
    'lab.csv',
    'Location,Sample,Date,Analyte,Result,Unit,Method',
    'DP-1,S1,2025-03-31,Benzene,5,ug/L,8260D',
    'DP-1,S1,2025-03-31,Benzene,6,ug/L,524.2',
    'DP-1,S1,2025-03-31,Benzene,7,ug/L,8260D',
  );
  const { preview } = importInto(emptySite(), source, AS_PUSHED);
  expect(preview.account).toMatchObject({ added: 2, refused: 1 });
  expect(preview.refused[0]?.why).toContain('a row not already there (row 2 has it with another value)'); // prettier-ignore
});

test('a column headed limit is only likely the reporting limit', () => {
  const { matches } = proposeMapping(
    sourceOf('lab.csv', 'sample,analyte,result,limit,unit', 'S1,Benzene,5,1,ug/L'),
  );
  expect(matches[3]).toMatchObject({ score: 0.7, use: { slot: 'results.reporting_limit' } });
});

test('the verdicts counted before a file is taken are those the oracle expects', () => {
  const levels = importInto(emptySite(), oracle('i_screening_levels.csv')).after;
  const { preview } = importInto(levels, oracle('i_screening_lab_rows.csv'), AS_PUSHED);
  const [counted] = verdictCounts(preview.edit, targetOf(levels));
  // The oracle's classes: above 35; equal 23 and below 21; limits at 29, below 18 and above 21.
  expect(counted?.counts).toMatchObject({
    'does-not-exceed': 23 + 21,
    'not-detected': 29 + 18,
    'cannot-tell': 21,
    'no-result': 28,
  });
  const { counts } = counted ?? {};
  expect((counts?.exceeds ?? 0) + (counts?.['exceeds-estimated'] ?? 0)).toBe(35);
});

test('a unit in the heading of the results is that of every row; a limit in another is left out', () => {
  const source = sourceOf(
    'lab.csv',
    'Location,Sample,Date,Analyte,Result [ug/L],RL (mg/L),MDL (ug/L)',
    'DP-1,S1,2025-03-31,Benzene,5.2,0.001,0.2',
  );
  const { preview, after } = importInto(emptySite(), source, AS_PUSHED);
  const [result] = [...targetOf(after).site.results];
  expect([result?.unit, result?.reporting_limit, result?.detection_limit]).toEqual(['ug/L', null, '0.2']); // prettier-ignore
  expect(preview.said).toContain('RL (mg/L) is in another unit than the results, and is left out.');
});

test('a file that names its samples alone is matched by the name they were sent under and by the laboratory’s number', () => {
  const site = packageFrom({
    events: ['id,title,first_day,last_day', 'E1,Round,2026-05-30,2026-05-31'],
    samples: [
      'id,event,kind,custody_number,lab_number,blind_alias',
      'DP-3,E1,field sample,COC-1,L-702,',
      'DUP-1,E1,field duplicate,COC-1,,DP-88',
      'DP-4,E1,field sample,COC-1,L-703,',
      'DP-5,E1,field sample,COC-1,L-703,',
    ],
  });
  const named = ['DP-3', 'DP-88', 'L-702', 'L-703'];
  const rows = named.map((name, i) => `${name},${['Benzene', 'Toluene'][i >> 1] ?? ''},1.5,ug/L`);
  const taken = importInto(site, sourceOf('lab.csv', 'Sample,Analyte,Result,Unit', ...rows));
  expect([...targetOf(taken.after).site.results].map(({ sample }) => sample)).toEqual([
    'DP-3',
    'DUP-1',
    'DP-3',
  ]);
  // Two samples have that number: it is not guessed which was meant.
  expect(taken.preview.refused.map(({ row }) => row)).toEqual([5]);
});
