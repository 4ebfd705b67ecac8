/**
 * Pictures of the built app at the three sizes, for whoever works on its look:
 *
 *     npx tsx tests/browser/look.ts '?site=…#…' [name]
 *
 * The pictures go to tests/pictures/; complaints of the page are printed.
 */
import { chromium } from 'playwright-core';
import { startChromium } from './chromium';
import { openPage, SIZES, type Size } from './opened-page';
import { serveBuiltApp } from './serve';

const [path = '', name = 'look'] = process.argv.slice(2);
const server = await startChromium();
const app = await serveBuiltApp();
try {
  const browser = await chromium.connect(server.wsEndpoint());
  for (const size of Object.keys(SIZES) as Size[]) {
    const opened = await openPage(browser, new URL(path, app.address).href, { size });
    const drawn = await opened.drawn().then(
      () => '',
      () => ' (never said it was drawn)',
    );
    console.log((await opened.picture(name)) + drawn);
    for (const complaint of opened.complaints) console.log(`  ${complaint}`);
    await opened.close();
  }
} finally {
  await server.close();
  await app.close();
}
