import { decimalOf, compareDecimals } from '../../domain/lab/decimal';
import { plainDigits, readReported } from '../../domain/lab/reported';
import { fieldOf, type TableName } from '../../domain/site/schema';
import type { Block, Table } from '../../domain/site/table';
import { KeyIndex } from '../../domain/site/key-index';
import {
  keyHashes as hashesOf,
  keyTextAt,
  sameKey as haveOneKey,
  type KeyColumns,
} from '../../domain/site/row-keys';

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

export type { KeyColumns };

const keyText = (text: string) => text.trim().replace(/^(\d{4}-\d{2}-\d{2}) (?=\d)/, '$1T');

/** The hash of each row's key in a block. */
export const keyHashes = (columns: KeyColumns, size: number) => hashesOf(columns, size, keyText);

export const sameKey = (a: KeyColumns, atA: number, b: KeyColumns, atB: number) =>
  haveOneKey(a, atA, b, atB, keyText);

/** Which block a row lies in, by the rows that come before each; rows count from 0. */
export function blockAt(starts: readonly number[], row: number): number {
  let [low, high] = [0, starts.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= row) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The rows a table of the site has, to be found by their key. */
export class ExistingRows {
  private readonly starts: number[] = [];
  private readonly keys: KeyColumns[] = [];
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
      const hashes = keyHashes(columns, block.size);
      for (let at = 0; at < block.size; at++) {
        if (columns.every((column) => keyTextAt(column, at).trim() === '')) continue;
        const hash = hashes[at] ?? 0;
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

  private isKey(row: number, columns: KeyColumns, at: number): boolean {
    const which = blockAt(this.starts, row);
    return sameKey(this.keys[which] ?? [], row - (this.starts[which] ?? 0), columns, at);
  }

  /** The row of this key; −1 for none. */
  find(hash: number, columns: KeyColumns, at: number): number {
    if (this.size === 0) return -1;
    return this.index.find(hash, (row) => this.isKey(row, columns, at));
  }

  /** A reader of one row's cells. */
  row(row: number): { readonly block: Block | undefined; readonly at: number } {
    const which = blockAt(this.starts, row);
    return { block: this.table?.blocks[which], at: row - (this.starts[which] ?? 0) };
  }

  text(row: number, column: string): string {
    const { block, at } = this.row(row);
    return keyTextAt(block?.columns[this.table?.columns.indexOf(column) ?? -1], at);
  }
}
