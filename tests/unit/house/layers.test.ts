import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { breaches } from './layers';

const SRC = fileURLToPath(new URL('../../../src/', import.meta.url));

const sources = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => /\.(ts|svelte)$/.test(path))
  .map((path) => ({ path, text: readFileSync(SRC + path, 'utf8') }));

test('every file of src keeps the house’s rules', () => {
  expect(sources.length).toBeGreaterThan(10);
  expect(sources.flatMap(breaches)).toEqual([]);
});

const inFile = (path: string, text: string) => breaches({ path, text });

test.each([
  ['domain/water/head.ts', "import { metres } from '../units';"],
  ['domain/water/triangles.ts', "import Delaunator from 'delaunator';"],
  ['io/read.ts', "import proj4 from 'proj4'; import { ok } from '../domain/result';"],
  ['app/open-site.svelte.ts', "import { read } from '../io/read'; import { tick } from 'svelte';"],
  ['app/engine.ts', "new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });"],
  ['map/Map.svelte', "<script>import url from 'maplibre-gl/dist/worker.mjs?worker&url';</script>"],
  ['ui/main.ts', "import Map from '../map/Map.svelte'; import './sheet.css';"],
  ['cli/main.ts', "import { parseArgs } from 'node:util'; import { read } from '../io/read';"],
])('%s may say: %s', (path, text) => {
  expect(inFile(path, text)).toEqual([]);
});

test.each([
  ['domain/a.ts', "import { read } from '../io/read';", 'domain may not import io'],
  ['domain/a.ts', "import type { Layer } from '../map/layer';", 'domain may not import map'],
  ['domain/a.ts', "type A = import('../app/open').Open;", 'domain may not import app'],
  ['domain/a.ts', "export * from '../ui/words';", 'domain may not import ui'],
  ['domain/a.ts', "import proj4 from 'proj4';", 'not among the packages of domain'],
  ['domain/a.ts', "import d from 'delaunator-next';", 'not among the packages of domain'],
  ['io/a.ts', "const open = () => import('../app/open');", 'io may not import app'],
  ['io/a.ts', "import { readFileSync } from 'node:fs';", 'not among the packages of io'],
  ['app/a.ts', "import { fly } from '../map/fly';", 'app may not import map'],
  ['app/a.ts', "import example from '../../tests/example';", 'in no room of src'],
  ['app/a.ts', "new URL('../map/worker.ts', import.meta.url);", 'app may not import map'],
  ['map/Map.svelte', '<script>\nimport { a } from "../io/a";\n</script>', 'map may not import io'],
  ['ui/A.svelte', '<script lang="ts">import type { A } from "../io/a";</script>', 'import io'],
  ['ui/A.svelte', '<script module>import "../cli/main";</script>', 'ui may not import cli'],
  ['cli/a.ts', "import { site } from '../app/site';", 'cli may not import app'],
  ['shared/a.ts', '', 'stands in no room'],
  ['main.ts', '', 'stands in no room'],
])('%s may not say: %s', (path, text, problem) => {
  expect(inFile(path, text).join()).toContain(problem);
});

test.each([
  ['const width = window.innerWidth;', 'touches window'],
  ['export const page = () => document.title;', 'touches document'],
  ['const at = Date.now();', 'touches Date.now'],
  ['const at = new Date();', 'touches the present date'],
  ['const at = new Date;', 'touches the present date'],
  ['const at = Date();', 'touches the present date'],
  ['const at = Math\n  .random();', 'touches Math.random'],
  ['const read = () => fetch("levels.csv");', 'touches fetch'],
  ['setTimeout(() => 1, 5);', 'touches setTimeout'],
  ['const later = { fetch };', 'touches fetch'],
  ['const here = import.meta.url;', 'touches import.meta'],
])('the domain may not say: %s', (text, problem) => {
  expect(inFile('domain/a.ts', text)).toEqual([`domain/a.ts line 1 ${problem}`]);
});

test.each([
  ['// a window of the document: Date.now()', 'a comment'],
  ["const why = 'fetch (water)';", 'a text'],
  ["const day = new Date('2024-06-03');", 'a date that was written down'],
  ['const a = { window: 3 }; a.window;', 'a name of its own'],
])('the domain may say: %s (%s)', (text) => {
  expect(inFile('domain/a.ts', text)).toEqual([]);
});

test('a component of 200 lines is accepted, of 201 too long; a domain file of 300 and 301', () => {
  const lines = (count: number) => '\n'.repeat(count - 1) + '//\n';
  expect(inFile('ui/A.svelte', lines(200))).toEqual([]);
  expect(inFile('ui/A.svelte', lines(201)).join()).toContain('has 201 lines');
  expect(inFile('domain/a.ts', lines(300))).toEqual([]);
  expect(inFile('domain/a.ts', lines(301)).join()).toContain('has 301 lines');
});
