import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { delimiter, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { build, type Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/** What the built page may load: its own files and nothing else. */
const SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "worker-src 'self'",
  "connect-src 'self'",
  "font-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/**
 * The same page once more, gone to knowingly, from which a person may ask a
 * server of their choice for map tiles.
 */
const ASKING_PAGE = 'with-address.html';
const ASKING_POLICY = SECURITY_POLICY.replace(
  "connect-src 'self'",
  "connect-src 'self' https: http://localhost:* http://127.0.0.1:*",
);

/** Built pages only: the development server needs inline styles and a web socket. */
const securityPolicy: Plugin = {
  name: 'security-policy',
  apply: 'build',
  transformIndexHtml: (_html, { filename }) => [
    {
      tag: 'meta',
      attrs: {
        'http-equiv': 'Content-Security-Policy',
        content: filename.endsWith(ASKING_PAGE) ? ASKING_POLICY : SECURITY_POLICY,
      },
      injectTo: 'head-prepend',
    },
  ],
};

const TOP = fileURLToPath(new URL('.', import.meta.url)).replace(/[\\/]$/, '');
const PUBLIC = fileURLToPath(new URL('./public/', import.meta.url));
const SERVICE_WORKER = 'service-worker.js';

/** Builds the service worker and tells it the app's files and their version. */
const serviceWorker: Plugin = {
  name: 'service-worker',
  apply: 'build',
  buildStart() {
    const id = fileURLToPath(new URL('./src/app/keeping/service-worker.ts', import.meta.url));
    this.emitFile({ type: 'chunk', id, fileName: SERVICE_WORKER });
  },
  generateBundle: {
    order: 'post',
    handler(_, bundle) {
      const files = new Map<string, string | Uint8Array>();
      for (const entry of readdirSync(PUBLIC, { recursive: true, withFileTypes: true })) {
        const path = join(entry.parentPath, entry.name);
        if (entry.isFile())
          files.set(relative(PUBLIC, path).replaceAll('\\', '/'), readFileSync(path));
      }
      for (const [file, part] of Object.entries(bundle))
        files.set(file, part.type === 'chunk' ? part.code : part.source);
      files.delete(SERVICE_WORKER);
      // A browser that has service workers reads woff2.
      const names = [...files.keys()].filter((name) => !/\.(map|woff)$/.test(name)).sort();
      const hash = createHash('sha256');
      for (const name of names) hash.update(name).update(files.get(name) ?? '');
      const version = hash.digest('hex').slice(0, 16);
      const worker = bundle[SERVICE_WORKER];
      if (worker?.type !== 'chunk') throw new Error('The service worker was not built.');
      worker.code = `const FILES=${JSON.stringify(names)},VERSION='${version}';${worker.code}`;
    },
  },
};

const WALK_VIEWER = 'walk-viewer.html';
const inlineHash = (text: string) =>
  `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/**
 * Builds the page that shows a walk taken away: one file, styles, letters and
 * code in it, that asks nobody for anything. The app puts the data in.
 */
const walkViewer: Plugin = {
  name: 'walk-viewer',
  apply: 'build',
  async generateBundle() {
    const built = await build({
      configFile: false,
      logLevel: 'warn',
      publicDir: false,
      plugins: [svelte({ configFile: false })],
      resolve: {
        // Fewer letters, and only in the newest format.
        alias: [
          {
            find: /^\.\/fonts\.css$/,
            replacement: fileURLToPath(new URL('./src/ui/walk/file/fonts.css', import.meta.url)),
          },
        ],
      },
      build: {
        write: false,
        target: 'es2022',
        assetsInlineLimit: () => true,
        cssCodeSplit: false,
        chunkSizeWarningLimit: 2000, // kB
        rolldownOptions: {
          input: fileURLToPath(new URL('./src/ui/walk/file/main.ts', import.meta.url)),
          output: { format: 'iife', codeSplitting: false },
        },
      },
    });
    const output = [built].flat().flatMap((one) => ('output' in one ? one.output : []));
    const code = output.flatMap((part) => (part.type === 'chunk' ? part.code : [])).join('\n');
    const style = output
      .flatMap((part) =>
        part.type === 'asset' && part.fileName.endsWith('.css') ? String(part.source) : [],
      )
      .join('\n');
    // Nothing in the code may end its element.
    const script = code.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--');
    const policy = `default-src 'none'; script-src ${inlineHash(script)}; style-src ${inlineHash(style)}; img-src data:; font-src data:; base-uri 'none'; form-action 'none'`;
    this.emitFile({
      type: 'asset',
      fileName: WALK_VIEWER,
      source: `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>A walk through</title>
<link rel="icon" href="data:,">
<style>${style}</style>
</head>
<body>
<div id="app"></div>
<script type="application/json" id="walk">"the walk goes here"</script>
<script>${script}</script>
</body>
</html>
`,
    });
  },
};

/** The app's own pages; a page of the tests is built with this configuration and has its own. */
const ownPages: Plugin = {
  name: 'own-pages',
  apply: 'build',
  config: ({ root }) =>
    root !== undefined && resolve(root) !== TOP
      ? {}
      : {
          build: {
            rolldownOptions: {
              input: ['index.html', ASKING_PAGE].map((page) => join(TOP, page)),
              // The map library changes seldom: a chunk of its own stays in a browser's cache.
              output: { codeSplitting: { groups: [{ name: 'map-library', test: /maplibre-gl/ }] } },
            },
          },
        },
};

/** A machine without a display, or without a way to open a page, only gets the address. */
const canOpenPage = (): boolean => {
  if (process.env.CI || process.env.SSH_CONNECTION) return false;
  if (process.platform !== 'linux') return true;
  if (!process.env.DISPLAY && !process.env.WAYLAND_DISPLAY) return false;
  const folders = (process.env.PATH ?? '').split(delimiter);
  return folders.some((folder) => existsSync(join(folder, 'xdg-open')));
};

const browserTestTime = 120_000; // a software-drawn map on two busy cores
const slowMachineTime = 30_000; // a test that hangs, told from one on a busy machine

export default defineConfig({
  plugins: [svelte({ configFile: false }), ownPages, securityPolicy, walkViewer, serviceWorker],
  base: './',
  resolve: {
    alias: [
      {
        // What the PDF writer loads for web pages and pixels is never asked for.
        find: /^(html2canvas|dompurify|canvg)$/,
        replacement: fileURLToPath(new URL('./src/ui/figures/absent.ts', import.meta.url)),
      },
    ],
  },
  // A port of our own: the browser keeps a site's records under the address it was opened at,
  // and the usual port would share them with whatever else is tried on this machine.
  preview: { host: 'localhost', port: 7461, open: canOpenPage() },
  server: { host: 'localhost', port: 7460 },
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    // The security policy lets fonts come from files, not from data: addresses.
    assetsInlineLimit: (file) => (/\.(woff2?|ttf|otf)$/.test(file) ? false : undefined),
    chunkSizeWarningLimit: 1200, // kB; the map library is one chunk
  },
  test: {
    reporters: ['default', './tests/reporter.ts'],
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/{unit,property}/**/*.test.ts'],
          exclude: ['**/*.svelte.test.ts'],
          environment: 'node',
          testTimeout: slowMachineTime,
          benchmark: { include: ['tests/bench/**/*.bench.ts'] },
        },
      },
      {
        extends: true,
        // Runes run as in a browser: effects fire, state is reactive.
        resolve: { conditions: ['browser'] },
        test: {
          name: 'component',
          include: ['tests/{unit,property}/**/*.svelte.test.ts'],
          environment: 'happy-dom',
          benchmark: { include: [] },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          environment: 'node',
          globalSetup: ['tests/browser/setup.ts'],
          testTimeout: browserTestTime,
          // Another try tells a busy machine from a fault: a fault fails again.
          retry: 2,
          // What is looked for may come a moment later than the click that asked for it.
          expect: { poll: { timeout: 15_000 } },
          hookTimeout: browserTestTime,
          // Two workers, each with one browser for all its files.
          maxWorkers: 2,
          isolate: false,
          sequence: { groupOrder: 1 },
          benchmark: { include: [] },
        },
      },
    ],
  },
});
