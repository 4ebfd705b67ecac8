import { hashOf, joinedHash } from './key-index';

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
