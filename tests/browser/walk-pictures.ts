/**
 * A picture of every stop of a walk, by keyboard alone, at the sizes and in the
 * rooms it is shown in, for whoever looks at them one by one:
 *
 *     npx tsx tests/browser/walk-pictures.ts [site] [3840x2160,1920x1080] [bright,dark]
 *
 * The pictures go to tests/pictures/stop-SITE-ROOM-N-WIDTHxHEIGHT.png; a column of
 * words or a legend that would have to be scrolled is printed, and so is a complaint.
 */
import { chromium } from 'playwright-core';
import { startChromium } from './chromium';
import { openPage } from './opened-page';
import { serveBuiltApp } from './serve';

const [sites = 'osier-bend,quellmoor', sizes = '1920x1080,3840x2160', rooms = 'bright,dark'] =
  process.argv.slice(2);
const server = await startChromium();
const app = await serveBuiltApp();
try {
  const browser = await chromium.connect(server.wsEndpoint());
  for (const site of sites.split(',')) {
    for (const size of sizes.split(',')) {
      const [width = 1920, height = 1080] = size.split('x').map(Number);
      const opened = await openPage(browser, new URL(`?site=${site}`, app.address).href, {
        size: 'wide',
      });
      const { page } = opened;
      page.setDefaultTimeout(120_000); // a large picture on a busy machine
      await opened.drawn();
      await page.getByRole('button', { name: /Walk through/ }).click();
      await page.getByRole('button', { name: 'Start the walk' }).click();
      await page.getByRole('region', { name: /^Stop 1 of/ }).waitFor();
      await page.evaluate(() => document.fullscreenElement && document.exitFullscreen());
      await page.setViewportSize({ width, height });
      const count = await page.getByRole('button', { name: /^Stop \d+:/ }).count();
      for (let stop = 1; stop <= count; stop++) {
        for (const room of ['bright', 'dark']) {
          if (rooms.includes(room)) {
            await page.waitForTimeout(300); // the map says first that it is at work
            await opened.drawn();
            console.log(await opened.picture(`stop-${site}-${room}-${stop}`));
            const hidden = await page.evaluate(() =>
              [...document.querySelectorAll('section[aria-label^="Stop"], .walk .legend')]
                .filter((box) => box.scrollHeight > box.clientHeight + 1)
                .map(
                  (box) =>
                    `  ${box.ariaLabel} hides ${box.scrollHeight - box.clientHeight} of ${box.scrollHeight} px`,
                )
                .join('\n'),
            );
            if (hidden) console.log(hidden);
          }
          await page.keyboard.press('t');
        }
        await page.keyboard.press('PageDown');
      }
      for (const complaint of opened.complaints) console.log(`  ${complaint}`);
      await opened.close();
    }
  }
} finally {
  await server.close();
  await app.close();
}
