import { readCell, unitOf, type RecordedUnits } from '../../domain/site/read-cell';
import type { Rows } from '../../domain/site/read-table';
import { hasRowCheck, rowChecks } from '../../domain/site/row-checks';
import { fieldsOf, type Row, type TableName } from '../../domain/site/schema';
import type { Refusal } from './ask';
import type { Target } from './context';

const NO_ACCOUNT = { rows: 1, read: 1, refused: 0, blank: 0 };

/**
 * What the table asks of a row beyond its single cells, asked before the row is
 * taken: a reading without a depth that is not dry, a layer upside down. Null
 * for tables that ask nothing of the kind.
 */
export function rowRule(
  table: TableName,
  { package: { settings, columnUnits } }: Target,
): ((text: (column: string) => string) => Refusal | null) | null {
  if (!hasRowCheck(table)) return null;
  const units: RecordedUnits = {
    vertical: settings.verticalUnit,
    grid: settings.grid.unit,
    volume: settings.volumeUnit,
  };
  const fields = fieldsOf(table).map(([column, field]) => ({
    column,
    field,
    unit: unitOf(field, units, columnUnits[table]?.[column]),
  }));
  return (text) => {
    const row: Record<string, unknown> = { row: 1 };
    for (const { column, field, unit } of fields) {
      const cell = readCell(text(column), field, unit);
      // A cell the site itself can't read is not for this rule to judge.
      if (!cell.ok) return null;
      row[column] = cell.value;
    }
    const rows = [row] as unknown as Rows<Row<TableName>>;
    const [problem] = rowChecks(table, { rows, account: NO_ACCOUNT, problems: [] }, '').problems;
    return problem
      ? { column: problem.column ?? '', expected: problem.expected, found: problem.found }
      : null;
  };
}
