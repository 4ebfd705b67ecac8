import { BLOCK_ROWS, type Block, type Column, type Table } from '../../domain/site/table';
import { ColumnBuilder, NOT_PLAIN } from './column-builder';

/**
 * Rows put into blocks of columns as they come, without an object a row. A row
 * shorter than another is blank to its end; a longer one adds a column.
 */
export class BlockBuilder {
  private readonly blocks: Block[] = [];
  private columns: ColumnBuilder[] = [];
  private size = 0;
  private width: number;
  rows = 0;

  /** @param clean  what is done to each different text before it is kept */
  constructor(
    width: number,
    private readonly clean: (text: string) => string = (text) => text,
  ) {
    this.width = width;
    this.begin();
  }

  private begin() {
    this.columns = Array.from({ length: this.width }, () => new ColumnBuilder(this.clean, 0));
    this.size = 0;
  }

  add(cells: readonly string[]) {
    if (this.size === BLOCK_ROWS) this.close();
    while (this.width < cells.length) {
      this.columns.push(new ColumnBuilder(this.clean, this.size));
      this.width++;
    }
    const { columns, size } = this;
    for (let at = 0; at < columns.length; at++) columns[at]?.add(size, cells[at] ?? '');
    this.size++;
    this.rows++;
  }

  /**
   * Add the rows of a delimited text from a place on, for as long as they are
   * plain: so many cells, each plainly dressed, and the line end. Gives the
   * place where the first row begins that is not, or not whole.
   */
  addPlain(text: string, from: number, width: number, delimiter: number, newline: number): number {
    let start = from;
    for (;;) {
      if (this.size === BLOCK_ROWS) this.close();
      const { columns, size } = this;
      let at = start;
      for (let column = 0; column < width; column++) {
        const end = columns[column]?.take(size, text, at, delimiter, newline) ?? NOT_PLAIN;
        const isLast = column === width - 1;
        if (end === NOT_PLAIN || (text.charCodeAt(end) === newline) !== isLast) return start;
        at = end + 1;
      }
      for (let column = width; column < columns.length; column++) columns[column]?.add(size, '');
      this.size++;
      this.rows++;
      start = at;
    }
  }

  /** Add the blocks of a table made by another builder of the same columns. */
  addBlocks({ blocks, columns, size }: Table) {
    this.close();
    this.blocks.push(...blocks);
    this.width = Math.max(this.width, columns.length);
    this.rows += size;
  }

  private close() {
    if (this.size === 0) return;
    const { size } = this;
    this.blocks.push({ size, columns: this.columns.map((column) => column.column(size)) });
    this.begin();
  }

  /** The table of all rows added. Columns beyond the names given are unnamed. */
  table(names: readonly string[]): Table {
    this.close();
    const blank = (size: number): Column => ({ dictionary: [''], codes: new Uint16Array(size) });
    const width = Math.max(this.width, names.length);
    return {
      columns: Array.from({ length: width }, (_, at) => names[at] ?? ''),
      blocks: this.blocks.map(({ size, columns }) => ({
        size,
        columns: Array.from({ length: width }, (_, at) => columns[at] ?? blank(size)),
      })),
      size: this.rows,
    };
  }
}
