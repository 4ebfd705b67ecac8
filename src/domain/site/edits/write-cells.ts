import { fail, ok, type Result } from '../../result';
import type { DataPackage } from '../data-package';
import type { TableName } from '../schema';
import { withCell, withCells } from '../table';

/** Cells of one table written anew: one typed over, or a block pasted. Rows count from 0. */
export type WriteCells = {
  readonly kind: 'write-cells';
  readonly table: TableName;
  readonly cells: readonly {
    readonly row: number;
    readonly column: string;
    readonly text: string;
  }[];
};

export function writeCells(
  site: DataPackage,
  { table: name, cells }: WriteCells,
): Result<DataPackage, 'no-such-row'> {
  const before = site.tables[name];
  if (!before || cells.some(({ row }) => row < 0 || row >= before.size)) return fail('no-such-row');
  const [only] = cells;
  const table =
    only && cells.length === 1
      ? withCell(before, only.row, only.column, only.text)
      : withCells(before, cells);
  return ok({ ...site, tables: { ...site.tables, [name]: table } });
}
