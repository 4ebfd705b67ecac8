/** The attributes of a shapefile: dBASE III rows, every cell as the text it holds. */
export type Attributes = {
  readonly names: readonly string[];
  /** In the order of the file; null where a row is marked deleted. */
  readonly rows: readonly (readonly string[] | null)[];
};

const MOST_FIELDS = 500;

const NOTHING: Attributes = { names: [], rows: [] };

/**
 * The rows a .dbf holds, as many as its bytes have room for, whatever its header
 * says (Shapefile Technical Description, ESRI white paper, 1998; the layout of
 * dBASE III, value from memory).
 *
 * @param most  rows that are wanted
 */
export function readDbf(bytes: Uint8Array, encoding: string | null, most: number): Attributes {
  if (bytes.length < 33) return NOTHING;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const said = view.getUint32(4, true);
  const start = view.getUint16(8, true);
  const length = view.getUint16(10, true);
  if (start < 33 || length < 2 || start > bytes.length) return NOTHING;
  const decoder = decoderOf(encoding);
  const text = (from: number, size: number) =>
    decoder
      .decode(bytes.subarray(from, from + size))
      .replace(/\0.*$/s, '')
      .trim();

  const fields: { name: string; type: string; size: number; at: number }[] = [];
  let at = 1; // the first byte of a row says whether it is deleted
  for (let from = 32; from + 32 <= start && fields.length < MOST_FIELDS; from += 32) {
    if (bytes[from] === 0x0d) break;
    const size = bytes[from + 16] ?? 0;
    const type = String.fromCharCode(bytes[from + 11] ?? 0);
    fields.push({ name: text(from, 11), type, size, at });
    at += size;
  }
  if (at > length) return NOTHING;
  const room = Math.floor((bytes.length - start) / length);
  const count = Math.min(said, room, most);
  const rows = Array.from({ length: count }, (_, row) => {
    const from = start + row * length;
    if (bytes[from] === 0x2a) return null;
    return fields.map((field) => cell(text(from + field.at, field.size), field.type));
  });
  return { names: fields.map(({ name }) => name), rows };
}

/** Days and yes or no as the tables write them; numbers that are none, which are written with stars, blank. */
function cell(text: string, type: string): string {
  if (type === 'D')
    return /^\d{8}$/.test(text) && text !== '00000000'
      ? `${text.slice(0, 4)}-${text.slice(4, 6)}-${text.slice(6, 8)}`
      : '';
  if (type === 'L') return /^[yt]$/i.test(text) ? 'yes' : /^[nf]$/i.test(text) ? 'no' : '';
  return (type === 'N' || type === 'F') && /^\*+$/.test(text) ? '' : text;
}

/** The encoding a .cpg names; UTF-8 where it names none that is known, else Windows-1252 for its bytes. */
function decoderOf(encoding: string | null): { decode: (bytes: Uint8Array) => string } {
  const named = encoding?.trim().toLowerCase().replace(/^ansi\s*/, 'windows-').replace(/^(\d{3,4})$/, 'windows-$1'); // prettier-ignore
  for (const label of named ? [named] : []) {
    try {
      return new TextDecoder(label);
    } catch {
      // Not a name of the encoding standard: told from the bytes instead.
    }
  }
  const strict = new TextDecoder('utf-8', { fatal: true });
  const latin = new TextDecoder('windows-1252');
  return {
    decode: (bytes) => {
      try {
        return strict.decode(bytes);
      } catch {
        return latin.decode(bytes);
      }
    },
  };
}
