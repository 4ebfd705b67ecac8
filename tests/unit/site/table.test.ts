import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  BLOCK_ROWS,
  cellText,
  eachRow,
  rowTexts,
  tableOf,
  withCell,
  withoutRows,
  withRows,
} from '../../../src/domain/site/table';

const rowsOf = (n: number) => Array.from({ length: n }, (_, i) => [`DP-${i}`, `${i % 7}.5`]);

test('an edit in a long table copies one block and shares the others', () => {
  const before = tableOf(['id', 'depth'], rowsOf(3 * BLOCK_ROWS + 5));
  const after = withCell(before, BLOCK_ROWS + 3, 'depth', '8.30');
  expect(cellText(after, BLOCK_ROWS + 3, 'depth')).toBe('8.30');
  expect(cellText(before, BLOCK_ROWS + 3, 'depth')).toBe(`${(BLOCK_ROWS + 3) % 7}.5`);
  expect(after.blocks.map((block, i) => block === before.blocks[i])).toEqual([
    true,
    false,
    true,
    true,
  ]);
});

test('a column the table lacks is added blank', () => {
  const table = withCell(tableOf(['id'], [['A'], ['B']]), 1, 'note', 'soft ground');
  expect([...eachRow(table)]).toEqual([
    ['A', ''],
    ['B', 'soft ground'],
  ]);
});

test('typing in one cell again and again does not grow the table without end', () => {
  let table = tableOf(['id'], [['A'], ['B']]);
  for (let i = 0; i < 1000; i++) table = withCell(table, 0, 'id', `A${i}`);
  expect(table.blocks[0]?.columns[0]?.dictionary.length).toBeLessThan(100);
  expect(rowTexts(table, 0)).toEqual(['A999']);
});

test('a table does to its rows what a list of lists would', () => {
  const text = fc.constantFrom('', 'A', 'B', '8.30', '8.3');
  const row = fc.tuple(text, text);
  const deed = fc.oneof(
    fc.record({ add: fc.array(row, { minLength: 1, maxLength: 3 }) }),
    fc.record({ write: fc.tuple(fc.nat(20), text) }),
    fc.record({ drop: fc.array(fc.nat(20), { maxLength: 3 }) }),
  );
  fc.assert(
    fc.property(
      fc.array(row, { maxLength: 10 }),
      fc.array(deed, { maxLength: 12 }),
      (start, deeds) => {
        let table = tableOf(['id', 'depth'], start);
        let list = start.map((r) => [...r]);
        for (const d of deeds) {
          if ('add' in d) {
            table = withRows(
              table,
              d.add.map(([id, depth]) => ({ id, depth })),
            );
            list = [...list, ...d.add.map((r) => [...r])];
          } else if ('write' in d) {
            const [at, words] = d.write;
            table = withCell(table, at, 'depth', words);
            list = list.map((r, i) => (i === at ? [r[0] ?? '', words] : r));
          } else {
            const gone = new Set(d.drop);
            table = withoutRows(table, gone);
            list = list.filter((_, i) => !gone.has(i));
          }
        }
        expect([...eachRow(table)]).toEqual(list);
        expect(table.size).toBe(list.length);
      },
    ),
  );
});
