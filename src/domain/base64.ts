/** Bytes made into text at a time: a call takes only so many arguments. */
const PIECE = 0x8000;

/** Bytes as base64 (RFC 4648, section 4). */
export function base64Of(bytes: Uint8Array): string {
  let letters = '';
  for (let at = 0; at < bytes.length; at += PIECE)
    letters += String.fromCharCode(...bytes.subarray(at, at + PIECE));
  return btoa(letters);
}

/** The bytes that a text in base64 holds. Throws where it holds none. */
export const bytesOfBase64 = (text: string): Uint8Array =>
  Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
