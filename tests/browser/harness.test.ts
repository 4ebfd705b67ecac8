import { existsSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openApp } from './harness';

/** A small page of the test's own, so that the tools are checked apart from the app. */
const PAGE = `<!doctype html>
<html lang="en" data-drawn="no">
  <head><title>Gauging round</title><link rel="icon" href="data:," /></head>
  <body>
    <main>
      <h1>Gauging round</h1>
      <label>Depth to water <input id="depth" /></label>
      <canvas id="map" width="40" height="40"></canvas>
    </main>
    <script src="page.js"></script>
  </body>
</html>`;

const SCRIPT = `
  const asked = new URLSearchParams(location.search);
  const sayDrawn = () => { document.documentElement.dataset.drawn = 'yes'; };
  addEventListener(asked.has('late') ? 'click' : 'load', sayDrawn);
  if (asked.has('complain')) console.error('a screen below its own bottom');
  if (asked.has('throw')) throw new Error('no such well');
  if (asked.has('fetch')) fetch('https://example.org/levels').catch(() => {});
  if (asked.has('unnamed')) document.querySelector('main').append(document.createElement('button'));
`;

let server: Server;
let address: string;

beforeAll(async () => {
  server = createServer((request, response) => {
    const isScript = request.url?.startsWith('/page.js');
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
    response.end(isScript ? SCRIPT : PAGE);
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
});

afterAll(() => server.close());

test('a quiet page opens at the size asked for, and its requests are its own files', async () => {
  const { page, requests, complaints, foreignRequests } = await openApp({ address, size: 'wide' });
  expect(await page.evaluate('[innerWidth, innerHeight]')).toEqual([1920, 1080]);
  expect(requests.filter((each) => !each.startsWith('data:'))).toEqual([
    address,
    `${address}page.js`,
  ]);
  expect(foreignRequests()).toEqual([]);
  expect(complaints).toEqual([]);
});

test('waiting for the map waits until the page says it is drawn', async () => {
  const app = await openApp({ address, path: '?late' });
  let isOver = false;
  const waiting = app.drawn().then(() => (isOver = true));
  await app.page.waitForTimeout(300);
  expect(isOver).toBe(false);
  await app.page.getByRole('heading').click();
  await waiting;
});

test.each([
  ['complain', /console error: a screen below its own bottom/],
  ['throw', /uncaught: no such well/],
])('a page that would %s is heard', async (query, heard) => {
  const app = await openApp({ address, path: `?${query}`, mayComplain: true });
  await app.drawn();
  expect(app.complaints.join('\n')).toMatch(heard);
});

test('a request to another address is recorded, and gets nowhere', async () => {
  const app = await openApp({ address, path: '?fetch', mayComplain: true });
  await app.drawn();
  expect(app.foreignRequests()).toEqual(['https://example.org/levels']);
  expect(app.complaints.join('\n')).toMatch(/levels failed: net::ERR_NAME_NOT_RESOLVED/);
});

test('axe passes the plain page and names a button that has no name', async () => {
  const plain = await openApp({ address });
  expect(await plain.axe()).toEqual([]);
  const unnamed = await openApp({ address, path: '?unnamed' });
  expect((await unnamed.axe()).map(({ rule }) => rule)).toEqual(['button-name']);
});

test('a picture is saved under its name and size', async () => {
  const app = await openApp({ address, size: 'tablet' });
  const path = await app.picture('harness-check');
  expect(path).toMatch(/harness-check-820x1180\.png$/);
  expect(existsSync(path)).toBe(true);
  rmSync(path);
});

test('letters are drawn: a wider word takes more room', async () => {
  const { page } = await openApp({ address });
  const width = (word: string) =>
    page.evaluate((text) => {
      const context = document.createElement('canvas').getContext('2d');
      if (!context) return 0;
      context.font = '40px sans-serif';
      return context.measureText(text).width;
    }, word);
  expect(await width('MMMM')).toBeGreaterThan((await width('iiii')) * 2);
});

test('WebGL 2 draws: a cleared pixel comes back in the colour it was given', async () => {
  const { page } = await openApp({ address });
  const pixel = await page.evaluate(() => {
    const gl = document.querySelector('canvas')?.getContext('webgl2');
    if (!gl) return null;
    gl.clearColor(0, 0.4, 0.8, 1);
    gl.clear(gl.COLOR_BUFFER_BIT);
    const read = new Uint8Array(4);
    gl.readPixels(20, 20, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, read);
    return [...read];
  });
  expect(pixel).toEqual([0, 102, 204, 255]);
});

test('the built page allows its own files and nothing else', async () => {
  const app = await openApp({ mayComplain: true });
  const policy = await app.page
    .locator('head > :first-child[http-equiv="Content-Security-Policy"]')
    .getAttribute('content');
  expect(policy).toMatch(/^default-src 'none'; script-src 'self'; style-src 'self';/);
  expect(policy).not.toMatch(/unsafe|\*|https?:/);

  await app.page.evaluate(() => {
    const inline = document.createElement('script');
    inline.textContent = "document.title = 'an inline script ran'";
    document.body.append(inline);
  });
  expect(await app.page.title()).not.toBe('an inline script ran');
  expect(app.complaints.join('\n')).toMatch(/inline script violates .* Security Policy/);
});
