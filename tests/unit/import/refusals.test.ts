import fc from 'fast-check';
import { expect, test } from 'vitest';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { preview } from '../../../src/io/import/preview';
import { Refusals, refusedRows } from '../../../src/io/import/refusals';
import { emptySite, sourceOf, targetOf } from './target';

const refusal = (column: string) => ({ column, expected: 'a number', found: column });

test('every row keeps its own reasons, though rows beside it share theirs', () => {
  const source = sourceOf(
    'lab.csv',
    'location,sample,date,analyte,result,unit',
    'MW-1,S-1,2025-03-31,Benzene,5,ug/L',
    'MW-1,S-1,2025-03-31,Toluene,abc,ug/L',
    'MW-1,S-1,2025-03-31,Xylenes,6,ug/L',
    'MW-2,S-2,2025-02-30,Benzene,7,ug/L',
    '',
    'MW-2,S-3,2025-04-01,Benzene,8,ug/L',
  );
  const { refused } = preview(source, proposeMapping(source).mapping, {}, targetOf(emptySite()));
  expect(refused.map(({ row }) => row)).toEqual([2, 3, 4, 5, 7]);
  const [first, second, third, fourth, last] = refused.map(({ why }) => why);
  expect(first).toContain('“MW-1”');
  expect(third).toBe(first);
  expect(second).toContain('“abc”');
  expect(second).toContain('“MW-1”');
  expect(fourth).toContain('“2025-02-30”');
  expect(fourth).toContain('“MW-2”');
  expect(last).toContain('“MW-2”');
  expect(last).not.toContain('2025-02-30');
});

test('results of one row of the file are refused together, each reason said once', () => {
  const source = sourceOf('across.csv', 'a', '1', '2', '3');
  const rows = fc.array(
    fc.record({ row: fc.integer({ min: 0, max: 2 }), columns: fc.array(fc.constantFrom('A', 'B', 'C'), { minLength: 1, maxLength: 3 }) }), // prettier-ignore
    { maxLength: 12 },
  );
  fc.assert(
    fc.property(rows, (given) => {
      const refusals = new Refusals(given.length);
      given.forEach(({ columns }, i) => refusals.add(i, columns.map(refusal)));
      const found = refusedRows(
        source,
        refusals,
        Uint32Array.from(given, ({ row }) => row),
        () => false,
      );
      const expected = [0, 1, 2].flatMap((at) => {
        const own = given.filter(({ row }) => row === at).flatMap(({ columns }) => columns);
        const why = [...new Set(own)].map((c) => `${c}: expected a number, found “${c}”.`);
        return own.length > 0 ? [{ at, row: at + 2, why: why.join(' '), waits: false }] : [];
      });
      expect(found).toEqual(expected);
    }),
  );
});
