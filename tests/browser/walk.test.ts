/** The walk on the wall, by keyboard alone, as a room sees it. */
import { mkdtempSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import { browser, openApp, type OpenedPage } from './harness';
import { openPage } from './opened-page';
import { pdfMarks } from './pdf-marks';

async function began(site: string, size: 'wide' | 'laptop' | 'tablet' = 'wide') {
  const app = await openApp({ size, path: `?site=${site}` });
  await app.drawn();
  await app.page.getByRole('button', { name: /Walk through/ }).click();
  await app.page.getByRole('button', { name: 'Start the walk' }).click();
  await app.page.getByRole('region', { name: /^Stop 1 of/ }).waitFor();
  return app;
}

const title = ({ page }: OpenedPage) => page.getByRole('heading', { level: 1 }).innerText();

/** Whether the words of a stop fit without scrolling, and no two of them overlap. */
const overflow = ({ page }: OpenedPage) =>
  page.evaluate(() => {
    const words = document.querySelector('section[aria-label^="Stop"]');
    return words ? words.scrollHeight - words.clientHeight : -1;
  });

describe.each(['osier-bend', 'quellmoor'])('the walk of %s', (site) => {
  test('goes from stop to stop by the keys of a clicker, in letters that are read at four metres', async () => {
    const app = await began(site);
    const { page } = app;
    const count = await page.getByRole('button', { name: /^Stop \d+:/ }).count();
    expect(count).toBeGreaterThanOrEqual(7);
    const titles: string[] = [];
    for (let i = 0; i < count; i++) {
      await app.drawn();
      titles.push(await title(app));
      const size = await page
        .locator('section[aria-label^="Stop"] p')
        .last()
        .evaluate((p) => Number.parseFloat(getComputedStyle(p).fontSize));
      expect(size).toBeGreaterThanOrEqual(24);
      expect(await overflow(app)).toBeLessThanOrEqual(0);
      await app.picture(`walk-${site}-${i + 1}`);
      await page.keyboard.press(i % 2 ? 'PageDown' : 'ArrowRight');
    }
    expect(new Set(titles).size).toBe(count);
    await page.keyboard.press('PageUp');
    expect(await title(app)).toBe(titles.at(-2));
  }, 240_000);
});

describe('a stop', () => {
  test('opens any number and any point, and is a key away', async () => {
    const app = await began('osier-bend');
    const { page } = app;
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    await app.drawn();
    expect(await title(app)).toContain('toward the east');
    await page.getByRole('button', { name: /^106°/ }).click();
    await page.getByRole('region', { name: 'Work behind the number' }).waitFor();
    expect(await app.axe()).toEqual([]);
    await app.picture('walk-work');
    await page.getByRole('button', { name: 'Back to the stop' }).click();
    await expect
      .poll(() => page.getByRole('region', { name: 'Work behind the number' }).count())
      .toBe(0);
    await page.keyboard.press('t');
    await app.drawn();
    expect(await app.axe()).toEqual([]);
    await app.picture('walk-dark');
  });

  test('tells of another event when the slider moves, and leaves the desk as it was', async () => {
    const app = await began('osier-bend', 'laptop');
    const { page } = app;
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    await page.getByRole('slider', { name: 'Event' }).press('ArrowLeft');
    await app.drawn();
    await expect.poll(() => page.getByRole('button', { name: /^126°/ }).count()).toBe(1);
    expect(await app.axe()).toEqual([]);
    await app.picture('walk');
    await page.getByRole('button', { name: 'Leave' }).click();
    await app.drawn();
    expect(await app.axe()).toEqual([]);
    await app.picture('walk-sheet');
  });
});

describe('a figure sheet', () => {
  test('printed at 1:600, 100 ft is 2.000 inches, on one page of its own size, in words that can be selected', async () => {
    const app = await openApp({ size: 'wide', path: '?site=osier-bend' });
    await app.drawn();
    const { page } = app;
    await page.getByRole('button', { name: /Walk through/ }).click();
    await page.getByRole('button', { name: 'Make a figure sheet' }).click();
    const sheet = page.locator('svg[data-sheet]');
    await sheet.waitFor();
    await app.picture('figure');
    expect(await app.axe()).toEqual([]);
    await page.getByLabel('Scale', { exact: true }).selectOption('600');

    const marks = pdfMarks(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
    expect(marks.pages).toBe(1);
    expect(marks.page[0] / 72).toBeCloseTo(17, 1);
    expect(marks.page[1] / 72).toBeCloseTo(11, 1);
    const bars = marks.rectangles.filter(
      ([wide, high]) => Math.abs(high - (6 * 72) / 96) < 0.2 && wide > 100,
    );
    expect(bars.length).toBeGreaterThan(0);
    expect(Math.abs(Math.max(...bars.map(([wide]) => wide)) / 72 - 2)).toBeLessThan(0.01);
    expect(marks.texts).toBeGreaterThan(40);
    expect(marks.embedded).toBeGreaterThan(0);
    expect(marks.readable).toBeGreaterThanOrEqual(marks.embedded);
  });
});

describe('the walk as one file', () => {
  test('opens from disk with the network cut, tells the same, opens its numbers and asks nobody', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    const { page } = app;
    await page.getByRole('button', { name: /Walk through/ }).click();
    await page.getByRole('heading', { name: 'The walk as one file' }).click();
    await page.getByText(/^Inside: .*Events: 1 row/).waitFor();
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the walk as one file' }).click();
    const path = join(mkdtempSync(join(tmpdir(), 'walk-')), 'walk.html');
    await (await saving).saveAs(path);
    expect(statSync(path).size).toBeLessThan(3_000_000);

    const file = await openPage(await browser(), pathToFileURL(path).href, {
      size: 'wide',
      before: (opened) => opened.context().setOffline(true),
    });
    try {
      await file.drawn();
      for (let i = 0; i < 4; i++) await file.page.keyboard.press('PageDown');
      expect(await title(file)).toContain('toward the east');
      await file.picture('walk-file');
      expect(await file.axe()).toEqual([]);
      await file.page.getByRole('button', { name: /^106°/ }).click();
      await file.page.getByRole('region', { name: 'Work behind the number' }).waitFor();
      await expect
        .poll(() => file.page.getByRole('button', { name: /Keep|Leave|Undo/ }).count())
        .toBe(0);
      expect(file.complaints).toEqual([]);
      expect(file.requests.filter((one) => !/^(file|data):/.test(one))).toEqual([]);
      expect(file.requests.filter((one) => one.startsWith('file:'))).toHaveLength(1);
    } finally {
      await file.close();
    }
  });
});
