import { DelimitedReader, type RowDress, type RowsRead } from './delimited-reader';
import { Decoder, type Encoding } from './encoding';

/** The later rows of a file, for another to read meanwhile. */
export type SecondHalf = {
  readonly part: Blob;
  readonly dress: RowDress;
  readonly encoding: Encoding;
};

/** Its rows; or that the bytes are not in the encoding; null where the rows before have a say in them. */
export type SecondRead = RowsRead | 'other encoding' | null;

/** Somebody who reads the second half of a file while the first is read here. */
export type SecondReader = {
  /** Begins at once. Null where it could not be read there. */
  readonly read: (half: SecondHalf) => Promise<SecondRead>;
  /** Its work is of no use any more. */
  readonly stop: () => void;
};

/** Bytes read at a time. */
export const PIECE = 1 << 21;

/** Bytes of a file that is worth two readers. */
const WORTH_TWO = 4 * PIECE;

/** Bytes looked through for the end of a row. */
const LONGEST_ROW = 1 << 16;

const LINE_END = 10;

/**
 * Where the second half of a file begins, at the start of a line; null where it
 * is not worth the while. Whether a row begins there is known only once the
 * first half has been read: a quoted cell may run over the line end.
 */
export async function middleOf(
  file: Blob,
  dress: RowDress | null,
  encoding: Encoding,
): Promise<number | null> {
  if (file.size < WORTH_TWO || dress?.newline !== '\n' || encoding.startsWith('utf-16'))
    return null;
  const near = Math.floor(file.size / 2);
  const bytes = new Uint8Array(await file.slice(near, near + LONGEST_ROW).arrayBuffer());
  const end = bytes.indexOf(LINE_END);
  return end < 0 ? null : near + end + 1;
}

/** Read the second half of a file as the first is dressed. */
export async function readSecondHalf({ part, dress, encoding }: SecondHalf): Promise<SecondRead> {
  const reader = DelimitedReader.ofRows(dress);
  const decoder = new Decoder(encoding, false);
  let coming = part.slice(0, PIECE).arrayBuffer();
  for (let start = 0; start < part.size; start += PIECE) {
    const bytes = await coming;
    const end = Math.min(start + PIECE, part.size);
    coming = part.slice(end, end + PIECE).arrayBuffer();
    const text = decoder.text(bytes, end === part.size);
    if (text === null) return 'other encoding';
    reader.push(text);
  }
  return reader.endRows();
}
