import { unzlibSync } from 'fflate';
import { fail, ok, type Result } from '../../domain/result';

const WOFF = 0x774f4646; // "wOFF"

/**
 * A font out of the envelope the web sends it in: the tables unpacked and put
 * one after the other, as an sfnt file (W3C, WOFF File Format 1.0, 2012, 3 to 5).
 */
export function fontFile(woff: Uint8Array<ArrayBuffer>): Result<Uint8Array<ArrayBuffer>, string> {
  const given = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  if (woff.length < 44 || given.getUint32(0) !== WOFF)
    return fail('Not a font as the web sends it.');
  const count = given.getUint16(12);
  const size = given.getUint32(16);
  if (woff.length < 44 + 20 * count || size > 1 << 24) return fail('The font is cut short.');
  const font = new Uint8Array(size);
  const view = new DataView(font.buffer);
  view.setUint32(0, given.getUint32(4));
  view.setUint16(4, count);
  const power = Math.floor(Math.log2(Math.max(1, count)));
  view.setUint16(6, 16 * 2 ** power);
  view.setUint16(8, power);
  view.setUint16(10, 16 * (count - 2 ** power));
  let at = 12 + 16 * count;
  for (let i = 0; i < count; i++) {
    const entry = 44 + 20 * i;
    const [tag, from, packed, length, sum] = [0, 4, 8, 12, 16].map((off) =>
      given.getUint32(entry + off),
    ) as [number, number, number, number, number];
    if (from + packed > woff.length || at + length > size) return fail('The font is cut short.');
    const part = woff.subarray(from, from + packed);
    const table = packed < length ? unzlibSync(part) : part;
    if (table.length !== length) return fail('A table of the font is cut short.');
    font.set(table, at);
    [tag, sum, at, length].forEach((word, k) => view.setUint32(12 + 16 * i + 4 * k, word));
    at += (length + 3) & ~3;
  }
  return ok(font);
}
