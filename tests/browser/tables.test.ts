/** The tables of a site edited as a person with a spreadsheet would, in a real browser. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { openApp } from './harness';

async function opened(size: 'wide' | 'laptop' | 'tablet' = 'laptop') {
  const app = await openApp({ size, path: '?site=osier-bend' });
  await app.drawn();
  await app.page.getByRole('button', { name: 'Tables', exact: true }).click();
  return app;
}

/** The text of a cell, by its row as a spreadsheet counts and its place from the left. */
const textOf = (page: Page, row: number, column: number) =>
  page.locator(`#cell-${row - 2}-${column}`).innerText();

/** Put a block on the clipboard's way, as a spreadsheet would. */
const paste = (page: Page, text: string) =>
  page.getByRole('grid').evaluate((grid, block) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', block);
    grid.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true }));
  }, text);

test('a cell is typed over, a block pasted, filled down, undone; what is wrong is marked and said', async () => {
  const app = await opened();
  const { page } = app;
  const grid = page.getByRole('grid', { name: 'Locations' });
  await grid.waitFor();
  expect(await app.axe()).toEqual([]);
  await app.picture('tables-locations');

  const before = await textOf(page, 2, 1);
  await page.locator('#cell-0-1').click();
  await page.keyboard.type('abc');
  await page.keyboard.press('Enter');
  expect(await textOf(page, 2, 1)).toBe('abc');
  await page.keyboard.press('ArrowUp');
  await page
    .getByRole('status')
    .getByText(/locations\.csv, row 2, easting: expected a number in .*found “abc”/)
    .waitFor();
  await expect.poll(() => page.locator('#cell-0-1').getAttribute('aria-invalid')).toBe('true');
  await app.picture('tables-problem');
  await page.keyboard.press('Control+z');
  expect(await textOf(page, 2, 1)).toBe(before);

  const rows = Number(await grid.getAttribute('aria-rowcount')) - 2;
  await page.getByRole('button', { name: 'New row' }).click();
  await paste(page, 'T-1\t100\t200\nT-2\t110\t210\r\n');
  await expect.poll(() => grid.getAttribute('aria-rowcount')).toBe(String(rows + 4));
  expect(await textOf(page, rows + 3, 0)).toBe('T-2');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => grid.getAttribute('aria-rowcount')).toBe(String(rows + 2));

  await grid.focus();
  await page.keyboard.press('Control+Home');
  await page.locator('#cell-1-1').click();
  await page.keyboard.press('Shift+ArrowDown');
  await page.keyboard.press('Control+d');
  expect(await textOf(page, 4, 1)).toBe(await textOf(page, 3, 1));
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByRole('button', { name: 'Remove 2 rows' }).click();
  await expect.poll(() => grid.getAttribute('aria-rowcount')).toBe(String(rows));
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => page.locator('body').innerText()).not.toContain('NaN');
});

test('by keyboard alone: opened, written in, filled down, undone, left, and back where one came from', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  await app.drawn();
  const { page } = app;
  const { keyboard } = page;
  const held = () => page.evaluate(() => document.activeElement?.getAttribute('role') ?? '');
  await page.getByRole('button', { name: 'Tables', exact: true }).focus();
  await keyboard.press('Enter');
  await expect.poll(held).toBe('grid');
  await keyboard.press('ArrowRight');
  await keyboard.type('489031.5');
  await keyboard.press('Enter');
  await keyboard.press('ArrowUp');
  await keyboard.press('Shift+ArrowDown');
  await keyboard.press('Shift+ArrowDown');
  await keyboard.press('Control+d');
  await expect.poll(() => textOf(page, 4, 1)).toBe('489031.5');
  await keyboard.press('Control+z');
  await expect.poll(() => textOf(page, 4, 1)).not.toBe('489031.5');
  expect(await textOf(page, 2, 1)).toBe('489031.5');
  await keyboard.press('Tab');
  await expect.poll(held).not.toBe('grid');
  await keyboard.press('Shift+Tab');
  await expect.poll(held).toBe('grid');
  await keyboard.press('Escape');
  await page.getByRole('grid').waitFor({ state: 'detached' });
  const name = () => page.evaluate(() => document.activeElement?.textContent);
  await expect.poll(name).toBe('Tables');
});

test('a number’s work opens the cell it came from', async () => {
  const app = await opened('wide');
  const { page } = app;
  await page.getByRole('button', { name: 'Back to the map' }).click();
  await page
    .getByRole('row', { name: /^MW-1 / })
    .getByRole('button', { name: /show the work/ })
    .first()
    .click();
  const source = page.getByRole('button', { name: /\.csv, row \d+, / }).first();
  const name = (await source.innerText()).split(', ');
  await source.click();
  const row = Number(name[1]?.replace('row ', ''));
  await page.getByRole('grid').waitFor();
  await page.getByRole('status').getByText(`${name[2]}, row ${row}.`).waitFor();
  await app.picture('tables-from-work');
});

test('fifty thousand rows scroll and are found in', async () => {
  const app = await opened('tablet');
  const { page } = app;
  // By touch alone: a cell changed, a block marked and filled down, undone.
  const button = (name: string) => page.getByRole('button', { name, exact: true });
  await page.locator('#cell-1-1').tap();
  await button('Change cell').tap();
  await page.getByLabel('easting, row 3').fill('489031.5');
  await button('Mark up to…').tap();
  await page.locator('#cell-4-1').tap();
  await button('Fill down').tap();
  await expect.poll(() => textOf(page, 6, 1)).toBe('489031.5');
  await button('Undo').tap();
  await expect.poll(() => textOf(page, 6, 1)).not.toBe('489031.5');
  await app.picture('tables-touch');

  await page.getByLabel('Table', { exact: true }).selectOption('purge_readings');
  const grid = page.getByRole('grid', { name: 'Purge readings' });
  await grid.click({ position: { x: 120, y: 45 } });
  await page.getByRole('button', { name: 'New row' }).click();
  const lines = Array.from({ length: 50_000 }, (_, i) => `row-${i}`).join('\n');
  await paste(page, lines);
  expect(Number(await grid.getAttribute('aria-rowcount'))).toBeGreaterThan(50_000);
  await expect.poll(() => page.getByRole('row').count()).toBeLessThan(100);
  await page.getByLabel(/Text to find/).fill('row-31415');
  await page.getByRole('button', { name: 'Find next' }).click();
  await page.getByRole('gridcell', { name: 'row-31415', exact: true }).waitFor();
  await app.picture('tables-many');
  expect(await app.axe()).toEqual([]);
});
