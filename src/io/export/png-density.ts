/** Sums of a byte at a time (W3C, Portable Network Graphics, annex D). */
const SUMS = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

const sumOf = (bytes: Uint8Array) =>
  bytes.reduce((c, byte) => (SUMS[(c ^ byte) & 0xff] as number) ^ (c >>> 8), 0xffffffff) ^
  0xffffffff;

/** The signature and the header, before which nothing may stand. */
const AFTER_HEADER = 33;

/**
 * A PNG that says how many of its px make an inch, so that it comes out at the
 * size of the sheet (pHYs, in px a metre: W3C, Portable Network Graphics, 11.3.5.3).
 */
export function withDensity(
  png: Uint8Array<ArrayBuffer>,
  dotsPerInch: number,
): Uint8Array<ArrayBuffer> {
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set([112, 72, 89, 115], 4); // pHYs
  const perMetre = Math.round(dotsPerInch / 0.0254);
  view.setUint32(8, perMetre);
  view.setUint32(12, perMetre);
  chunk[16] = 1;
  view.setUint32(17, sumOf(chunk.subarray(4, 17)));
  const made = new Uint8Array(png.length + chunk.length);
  made.set(png.subarray(0, AFTER_HEADER));
  made.set(chunk, AFTER_HEADER);
  made.set(png.subarray(AFTER_HEADER), AFTER_HEADER + chunk.length);
  return made;
}
