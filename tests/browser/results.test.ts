/** Results against levels in a real browser: counts, the table, boxes, sides, over time, levels. */
import { describe, expect, test } from 'vitest';
import { openApp, type OpenOptions } from './harness';
import { SIZES } from './opened-page';

async function openResults(options: OpenOptions = {}) {
  const app = await openApp({ path: '?site=osier-bend', ...options });
  await app.drawn();
  await app.page.getByLabel('Event').selectOption('2025-09');
  await app.page.getByRole('button', { name: 'Results', exact: true }).click();
  return app;
}

describe.each(['laptop', 'tablet'] as const)('at the size of a %s screen', (size) => {
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
    if (size === 'tablet') return;
    // A meeting's screen.
    await page.setViewportSize(SIZES.wide);
    await app.drawn();
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
    await expect
      .poll(async () => Math.round((await box.boundingBox())?.x ?? 0))
      .toBe(Math.round(after?.x ?? 0));
    // Two presses are one edit, kept with the site.
    const undo = page.getByRole('button', { name: 'Undo' });
    await expect.poll(() => undo.getAttribute('title')).toMatch(/^Undo: Move the box of/);
    await undo.click();
    await expect
      .poll(async () => Math.round((await box.boundingBox())?.x ?? 0))
      .toBe(Math.round(before?.x ?? 0));
  });

  test('the extent of one analyte in one zone is outlined, with what it rests on', async () => {
    const { page, axe, drawn, picture } = await openResults();
    await page.getByRole('heading', { name: 'Extent' }).click();
    await page.getByText('Choose one analyte: each has its own extent.').waitFor();
    await page.getByRole('combobox', { name: /^Analyte$/ }).selectOption('Benzene');
    await page.getByText('Choose one zone').waitFor();
    await page.getByLabel('Zone sampled').selectOption('shallow');
    await page.getByText(/the others tell \d+ of \d+ rightly/).waitFor();
    await page.getByText('Not comparable: DP-09.').waitFor();
    await page.getByText('Legend', { exact: true }).click();
    // Beside the words of the extent, and in the legend.
    await expect.poll(() => page.getByText('Chance over 90 %').count()).toBe(2);
    await drawn();
    await picture('results-extent');
    expect(await axe()).toEqual([]);
  });

  test('letters, rules of a set, sums and limits are changed on the screen, and undone', async () => {
    const { page, axe } = await openResults();
    const undo = page.getByRole('button', { name: 'Undo' });
    const undoes = (what: string) =>
      expect.poll(() => undo.getAttribute('title')).toBe(`Undo: ${what}`);
    const estimated = page.locator('.head').nth(1).locator('> span:last-child');
    const before = Number(await estimated.innerText());
    await page.getByRole('heading', { name: 'Letters beside results' }).click();
    await page.getByLabel('Meaning of J', { exact: true }).selectOption('none');
    await expect.poll(async () => Number(await estimated.innerText())).toBeLessThan(before);
    await undo.click();
    await expect.poll(async () => Number(await estimated.innerText())).toBe(before);

    const rules = page.getByRole('group', { name: /^Rules of Federal drinking water/ });
    await rules.getByLabel('Equal to the level exceeds').check();
    await undoes('Equal to the level: Federal drinking water (40 CFR 141.61(a))');
    await page.getByRole('heading', { name: 'Sums' }).click();
    await page
      .getByRole('combobox', { name: /non-detect in a sum/ })
      .selectOption({ label: 'half its limit' });
    await undoes('Non-detects in sums: half its limit');
    await page.getByRole('heading', { name: 'Limits of quality' }).click();
    await page.getByLabel('Largest RPD, %').fill('10');
    await page.getByLabel('Largest RPD, %').press('Enter');
    await undoes('Limits of duplicates');
    await page.getByRole('button', { name: 'Type a level' }).click();
    const form = page.locator('form').filter({ hasText: 'Add this level' });
    await form.getByLabel('Analyte of the level').fill('Benzene');
    await form.getByLabel('Value', { exact: true }).fill('2');
    await form.getByLabel('Set', { exact: true }).fill('Own levels');
    await page.getByRole('button', { name: 'Add this level' }).click();
    await page.getByText('A level needs its source.').waitFor();
    await form.getByLabel('Source', { exact: true }).fill('Work plan, table 4');
    await page.getByRole('button', { name: 'Add this level' }).click();
    await undoes('Add a level: Benzene, 2 µg/L');
    expect(await axe()).toEqual([]);
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
