/** How the characters of a file are written. */
export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

export const ENCODING_WORDS: Readonly<Record<Encoding, string>> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16',
  'utf-16be': 'UTF-16, big-endian',
  'windows-1252': 'Windows-1252',
};

/** Bytes looked at to tell UTF-16 without a mark. */
const LOOKED_AT = 4096;

/**
 * The encoding of a file from its first bytes: by its byte-order mark; UTF-16
 * without one by the zero bytes of plain letters; UTF-8 where the bytes are
 * well formed; else Windows-1252, in which every byte is a character.
 *
 * @param whole  whether these are all the bytes there are
 */
export function guessEncoding(head: Uint8Array, whole: boolean): Encoding {
  const [a, b] = head;
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  const zeros = [0, 0];
  const length = Math.min(head.length, LOOKED_AT);
  for (let i = 0; i < length; i++) if (head[i] === 0) zeros[i % 2] = (zeros[i % 2] ?? 0) + 1;
  const [even = 0, odd = 0] = zeros;
  if (odd > length / 5 && even < odd / 10) return 'utf-16le';
  if (even > length / 5 && odd < even / 10) return 'utf-16be';
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: !whole });
    return 'utf-8';
  } catch {
    return 'windows-1252';
  }
}

/** Whether the bytes can be text at all: a zero byte in no known encoding is none. */
export const isText = (head: Uint8Array, encoding: Encoding) =>
  encoding.startsWith('utf-16') || !head.subarray(0, LOOKED_AT).includes(0);

/** Letters of Windows-1252 for the bytes 80 to 9F (WHATWG Encoding, index windows-1252). */
const ABOVE_ASCII = '€\x81‚ƒ„…†‡ˆ‰Š‹Œ\x8dŽ\x8f\x90‘’“”•–—˜™š›œ\x9džŸ';

/** A decoder for bytes as they come. */
export class Decoder {
  private readonly decoder: TextDecoder;

  /** @param begins  whether the bytes begin a file: a byte-order mark is one only there */
  constructor(
    private readonly encoding: Encoding,
    begins = true,
  ) {
    this.decoder = new TextDecoder(encoding, { fatal: encoding === 'utf-8', ignoreBOM: !begins });
  }

  /** The text of some bytes, or null where they are not in the encoding. */
  text(bytes: Uint8Array | ArrayBuffer, last: boolean): string | null {
    try {
      const text = this.decoder.decode(bytes, { stream: !last });
      // Node 20 decodes Windows-1252 as Latin-1; browsers leave nothing to do here.
      return this.encoding === 'windows-1252'
        ? text.replace(/[\x80-\x9f]/g, (c) => ABOVE_ASCII[c.charCodeAt(0) - 0x80] ?? c)
        : text;
    } catch {
      return null;
    }
  }
}
