/**
 * Feeds mutated files of every format to the import, and says what came of it:
 *
 *     npx tsx tests/faults/mutate.ts 20000 [seed]
 *
 * `npm test` runs a few hundred. An input must be read or refused in words,
 * never crash, never take over two seconds, and every row must be taken, refused
 * or blank.
 */
import { readFileSync } from 'node:fs';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { apply } from '../../src/domain/site/edits/apply';
import { seeded, type Random } from '../../src/domain/layout/seeded';
import { metres } from '../../src/domain/units';
import type { DataPackage } from '../../src/domain/site/data-package';
import { pathsIn } from '../../src/io/formats/bounded-zip';
import { imageSize } from '../../src/io/formats/image';
import { openDrawing } from '../../src/io/formats/open-drawing';
import { ENOUGH, whatItIs } from '../../src/io/formats/what-it-is';
import { proposedAnswers } from '../../src/io/import/ask';
import { proposeMapping } from '../../src/io/import/match-columns';
import { preview } from '../../src/io/import/preview';
import { readDelimitedBytes, readDelimitedText } from '../../src/io/import/read-delimited';
import { openWorkbook } from '../../src/io/import/read-workbook';
import { refusedCsv } from '../../src/io/import/refused';
import type { SourceTable } from '../../src/io/import/source-table';
import { gridOf, openSite, siteOf } from '../../src/io/open-site';
import { openZip } from '../../src/io/package/files';
import { settingsIn } from '../unit/site-from';

export type Format =
  'table' | 'workbook' | 'geojson' | 'kml' | 'kmz' | 'gpx' | 'shapefile' | 'site' | 'image';

type Seed = { readonly name: string; readonly format: Format; readonly bytes: Uint8Array };

const FIXTURES = new URL('../fixtures/', import.meta.url);
const DEMO = new URL('../../demo-sites/quellmoor/', import.meta.url);
const file = (path: string) => new Uint8Array(readFileSync(new URL(path, FIXTURES)));
const head = (bytes: Uint8Array, lines: number) => {
  let at = 0;
  for (let n = 0; n < lines && at >= 0; n++) at = bytes.indexOf(10, at) + 1;
  return bytes.slice(0, at);
};

const utf16 = (text: string) => {
  const bytes = new Uint8Array(2 * text.length + 2);
  bytes.set([0xff, 0xfe]);
  [...text].forEach((letter, i) => (bytes[2 * i + 2] = letter.charCodeAt(0)));
  return bytes;
};

