import type { Problem } from './problem';
import { unitWord } from '../show';
import { expectedOf, unitOf } from './read-cell';
import { fieldOf, TABLES, type TableName } from './schema';
import { unitsOf, type Settings } from './settings';

/** The unit a column is recorded in, as it is written beside a number; null for one without, or a column of the site's own. */
export function columnUnit(
  name: TableName,
  column: string,
  settings: Settings,
  stated?: string,
): string | null {
  const field = fieldOf(name, column);
  const units = unitsOf(settings);
  const unit = field && unitOf(field, units, stated);
  return unit ? unitWord(unit) : null;
}

/** What a column is and what its cells hold, as a sentence or two. */
export function columnWords(name: TableName, column: string, unit: string | null): string {
  const field = fieldOf(name, column);
  if (!field) return 'A column of the site’s own; kept as it is.';
  const needed = field.required ? ', never blank' : '';
  const refers = field.refers ? `, a name in ${TABLES[field.refers as TableName].title}` : '';
  return `${field.says}. Here: ${expectedOf(field, unit)}${refers}${needed}.`;
}

/** Problems of one table by the place they stand in: row from 0, and column or blank for the whole row. */
export type ProblemsAt = ReadonlyMap<string, Problem>;

export const problemPlace = (row: number, column: string | null) => `${row} ${column ?? ''}`;

/** The first problem of each cell of a table. */
export function problemsAt(problems: readonly Problem[], name: TableName): ProblemsAt {
  const found = new Map<string, Problem>();
  for (const problem of problems) {
    if (problem.table !== name || problem.row === null) continue;
    // A spreadsheet counts from 1 and its first row is the header.
    const place = problemPlace(problem.row - 2, problem.column);
    if (!found.has(place)) found.set(place, problem);
  }
  return found;
}

/** The next place with a problem after a cell, round the end; null where there is none. */
export function nextProblem(
  problems: readonly Problem[],
  name: TableName,
  columns: readonly string[],
  after: { readonly row: number; readonly column: number },
): { readonly row: number; readonly column: number } | null {
  const places = problems
    .flatMap((problem) =>
      problem.table === name && problem.row !== null && problem.row >= 2
        ? [{ row: problem.row - 2, column: Math.max(0, columns.indexOf(problem.column ?? '')) }]
        : [],
    )
    .sort((a, b) => a.row - b.row || a.column - b.column);
  const later = places.find(
    ({ row, column }) => row > after.row || (row === after.row && column > after.column),
  );
  return later ?? places[0] ?? null;
}
