import { fail, ok, type Result } from '../../domain/result';
import type { ImageSize, ImageType } from '../../domain/site/pictures';

/** More dots than this no browser shows, and a few bytes can claim them. */
const MOST_DOTS = 120_000_000;
const LONGEST_SIDE = 16_384;

/** An image is what its bytes say, whatever its name says. */
const READERS: readonly (readonly [ImageType, (view: DataView) => ImageSize | null])[] = [
  ['image/png', pngSize],
  ['image/jpeg', jpegSize],
  ['image/webp', webpSize],
];

/** The kind and size an image says it has, without opening it out: PNG, JPEG and WebP. */
export function imageSize(
  name: string,
  bytes: Uint8Array,
): Result<ImageSize & { readonly type: ImageType }, string> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const [size] = READERS.flatMap(([type, read]) => {
    const found = read(view);
    return found ? [{ ...found, type }] : [];
  });
  if (!size || size.width < 1 || size.height < 1)
    return fail(`${name} is no PNG, JPEG or WebP image that can be read.`);
  const { width, height } = size;
  return width > LONGEST_SIDE || height > LONGEST_SIDE || width * height > MOST_DOTS
    ? fail(`${name} is ${width} × ${height} dots; an image has at most ${LONGEST_SIDE} on a side and ${MOST_DOTS / 1e6} million in all.`) // prettier-ignore
    : ok(size);
}

const has = (view: DataView, at: number, text: string) =>
  at + text.length <= view.byteLength &&
  [...text].every((letter, i) => view.getUint8(at + i) === letter.charCodeAt(0));

/** PNG (ISO/IEC 15948:2004, 11.2.2): the first chunk holds width and height. */
function pngSize(view: DataView): ImageSize | null {
  if (!has(view, 1, 'PNG') || !has(view, 12, 'IHDR') || view.byteLength < 24) return null;
  return { width: view.getUint32(16), height: view.getUint32(20) };
}

/** JPEG (ITU-T T.81, B.2.2): the frame header after markers of known length. */
function jpegSize(view: DataView): ImageSize | null {
  if (view.byteLength < 4 || view.getUint16(0) !== 0xffd8) return null;
  for (let at = 2; at + 9 < view.byteLength;) {
    if (view.getUint8(at) !== 0xff) return null;
    const marker = view.getUint8(at + 1);
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame) return { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    const isAlone = marker === 0xff || marker === 0x01 || (marker >= 0xd0 && marker <= 0xd9);
    at += isAlone ? 1 + Number(marker !== 0xff) : 2 + view.getUint16(at + 2);
  }
  return null;
}

/** WebP (RFC 9649, 2024): lossy, lossless or extended, each with its own header. */
function webpSize(view: DataView): ImageSize | null {
  if (!has(view, 0, 'RIFF') || !has(view, 8, 'WEBP') || view.byteLength < 30) return null;
  if (has(view, 12, 'VP8 '))
    return {
      width: view.getUint16(26, true) & 0x3fff,
      height: view.getUint16(28, true) & 0x3fff,
    };
  if (has(view, 12, 'VP8L')) {
    const bits = view.getUint32(21, true);
    return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
  }
  if (!has(view, 12, 'VP8X')) return null;
  const side = (at: number) => (view.getUint16(at, true) | (view.getUint8(at + 2) << 16)) + 1;
  return { width: side(24), height: side(27) };
}
