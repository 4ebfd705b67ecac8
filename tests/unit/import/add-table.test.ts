import { expect, test } from 'vitest';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import { BLOCK_ROWS, eachRow, tableOf } from '../../../src/domain/site/table';
import { isSmall } from '../../../src/io/keeping/entry';
import { changeOf } from '../../../src/io/keeping/journal';
import { preview } from '../../../src/io/import/preview';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { emptySite, importInto, sourceOf, targetOf } from './target';

const ROWS = 20_000;
const many = () =>
  sourceOf(
    'lab.csv',
    'Location,Sample,Date,Analyte,Result,Unit',
    ...Array.from({ length: ROWS }, (_, i) => `DP-1,S${i >> 2},2025-03-31,Analyte ${i & 3},${i},ug/L`), // prettier-ignore
  );

test('very many rows are added as blocks, and come out in the order of the file', () => {
  const { preview: made, after } = importInto(emptySite(), many(), { 'new locations': 'direct push' }); // prettier-ignore
  expect(made.edit?.edits.map(({ kind }) => kind)).toEqual(['add-rows', 'add-rows', 'add-rows', 'add-rows', 'add-table']); // prettier-ignore
  const results = after.tables.results;
  expect(results?.size).toBe(ROWS);
  expect(results?.blocks.map(({ size }) => size)).toEqual([BLOCK_ROWS, ROWS - BLOCK_ROWS]);
  const { site } = targetOf(after);
  expect(site.results.at(ROWS - 1)?.value).toBe(String(ROWS - 1));
  expect(site.problems).toEqual([]);
});

test('a large import is never written out in the journal, only counted', () => {
  const site = emptySite();
  const source = many();
  const made = preview(source, proposeMapping(source).mapping, { 'new locations': 'direct push', 'is samples.kind': 'field sample', rounds: 'year' }, targetOf(site)); // prettier-ignore
  if (!made.edit) throw new Error('nothing to do');
  expect(isSmall(made.edit)).toBe(false);
  const change = changeOf(site, made.edit);
  expect(JSON.stringify(change).length).toBeLessThan(5_000);
  expect(change).toMatchObject({ what: 'together', changes: expect.arrayContaining([{ what: 'add-rows', table: 'results', row: 2, count: ROWS }]) as unknown }); // prettier-ignore
});

test('columns either side lacks are blank, and the site’s own order of columns stands', () => {
  const first: Edit = { kind: 'add-table', table: 'strata', added: tableOf(['bottom', 'location', 'colour'], [['2', 'DP-1', 'grey']]) }; // prettier-ignore
  const second: Edit = { kind: 'add-table', table: 'strata', added: tableOf(['top', 'odour', 'location'], [['2', 'fuel', 'DP-1']]) }; // prettier-ignore
  const made = apply(emptySite(), { kind: 'together', edits: [first, second] });
  if (!made.ok) throw new Error(made.problem);
  const strata = made.value.tables.strata;
  expect(strata?.columns).toEqual(['location', 'top', 'bottom', 'description', 'class', 'colour', 'odour']); // prettier-ignore
  expect([...eachRow(strata ?? tableOf([], []))]).toEqual([
    ['DP-1', '', '2', '', '', 'grey', ''],
    ['DP-1', '2', '', '', '', '', 'fuel'],
  ]);
  expect(apply(emptySite(), { ...first, added: tableOf(['top'], []) })).toEqual({ ok: false, problem: 'nothing-to-add' }); // prettier-ignore
});
