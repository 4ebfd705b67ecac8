import { decimalOf, compareDecimals } from '../../domain/lab/decimal';
import { plainDigits, readReported } from '../../domain/lab/reported';
import { fieldOf, type TableName } from '../../domain/site/schema';
import type { Block, Column, Table } from '../../domain/site/table';
import { hashOf, joinedHash, KeyIndex } from './key-index';

const numberLike = new Set(['number', 'length', 'distance', 'volume']);

/** Columns of results whose numbers are kept as texts. */
const REPORTED = new Set(['value', 'detection_limit', 'reporting_limit']);

/** Whether two cells of a column say the same: 8.3 and 8.30 do, as depths. */
export function saysTheSame(table: TableName, column: string, a: string, b: string): boolean {
  if (a === b) return true;
  const kind = fieldOf(table, column)?.kind ?? 'text';
  if (numberLike.has(kind)) return sameNumber(plainDigits(a), plainDigits(b));
  if (kind === 'time') return a.replace(' ', 'T') === b.replace(' ', 'T');
  if (kind === 'choice' || kind === 'yes-no') return a.toLowerCase() === b.toLowerCase();
  if (table === 'results' && REPORTED.has(column)) return sameReported(a, b);
  return false;
}

function sameNumber(a: string | null, b: string | null): boolean {
  const [one, other] = [decimalOf(a ?? ''), decimalOf(b ?? '')];
  return one !== null && other !== null && compareDecimals(one, other) === 0;
}

function sameReported(a: string, b: string): boolean {
  const [one, other] = [readReported(a), readReported(b)];
  return (
    one.kind === other.kind && one.letters === other.letters && sameNumber(one.number, other.number)
  );
}

const keyText = (text: string) => text.trim().replace(/^(\d{4}-\d{2}-\d{2}) (?=\d)/, '$1T');

/** Hashes of the texts of a dictionary, made when first asked for. */
const hashes = new WeakMap<readonly unknown[], Int32Array>();

function hashesOf(dictionary: readonly unknown[]): Int32Array {
  const before = hashes.get(dictionary);
  if (before) return before;
  const made = Int32Array.from(dictionary, (text) =>
    hashOf(typeof text === 'string' ? keyText(text) : ''),
  );
  hashes.set(dictionary, made);
  return made;
}

type CodedColumn = { readonly dictionary: readonly unknown[]; readonly codes: Uint16Array };

const textAt = (column: CodedColumn | undefined, at: number): string => {
  const text = column?.dictionary[column.codes[at] ?? -1];
  return typeof text === 'string' ? text : '';
};

/** The hash of a row's key, from the columns of its block that name it. */
export function keyHash(columns: readonly (CodedColumn | undefined)[], at: number): number {
  let hash = 0;
  for (const column of columns) {
    const own = column ? hashesOf(column.dictionary)[column.codes[at] ?? 0] : BLANK_HASH;
    hash = joinedHash(hash, own ?? BLANK_HASH);
  }
  return hash;
}

const BLANK_HASH = hashOf('');

export const sameKey = (
  a: readonly (CodedColumn | undefined)[],
  atA: number,
  b: readonly (CodedColumn | undefined)[],
  atB: number,
): boolean => a.every((column, i) => keyText(textAt(column, atA)) === keyText(textAt(b[i], atB)));

/** The rows a table of the site has, to be found by their key. */
export class ExistingRows {
  private readonly starts: number[] = [];
  private readonly keys: (readonly (Column | undefined)[])[] = [];
  private readonly index: KeyIndex;

  constructor(
    private readonly table: Table | null,
    key: readonly string[],
  ) {
    const size = table?.size ?? 0;
    this.index = new KeyIndex(size);
    const places = key.map((column) => table?.columns.indexOf(column) ?? -1);
    let start = 0;
    for (const block of table?.blocks ?? []) {
      const columns = places.map((at) => block.columns[at]);
      this.starts.push(start);
      this.keys.push(columns);
      for (let at = 0; at < block.size; at++) {
        if (columns.every((column) => textAt(column, at).trim() === '')) continue;
        const hash = keyHash(columns, at);
        // The first of several stands, as when the table is read.
        if (this.index.find(hash, (row) => this.isKey(row, columns, at)) < 0)
          this.index.add(hash, start + at);
      }
      start += block.size;
    }
  }

  get size(): number {
    return this.table?.size ?? 0;
  }

  private blockOf(row: number): number {
    let [low, high] = [0, this.starts.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.starts[middle] ?? 0) <= row) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  private isKey(row: number, columns: readonly (CodedColumn | undefined)[], at: number): boolean {
    const which = this.blockOf(row);
    return sameKey(this.keys[which] ?? [], row - (this.starts[which] ?? 0), columns, at);
  }

  /** The row of this key; −1 for none. */
  find(hash: number, columns: readonly (CodedColumn | undefined)[], at: number): number {
    return this.index.find(hash, (row) => this.isKey(row, columns, at));
  }

  /** A reader of one row's cells. */
  row(row: number): { readonly block: Block | undefined; readonly at: number } {
    const which = this.blockOf(row);
    return { block: this.table?.blocks[which], at: row - (this.starts[which] ?? 0) };
  }

  text(row: number, column: string): string {
    const { block, at } = this.row(row);
    return textAt(block?.columns[this.table?.columns.indexOf(column) ?? -1], at);
  }
}
