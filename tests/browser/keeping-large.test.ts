import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openApp } from './harness';
import { servePage, type ServedPage } from './pages/serve-page';
import type {} from './pages/keeping/main';

let served: ServedPage;
beforeAll(async () => {
  served = await servePage('keeping');
});
afterAll(() => served?.close());

/**
 * The longest the page could not answer a click, of the time a thing took: a
 * site read or written in one piece would hold the page for nearly all of it.
 */
const LARGEST_SHARE = 1 / 3;

const watch = (page: Page) =>
  page.evaluate(() => {
    const longest = { wait: 0, since: performance.now() };
    Object.assign(window, { longest });
    let last = longest.since;
    setInterval(() => {
      const now = performance.now();
      longest.wait = Math.max(longest.wait, now - last);
      last = now;
    }, 4);
  });

/** That share since the last look. */
const shareWaited = (page: Page) =>
  page.evaluate(() => {
    const { longest } = window as unknown as { longest: { wait: number; since: number } };
    const share = longest.wait / (performance.now() - longest.since);
    Object.assign(longest, { wait: 0, since: performance.now() });
    return share;
  });

test('5,000 locations, 50,000 water levels, 1,000,000 results: the page answers while they are written, edited, imported and opened', async () => {
  const { page } = await openApp({ address: served.address });
  await page.waitForFunction(() => 'keepingPage' in window);
  await page.evaluate(() => {
    Object.assign(window, { large: window.keepingPage.largeSite(1_000_000) });
  });
  await watch(page);
  await shareWaited(page);

  const id = await page.evaluate(() => {
    const { large } = window as unknown as {
      large: Parameters<typeof window.keepingPage.begin>[0];
    };
    return window.keepingPage.begin(large);
  });
  await page.waitForSelector('#state[data-state="saved"]');
  expect(await shareWaited(page), 'writing it').toBeLessThan(LARGEST_SHARE);

  // Every block is touched, and a snapshot of them all is written meanwhile.
  await page.evaluate(async () => {
    for (let i = 0; i < 80; i++) {
      await window.keepingPage.edit('Write', {
        kind: 'write-cells',
        table: 'results',
        cells: [{ row: (i * 16_651) % 1_000_000, column: 'value', text: `${i}.25` }],
      });
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
  });
  expect(await shareWaited(page), 'editing it').toBeLessThan(LARGEST_SHARE);

  const isKept = await page.evaluate(() => {
    const { keepingPage } = window;
    return keepingPage.edit('Import', keepingPage.resultRows(20_000, 3));
  });
  expect(isKept).toBe(true);
  const digest = await page.evaluate(() => {
    const { keeper, digestOf } = window.keepingPage;
    return keeper && digestOf(keeper.site);
  });

  await page.reload();
  await page.waitForFunction(() => 'keepingPage' in window);
  await watch(page);
  await shareWaited(page);
  expect(await page.evaluate((site) => window.keepingPage.open(site), id)).toBeNull();
  expect(await shareWaited(page), 'opening it').toBeLessThan(LARGEST_SHARE);
  const again = await page.evaluate(() => {
    const { keeper, digestOf } = window.keepingPage;
    return keeper && [keeper.site.tables.results?.size, digestOf(keeper.site)];
  });
  expect(again).toEqual([1_020_000, digest]);
}, 120_000);
