import { fail, ok, type Result } from '../../result';
import type { DataPackage } from '../data-package';
import { fieldsOf, type TableName } from '../schema';
import { tableOf, withColumn, type Table } from '../table';

/**
 * Rows added at the end of a table as blocks of columns: an import of very
 * many. Few are better added as `add-rows`, which the journal can write out.
 */
export type AddTable = {
  readonly kind: 'add-table';
  readonly table: TableName;
  readonly added: Table;
};

export function addTable(
  site: DataPackage,
  { table: name, added }: AddTable,
): Result<DataPackage, 'nothing-to-add'> {
  if (added.size === 0) return fail('nothing-to-add');
  const present =
    site.tables[name] ??
    tableOf(
      fieldsOf(name).map(([column]) => column),
      [],
    );
  const before = added.columns.reduce(withColumn, present);
  const whole = before.columns.reduce(withColumn, added);
  const places = before.columns.map((column) => whole.columns.indexOf(column));
  const blocks = whole.blocks.map(({ size, columns }) => ({
    size,
    columns: places.flatMap((at) => columns[at] ?? []),
  }));
  const table: Table = {
    columns: before.columns,
    blocks: [...before.blocks, ...blocks],
    size: before.size + added.size,
  };
  return ok({ ...site, tables: { ...site.tables, [name]: table } });
}
