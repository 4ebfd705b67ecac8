import { hashOf, joinedHash, KeyIndex } from './key-index';
import { TABLES, type TableName } from './schema';
import { BLOCK_ROWS, textAt, type Block, type Table } from './table';

type CodedColumn = { readonly dictionary: readonly unknown[]; readonly codes: Uint16Array };

/** The columns of a block that name its rows; undefined where the table lacks one. */
export type KeyColumns = readonly (CodedColumn | undefined)[];

/** What two texts must have in common to name the same row. */
export type KeyText = (text: string) => string;

export const keyTextAt = (column: CodedColumn | undefined, at: number): string => {
  const text = column?.dictionary[column.codes[at] ?? -1];
  return typeof text === 'string' ? text : '';
};

const BLANK_HASH = hashOf('');

/** The hash of each row's key in a block: every text of a dictionary is hashed once. */
export function keyHashes(columns: KeyColumns, size: number, keyText: KeyText): Int32Array {
  const hashes = new Int32Array(size);
  for (const column of columns) {
    if (!column) {
      for (let i = 0; i < size; i++) hashes[i] = joinedHash(hashes[i] ?? 0, BLANK_HASH);
      continue;
    }
    const own = Int32Array.from(column.dictionary, (text) =>
      hashOf(typeof text === 'string' ? keyText(text) : ''),
    );
    const { codes } = column;
    for (let i = 0; i < size; i++)
      hashes[i] = joinedHash(hashes[i] ?? 0, own[codes[i] ?? 0] ?? BLANK_HASH);
  }
  return hashes;
}

/** Whether two rows, each of its own block, have one key. */
export function sameKey(
  a: KeyColumns,
  atA: number,
  b: KeyColumns,
  atB: number,
  keyText: KeyText,
): boolean {
  for (let k = 0; k < a.length; k++) {
    const [one, other] = [keyTextAt(a[k], atA), keyTextAt(b[k], atB)];
    if (one !== other && keyText(one) !== keyText(other)) return false;
  }
  return true;
}

const trimmed = (text: string) => text.trim();

/** The keys of the rows met, to tell one that comes again. */
export class Keys {
  readonly title: string;
  private readonly places: readonly number[];
  private readonly index: KeyIndex;
  private readonly blocks: { readonly start: number; readonly columns: KeyColumns }[] = [];

  constructor(name: TableName, table: Table) {
    const key = TABLES[name].key as readonly string[];
    this.title = key.join(' + ');
    this.places = key.map((column) => table.columns.indexOf(column)).filter((at) => at >= 0);
    this.index = new KeyIndex(this.places.length > 0 ? table.size : 0);
  }

  words = ({ columns }: Block, i: number) =>
    this.places.map((at) => textAt(columns[at], i).trim()).join(' + ');

  /** For the rows of a block, in order: the row before with the same key, −1 for none. */
  of({ columns: all, size }: Block, start: number) {
    if (this.places.length === 0) return null;
    const columns = this.places.map((at) => all[at]);
    const { blocks, index } = this;
    blocks.push({ start, columns });
    const hashes = keyHashes(columns, size, trimmed);
    let at = 0;
    const isSame = (row: number) => {
      const other = this.blockOf(row);
      return sameKey(other?.columns ?? [], row - (other?.start ?? 0), columns, at, trimmed);
    };
    return {
      before: (i: number): number => {
        at = i;
        const hash = hashes[i] ?? 0;
        const row = index.find(hash, isSame);
        if (row < 0) index.add(hash, start + i);
        return row;
      },
    };
  }

  private blockOf(row: number) {
    // Blocks are mostly full, so the guess is mostly right.
    const guess = this.blocks[Math.floor(row / BLOCK_ROWS)];
    const next = this.blocks[Math.floor(row / BLOCK_ROWS) + 1];
    if (guess && guess.start <= row && (!next || row < next.start)) return guess;
    return this.blocks.findLast(({ start }) => start <= row);
  }
}