const ACROSS = `Osier Bend, round 2
Well,Date,Benzene (ug/L),Q,Toluene (ug/L),Q
,,ug/L,,ug/L,
DP-1,3/4/2025,"1,200",J,<0.5,U
DP-2,31/3/2025,5.2,,ND,
DP-3,2025-03-31,,,>200,E
`;
const SAMPLES = `Analyte;CAS;Units;S-1;S-2
Location;;;DP-1;DP-2
Date;;;31.03.2025;01.04.2025
Benzene;71-43-2;ug/L;5,2;<1
Toluene;108-88-3;ug/L;;2,5
`;
const GAUGING = `Well\tDate\tTime\tDTW (m)\tNote
MW-1\t2025-03-31\t14:05\t2.51\t"two
lines, ""quoted"""
MW-2\t31-Mar-25\t2:05 PM\tdry\t=1+1
MW-3\t45747\t0805\t1,5\t
`;
const PLACES = `Point,Latitude,Longitude,Ground Elev (ft),Type
DP-1,43°30'56.0" N,113°04'52.8" W,102.5,DP
DP-2,43.49,-113.07,"1,024.5",mw
`;
const KML = `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document><Folder><Placemark><name>DP-1 &lt;b&gt;</name><ExtendedData><Data name="a"><value>1</value></Data></ExtendedData><Point><coordinates>-113.08,43.51,5</coordinates></Point></Placemark><Placemark><name><![CDATA[<i>Yard</i>]]></name><Polygon><outerBoundaryIs><LinearRing><coordinates>-113.1,43.5 -113.0,43.5 -113.0,43.6 -113.1,43.5</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark></Folder></Document></kml>`;
const GPX = `<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="43.51" lon="-113.08"><ele>31</ele><name>DP-1</name></wpt><trk><trkseg><trkpt lat="43.5" lon="-113.1"/><trkpt lat="43.6" lon="-113.0"/></trkseg></trk></gpx>`;
const GEOJSON = JSON.stringify({
  type: 'FeatureCollection',
  features: [
    { type: 'Feature', id: 1, properties: { name: 'DP-1', kind: 'direct push', n: null }, geometry: { type: 'Point', coordinates: [-113.08, 43.51] } }, // prettier-ignore
    { type: 'Feature', properties: { kind: 'building' }, geometry: { type: 'MultiPolygon', coordinates: [[[[-113.1, 43.5], [-113, 43.5], [-113, 43.6], [-113.1, 43.5]]]] } }, // prettier-ignore
    { type: 'Feature', properties: {}, geometry: { type: 'GeometryCollection', geometries: [] } },
  ],
});
const PNG = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52, 0, 0, 2, 0, 0, 0, 1, 0, 8, 6, 0, 0, 0]); // prettier-ignore
const JPEG = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16, ...strToU8('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0, 0xff, 0xc0, 0, 17, 8, 1, 0, 2, 0, 3, 1, 0x22, 0, 2, 0x11, 1, 3, 0x11, 1]); // prettier-ignore
const WEBP = new Uint8Array([...strToU8('RIFF'), 40, 0, 0, 0, ...strToU8('WEBPVP8X'), 10, 0, 0, 0, 0, 0, 0, 0, 255, 1, 0, 255, 0, 0, 0, 0, 0, 0]); // prettier-ignore

const demoZip = () =>
  zipSync(
    Object.fromEntries(
      ['datapackage.json', 'locations.csv', 'screens.csv', 'events.csv', 'water_levels.csv', 'measuring_points.csv', 'results.csv', 'samples.csv'].map((name) => [name, new Uint8Array(readFileSync(new URL(name, DEMO)))]), // prettier-ignore
    ),
  );

const table = (name: string, text: string): Seed => ({ name, format: 'table', bytes: strToU8(text) }); // prettier-ignore

export const seeds = (): readonly Seed[] => [
  table('gauging.txt', GAUGING),
  table('across.csv', ACROSS),
  table('samples.csv', SAMPLES),
  table('places.csv', PLACES),
  { name: 'utf16.csv', format: 'table', bytes: utf16(ACROSS) },
  { name: 'wells.csv', format: 'table', bytes: head(file('inl-southwest/raw/wells.csv'), 12) },
  { name: 'levels.csv', format: 'table', bytes: head(file('inl-southwest/raw/levels.csv'), 12) },
  { name: 'results.csv', format: 'table', bytes: head(file('inl-southwest/raw/results.csv'), 20) },
  { name: 'lab.csv', format: 'table', bytes: head(file('oracles/i_screening_lab_rows.csv'), 20) },
  { name: 'gauging.xlsx', format: 'workbook', bytes: file('files/gauging.xlsx') },
  { name: 'site.geojson', format: 'geojson', bytes: strToU8(GEOJSON) },
  { name: 'places.kml', format: 'kml', bytes: strToU8(KML) },
  { name: 'places.kmz', format: 'kmz', bytes: zipSync({ 'doc.kml': strToU8(KML) }) },
  { name: 'walk.gpx', format: 'gpx', bytes: strToU8(GPX) },
  { name: 'points.zip', format: 'shapefile', bytes: file('files/points.zip') },
  { name: 'areas.zip', format: 'shapefile', bytes: file('files/areas.zip') },
  { name: 'lines.zip', format: 'shapefile', bytes: file('files/lines.zip') },
  { name: 'quellmoor.zip', format: 'site', bytes: demoZip() },
  { name: 'plan.png', format: 'image', bytes: PNG },
  { name: 'plan.jpg', format: 'image', bytes: JPEG },
  { name: 'plan.webp', format: 'image', bytes: WEBP },
];

const pick = <T>(from: readonly T[], random: Random): T => {
  const one = from[Math.floor(random() * from.length)];
  if (one === undefined) throw new Error('nothing to pick from');
  return one;
};

const below = (n: number, random: Random) => Math.floor(random() * Math.max(1, n));

/** Texts that have broken readers before. */
const NASTY = [
  '"',
  '""',
  "'",
  ',',
  ';',
  '\t',
  '|',
  '\r',
  '\n',
  '\r\n',
  '\0',
  '\uFEFF',
  '=1+1',
  '-',
  '<',
  '>',
  '&',
  '<![CDATA[',
  ']]>',
  '<!DOCTYPE a [',
  '&#0;',
  '&a;',
  '__proto__',
  'constructor',
  '1e308',
  '-1e308',
  '1e-320',
  'NaN',
  'Infinity',
  '99999999999999999999',
  '0x10',
  '1,2,3',
  '1.2.3',
  '٣',
  '㎍',
  '𝟙',
  '\ud800',
  'ﬀ',
  '31/31/2025',
  '2025-02-30',
  '{',
  '}',
  '[',
  ']',
  '/../',
  '%00',
  'null',
  ' ',
  'MW-1',
  'DP-1',
  'ug/L',
  'A'.repeat(5000),
  ','.repeat(3000),
  '"'.repeat(2000),
  '<a>'.repeat(500),
  '[['.repeat(2000), // prettier-ignore
];

const joined = (...parts: readonly Uint8Array[]) => {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

const INTERESTING = [0, 1, 10, 13, 34, 44, 127, 128, 255];

/** One change to some bytes. */
function changed(bytes: Uint8Array, other: Uint8Array, random: Random): Uint8Array {
  const at = below(bytes.length, random);
  const length = below(Math.min(bytes.length - at, 1 + below(64, random)), random) + 1;
  const before = bytes.subarray(0, at);
  const after = bytes.subarray(at);
  switch (below(11, random)) {
    case 0: {
      const copy = bytes.slice();
      copy[at] = (copy[at] ?? 0) ^ (1 << below(8, random));
      return copy;
    }
    case 1: {
      const copy = bytes.slice();
      copy[at] = pick(INTERESTING, random);
      return copy;
    }
    case 2:
      return joined(before, bytes.subarray(at + length));
    case 3:
      return joined(before, after.subarray(0, length), after);
    case 4:
      return before.slice();
    case 5:
      return joined(before, strToU8(pick(NASTY, random)), after);
    case 6:
      return joined(before, strToU8(pick(NASTY, random)), bytes.subarray(at + length));
    case 7: {
      const from = below(other.length, random);
      return joined(before, other.subarray(from, from + 1 + below(200, random)), after);
    }
    case 8: {
      // A number of four bytes written over, as lengths and counts are.
      const copy = bytes.slice();
      const view = new DataView(copy.buffer);
      if (at + 4 <= copy.length)
        view.setInt32(at, pick([0, -1, 1, -4, 2 ** 31 - 1, -(2 ** 31), 65_536], random), random() < 0.5); // prettier-ignore
      return copy;
    }
    case 9: {
      const noise = Uint8Array.from({ length }, () => below(256, random));
      return joined(before, noise, after);
    }
    default: {
      let many: Uint8Array = bytes.subarray(at, at + length);
      for (let n = 0; n < 6; n++) many = joined(many, many);
      return joined(before, many, after);
    }
  }
}

const isZip = (bytes: Uint8Array) => bytes[0] === 0x50 && bytes[1] === 0x4b;

/** A mutated input: a few changes to a seed, in a zip mostly to a file in it. */
export function mutated(seed: Seed, all: readonly Seed[], random: Random): Uint8Array {
  const other = pick(all, random).bytes;
  let bytes: Uint8Array = seed.bytes;
  const times = 1 + below(4, random);
  if (isZip(bytes) && random() < 0.75) {
    const parts: Record<string, Uint8Array> = unzipSync(bytes);
    for (let n = 0; n < times; n++) {
      const path = pick(Object.keys(parts), random);
      parts[path] = changed(parts[path] ?? new Uint8Array(), other, random);
    }
    return zipSync(parts, { level: 1 });
  }
  for (let n = 0; n < times; n++) bytes = changed(bytes, other, random);
  return bytes;
}

const SITE: DataPackage = {
  settings: settingsIn({
    grid: { name: 'NAD83 / UTM zone 12N', code: 'EPSG:26912', projection: null, unit: 'm' },
    elevation: metres(1530),
  }),
  tables: {},
  paths: {},
  columnUnits: {},
  descriptor: {},
};

const targetOf = (site: DataPackage) => {
  const { grid, problem } = gridOf(site);
  return { package: site, site: siteOf(site, grid, problem), grid };
};

const ANSWERS = {
  'new locations': 'monitoring well',
  'is locations.kind': 'monitoring well',
  'is locations.status': 'installed',
  'is screening_levels.set': 'A',
  'is features.kind': 'building',
  changes: 'take',
  decimals: 'point',
  'day order': 'day first',
};

class Unaccounted extends Error {}

const insist = (holds: boolean, what: string) => {
  if (!holds) throw new Unaccounted(what);
};

/** A table taken into a site; every row accounted for, and what was taken is read. */
function take(source: SourceTable): void {
  const target = targetOf(SITE);
  const { mapping } = proposeMapping(source);
  const asked = preview(source, mapping, ANSWERS, target).asks;
  const made = preview(source, mapping, { ...proposedAnswers(asked), ...ANSWERS }, target);
  const { rows, taken, refused, blank, added, same, changed: cells } = made.account;
  insist(rows === source.table.size - mapping.headRows.length, `${rows} rows of ${source.table.size}`); // prettier-ignore
  insist(taken + refused + blank === rows, `${taken} + ${refused} + ${blank} of ${rows}`);
  insist(added + same + cells === taken, `${added} + ${same} + ${cells} of ${taken} taken`);
  insist(made.refused.length === refused, `${made.refused.length} reasons for ${refused}`);
  const csv = readDelimitedText('refused.csv', refusedCsv(source, made), { delimiter: ',', headerRow: 1 }); // prettier-ignore
  insist(csv.ok, 'refused rows can’t be read');
  if (csv.ok) insist(csv.value.table.size === refused + mapping.headRows.length, `${csv.value.table.size} refused rows come back, of ${refused}`); // prettier-ignore
  if (!made.edit) return;
  const after = apply(SITE, made.edit);
  if (!after.ok) throw new Unaccounted(after.problem);
  const { problems } = targetOf(after.value).site;
  insist(problems.length === 0, `taken and not read: ${JSON.stringify(problems[0])}`);
}

/** What a file became. */
export type Became = 'read' | 'refused';

/** Read a file by a format, all the way into a site. */
export async function feed(name: string, bytes: Uint8Array, format: Format): Promise<Became> {
  const tables = (sources: readonly SourceTable[]): Became => {
    sources.forEach(take);
    return 'read';
  };
  switch (format) {
    case 'table': {
      const read = readDelimitedBytes(name, bytes);
      return read.ok ? tables([read.value]) : 'refused';
    }
    case 'workbook': {
      const workbook = await openWorkbook(name, bytes);
      if (!workbook.ok) return 'refused';
      for (const sheet of workbook.value.sheets) {
        const read = await workbook.value.read(sheet);
        if (read.ok) take(read.value);
      }
      return 'read';
    }
    case 'site': {
      const files = openZip(bytes);
      const opened = files.ok ? openSite(files.value) : null;
      if (!opened?.ok) return 'refused';
      for (const account of Object.values(opened.value.site.accounts))
        insist(account.rows === account.read + account.refused + account.blank, 'a table of a site'); // prettier-ignore
      return 'read';
    }
    case 'image':
      return imageSize(name, bytes).ok ? 'read' : 'refused';
    default: {
      const opened = openDrawing(name, bytes, format);
      return opened.ok ? tables(opened.value) : 'refused';
    }
  }
}

export type Fault = {
  readonly number: number;
  readonly seed: string;
  readonly what: string;
  readonly bytes: Uint8Array;
};

export type Tally = {
  readonly inputs: number;
  readonly read: number;
  readonly refused: number;
  readonly longest: number;
  readonly longestSeed: string;
  readonly crashes: readonly Fault[];
  readonly slow: readonly Fault[];
  readonly unaccounted: readonly Fault[];
};

const LONGEST = 2000; // milliseconds

/** Feed so many mutated inputs, the formats in turn. */
export async function feedMutations(
  count: number,
  seed = 1,
  each: (done: number) => void = () => undefined,
): Promise<Tally> {
  const all = seeds();
  const random = seeded(seed);
  const crashes: Fault[] = [];
  const slow: Fault[] = [];
  const unaccounted: Fault[] = [];
  let [read, refused, longest, longestSeed] = [0, 0, 0, ''];
  for (let number = 0; number < count; number++) {
    const from = all[number % all.length];
    if (!from) throw new Error('no seeds');
    const bytes = mutated(from, all, random);
    const fault = (what: string): Fault => ({ number, seed: from.name, what, bytes });
    const started = performance.now();
    try {
      const start = bytes.subarray(0, ENOUGH);
      whatItIs(start, start.length === bytes.length, () => pathsIn(bytes));
      if ((await feed(from.name, bytes, from.format)) === 'read') read++;
      else refused++;
    } catch (error) {
      const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
      (error instanceof Unaccounted ? unaccounted : crashes).push(fault(what));
    }
    const took = performance.now() - started;
    if (took > longest) [longest, longestSeed] = [took, `${from.name}, input ${number}`];
    if (took > LONGEST) slow.push(fault(`${Math.round(took)} ms`));
    each(number + 1);
  }
  return { inputs: count, read, refused, longest, longestSeed, crashes, slow, unaccounted };
}

const isScript = process.argv[1]?.endsWith('mutate.ts') === true;

if (isScript) {
  const count = Number(process.argv[2] ?? 20_000);
  const tally = await feedMutations(count, Number(process.argv[3] ?? 1), (done) => {
    if (done % 1000 === 0) console.log(`${done} of ${count}`);
  });
  for (const kind of ['crashes', 'slow', 'unaccounted'] as const)
    for (const { number, seed, what } of tally[kind].slice(0, 10))
      console.log(`${kind}: input ${number} from ${seed}: ${what.slice(0, 600)}`);
  console.log(
    `${tally.inputs} inputs: ${tally.read} read, ${tally.refused} refused, ${tally.crashes.length} crashed, ${tally.slow.length} over ${LONGEST} ms, ${tally.unaccounted.length} with rows unaccounted for; the longest took ${Math.round(tally.longest)} ms (${tally.longestSeed}).`,
  );
  process.exitCode =
    tally.crashes.length + tally.slow.length + tally.unaccounted.length > 0 ? 1 : 0;
}
