/**
 * Script time of a frame in a real Chromium: of moving water with 5,000 marks over
 * the map, and of going from stop to stop of a walk and from event to event. The
 * aim is under 4 ms a frame for the marks. The canvas is drawn by another thread
 * and is not in it.
 *
 *     npx tsx tests/bench/frames-in-browser.ts
 */
import { chromium } from 'playwright-core';
import { startChromium } from '../browser/chromium';
import { openPage } from '../browser/opened-page';
import { servePage } from '../browser/pages/serve-page';
import { serveBuiltApp } from '../browser/serve';
import { saidOf, scriptByFrame } from './frames';
import { note } from './rounds';

const MARKS = 5000;
const SECONDS = 4;
/** From stop to stop takes 0.9 s; all of it and a little more. */
const GLIDE = 1300;

const server = await startChromium();
const [alone, app] = [await servePage('map'), await serveBuiltApp()];
try {
  const browser = await chromium.connect(server.wsEndpoint());
  for (const marks of [0, MARKS]) {
    const opened = await openPage(browser, `${alone.address}?water=${marks}`, { size: 'wide' });
    const { page } = opened;
    await opened.drawn();
    if (marks > 0) await page.locator(`canvas[data-moving-water="${marks}"]`).waitFor();
    await page.waitForTimeout(1000);
    const frames = await scriptByFrame(browser, page, () => page.waitForTimeout(SECONDS * 1000));
    note(`Script of a frame with ${marks} marks of moving water`, saidOf(frames));
    await opened.close();
  }

  for (const site of ['osier-bend', 'quellmoor']) {
    const opened = await openPage(browser, `${app.address}?site=${site}`, { size: 'wide' });
    const { page } = opened;
    await opened.drawn();
    await page.getByRole('button', { name: /Walk through/ }).click();
    await page.getByRole('button', { name: 'Start the walk' }).click();
    await page.getByRole('region', { name: /^Stop 1 of/ }).waitFor();
    await opened.drawn();
    await page.emulateMedia({ reducedMotion: 'no-preference' });
    const count = await page.getByRole('button', { name: /^Stop \d+:/ }).count();
    for (const round of ['first', 'second']) {
      const glides: number[] = [];
      for (let stop = 2; stop <= count; stop++) {
        const frames = await scriptByFrame(browser, page, async () => {
          await page.keyboard.press('PageDown');
          await page.waitForTimeout(GLIDE);
        });
        glides.push(...frames);
      }
      note(`${site}: script of a frame from stop to stop, ${round} time through`, saidOf(glides));
      await page.keyboard.press('Home');
      await page.waitForTimeout(GLIDE);
    }
    for (let i = 1; i < 4; i++) await page.keyboard.press('PageDown');
    await page.waitForTimeout(GLIDE);
    const frames = await scriptByFrame(browser, page, async () => {
      await page.getByRole('slider', { name: 'Event' }).press('ArrowLeft');
      await page.waitForTimeout(GLIDE);
    });
    note(`${site}: script of a frame while heads roll to another event`, saidOf(frames));
    await opened.close();
  }
} finally {
  await server.close();
  await alone.close();
  await app.close();
}
