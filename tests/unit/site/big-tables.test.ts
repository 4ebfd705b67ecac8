import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readTable, type ReadingContext } from '../../../src/domain/site/read-table';
import type { Row } from '../../../src/domain/site/schema';
import { tableOf } from '../../../src/domain/site/table';
import { READ, rowsCoded, rowsDifferingIn, type Rows } from '../../../src/domain/site/table-rows';

const CONTEXT: ReadingContext = {
  file: 'events.csv',
  units: { vertical: 'ft', grid: 'ft', volume: 'gal' },
  columnUnits: {},
  names: {},
};
const COLUMNS = ['id', 'title', 'first_day', 'last_day', ''];

const rows = fc.array(
  fc.tuple(
    fc.constantFrom('E1', 'E2', ' E2', 'E3', ''),
    fc.constantFrom('', 'Spring', 'Autumn'),
    fc.constantFrom('2025-03-01', '2025-02-30', ''),
    fc.constantFrom('2025-03-02', '2025-03-02', 'soon', ''),
    fc.constantFrom('', '', '', 'beyond'),
  ),
  { maxLength: 40 },
);

const isDay = (text: string) => /^2025-03-0\d$/.test(text);

test('rows are read, refused and left blank as one would row by row, a key that comes again refused', () => {
  fc.assert(
    fc.property(rows, (given) => {
      const {
        account,
        rows: read,
        problems,
      } = readTable('events', tableOf(COLUMNS, given), CONTEXT);
      const seen = new Set<string>();
      const expected = given.map((row) => {
        if (row.every((text) => text === '')) return 'blank';
        const id = row[0].trim();
        const isTwin = seen.has(id);
        seen.add(id);
        const isSound = id !== '' && isDay(row[2]) && isDay(row[3]) && row[4] === '';
        return isSound && !isTwin ? 'read' : 'refused';
      });
      const count = (what: string) => expected.filter((each) => each === what).length;
      expect(account).toEqual({
        rows: given.length,
        read: count('read'),
        refused: count('refused'),
        blank: count('blank'),
      });
      expect([...read].map(({ row }) => row - 2)).toEqual(
        expected.flatMap((each, i) => (each === 'read' ? [i] : [])),
      );
      expect(new Set(problems.map(({ row }) => (row ?? 0) - 2))).toEqual(
        new Set(expected.flatMap((each, i) => (each === 'refused' ? [i] : []))),
      );
    }),
  );
});

test('one row of each kind, and rows as codes, are those a look at every row finds', () => {
  fc.assert(
    fc.property(rows, (given) => {
      const { rows: read } = readTable('events', tableOf(COLUMNS, given), CONTEXT);
      const all = [...read];
      const coded = (of: Rows<Row<'events'>>) =>
        rowsCoded(of).flatMap(({ size, state, column, make }) => {
          const { codes, dictionary } = column('title');
          return Array.from({ length: size }, (_, i) => i)
            .filter((i) => state[i] === READ)
            .map((i) => [make(i), dictionary[codes[i] ?? 0] ?? null]);
        });
      expect(coded(read)).toEqual(all.map((row) => [row, row.title]));
      expect(coded(all)).toEqual(coded(read));
      const titles = (of: Iterable<{ readonly title: string | null }>) =>
        new Set(Array.from(of, ({ title }) => title));
      expect(titles(rowsDifferingIn(read, ['title']))).toEqual(titles(all));
    }),
  );
});
