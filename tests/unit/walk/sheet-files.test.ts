/** Files made of a sheet: fonts out of their envelope, pictures that say their density. */
import { readFileSync } from 'node:fs';
import { crc32, deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { fontFile } from '../../../src/io/export/font-file';
import { withDensity } from '../../../src/io/export/png-density';

const FILES = 'node_modules/@fontsource/source-sans-3/files/source-sans-3-';
const woff = (name: string) => new Uint8Array(readFileSync(`${FILES}${name}.woff`));

/** Sum of a table as the font format has it (OpenType 1.9, "Calculating checksums"). */
function sumOf(view: DataView, from: number, length: number): number {
  let sum = 0;
  for (let at = from; at < from + ((length + 3) & ~3); at += 4)
    sum = (sum + (at + 4 <= view.byteLength ? view.getUint32(at) : 0)) >>> 0;
  return sum;
}

describe('a font out of the envelope of the web', () => {
  test.each(['latin-400-normal', 'latin-600-normal', 'latin-400-italic', 'greek-400-normal'])(
    '%s: every table is there and adds up to the sum its maker wrote',
    (name) => {
      const font = fontFile(woff(name));
      if (!font.ok) throw new Error(font.problem);
      const view = new DataView(font.value.buffer);
      const tables = view.getUint16(4);
      const names: string[] = [];
      for (let i = 0; i < tables; i++) {
        const at = 12 + 16 * i;
        const tag = String.fromCharCode(...font.value.subarray(at, at + 4));
        names.push(tag);
        // The sum of "head" leaves out a word of the whole file's.
        if (tag === 'head') continue;
        expect(sumOf(view, view.getUint32(at + 8), view.getUint32(at + 12))).toBe(
          view.getUint32(at + 4),
        );
      }
      expect(names).toEqual(expect.arrayContaining(['cmap', 'glyf', 'head', 'hmtx', 'loca']));
    },
  );

  test('what is none, or is cut short, is said', () => {
    expect(fontFile(new Uint8Array(100))).toMatchObject({ ok: false });
    expect(fontFile(woff('latin-400-normal').slice(0, 900))).toMatchObject({ ok: false });
  });
});

test('a picture says 300 dots to the inch, its sums as zlib has them', () => {
  const part = (name: string, body: Buffer) => {
    const named = Buffer.concat([Buffer.from(name), body]);
    const head = Buffer.alloc(4);
    head.writeUInt32BE(body.length);
    const sum = Buffer.alloc(4);
    sum.writeUInt32BE(crc32(named));
    return Buffer.concat([head, named, sum]);
  };
  const header = Buffer.from([0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0]);
  const png = Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    part('IHDR', header),
    part('IDAT', deflateSync(Buffer.from([0, 200]))),
    part('IEND', Buffer.alloc(0)),
  ]);
  const made = Buffer.from(withDensity(new Uint8Array(png), 300));
  expect(made.toString('latin1', 37, 41)).toBe('pHYs');
  // 300 / 0.0254 = 11811 px a metre.
  expect([made.readUInt32BE(41), made.readUInt32BE(45), made[49]]).toEqual([11811, 11811, 1]);
  expect(made.readUInt32BE(50)).toBe(crc32(made.subarray(37, 50)));
});
