import { Inflate } from 'fflate';
import { fail, ok, type Result } from '../../domain/result';
import type { Files } from '../package/files';
import { staysInside } from '../package/inside';
import { crc32 } from './crc32';

/** What a zip may come to. */
export type ZipLimits = {
  /** Bytes of all wanted files, opened out. */
  readonly bytes: number;
  readonly files: number;
  /** Files that are opened out; others are passed over. */
  readonly wanted?: (path: string) => boolean;
};

type Entry = {
  readonly path: string;
  readonly method: number;
  readonly packed: number;
  readonly checksum: number;
  /** Bytes its file comes to, by the index: believed only where it says too many. */
  readonly claimed: number;
  /** Where its local header stands. */
  readonly at: number;
};

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
const LONGEST_COMMENT = 65_557;

const STORED = 0;
const DEFLATED = 8;

/** Bytes inflated at a time: even of these at most a thousandfold comes out before it is noticed. */
const PIECE = 32_768;

const BROKEN = 'it is cut short, or is no zip';

/**
 * The files of a zip, opened out under limits. What its index says of sizes is
 * not believed: bytes are counted as they come out, and a zip that swells is
 * stopped when it does; a file that is not what it was when it was packed is
 * refused by its checksum (APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12, 4.3.16, 4.4.7).
 */
export function openBoundedZip(bytes: Uint8Array, limits: ZipLimits): Result<Files, string> {
  const entries = entriesOf(bytes);
  if (!entries) return fail(BROKEN);
  const files = new Map<string, Uint8Array>();
  let left = limits.bytes;
  for (const entry of entries) {
    if (entry.path.endsWith('/') || limits.wanted?.(entry.path) === false) continue;
    if (!staysInside(entry.path))
      return fail(`the file “${entry.path.slice(0, 80)}” would land outside the folder`);
    if (files.size >= limits.files) return fail(`it holds more than ${limits.files} files`);
    if (entry.claimed > left) return fail(swells(limits.bytes));
    const content = opened(bytes, entry, left, limits.bytes);
    if (typeof content === 'string') return fail(content);
    if (crc32(content) !== entry.checksum)
      return fail(`the file “${entry.path.slice(0, 80)}” in it is damaged`);
    left -= content.length;
    files.set(entry.path, content);
  }
  return ok(files);
}

/** The paths a zip's index lists; null where it has none. */
export const pathsIn = (bytes: Uint8Array): readonly string[] | null =>
  entriesOf(bytes)?.map(({ path }) => path) ?? null;

function entriesOf(bytes: Uint8Array): Entry[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const first = Math.max(0, bytes.length - LONGEST_COMMENT);
  let end = bytes.length - 22;
  while (end >= first && view.getUint32(end, true) !== END) end--;
  if (end < first) return null;
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  const entries: Entry[] = [];
  for (let i = 0; i < count; i++) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== CENTRAL) return null;
    const isUtf8 = (view.getUint16(at + 8, true) & 0x800) !== 0;
    const lengths = [28, 30, 32].map((offset) => view.getUint16(at + offset, true));
    const [name = 0, extra = 0, comment = 0] = lengths;
    const path = bytes.subarray(at + 46, at + 46 + name);
    entries.push({
      path: new TextDecoder(isUtf8 ? 'utf-8' : 'latin1').decode(path),
      method: view.getUint16(at + 10, true),
      checksum: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      claimed: view.getUint32(at + 24, true),
      at: view.getUint32(at + 42, true),
    });
    at += 46 + name + extra + comment;
  }
  return entries;
}

/** The bytes of one file; a text where they can't be had, why. */
function opened(
  bytes: Uint8Array,
  entry: Entry,
  most: number,
  allowed: number,
): Uint8Array | string {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { at, packed, method } = entry;
  if (at + 30 > bytes.length || view.getUint32(at, true) !== LOCAL) return BROKEN;
  const from = at + 30 + view.getUint16(at + 26, true) + view.getUint16(at + 28, true);
  if (from + packed > bytes.length) return BROKEN;
  const content = bytes.subarray(from, from + packed);
  if (method === STORED) return packed <= most ? content : swells(allowed);
  if (method !== DEFLATED) return 'a file in it is packed by a method other than the usual one';

  const pieces: Uint8Array[] = [];
  let size = 0;
  const inflate = new Inflate((piece) => {
    size += piece.length;
    if (size <= most) pieces.push(piece);
  });
  try {
    for (let start = 0; start < packed || start === 0; start += PIECE) {
      inflate.push(content.subarray(start, start + PIECE), start + PIECE >= packed);
      if (size > most) return swells(allowed);
    }
  } catch {
    return BROKEN;
  }
  const whole = new Uint8Array(size);
  let place = 0;
  for (const piece of pieces) {
    whole.set(piece, place);
    place += piece.length;
  }
  return whole;
}

const swells = (allowed: number) => `it swells to more than ${Math.round(allowed / 2 ** 20)} MB`;
