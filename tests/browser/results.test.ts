/** Results against levels in a real browser: counts, the table, boxes, sides, over time, levels. */
import { describe, expect, test } from 'vitest';
import { openApp, type OpenOptions } from './harness';

async function openResults(options: OpenOptions = {}) {
  const app = await openApp({ path: '?site=osier-bend', ...options });
  await app.drawn();
  await app.page.getByLabel('Event').selectOption('2025-09');
  await app.page.getByRole('button', { name: 'Results', exact: true }).click();
  return app;
}

describe.each(['wide', 'laptop', 'tablet'] as const)('at the size of a %s screen', (size) => {
  test('results, their table, boxes and sides are shown, and axe finds nothing', async () => {
    const app = await openResults({ size });
    const { page } = app;
    await page.getByRole('button', { name: 'Table of samples by analytes' }).click();
    await page.getByRole('region', { name: 'Table of samples by analytes' }).waitFor();
    await app.picture('results-table');
    expect(await app.axe()).toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByLabel('Boxes of results beside the points').check();
    await app.drawn();
    await app.picture('results-boxes');
    await page.getByRole('heading', { name: 'Is it delineated?' }).click();
    await page.getByRole('heading', { name: 'Over time' }).click();
    await page.getByLabel('Open sides on the map').check();
    await page.getByLabel('Boxes of results beside the points').uncheck();
    await app.drawn();
    await page.getByText('Is it delineated?').scrollIntoViewIfNeeded();
    await app.picture('results-sides');
    await page.getByLabel('Analyte over time').scrollIntoViewIfNeeded();
    await app.picture('results-over-time');
    expect(await app.axe()).toEqual([]);
  });
});

describe('on a laptop', () => {
  test('the nine counts add up to all, whatever is asked for', async () => {
    const { page } = await openResults();
    const counts = async () => {
      const heads = await page.locator('.head > span:last-child').allInnerTexts();
      const all = await page.locator('.total > span:last-child').innerText();
      return { sum: heads.reduce((sum, text) => sum + Number(text), 0), all: Number(all), heads };
    };
    const first = await counts();
    expect(first.heads).toHaveLength(9);
    expect(first.sum).toBe(first.all);
    await page.getByLabel('Samples').selectOption('all samples');
    const everything = await counts();
    expect(everything.all).toBeGreaterThan(first.all);
    expect(everything.sum).toBe(everything.all);
    await page.getByRole('combobox', { name: /^Analyte$/ }).selectOption('group:BTEX');
    const group = await counts();
    expect(group.all).toBeLessThan(everything.all);
    expect(group.sum).toBe(group.all);
  });

  test('a value in the table opens its work, with the table still there', async () => {
    const { page } = await openResults();
    await page.getByRole('button', { name: 'Table of samples by analytes' }).click();
    const table = page.getByRole('region', { name: 'Table of samples by analytes' });
    await table.getByRole('button', { name: /^1300 µg\/L, Benzene/ }).click();
    await page.getByRole('region', { name: 'Work behind the number' }).waitFor();
    await expect.poll(() => table.count()).toBe(1);
  });

  test('a box is moved by the arrow keys and stays where it was put', async () => {
    const { page, drawn } = await openResults();
    await page.getByLabel('Boxes of results beside the points').check();
    await drawn();
    const box = page.locator('button.box').first();
    const before = await box.boundingBox();
    await box.press('ArrowRight');
    await box.press('ArrowRight');
    const after = await box.boundingBox();
    expect((after?.x ?? 0) - (before?.x ?? 0)).toBeCloseTo(16, 0);
    await page.getByLabel('Boxes of results beside the points').uncheck();
    await page.getByLabel('Boxes of results beside the points').check();
    expect((await box.boundingBox())?.x).toBeCloseTo(after?.x ?? 0, 0);
  });

  test('a set of levels is added as an edit, with its cautions, and can be undone', async () => {
    const { page } = await openResults();
    await page.getByRole('button', { name: 'Add this set to the site' }).click();
    await expect.poll(() => page.getByLabel('Compared with').inputValue()).toContain('2024');
    await page.getByText('Federal drinking water 2024 (40 CFR 141) 80 levels').click();
    await expect.poll(() => page.getByText(/from memory/).count()).toBeGreaterThanOrEqual(4);
    await expect.poll(() => page.getByText(/proposed/i).count()).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: 'Add this set to the site' }).waitFor();
  });

  test('a push that would close an open side is added to the layout as planned', async () => {
    const { page } = await openResults();
    await page.getByRole('heading', { name: 'Is it delineated?' }).click();
    await page.getByRole('button', { name: 'Add it to the layout as planned' }).first().click();
    await expect
      .poll(() => page.getByRole('button', { name: 'Undo' }).getAttribute('title'))
      .toBe('Undo: Plan NP-1');
  });
});
