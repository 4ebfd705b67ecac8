import { BLOCK_ROWS, type Block, type Column, type Table } from '../../domain/site/table';

/** A column in the making: texts get codes in the order they come. */
class ColumnBuilder {
  private places = new Map<string, number>();
  private codes = new Uint16Array(64);
  private last: string | null = null;
  private lastCode = 0;

  constructor(before: number) {
    if (before > 0) {
      this.places.set('', 0);
      this.grow(before);
    }
  }

  private grow(needed: number) {
    const codes = new Uint16Array(Math.min(BLOCK_ROWS, Math.max(needed, this.codes.length * 2)));
    codes.set(this.codes.subarray(0, Math.min(this.codes.length, codes.length)));
    this.codes = codes;
  }

  add(row: number, text: string) {
    // Neighbouring rows often say the same: the same sample, day and unit.
    if (text !== this.last) {
      let code = this.places.get(text);
      if (code === undefined) {
        code = this.places.size;
        this.places.set(text, code);
      }
      this.last = text;
      this.lastCode = code;
    }
    if (row >= this.codes.length) this.grow(row + 1);
    this.codes[row] = this.lastCode;
  }

  column(size: number): Column {
    return {
      dictionary: this.places.size > 0 ? [...this.places.keys()] : [''],
      codes: this.codes.slice(0, size),
    };
  }
}

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

  constructor(width: number) {
    this.width = width;
    this.begin();
  }

  private begin() {
    this.columns = Array.from({ length: this.width }, () => new ColumnBuilder(0));
    this.size = 0;
  }

  add(cells: readonly string[]) {
    if (this.size === BLOCK_ROWS) this.close();
    while (this.width < cells.length) {
      this.columns.push(new ColumnBuilder(this.size));
      this.width++;
    }
    for (let at = 0; at < this.width; at++) this.columns[at]?.add(this.size, cells[at] ?? '');
    this.size++;
    this.rows++;
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
