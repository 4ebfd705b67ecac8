import { guessEncoding, isText, Decoder } from '../import/encoding';

/** What a file dropped on the app is, told by its bytes and not by its name. */
export type FileKind =
  | { readonly kind: 'table' } // delimited text
  | { readonly kind: 'workbook' }
  | { readonly kind: 'site' } // a zip with a site's descriptor in it
  | { readonly kind: 'descriptor' } // datapackage.json by itself
  | { readonly kind: 'geojson' | 'kml' | 'kmz' | 'gpx' | 'shapefile' }
  | { readonly kind: 'image'; readonly type: 'image/png' | 'image/jpeg' | 'image/webp' }
  | { readonly kind: 'tiles' } // a PMTiles archive
  /** Something else; what to do instead, in words. */
  | { readonly kind: 'refused'; readonly why: string };

const refused = (why: string): FileKind => ({ kind: 'refused', why });

const startsWith = (bytes: Uint8Array, signature: readonly (number | null)[], from = 0) =>
  signature.every((byte, i) => byte === null || bytes[from + i] === byte);

const ascii = (text: string) => [...text].map((letter) => letter.charCodeAt(0));

const SIGNATURES: readonly (readonly [readonly (number | null)[], FileKind])[] = [
  [[0x89, ...ascii('PNG\r\n'), 0x1a, 0x0a], { kind: 'image', type: 'image/png' }],
  [[0xff, 0xd8, 0xff], { kind: 'image', type: 'image/jpeg' }],
  [[...ascii('RIFF'), null, null, null, null, ...ascii('WEBP')], { kind: 'image', type: 'image/webp' }], // prettier-ignore
  [ascii('PMTiles'), { kind: 'tiles' }],
  [
    ascii('%PDF'),
    refused('it is a PDF: save the drawing in it as PNG or JPEG, or its table as CSV'),
  ],
  [[0xd0, 0xcf, 0x11, 0xe0], refused('it is an old workbook or another file of its kind: save it as .xlsx or CSV')], // prettier-ignore
  [ascii('SQLite format 3'), refused('it is a database (GeoPackage or another): save its layers as GeoJSON or a zipped shapefile')], // prettier-ignore
  [ascii('GIF8'), refused('GIF images are not taken: save it as PNG')],
  [ascii('II*'), refused('TIFF images are not taken: save it as PNG or JPEG')],
  [ascii('MM\0*'), refused('TIFF images are not taken: save it as PNG or JPEG')],
  [ascii('AC10'), refused('it is a drawing of a drafting program: save it as a zipped shapefile, or as PNG')], // prettier-ignore
  [[0, 0, 0x27, 0x0a], refused('a .shp by itself lacks its attributes and its grid: zip it with its .dbf, .shx and .prj')], // prettier-ignore
];

/** Bytes at the start that are enough to tell. */
export const ENOUGH = 65_536;

/**
 * @param head  the first bytes of the file, `ENOUGH` of them or all
 * @param listing  for a zip: the paths of the files in it
 */
export function whatItIs(
  head: Uint8Array,
  whole: boolean,
  listing: (() => readonly string[] | null) | null,
): FileKind {
  if (head.length === 0) return refused('it is empty');
  if (startsWith(head, ascii('PK'))) return zipKind(listing?.() ?? null);
  const known = SIGNATURES.find(([signature]) => startsWith(head, signature));
  if (known) return known[1];
  const encoding = guessEncoding(head, whole);
  if (!isText(head, encoding)) return refused('it is neither text nor an image that is known here');
  const text = (new Decoder(encoding).text(head.slice(), false) ?? '').trimStart();
  if (text.startsWith('<')) return xmlKind(text);
  if (text.startsWith('{')) return jsonKind(text);
  return { kind: 'table' };
}

function zipKind(paths: readonly string[] | null): FileKind {
  if (!paths) return refused('it is a zip that is cut short');
  const has = (is: (path: string) => boolean) => paths.some((path) => is(path.toLowerCase()));
  if (has((path) => path === 'datapackage.json' || path.endsWith('/datapackage.json')))
    return { kind: 'site' };
  if (has((path) => path === 'xl/workbook.xml')) return { kind: 'workbook' };
  if (has((path) => path.endsWith('.shp'))) return { kind: 'shapefile' };
  if (has((path) => path.endsWith('.kml'))) return { kind: 'kmz' };
  return refused('it is a zip with no site, workbook, shapefile or KML in it');
}

function xmlKind(text: string): FileKind {
  const root = /<(?:[\w.-]+:)?([a-zA-Z][\w.-]*)[\s>/]/.exec(
    text.replace(/<\?[^>]*>|<!--[\s\S]*?-->|<!DOCTYPE[^>]*>/gi, ''),
  )?.[1];
  switch (root?.toLowerCase()) {
    case 'kml':
      return { kind: 'kml' };
    case 'gpx':
      return { kind: 'gpx' };
    case 'svg':
      return refused('SVG images can carry scripts and are not taken: save it as PNG');
    case 'html':
      return refused('it is a web page, even if it is named as a table: save it as .xlsx or CSV');
    default:
      return refused('it is XML of a kind that is not read here');
  }
}

const jsonKind = (text: string): FileKind =>
  /"resources"\s*:/.test(text) && !/"type"\s*:\s*"Feature/.test(text)
    ? { kind: 'descriptor' }
    : { kind: 'geojson' };
