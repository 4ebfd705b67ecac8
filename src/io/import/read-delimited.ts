import { fail, type Result } from '../../domain/result';
import { DelimitedReader, type Dressed } from './delimited-reader';
import { Decoder, ENCODING_WORDS, guessEncoding, isText, type Encoding } from './encoding';
import { middleOf, PIECE, type SecondRead, type SecondReader } from './second-half';
import type { Progress, SourceTable, Unreadable } from './source-table';

/** A delimited text read at once: a paste from a spreadsheet, or a small file. */
export function readDelimitedText(
  name: string,
  text: string,
  dressed: Dressed = {},
): Result<SourceTable, Unreadable> {
  const reader = new DelimitedReader(name, dressed);
  reader.push(text);
  return reader.end();
}

const NOT_TEXT = (name: string) =>
  `${name} is not a text file: it has bytes no text has. Save it as CSV or .xlsx.`;

/**
 * A file of delimited text, read piece by piece. Yields how far it has got;
 * to stop, ask for no more and end it with `return`.
 *
 * @param second  who reads the second half of a large file meanwhile; the table
 *   is the same without
 */
export async function* readDelimited(
  name: string,
  file: Blob,
  dressed: Dressed = {},
  second: SecondReader | null = null,
): AsyncGenerator<Progress, Result<SourceTable, Unreadable>> {
  const head = new Uint8Array(await file.slice(0, PIECE).arrayBuffer());
  let encoding = dressed.encoding ?? guessEncoding(head, head.length === file.size);
  if (!isText(head, encoding)) return fail(NOT_TEXT(name));
  try {
    for (;;) {
      const reader = new DelimitedReader(name, dressed, encodingSaid(encoding));
      const isIn = yield* readAll(reader, file, head, encoding, second);
      if (isIn) return reader.end();
      encoding = 'windows-1252';
    }
  } finally {
    second?.stop();
  }
}

/** Give a reader all of a file. False where its bytes are not in the encoding. */
async function* readAll(
  reader: DelimitedReader,
  file: Blob,
  head: Uint8Array,
  encoding: Encoding,
  second: SecondReader | null,
): AsyncGenerator<Progress, boolean> {
  const decoder = new Decoder(encoding);
  const pieceFrom = (start: number, till: number) =>
    file.slice(start, Math.min(start + PIECE, till)).arrayBuffer();
  let coming: Promise<ArrayBuffer | Uint8Array> = Promise.resolve(head);
  let till = file.size;
  let meanwhile: Promise<SecondRead> | null = null;
  for (let start = 0; start < file.size;) {
    const bytes = await coming;
    const end = start + bytes.byteLength;
    // The next piece is fetched while this one is read.
    if (end < till) coming = pieceFrom(end, till);
    const text = decoder.text(bytes, end === file.size);
    if (text === null) return false;
    reader.push(text);
    yield { done: end, of: file.size, rows: reader.rows };
    const middle = start === 0 && second ? await middleOf(file, reader.rowDress, encoding) : null;
    if (second && middle !== null && reader.rowDress) {
      till = middle;
      const half = { part: file.slice(middle), dress: reader.rowDress, encoding };
      meanwhile = second.read(half);
    }
    if (meanwhile && end === till) {
      const read = reader.endsWhole ? await meanwhile : null;
      if (read === 'other encoding') return false;
      if (read) {
        reader.join(read);
        return true;
      }
      meanwhile = null;
      till = file.size;
      coming = pieceFrom(end, till);
    }
    start = end;
  }
  return true;
}

const encodingSaid = (encoding: Encoding) =>
  encoding === 'utf-8' ? [] : [`Its letters are read as ${ENCODING_WORDS[encoding]}.`];

/** The same on bytes in memory, at once: for tests, the terminal and small files. */
export function readDelimitedBytes(
  name: string,
  bytes: Uint8Array,
  dressed: Dressed = {},
): Result<SourceTable, Unreadable> {
  const guessed = dressed.encoding ?? guessEncoding(bytes, true);
  if (!isText(bytes, guessed)) return fail(NOT_TEXT(name));
  const text = new Decoder(guessed).text(bytes, true);
  if (text === null) return fail(NOT_TEXT(name));
  const reader = new DelimitedReader(name, dressed, encodingSaid(guessed));
  reader.push(text);
  return reader.end();
}
