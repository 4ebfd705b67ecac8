import type { Problem } from './problem';
import type { TableReading } from './read-table';
import type { Row, TableName } from './schema';

/** What a row must satisfy beyond its single cells; null when it does. */
type Check<Name extends TableName> = (
  row: Row<Name>,
) => { readonly column: string; readonly expected: string; readonly found: string } | null;

const NO_DEPTH_NEEDED: readonly string[] = ['dry', 'obstructed', 'flowing'];

const CHECKS: { readonly [Name in TableName]?: Check<Name> } = {
  events: ({ first_day, last_day }) =>
    last_day < first_day
      ? { column: 'last_day', expected: `a day not before ${first_day}`, found: last_day }
      : null,
  strata: ({ top, bottom }) =>
    bottom.value <= top.value
      ? { column: 'bottom', expected: `a depth below the top at ${top.text}`, found: bottom.text }
      : null,
  water_levels: ({ depth_to_water, depth_to_product, status }) => {
    if (!depth_to_water && !NO_DEPTH_NEEDED.includes(status))
      return {
        column: 'depth_to_water',
        expected: 'a depth to water, or the status dry, obstructed or flowing',
        found: '',
      };
    if (depth_to_water && depth_to_product && depth_to_product.value > depth_to_water.value)
      return {
        column: 'depth_to_product',
        expected: `a depth not below the water at ${depth_to_water.text}`,
        found: depth_to_product.text,
      };
    return null;
  },
};

/** Whether a table asks anything of a row beyond its single cells. */
export const hasRowCheck = (name: TableName): boolean => CHECKS[name] !== undefined;

/** The reading with rows that fail the check of their table refused too. */
export function rowChecks<Name extends TableName>(
  name: Name,
  reading: TableReading<Name>,
  file: string,
): TableReading<Name> {
  const check: Check<Name> | undefined = CHECKS[name];
  if (!check) return reading;
  const problems: Problem[] = [];
  const rows: Row<Name>[] = [];
  for (const row of reading.rows) {
    const failed = check(row);
    if (failed) problems.push({ table: name, file, row: row.row, ...failed });
    else rows.push(row);
  }
  if (problems.length === 0) return reading;
  const { account } = reading;
  return {
    rows,
    account: { ...account, read: rows.length, refused: account.refused + problems.length },
    problems: [...reading.problems, ...problems],
  };
}
