/** Pictures and archives of tiles, made by their published layouts. */
import { crc32, deflateSync } from 'node:zlib';

const u32 = (n: number) => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(n >>> 0);
  return bytes;
};

const chunk = (name: string, data: Buffer) => {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  return Buffer.concat([u32(data.length), body, u32(crc32(body))]);
};

/** A PNG (ISO/IEC 15948:2004) of 8-bit red, green and blue. */
export function png(
  width: number,
  height: number,
  colourAt: (right: number, down: number) => readonly [number, number, number],
): Buffer {
  const rows = Buffer.alloc(height * (1 + 3 * width));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) rows.set(colourAt(x, y), y * (1 + 3 * width) + 1 + 3 * x);
  const header = Buffer.concat([u32(width), u32(height), Buffer.from([8, 2, 0, 0, 0])]);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

const varint = (n: number): number[] => {
  const bytes: number[] = [];
  let left = n;
  for (; left >= 128; left = Math.floor(left / 128)) bytes.push((left % 128) | 128);
  return [...bytes, left];
};

/** One field of a message: its number, its kind of wire (0 a number, 2 bytes), its value. */
const field = (number: number, value: number | Buffer): Buffer =>
  typeof value === 'number'
    ? Buffer.from([...varint(number * 8), ...varint(value)])
    : Buffer.concat([Buffer.from([...varint(number * 8 + 2), ...varint(value.length)]), value]);

/** A tile of shapes with one polygon over all of it: the vector tile specification, version 2.1. */
export function vectorTile(layer: string): Buffer {
  const extent = 4096;
  // Move by (0, 0); three lines: right, down, left; close. Steps are written zigzag: 2n, or 2|n| − 1.
  const right = [2 * extent, 0];
  const down = [0, 2 * extent];
  const left = [2 * extent - 1, 0];
  const geometry = [9, 0, 0, 26, ...right, ...down, ...left, 15].flatMap(varint);
  const feature = Buffer.concat([field(3, 3), field(4, Buffer.from(geometry))]);
  return field(
    3,
    Buffer.concat([
      field(15, 2),
      field(1, Buffer.from(layer)),
      field(2, feature),
      field(5, extent),
    ]),
  );
}

/** Tiles from zoom 0 to here: 1 + 4 + 16 + … */
const tilesTo = (zoom: number) => (4 ** (zoom + 1) - 1) / 3;

type ArchiveOptions = {
  /** 1 shapes, 2 PNG, 3 JPEG, 4 WebP. */
  readonly tileType?: number;
  readonly most?: number;
  readonly metadata?: object;
  /** 1 none, 2 gzip. */
  readonly tileCompression?: number;
};

/**
 * An archive of one tile that stands everywhere from zoom 0 to `most`: PMTiles
 * specification, version 3: the header of 127 bytes, one directory entry whose
 * run covers every tile, the metadata, the tile.
 */
export function pmtiles(tile: Buffer, options: ArchiveOptions = {}): Buffer {
  const { tileType = 2, most = 16, metadata = {}, tileCompression = 1 } = options;
  const directory = Buffer.from([1, 0, ...varint(tilesTo(most)), ...varint(tile.length), 1]);
  const about = Buffer.from(JSON.stringify(metadata));
  const header = Buffer.alloc(127);
  header.write('PMTiles', 0, 'latin1');
  header.writeUInt8(3, 7);
  const u64 = (at: number, n: number) => header.writeBigUInt64LE(BigInt(n), at);
  const [root, meta] = [127, 127 + directory.length];
  const data = meta + about.length;
  [root, directory.length, meta, about.length, data, 0, data, tile.length].forEach((n, i) => u64(8 + 8 * i, n)); // prettier-ignore
  [tilesTo(most), 1, 1].forEach((n, i) => u64(72 + 8 * i, n));
  [1, 1, tileCompression, tileType, 0, most].forEach((n, i) => header.writeUInt8(n, 96 + i));
  [-180, -85, 180, 85].forEach((degree, i) => header.writeInt32LE(degree * 1e7, 102 + 4 * i));
  return Buffer.concat([header, directory, about, tile]);
}
