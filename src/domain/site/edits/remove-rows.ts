import { fail, ok, type Result } from '../../result';
import type { DataPackage } from '../data-package';
import type { TableName } from '../schema';
import { withoutRows } from '../table';

/** Rows taken out of a table. Rows count from 0. */
export type RemoveRows = {
  readonly kind: 'remove-rows';
  readonly table: TableName;
  readonly rows: readonly number[];
};

export function removeRows(
  site: DataPackage,
  { table: name, rows }: RemoveRows,
): Result<DataPackage, 'no-such-row'> {
  const before = site.tables[name];
  if (!before || rows.length === 0 || rows.some((row) => row < 0 || row >= before.size))
    return fail('no-such-row');
  return ok({ ...site, tables: { ...site.tables, [name]: withoutRows(before, new Set(rows)) } });
}
