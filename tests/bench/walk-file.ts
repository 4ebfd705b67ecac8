/**
 * How fast the walk as one file opens from disk with the network cut, beside the
 * app itself in the same run: `npx tsx tests/bench/walk-file.ts`. Medians of
 * five, from the address to a drawn map; the aim is under twice the app.
 */
import { mkdtempSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { startChromium } from '../browser/chromium';
import { openPage } from '../browser/opened-page';
import { serveBuiltApp } from '../browser/serve';
import { note } from './rounds';

const ROUNDS = 5;
const median = (times: number[]) => times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)];
const server = await startChromium();
const served = await serveBuiltApp();
try {
  const browser = await chromium.connect(server.wsEndpoint());
  const time = async (address: string) => {
    const times: number[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      const began = performance.now();
      const opened = await openPage(browser, address, { size: 'wide' });
      await opened.drawn();
      times.push(performance.now() - began);
      await opened.close();
    }
    return median(times) ?? NaN;
  };
  for (const site of ['osier-bend', 'quellmoor']) {
    const address = new URL(`?site=${site}`, served.address).href;
    const app = await openPage(browser, address, { size: 'wide' });
    await app.drawn();
    await app.page.getByRole('button', { name: /Walk through/ }).click();
    await app.page.getByRole('heading', { name: 'The walk as one file' }).click();
    const saving = app.page.waitForEvent('download');
    await app.page.getByRole('button', { name: 'Save the walk as one file' }).click();
    const path = join(mkdtempSync(join(tmpdir(), 'walk-')), 'walk.html');
    await (await saving).saveAs(path);
    await app.close();
    const [file, whole] = [await time(pathToFileURL(path).href), await time(address)];
    note(
      `The walk of ${site} as one file`,
      `${(statSync(path).size / 1e6).toFixed(2)} MB; file ${file.toFixed(0)} ms, app ${whole.toFixed(0)} ms, ratio ${(file / whole).toFixed(2)}`,
    );
  }
} finally {
  await server.close();
  await served.close();
}
