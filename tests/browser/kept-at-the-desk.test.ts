/** What a person does in the app is still there when they come back. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openApp } from './harness';

describe('a decision made in the app', () => {
  test('is saved, counts, and is still there after the page is opened again', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    const { page } = app;
    await expect.poll(() => page.getByRole('status').innerText()).toBe('Not yet edited');

    await page.getByRole('button', { name: 'MW-4', exact: true }).first().click();
    await page.getByRole('button', { name: 'Leave out MW-4 @ 2026-09' }).click();
    await page.getByLabel(/Why\?/).fill('Lock forced, mark disturbed');
    await page.getByRole('button', { name: 'Leave it out of the plane' }).click();
    await page.getByText('7 heads in the plane').waitFor();
    await page.getByRole('status').getByText('Saved').waitFor();

    await page.goto(new URL('.', page.url()).href);
    await app.drawn();
    await page.getByText('7 heads in the plane').waitFor();
    await page
      .getByText(/Lock forced, mark disturbed/)
      .first()
      .waitFor();
    expect(await app.axe()).toEqual([]);
  });

  test('undoes with one key press', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    const { page } = app;
    await page.getByRole('button', { name: 'MW-4', exact: true }).first().click();
    await page.getByRole('button', { name: 'Leave out MW-4 @ 2026-09' }).click();
    await page.getByLabel(/Why\?/).fill('Lock forced, mark disturbed');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.getByText('7 heads in the plane').waitFor();
    await page.locator('body').press('Control+z');
    await page.getByText('8 heads in the plane').waitFor();
  });

  test('goes out with the site as a zip, and comes back from it', async () => {
    const app = await openApp({ path: '?site=quellmoor' });
    await app.drawn();
    const { page } = app;
    await page.getByText('Open', { exact: true }).click();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save this site as a zip' }).click();
    const saved = join(mkdtempSync(join(tmpdir(), 'downgradient-')), 'site.zip');
    await (await download).saveAs(saved);
    await page.getByText('Open', { exact: true }).click();
    await page.getByLabel('A zip of one').setInputFiles(saved);
    await app.drawn();
    await page.getByRole('status').getByText('Saved').waitFor();
    await expect
      .poll(() => page.getByRole('heading', { level: 1 }).innerText())
      .toContain('Quellmoor');
  });
});
