/** Before fieldwork, as a person does it: draw, lay, shift, set screens, print, and undo it all. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { openApp, type OpenOptions } from './harness';

async function openLayOut(options: OpenOptions = {}) {
  const app = await openApp({ path: '?site=osier-bend', ...options });
  await app.drawn();
  await app.page.getByRole('button', { name: /^Lay out/ }).click();
  return app;
}

const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: typeof name === 'string' });

async function drawByKeys(page: Page, kind: string, name: string, corners: string) {
  await button(page, kind).click();
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel(/^Coordinates, one corner a line/).fill(corners);
  await button(page, 'Add these corners').click();
}

/** Half a square of 400 by 300 ft, and a gas line across it. */
const BOUNDARY = '488500, 1822000\n488900, 1822000\n488900, 1822300\n488500, 1822300';
const GAS = '488500 1822152\n488900 1822152';

describe('drawing and laying', () => {
  test('a boundary and a gas line are drawn, a grid is laid clear of it, a node shifted, all undone', async () => {
    const app = await openLayOut();
    const { page } = app;
    await button(page, 'Erase Property line').click();
    await drawByKeys(page, 'boundary', 'Trial ground', BOUNDARY);
    await expect.poll(() => page.getByText('120000 ftUS² (2.75 acres)').count()).toBe(1);
    await button(page, 'Add the boundary').click();
    await drawByKeys(page, 'utility', 'Trial gas', GAS);
    await page.getByLabel(/^Keep off/).fill('12');
    await button(page, 'Add the utility').click();
    await page.getByText('400.0 ftUS long').waitFor();

    await button(page, 'Grid').click();
    await app.drawn();
    await app.picture('lay-out-grid');
    const blocked = page.getByRole('list', { name: 'Blocked nodes' }).getByRole('listitem');
    const byGas = blocked.filter({ hasText: /(in|from) utility Trial gas/ });
    await expect.poll(() => byGas.count()).toBeGreaterThanOrEqual(2);
    await byGas
      .first()
      .getByRole('button', { name: /^Shift/ })
      .click();
    await page
      .getByText(/Shifted \d+\.\d ftUS toward \d{3}° from E/)
      .first()
      .waitFor();
    expect(await app.axe()).toEqual([]);

    const lay = page.getByRole('button', { name: /^Lay these \d+ points/ });
    const count = Number(/\d+/.exec((await lay.textContent()) ?? '')?.[0]);
    const planned = page.getByText(/\d+\s+points?\s+planned/);
    const had = Number(/\d+/.exec((await planned.textContent()) ?? '')?.[0]);
    await lay.click();
    await page.getByText(`${had + count} points planned`).waitFor();
    await app.drawn();
    await app.picture('lay-out-laid');

    const set = page.getByRole('button', { name: /^Set screens at \d+ points/ });
    expect(Number(/\d+/.exec((await set.textContent()) ?? '')?.[0])).toBeGreaterThan(3);
    await expect
      .poll(() => page.getByRole('cell', { name: 'straddling' }).count())
      .toBeGreaterThan(3);
    await set.click();
    await set.scrollIntoViewIfNeeded();
    await app.drawn();
    await app.picture('lay-out-screens');
    expect(await app.axe()).toEqual([]);

    await page.getByText('Clearance', { exact: true }).click();
    await button(page, 'Record clearance of DP-31').click();
    await page.getByLabel('One-call ticket').fill('T-4471');
    await page.getByLabel('Ticket expires').fill('2020-01-31');
    await page.getByLabel('Cleared by').fill('RK');
    await button(page, 'Record it as cleared').click();
    await page.getByText('NOT CLEARED: ticket expired 2020-01-31').first().waitFor();

    await button(page, 'Push sheet').click();
    const sheet = page.getByRole('dialog', { name: 'Push sheet' });
    await sheet.getByText('NOT CLEARED').first().waitFor();
    for (const unit of ['ft below ground', 'gal'])
      expect(
        await sheet.getByRole('columnheader').filter({ hasText: unit }).count(),
      ).toBeGreaterThan(1);
    await app.picture('push-sheet');
    expect(await app.axe()).toEqual([]);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 960, height: 700 });
    const cut = await sheet.evaluate(
      (whole) =>
        [...whole.querySelectorAll('th, td')].filter(
          (cell) =>
            cell.scrollWidth > cell.clientWidth + 1 || cell.getBoundingClientRect().right > 961,
        ).length,
    );
    expect(cut, 'cells cut off').toBe(0);
    const paper = await page.pdf({
      path: 'tests/pictures/push-sheet.pdf',
      preferCSSPageSize: true,
    });
    expect(paper.toString('latin1')).toMatch(/MediaBox ?\[ ?0 0 792 612/);
    await page.emulateMedia({ media: 'screen' });
    await page.setViewportSize({ width: 1280, height: 800 });
    await page.keyboard.press('Escape');

    const undo = page.getByRole('button', { name: 'Undo', exact: true });
    while (await undo.isEnabled()) await undo.click();
    await page.getByText(new RegExp(`^\\s*${had}\\s+points?\\s+planned`)).waitFor();
    await expect.poll(() => page.getByText('Trial gas').count()).toBe(0);
  });

  test('a building is drawn by pressing the map, and its corner dragged', async () => {
    const app = await openLayOut();
    const { page } = app;
    await button(page, 'building').click();
    const map = page.locator('[data-window]');
    const box = await map.boundingBox();
    if (!box) throw new Error('no map');
    const at = (x: number, y: number) => ({ x: box.x + box.width * x, y: box.y + box.height * y });
    for (const [x, y] of [
      [0.2, 0.7],
      [0.3, 0.7],
      [0.3, 0.8],
    ] as const)
      await page.mouse.click(at(x, y).x, at(x, y).y);
    const words = page.getByText(/ftUS² .*ftUS around|ftUS².*around/);
    await words.waitFor();
    const small = await words.textContent();
    await page.mouse.move(at(0.3, 0.8).x, at(0.3, 0.8).y);
    await page.mouse.down();
    await page.mouse.move(at(0.34, 0.86).x, at(0.34, 0.86).y, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => words.textContent()).not.toBe(small);
    await app.picture('lay-out-drawing');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
  });
});
