/** One entry for each value of a byte: what eight shifts make of it. */
const TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte;
  for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  return sum;
});

/**
 * The checksum a zip keeps of each file (CRC-32 of ISO 3309, APPNOTE.TXT 6.3,
 * section 4.4.7), as an unsigned number.
 */
export function crc32(bytes: Uint8Array): number {
  let sum = -1;
  for (const byte of bytes) sum = (TABLE[(sum ^ byte) & 255] ?? 0) ^ (sum >>> 8);
  return ~sum >>> 0;
}
