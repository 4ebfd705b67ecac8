import fc from 'fast-check';
import { expect, test } from 'vitest';
import { eachRow, tableOf } from '../../../src/domain/site/table';
import { asItWas, harmless, readCsv, writeCsv } from '../../../src/io/csv';

test.each(['=HYPERLINK("x")', '+1-800', '@SUM(A1)', '-cmd', "'=1", '\t=1'])(
  '%s cannot run in a spreadsheet, and comes back as it was',
  (text) => {
    expect(harmless(text)).toBe(`'${text}`);
    expect(asItWas(harmless(text))).toBe(text);
  },
);

test.each(['-28.78', '+0.5', '8.31', '1.2E-3', 'DP-1', "O'Hara's field"])(
  '%s is written as it is',
  (text) => expect(harmless(text)).toBe(text),
);

test('any table written and read again is the same table, and the same file', () => {
  const cell = fc.oneof(
    fc.string(),
    fc.constantFrom('', "'", '=x', "'=x", '-5', '"', '\n', ',', '\r\n'),
  );
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.string({ minLength: 1 }), cell, cell), { maxLength: 20 }),
      (rows) => {
        const table = tableOf(['id', 'note', 'crew'], rows);
        const text = writeCsv(table);
        const again = readCsv(text);
        expect([...eachRow(again.table)]).toEqual(rows);
        expect(again.broken).toEqual([]);
        expect(writeCsv(again.table)).toBe(text);
      },
    ),
  );
});

test('a byte-order mark, a last line without its end and blank lines keep every row in its place', () => {
  const { table } = readCsv('\uFEFFId,Note\r\nA,1\r\n\r\nB,2');
  expect(table.columns).toEqual(['id', 'note']);
  expect([...eachRow(table)]).toEqual([
    ['A', '1'],
    ['', ''],
    ['B', '2'],
  ]);
});

test('quotes that never close are said', () => {
  expect(readCsv('id,note\nA,"soft\nB,2').broken).toHaveLength(1);
});
