/**
 * What is shipped: the JavaScript of the first load, compressed, by chunk; and
 * each package that takes more than 20 kB of it, with the reason it is there.
 *
 *     npx tsx tests/bench/sizes.ts
 */
import { gzipSync } from 'node:zlib';
import { build, type Rollup } from 'vite';
import { ROOT } from '../browser/serve';
import { note } from './rounds';

const WORTH_A_REASON = 20; // kB compressed

/** Why a package over the limit is shipped. One that is not named here fails the run. */
const REASONS: Readonly<Record<string, string>> = {
  'maplibre-gl': 'draws the map; fixed from the start',
  proj4: 'turns coordinates of nearly two thousand grids; fixed from the start',
  svelte: 'the pages; fixed from the start',
  jspdf: 'vector PDF of a sheet, with its letters in it; loaded when a sheet is saved',
  'svg2pdf.js': 'draws a sheet’s SVG into that PDF; loaded with it',
  'read-excel-file': 'reads workbooks; loaded when one is opened',
  pmtiles: 'reads a backdrop from a file; loaded when one is opened',
  '@fontsource/source-sans-3': 'the letters of the page, and of sheets and walks taken away',
  pako: 'packs a PDF; jspdf brings it',
  '@turf/turf': 'what is only drawn, in longitude and latitude; fixed from the start',
};

const kB = (text: string) => gzipSync(text).length / 1000;

const built = await build({ root: ROOT, logLevel: 'silent', build: { write: false } });
const parts = [built].flat().flatMap((one) => ('output' in one ? one.output : []));
const chunks = new Map(
  parts.flatMap((part) => (part.type === 'chunk' ? [[part.fileName, part] as const] : [])),
);
const page = parts.find(({ fileName }) => fileName === 'index.html');
if (page?.type !== 'asset') throw new Error('The build has no first page.');
const named = String(page.source).matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.js)"/g);

const first = new Set<Rollup.OutputChunk>();
const load = (chunk: Rollup.OutputChunk | undefined): void => {
  if (!chunk || first.has(chunk)) return;
  first.add(chunk);
  for (const name of chunk.imports) load(chunks.get(name));
};
for (const [, name = ''] of named) load(chunks.get(name));
if (first.size === 0) throw new Error('The first page loads no script.');

const sized = [...chunks.values()].map((chunk) => ({ chunk, size: kB(chunk.code) }));
const total = sized
  .filter(({ chunk }) => first.has(chunk))
  .reduce((sum, { size }) => sum + size, 0);
note('First load, JavaScript compressed', `${total.toFixed(0)} kB in ${first.size} chunks`);
for (const { chunk, size } of sized.toSorted((a, b) => b.size - a.size))
  if (size >= 1)
    note(
      `  ${chunk.name}`,
      `${size.toFixed(1)} kB, ${first.has(chunk) ? 'first load' : 'when needed'}`,
    );

/** Compressed share of each package: its part of a chunk's text, at that chunk's compression. */
const packages = new Map<string, { size: number; atFirst: boolean }>();
for (const { chunk, size } of sized)
  for (const [id, { code }] of Object.entries(chunk.modules)) {
    const name = /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(id)?.[1];
    if (!name || !code) continue;
    const known = packages.get(name) ?? { size: 0, atFirst: false };
    packages.set(name, {
      size: known.size + (size * code.length) / chunk.code.length,
      atFirst: known.atFirst || first.has(chunk),
    });
  }
for (const [name, { size, atFirst }] of [...packages].toSorted((a, b) => b[1].size - a[1].size)) {
  if (size < WORTH_A_REASON) continue;
  const reason = REASONS[name];
  if (!reason) process.exitCode = 1;
  note(
    `  ${name}`,
    `about ${size.toFixed(0)} kB, ${atFirst ? 'first load' : 'when needed'}: ${reason ?? 'NO REASON GIVEN'}`,
  );
}
