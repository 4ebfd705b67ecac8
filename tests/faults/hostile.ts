/** Files made to do harm: each must be refused in words, or come in as the text it is. */
import { deflateSync, strFromU8, strToU8, zipSync } from 'fflate';
import { eachRow } from '../../src/domain/site/table';
import { imageSize } from '../../src/io/formats/image';
import { openDrawing } from '../../src/io/formats/open-drawing';
import { readDelimitedBytes } from '../../src/io/import/read-delimited';
import { openWorkbook } from '../../src/io/import/read-workbook';
import { openSite } from '../../src/io/open-site';
import { crc32 } from '../../src/io/formats/crc32';
import { openZip, type Files } from '../../src/io/package/files';
import { filesIn } from './zips';

export type Hostile = {
  readonly what: string;
  /** Makes its bytes, where that takes seconds that are not the app's: left out of a short run. */
  readonly prepare?: () => void;
  /** What came of it, in words; throws where it did harm. */
  readonly open: () => string | Promise<string>;
};

export const MARKUP = '<img src=x onerror="document.title=1">';

const refusedZip = (bytes: Uint8Array) => {
  const opened = openZip(bytes);
  if (opened.ok) throw new Error('it was opened');
  return opened.problem;
};

/** A zip of one file that says of itself what it likes. */
export function lyingZip(
  path: string,
  packed: Uint8Array,
  { claimed, checksum = 0 }: { readonly claimed: number; readonly checksum?: number },
): Uint8Array {
  const name = strToU8(path);
  const record = (sign: number, more: number) => {
    const bytes = new Uint8Array(more + name.length);
    new DataView(bytes.buffer).setUint32(0, sign, true);
    bytes.set(name, more);
    return { bytes, view: new DataView(bytes.buffer) };
  };
  const local = record(0x04034b50, 30);
  const central = record(0x02014b50, 46);
  for (const [{ view }, at] of [
    [local, 8],
    [central, 10],
  ] as const) {
    view.setUint16(at, 8, true);
    view.setUint32(at + 6, checksum, true);
    view.setUint32(at + 10, packed.length, true);
    view.setUint32(at + 14, claimed, true);
    view.setUint16(at + 18, name.length, true);
  }
  const end = new Uint8Array(22);
  const view = new DataView(end.buffer);
  view.setUint32(0, 0x06054b50, true);
  view.setUint16(8, 1, true);
  view.setUint16(10, 1, true);
  view.setUint32(12, central.bytes.length, true);
  view.setUint32(16, local.bytes.length + packed.length, true);
  return Buffer.concat([local.bytes, packed, central.bytes, end]);
}

const withDescriptor = (change: (text: string) => string): Files => {
  const files = new Map(filesIn('demo-sites/quellmoor'));
  files.set(
    'datapackage.json',
    strToU8(change(strFromU8(files.get('datapackage.json') ?? new Uint8Array()))),
  );
  return files;
};

/** Nothing that was opened may have changed what every object has. */
const unchanged = (said: string) => {
  if ('hurt' in {}) throw new Error('the prototype of every object was changed');
  return said;
};

const climbing = ['../out.csv', '/etc/out.csv', 'C:\\out.csv', 'a/../../out.csv', '..\\out.csv'];

const drawn = (name: string, text: string, format: 'geojson' | 'kml' | 'gpx') => {
  const opened = openDrawing(name, strToU8(text), format);
  return unchanged(opened.ok ? `${opened.value.length} tables, as text` : opened.problem);
};

/** Bytes that come to so many when they are opened out: all of them nought. */
const nought = (megabytes: number) => deflateSync(new Uint8Array(megabytes * 2 ** 20));

let bomb: Uint8Array | undefined;
const swelling = () =>
  (bomb ??= lyingZip('xl/worksheets/sheet1.xml', nought(420), { claimed: 10 }));

