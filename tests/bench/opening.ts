/**
 * Opening the app on its demo site against a bare page of the same map library,
 * each in a browser with nothing kept, until its map has drawn.
 *
 *     npx tsx tests/bench/opening.ts
 */
import { chromium } from 'playwright-core';
import { startChromium } from '../browser/chromium';
import { servePage } from '../browser/pages/serve-page';
import { serveBuiltApp } from '../browser/serve';
import { inRounds } from './rounds';

const server = await startChromium();
const [bare, app] = await Promise.all([servePage('bare'), serveBuiltApp()]);
const browser = await chromium.connect(server.wsEndpoint());

const open = (address: string) => async () => {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(address);
  await page.waitForSelector('html[data-drawn="yes"]', { state: 'attached' });
  await context.close();
};

try {
  await inRounds(
    'Opening, until the map has drawn',
    [
      { name: 'a bare page of the map library', run: open(bare.address) },
      { name: 'the app on Osier Bend', run: open(`${app.address}?site=osier-bend`) },
      { name: 'the app on Quellmoor', run: open(`${app.address}?site=quellmoor`) },
    ],
    5,
  );
} finally {
  await server.close();
  await Promise.all([bare.close(), app.close()]);
}
process.exit();
