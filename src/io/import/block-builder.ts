import { BLOCK_ROWS, type Block, type Column, type Table } from '../../domain/site/table';

/** Up to so many different texts are looked through; more are looked up. */
const FEW = 12;

/**
 * A text of its own, not a view into the piece of the file it was cut from:
 * otherwise a few names would keep a whole file in memory.
 */
const detached = (text: string) => (text.length < 13 ? text : ` ${text}`.slice(1));

/** A column in the making: texts get codes in the order they come. */
class ColumnBuilder {
  private readonly dictionary: string[] = [];
  /** By the text as it came, before it was cleaned. */
  private readonly places = new Map<string, number>();
  private readonly written: string[] = [];
  /** For each code, the one that followed it last: files often go round the same list. */
  private readonly next: number[] = [];
  private codes = new Uint16Array(64);
  private last = 0;

  constructor(
    private readonly clean: (text: string) => string,
    before: number,
  ) {
    if (before > 0) {
      this.codeOf('');
      this.grow(before);
    }
  }

  private grow(needed: number) {
    const size = Math.min(BLOCK_ROWS, Math.max(needed, this.codes.length * 2));
    const codes = new Uint16Array(size);
    codes.set(this.codes.subarray(0, Math.min(this.codes.length, size)));
    this.codes = codes;
  }

  add(row: number, text: string) {
    const { written, last } = this;
    if (row >= this.codes.length) this.grow(row + 1);
    // Neighbouring rows often say the same, or the next of a list.
    if (text !== written[last]) {
      const guess = this.next[last] ?? 0;
      const code = text === written[guess] ? guess : this.codeOf(text);
      this.next[last] = code;
      this.last = code;
    }
    this.codes[row] = this.last;
  }

  private codeOf(text: string): number {
    const { written, places } = this;
    const known = written.length <= FEW ? written.indexOf(text) : (places.get(text) ?? -1);
    if (known >= 0) return known;
    const own = detached(text);
    const code = written.length;
    written.push(own);
    places.set(own, code);
    this.next.push(code);
    this.dictionary.push(this.clean(own));
    return code;
  }

  column(size: number): Column {
    return {
      dictionary: this.dictionary.length > 0 ? this.dictionary : [''],
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