export const HOSTILE: readonly Hostile[] = [
  ...climbing.map((path) => ({
    what: `a zip that climbs out of its folder: ${path}`,
    open: () => refusedZip(zipSync({ [path]: strToU8('id\n') })),
  })),
  {
    what: 'a zip that says it swells to four gigabytes',
    open: () => refusedZip(lyingZip('results.csv', nought(1), { claimed: 0xffff_fff0 })),
  },
  {
    what: 'a zip that holds more than it says',
    open: () =>
      refusedZip(
        lyingZip('results.csv', nought(8), { claimed: 10, checksum: crc32(strToU8('x')) }),
      ),
  },
  {
    what: 'a zip of ten thousand and one files',
    open: () =>
      refusedZip(
        zipSync(
          Object.fromEntries(Array.from({ length: 10_001 }, (_, i) => [`f${i}`, new Uint8Array()])),
          { level: 0 },
        ),
      ),
  },
  {
    what: 'a workbook that swells',
    prepare: swelling,
    open: async () => {
      const opened = await openWorkbook('bomb.xlsx', swelling());
      if (opened.ok) throw new Error('it was opened');
      return opened.problem;
    },
  },
  {
    what: '__proto__ in a descriptor',
    open: () => {
      const opened = openSite(
        withDescriptor((text) => text.replace('{', '{"__proto__": {"hurt": 1}, "constructor": 1,')),
      );
      if (!opened.ok) throw new Error('it was refused');
      return unchanged('opened as data');
    },
  },
  {
    what: 'a descriptor whose tables lie outside the folder',
    open: () => {
      const opened = openSite(
        withDescriptor((text) => text.replace('"locations.csv"', '"../x.csv"')),
      );
      if (!opened.ok) throw new Error('it was refused');
      return `opened without it, ${opened.value.problems.length} problems named`;
    },
  },
  {
    what: 'markup in every cell of a table',
    open: () => {
      const read = readDelimitedBytes(
        'wells.csv',
        strToU8(`Well,Easting\n"${MARKUP.replaceAll('"', '""')}",1\n`),
      );
      if (!read.ok) throw new Error('it was refused');
      return `kept as text: ${String(JSON.stringify(read.value).includes('onerror'))}`;
    },
  },
  {
    what: 'columns called __proto__ and constructor in a table of a site',
    open: () => {
      const files = new Map(filesIn('demo-sites/quellmoor'));
      const table = strFromU8(files.get('locations.csv') ?? new Uint8Array());
      const [head = '', ...rows] = table.split('\n');
      files.set(
        'locations.csv',
        strToU8([`${head.trim()},__proto__,constructor`, ...rows.map((r) => r.trim() && `${r.trim()},1,2`)].join('\n')), // prettier-ignore
      );
      const opened = openSite(files);
      if (!opened.ok) throw new Error('it was refused');
      const kept = opened.value.package.tables.locations;
      const [first] = kept ? [...eachRow(kept)] : [];
      if (first?.at(-1) !== '2') throw new Error('a column was lost');
      return unchanged('kept as columns');
    },
  },
  {
    what: '__proto__ in GeoJSON',
    open: () =>
      drawn('a.geojson', '{"type":"FeatureCollection","features":[{"type":"Feature","__proto__":{"hurt":1},"properties":{"__proto__":{"hurt":1}},"geometry":{"type":"Point","coordinates":[1,2]}}]}', 'geojson'), // prettier-ignore
  },
  {
    what: 'KML whose entities multiply',
    open: () =>
      drawn('a.kml', `<!DOCTYPE k [<!ENTITY a "aaaaaaaaaa">${Array.from('bcdefghi', (letter, i) => `<!ENTITY ${letter} "${`&${'abcdefgh'[i] ?? 'a'};`.repeat(10)}">`).join('')}]><kml><Placemark><name>&i;</name><Point><coordinates>1,2</coordinates></Point></Placemark></kml>`, 'kml'), // prettier-ignore
  },
  {
    what: 'KML that names a file of this machine',
    open: () =>
      drawn('a.kml', '<!DOCTYPE k [<!ENTITY a SYSTEM "file:///etc/hostname">]><kml><Placemark><name>&a;</name><Point><coordinates>1,2</coordinates></Point></Placemark></kml>', 'kml'), // prettier-ignore
  },
  {
    what: 'GPX nested a hundred thousand deep',
    open: () => drawn('a.gpx', `${'<gpx>'.repeat(100_000)}`, 'gpx'),
  },
  {
    what: 'a shapefile whose header lies about its length',
    open: () => {
      const shp = new Uint8Array(100);
      const view = new DataView(shp.buffer);
      view.setInt32(0, 9994);
      view.setInt32(24, 0x7fff_ffff);
      view.setInt32(28, 1000, true);
      view.setInt32(32, 5, true);
      const zip = zipSync({ 'a.shp': shp, 'a.dbf': new Uint8Array(33) });
      const opened = openDrawing('a.zip', zip, 'shapefile');
      return opened.ok ? `${opened.value.length} tables` : opened.problem;
    },
  },
  {
    what: 'an SVG image with a script',
    open: () => {
      const size = imageSize('plan.svg', strToU8('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>alert(1)</script></svg>')); // prettier-ignore
      if (size.ok) throw new Error('it was taken as an image');
      return size.problem;
    },
  },
  {
    what: 'a picture that says it is sixty thousand px wide and high',
    open: () => {
      const png = new Uint8Array(33);
      png.set([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52]);
      const view = new DataView(png.buffer);
      view.setUint32(16, 60_000);
      view.setUint32(20, 60_000);
      const size = imageSize('plan.png', png);
      if (size.ok) throw new Error('it was taken as an image');
      return size.problem;
    },
  },
];

export type HostileTally = {
  readonly tried: number;
  readonly held: readonly string[];
  readonly faults: readonly string[];
};

const LONGEST = 2_000; // milliseconds

/** Open each hostile file; a fault where it was let in, crashed, or took too long. */
export async function openHostile(slowBy = 1, isShort = false): Promise<HostileTally> {
  const all = HOSTILE.filter(({ prepare }) => !isShort || !prepare);
  const held: string[] = [];
  const faults: string[] = [];
  for (const { what, prepare, open } of all) {
    prepare?.();
    const start = performance.now();
    try {
      held.push(`${what}: ${await open()}`);
    } catch (error) {
      faults.push(`${what}: ${String(error)}`);
    }
    const took = performance.now() - start;
    if (took > LONGEST * slowBy) faults.push(`${what}: took ${Math.round(took)} ms`);
  }
  return { tried: all.length, held, faults };
}
