import { fail, ok, type Result } from '../../result';
import type { DataPackage } from '../data-package';
import { fieldsOf, type TableName } from '../schema';
import { tableOf, withRows } from '../table';

/** Rows added at the end of a table, each a record of column to text. */
export type AddRows = {
  readonly kind: 'add-rows';
  readonly table: TableName;
  readonly rows: readonly Readonly<Record<string, string>>[];
};

export function addRows(
  site: DataPackage,
  { table: name, rows }: AddRows,
): Result<DataPackage, 'nothing-to-add'> {
  if (rows.length === 0) return fail('nothing-to-add');
  const before =
    site.tables[name] ??
    tableOf(
      fieldsOf(name).map(([column]) => column),
      [],
    );
  return ok({ ...site, tables: { ...site.tables, [name]: withRows(before, rows) } });
}
