import type { Block, Table } from '../../domain/site/table';
import { keptColumn, type Cells } from './cells';
import type { Part } from './plan';

/** The rows a file adds to a table, block by block. */
export class AddedRows {
  private readonly blocks: Block[] = [];

  constructor(private readonly columns: Part['columns']) {}

  /** @param keep  1 for each row of the block that is added, `count` of them */
  add(cells: readonly Cells[], keep: Uint8Array, count: number): void {
    if (count === 0) return;
    const columns = cells.map((column) => keptColumn(column, keep, count));
    this.blocks.push({ size: count, columns });
  }

  /** Without the columns that only note a conversion where there was none. */
  get table(): Table {
    const { blocks, columns } = this;
    const wanted = columns.flatMap(({ uncompared }, at) => {
      const isBlank = blocks.every((block) => block.columns[at]?.dictionary.every((t) => t === ''));
      return uncompared && isBlank ? [] : [at];
    });
    return {
      columns: wanted.map((at) => columns[at]?.column ?? ''),
      blocks: blocks.map((block) => ({
        size: block.size,
        columns: wanted.flatMap((at) => block.columns[at] ?? []),
      })),
      size: blocks.reduce((sum, block) => sum + block.size, 0),
    };
  }
}
