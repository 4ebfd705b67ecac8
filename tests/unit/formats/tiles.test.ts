import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { zxyToTileId } from 'pmtiles';
import { describe, expect, test } from 'vitest';
import { openTiles } from '../../../src/io/formats/tiles';
import { whatItIs } from '../../../src/io/formats/what-it-is';
import { pmtiles, png } from './drawn-files';

const tile = png(4, 4, () => [200, 180, 160]);
const blob = (bytes: Buffer) => new Blob([new Uint8Array(bytes)]);
const opened = async (bytes: Buffer) => {
  const archive = await openTiles('yard.pmtiles', blob(bytes));
  if (!archive.ok) throw new Error(archive.problem);
  return archive.value;
};

describe('a local archive of tiles', () => {
  test('is known by its first bytes', () => {
    const bytes = new Uint8Array(pmtiles(tile));
    expect(whatItIs(bytes, true, null)).toEqual({ kind: 'tiles' });
  });

  test('gives its zooms, its bounds and each tile as it stands in the file', async () => {
    const archive = await opened(pmtiles(tile, { most: 12 }));
    expect(archive).toMatchObject({ kind: 'pictures', least: 0, most: 12, bounds: [-180, -85, 180, 85] }); // prettier-ignore
    const cut = await archive.tile(12, 3423, 1763);
    expect(Buffer.from(cut ?? new ArrayBuffer(0))).toEqual(tile);
    expect(await archive.tile(13, 0, 0)).toBeNull();
  });

  // An example of the specification, version 3 (value from memory).
  test('counts tiles along the curve as the specification does: 12/3423/1763 is 19078479', () => {
    expect(zxyToTileId(12, 3423, 1763)).toBe(19_078_479);
  });

  test('of shapes gives the names of its layers, and its credit without markup', async () => {
    const archive = await opened(
      pmtiles(gzipSync(Buffer.from([0x1a, 0])), {
        tileType: 1,
        tileCompression: 2,
        metadata: {
          vector_layers: [{ id: 'water' }, { id: 7 }, { id: 'roads' }],
          attribution: '<a href="javascript:alert(1)">&copy; Somebody</a><script>alert(1)</script>',
        },
      }),
    );
    expect(archive).toMatchObject({ kind: 'shapes', layers: ['water', 'roads'] });
    expect(archive.credit).toBe('© Somebodyalert(1)');
    expect(archive.credit).not.toMatch(/[<>]/);
    expect(new Uint8Array((await archive.tile(3, 1, 1)) ?? [])).toEqual(new Uint8Array([0x1a, 0]));
  });
});

describe('a hostile archive', () => {
  test('a tile of a few kilobytes that swells to 64 MB is stopped', async () => {
    const bomb = gzipSync(Buffer.alloc(64 * 2 ** 20));
    const archive = await opened(pmtiles(bomb, { tileType: 1, tileCompression: 2 }));
    await expect(archive.tile(0, 0, 0)).rejects.toThrow(/swells/);
  });

  test('cut short anywhere, or with bytes changed, it opens, or is refused in a sentence', async () => {
    const whole = pmtiles(tile, { metadata: { name: 'yard' } });
    await fc.assert(
      fc.asyncProperty(
        fc.nat(whole.length),
        fc.array(fc.tuple(fc.nat(140), fc.integer({ min: 0, max: 255 })), { maxLength: 6 }),
        async (length, changes) => {
          const bytes = Buffer.from(whole.subarray(0, length));
          for (const [at, byte] of changes) if (at < bytes.length) bytes[at] = byte;
          const archive = await openTiles('yard.pmtiles', blob(bytes));
          if (!archive.ok) expect(archive.problem).toMatch(/^yard\.pmtiles .*\.$/s);
        },
      ),
      { numRuns: 300 },
    );
  });
});
