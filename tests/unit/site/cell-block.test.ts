import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  blockBetween,
  clearBlock,
  clipboardText,
  columnsDrawn,
  fillDown,
  nextWith,
  pastedOver,
  readClipboard,
  writeBlock,
} from '../../../src/domain/site/cell-block';
import { apply } from '../../../src/domain/site/edits/apply';
import { cellText, eachRow, tableOf, withCell, withCells } from '../../../src/domain/site/table';
import { emptySite } from '../import/target';

const COLUMNS = ['id', 'easting', 'northing', 'kind', 'status'];
const table = tableOf(COLUMNS, [
  ['P-1', '100', '200', 'direct push', 'pushed'],
  ['P-2', '110', '210', '', ''],
  ['P-3', '120', '220', '', ''],
]);
const site = { ...emptySite(), tables: { locations: table } };

test('a block from a spreadsheet is cut at tabs and line breaks, quoted cells whole', () => {
  expect(readClipboard('a\tb\r\nc\t"d\n""e"""\r\n')).toEqual([
    ['a', 'b'],
    ['c', 'd\n"e"'],
  ]);
  expect(readClipboard('5"\t3')).toEqual([['5"', '3']]);
  expect(readClipboard('a\t\n\tb')).toEqual([
    ['a', ''],
    ['', 'b'],
  ]);
});

test('whatever block is copied comes back as it was', () => {
  const cell = fc.string({ maxLength: 6 }).map((text) => text.replaceAll('\0', ''));
  const block = fc.integer({ min: 2, max: 5 }).chain(
    (width) =>
      fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 5 }), // prettier-ignore
  );
  fc.assert(
    fc.property(block, (rows) => {
      const columns = (rows[0] ?? []).map((_, i) => `c${i}`);
      const all = blockBetween({ row: 0, column: 0 }, { row: rows.length - 1, column: columns.length - 1 }); // prettier-ignore
      const text = clipboardText(tableOf(columns, rows), columns, all);
      expect(readClipboard(text)).toEqual(rows);
    }),
  );
});

test('a block pasted over the end writes the cells there are and adds the rows there are not', () => {
  const edit = writeBlock('locations', table, { row: 2, column: 0 }, [
    ['P-3', '121'],
    ['P-4', '130'],
    ['', ''],
  ]);
  const made = edit && apply(site, edit);
  const after = made?.ok ? made.value.tables.locations : undefined;
  expect(after && [...eachRow(after)].slice(2)).toEqual([
    ['P-3', '121', '220', '', ''],
    ['P-4', '130', '', '', ''],
  ]);
});

test('writing what stands there already is no edit', () => {
  expect(writeBlock('locations', table, { row: 0, column: 0 }, [['P-1', '100']])).toBeNull();
});

test('the first row of a block is filled down; a single row takes the one above', () => {
  const block = blockBetween({ row: 2, column: 4 }, { row: 0, column: 3 });
  const edit = fillDown('locations', table, block);
  const made = edit && apply(site, edit);
  const after = made?.ok ? made.value.tables.locations : undefined;
  expect(after && [...eachRow(after)].map(([, , , kind, status]) => [kind, status])).toEqual([
    ['direct push', 'pushed'],
    ['direct push', 'pushed'],
    ['direct push', 'pushed'],
  ]);
  const one = blockBetween({ row: 1, column: 1 }, { row: 1, column: 1 });
  expect(fillDown('locations', table, one)).toEqual({
    kind: 'write-cells',
    table: 'locations',
    cells: [{ row: 1, column: 'easting', text: '100' }],
  });
});

test('one cell pasted over a block fills it; a block that does not fit is pasted as it is', () => {
  const block = blockBetween({ row: 0, column: 0 }, { row: 1, column: 2 });
  expect(pastedOver(block, [['x']])).toEqual([
    ['x', 'x', 'x'],
    ['x', 'x', 'x'],
  ]);
  expect(pastedOver(block, [['x', 'y']])).toEqual([['x', 'y']]);
});

test('clearing a block leaves the rows, and cells that were blank are not written', () => {
  const edit = clearBlock('locations', table, { top: 1, left: 2, bottom: 9, right: 3 });
  expect(edit).toMatchObject({ cells: [{ row: 1, text: '' }, { row: 2, text: '' }] }); // prettier-ignore
});

test('a text is found from the cell in hand on, and round the end', () => {
  expect(nextWith(table, { row: 0, column: 0 }, 'p-')).toEqual({ row: 1, column: 0 });
  expect(nextWith(table, { row: 2, column: 0 }, 'p-1')).toEqual({ row: 0, column: 0 });
  expect(nextWith(table, { row: 0, column: 0 }, 'zinc')).toBeNull();
});

test('an absent table is drawn with the columns of its schema', () => {
  expect(columnsDrawn('locations', undefined)[0]).toBe('id');
  expect(columnsDrawn('locations', table).slice(0, 5)).toEqual(COLUMNS);
});

test('many cells written at once are those written one by one', () => {
  const cells = fc.array(
    fc.record({
      row: fc.integer({ min: 0, max: 2 }),
      column: fc.constantFrom('id', 'easting', 'new'),
      text: fc.constantFrom('', 'P-1', '7'),
    }),
    { maxLength: 12 },
  );
  fc.assert(
    fc.property(cells, (list) => {
      const oneByOne = list.reduce((t, c) => withCell(t, c.row, c.column, c.text), table);
      const together = withCells(table, list);
      expect(together.columns).toEqual(oneByOne.columns);
      for (let row = 0; row < 3; row++)
        for (const column of oneByOne.columns)
          expect(cellText(together, row, column)).toBe(cellText(oneByOne, row, column));
    }),
  );
});
