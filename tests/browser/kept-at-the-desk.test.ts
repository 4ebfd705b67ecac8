/** What a person does in the app is still there when they come back. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright-core';
import { openApp } from './harness';

describe('a decision made in the app', () => {
  test('is saved, counts, and is still there after the page is opened again', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    const { page } = app;
    await page.getByRole('status').getByText('Not yet edited', { exact: true }).waitFor();

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
    await page.getByText('Open, save', { exact: true }).click();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save this site as a zip' }).click();
    const saved = join(mkdtempSync(join(tmpdir(), 'downgradient-')), 'site.zip');
    await (await download).saveAs(saved);
    await page.getByText('Open, save', { exact: true }).click();
    await page.getByLabel('Open a zip of a site').setInputFiles(saved);
    await app.drawn();
    await page.getByRole('status').getByText('Saved').waitFor();
    await expect
      .poll(() => page.getByRole('heading', { level: 1 }).innerText())
      .toContain('Quellmoor');
  });
});

describe('a folder of this device', () => {
  /** The picker’s answer: a folder of the browser’s own, with the handles a real one has (OPFS). */
  const withFolder = async (page: Page) => {
    await page.addInitScript(() => {
      const pick = async () =>
        (await navigator.storage.getDirectory()).getDirectoryHandle('Yard', { create: true });
      Object.assign(window, { showDirectoryPicker: pick });
    });
  };

  const inFolder = (page: Page, name: string) =>
    page.evaluate(async (file) => {
      const root = await navigator.storage.getDirectory();
      const folder = await root.getDirectoryHandle('Yard');
      return (await (await folder.getFileHandle(file)).getFile()).text();
    }, name);

  const writeInFolder = (page: Page, name: string, text: string) =>
    page.evaluate(
      async ([file, words]) => {
        const root = await navigator.storage.getDirectory();
        const folder = await root.getDirectoryHandle('Yard');
        const writing = await (await folder.getFileHandle(file)).createWritable();
        await writing.write(words);
        await writing.close();
      },
      [name, text] as const,
    );

  const menu = (page: Page) => page.locator('summary', { hasText: /^Open, save$/ });

  const leaveOut = async (page: Page, well: string, why: string) => {
    await page.getByRole('button', { name: well, exact: true }).first().click();
    await page.getByRole('button', { name: `Leave out ${well} @ 2026-09` }).click();
    await page.getByLabel(/Why\?/).fill(why);
    await page.getByRole('button', { name: 'Leave it out of the plane' }).click();
    await page.getByRole('status').getByText('Saved', { exact: true }).waitFor();
  };

  test('is opened, edited and saved in place; what somebody else changed there is not written over unasked', async () => {
    const app = await openApp({ path: '?site=osier-bend', before: withFolder });
    await app.drawn();
    const { page } = app;
    await menu(page).click();
    await page.getByRole('button', { name: 'Its settings and grid…' }).click();
    await page.getByLabel(/^Your initials/).fill('QX');
    await page.keyboard.press('Escape');
    await page.getByLabel(/^Your initials/).waitFor({ state: 'detached' });
    await leaveOut(page, 'MW-4', 'Lock forced');
    await menu(page).click();
    await page.getByRole('button', { name: 'Save it in a folder…' }).click();
    await page.getByText('Saved in the folder Yard.').waitFor();
    expect(await inFolder(page, 'decisions.csv')).toContain('Lock forced');
    const [line = ''] = (await inFolder(page, 'journal.jsonl')).trim().split('\n').slice(-1);
    expect(JSON.parse(line)).toMatchObject({
      when: expect.stringMatching(/^20\d\d-.*Z$/) as unknown,
      who: 'QX',
      label: expect.stringContaining('MW-4') as unknown,
    });
    const before = await inFolder(page, 'water_levels.csv');

    // The next day: opened from the folder, edited, saved.
    await page.goto(new URL('?site=quellmoor', page.url()).href);
    await app.drawn();
    await menu(page).click();
    await page.getByRole('button', { name: 'Open a folder, to be saved in place' }).click();
    await page.getByRole('heading', { level: 1, name: /Osier Bend/ }).waitFor();
    await page.getByText('7 heads in the plane').waitFor();
    await leaveOut(page, 'MW-2', 'Cap left off');
    await menu(page).click();
    await page.getByText('1 edit since it was saved there').waitFor();
    await page.getByRole('button', { name: 'Save it in the folder Yard' }).click();
    await page.getByText('Saved in the folder Yard.').waitFor();
    expect(await inFolder(page, 'decisions.csv')).toContain('Cap left off');
    expect(await inFolder(page, 'water_levels.csv')).toBe(before);
    await menu(page).click();

    // Somebody else writes into it meanwhile.
    const theirs = `${await inFolder(page, 'decisions.csv')}comment,MW-1,Theirs,,\n`;
    await writeInFolder(page, 'decisions.csv', theirs);
    await leaveOut(page, 'MW-3', 'Read twice');
    await menu(page).click();
    await page.getByRole('button', { name: 'Save it in the folder Yard' }).click();
    await page.getByText(/^Nothing was written: decisions\.csv changed in the folder/).waitFor();
    expect(await inFolder(page, 'decisions.csv')).toBe(theirs);
    expect(await app.axe()).toEqual([]);
    await page.getByRole('button', { name: 'Write over what was changed there' }).click();
    await page.getByText('Saved in the folder Yard.').waitFor();
    expect(await inFolder(page, 'decisions.csv')).toContain('Read twice');
    expect(await inFolder(page, 'decisions.csv')).not.toContain('Theirs');
  });
});
