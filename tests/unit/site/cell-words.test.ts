import { expect, test } from 'vitest';
import {
  columnUnit,
  columnWords,
  nextProblem,
  problemPlace,
  problemsAt,
} from '../../../src/domain/site/cell-words';
import type { Problem } from '../../../src/domain/site/problem';
import { settingsIn } from '../site-from';

const problem = (row: number, column: string | null): Problem => ({
  table: 'locations',
  file: 'locations.csv',
  row,
  column,
  expected: 'a number in ft',
  found: 'abc',
});

test('a problem stands at the row a spreadsheet counts, the header being row 1', () => {
  const found = problemsAt([problem(2, 'easting'), problem(3, null)], 'locations');
  expect(found.get(problemPlace(0, 'easting'))?.row).toBe(2);
  expect(found.get(problemPlace(1, null))?.row).toBe(3);
  expect(problemsAt([problem(2, 'easting')], 'screens').size).toBe(0);
});

test('the next problem is the one after the cell in hand, and round the end the first', () => {
  const all = [problem(5, 'easting'), problem(2, 'northing')];
  const columns = ['id', 'easting', 'northing'];
  expect(nextProblem(all, 'locations', columns, { row: 0, column: 0 })).toEqual({ row: 0, column: 2 }); // prettier-ignore
  expect(nextProblem(all, 'locations', columns, { row: 0, column: 2 })).toEqual({ row: 3, column: 1 }); // prettier-ignore
  expect(nextProblem(all, 'locations', columns, { row: 3, column: 1 })).toEqual({ row: 0, column: 2 }); // prettier-ignore
  expect(nextProblem([], 'locations', columns, { row: 0, column: 0 })).toBeNull();
});

test('a column says its unit, the site’s or its own, and what its cells hold', () => {
  const settings = settingsIn({ verticalUnit: 'm' });
  expect(columnUnit('locations', 'easting', settings)).toBe('ft');
  expect(columnUnit('locations', 'ground_elevation', settings)).toBe('m');
  expect(columnUnit('locations', 'ground_elevation', settings, 'us-ft')).toBe('ftUS');
  expect(columnUnit('locations', 'id', settings)).toBeNull();
  expect(columnWords('screens', 'location', null)).toMatch(/a name in Locations, never blank/);
  expect(columnWords('screens', 'foreman', null)).toMatch(/site’s own/);
});
