/** Files taken into a new site and out of it by a person with a mouse, in a real browser. */
import { mkdtempSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Download, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { TABLE_NAMES, TABLES, type TableName } from '../../src/domain/site/schema';
import { labFile } from '../bench/lab-file';
import { openApp } from './harness';

// The four raw files of the U.S. Geological Survey (CC0; see raw/README.md), and the
// site made of them by another road (make.ts there).
const FIXTURE = new URL('../fixtures/inl-southwest/', import.meta.url);
const raw = (name: string) => fileURLToPath(new URL(`raw/${name}`, FIXTURE));

const menu = async (page: Page, item: string | RegExp) => {
  await page.locator('summary', { hasText: /^Open, save$/ }).click();
  await page.getByRole('banner').getByRole('button', { name: item }).click();
};

/** A new site in NAD83 / UTM zone 12N, by the grid chooser. */
async function newSite(size: 'wide' | 'laptop' = 'laptop') {
  const app = await openApp({ size, path: '?site=osier-bend' });
  const { page } = app;
  await menu(page, 'A new, empty site');
  await page.getByLabel('Title', { exact: true }).fill('South-west wells');
  await page.getByRole('button', { name: 'Choose another grid' }).click();
  await page.getByLabel('Grid by name, number or region').fill('NAD83 UTM 12N');
  await page
    .getByRole('button', { name: /^NAD83 \/ UTM zone 12N/ })
    .first()
    .waitFor();
  // By key alone, and the form around the field stays open.
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  expect(await app.axe()).toEqual([]);
  await app.picture('settings');
  await page.getByRole('button', { name: 'Keep these settings' }).click();
  return app;
}

async function textOf(download: Download): Promise<string> {
  const path = join(mkdtempSync(join(tmpdir(), 'saved-')), 'file');
  await download.saveAs(path);
  return readFileSync(path, 'utf8');
}

/** Rows of a table of the site, as its choice in the tables says. */
async function rowsOf(page: Page, table: TableName): Promise<number> {
  const title = TABLES[table].title;
  const text = await page.locator(`option[value="${table}"]`).first().innerText();
  return Number(new RegExp(`^${title} \\((\\d+)\\)$`).exec(text)?.[1] ?? -1);
}

const linesOf = (table: TableName) => {
  const text = readFileSync(new URL(`site/${table}.csv`, FIXTURE), 'utf8');
  return text.trimEnd().split('\n').length - 1;
};

test('the four raw files come in by the mouse alone, and the tables are those of the fixture', async () => {
  const app = await newSite();
  const { page } = app;
  await menu(page, /Take files into its tables/);
  expect(await app.axe()).toEqual([]);
  await page
    .getByLabel('Files', { exact: true })
    .setInputFiles(['wells.csv', 'levels.csv', 'results.csv', 'mcl.csv'].map(raw));

  /** Agree with what a file speaks for, answer what it does not, look at the account, take it in. */
  const take = async (name: string, rows: number, answers: readonly [RegExp, string][]) => {
    await page.getByRole('heading', { name: `Take in ${name}` }).waitFor();
    const all = page.getByRole('button', { name: /^(?:Agree with|Give the)/ });
    await page.getByRole('row', { name: new RegExp(`^Rows ${rows} `) }).waitFor();
    for (const [question, answer] of answers) {
      const field = page.getByLabel(question);
      await field.waitFor();
      if ((await field.evaluate((each) => each.tagName)) === 'SELECT')
        await field.selectOption(answer);
      else {
        await field.fill(answer);
        await field.press('Enter');
      }
    }
    for (let round = 0; round < 4; round++)
      if ((await all.count()) > 0) {
        await all.first().click();
        await page.waitForTimeout(300);
      }
    await page.getByRole('row', { name: `Rows ${rows} ${rows} ${rows} 0 0 0 0` }).waitFor();
    if (name === 'results.csv') await app.picture('import');
    if (name === 'wells.csv') expect(await app.axe()).toEqual([]);
    await page.getByRole('button', { name: 'Take it in' }).click();
    await page.getByText(new RegExp(`^${name}: Added `)).waitFor();
  };
  await take('wells.csv', 95, [[/How is the ground elevation known/, 'surveyed']]);
  await take('levels.csv', 124, [[/Which event do/, 'year']]);
  // Levels of screening come before the results that are compared with them.
  await take('mcl.csv', 44, [[/What is this set of levels called/, 'Federal levels of the data set']]); // prettier-ignore
  await page.getByRole('heading', { name: 'Take in results.csv' }).waitFor();
  await page.getByLabel(/the same in every row/).selectOption('samples.matrix');
  await page.getByLabel('Its value', { exact: true }).fill('groundwater');
  await page.getByLabel('Its value', { exact: true }).press('Enter');
  await take('results.csv', 3573, [[/Which event do/, 'year']]);

  await page.getByRole('button', { name: 'Back to the map' }).click();
  await page.getByRole('button', { name: 'Tables', exact: true }).click();
  for (const table of [
    'locations',
    'screens',
    'water_levels',
    'samples',
    'results',
    'screening_levels',
  ] as const)
    // prettier-ignore
    expect(await rowsOf(page, table), table).toBe(linesOf(table));
  for (const table of TABLE_NAMES)
    await expect
      .poll(() => page.locator(`option[value="${table}"]`).first().innerText())
      .not.toMatch(/problem/);
  await app.drawn();
  await expect.poll(() => page.locator('body').innerText()).not.toContain('NaN');
});

test('a pasted block with a day that could be a month is asked about once; its refused rows are saved and come in mended', async () => {
  const app = await newSite('wide');
  const { page } = app;
  const block = async (text: string) => {
    await page.getByLabel(/A block from a spreadsheet/).fill(text);
    await page.getByRole('button', { name: 'Look at the block' }).click();
  };
  await menu(page, /Take files into its tables/);
  await block(
    'id\teasting\tnorthing\tkind\tstatus\tinstalled\nMW-1\t100\t200\tmonitoring well\tinstalled\t\nMW-2\t15O\t240\tmonitoring well\tinstalled\t\n\t\t\t\t\t',
  );
  await page.getByRole('row', { name: /^Rows 3 1 1 0 0 0 1 1/ }).waitFor();
  await page.getByText(/expected a number.*found “15O”/).waitFor();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /Save the refused rows/ }).click(),
  ]);
  const refused = await textOf(download);
  expect(refused.split('\n')[1]).toMatch(/^MW-2,15O,.*Row 3: /);
  await app.picture('import-refused');
  await page.getByRole('button', { name: 'Take it in' }).click();
  await block(refused.replace('15O', '150'));
  await page.getByRole('row', { name: /^Rows 1 1 1 0 0 0 0/ }).waitFor();
  await page.getByRole('button', { name: 'Take it in' }).click();

  await block('well\tdate\tdepth to water ft\nMW-1\t03/04/2025\t12.50\nMW-2\t03/04/2025\t13.10');
  await page.getByLabel(/day.*month|month.*day/i).waitFor();
  await page.getByRole('row', { name: /^Rows 2 0 0 0 0 2 0/ }).waitFor();
});

test('a site goes out as GeoJSON, work tables and CSV, and its GeoJSON comes in again', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  const { page } = app;
  await app.drawn();
  await menu(page, /Save its tables and drawings/);
  expect(await app.axe()).toEqual([]);
  await app.picture('files-out');
  const saved = async (name: string | RegExp) => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name }).click(),
    ]);
    return { name: download.suggestedFilename(), text: await textOf(download) };
  };
  const drawing = await saved('Save as GeoJSON');
  const { features } = JSON.parse(drawing.text) as { features: { geometry: unknown }[] };
  expect(features.length).toBeGreaterThan(40);
  expect((await saved('Save the work tables')).name).toMatch(/-work\.zip$/);
  const locations = await saved(/^Locations/);
  expect(locations.text.split('\n')[0]).toMatch(/^id,easting,northing/);
  expect((await saved('Save as KML')).text).toMatch(/^<\?xml.*\n<kml /);
  expect((await saved('Save as GPX')).text).toMatch(/^<\?xml.*\n<gpx /);

  await page.getByRole('button', { name: 'Back to the map' }).click();
  await menu(page, /Take files into its tables/);
  await page.getByLabel('Files', { exact: true }).setInputFiles({
    name: drawing.name,
    mimeType: 'application/geo+json',
    buffer: Buffer.from(drawing.text),
  });
  await page.getByRole('heading', { name: /^Take in .*geojson/ }).waitFor();
  await page.getByLabel('Its coordinates are in').waitFor();
});

test('a laboratory file of 50,000 rows is read away from the page: Stop ends it, the page answers, every row is accounted for', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  const { page } = app;
  const lab = (rows: number) => ({
    name: `lab-${rows}.csv`,
    mimeType: 'text/csv',
    buffer: Buffer.from(labFile(rows)),
  });
  await menu(page, /Take files into its tables/);
  const files = page.getByLabel('Files', { exact: true });
  await files.setInputFiles(lab(250_000));
  await page.getByRole('progressbar', { name: 'How far the file is read' }).waitFor();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await page.getByText('Stopped. Nothing was taken in.').waitFor();
  await page.getByRole('heading', { name: 'Take files into the tables' }).waitFor();
  expect(await page.getByRole('progressbar').count()).toBe(0);

  // A page that read the file itself could not answer for most of the time it takes.
  await page.evaluate(() => {
    const gaps = { longest: 0, since: performance.now() };
    Object.assign(window, { gaps });
    let last = performance.now();
    setInterval(() => {
      const now = performance.now();
      gaps.longest = Math.max(gaps.longest, now - last);
      last = now;
    }, 4);
  });
  await files.setInputFiles(lab(50_000));
  await page.getByRole('row', { name: /^Rows 50000 0 0 0 0 50000 0/ }).waitFor();
  await page.getByLabel(/Which event do/).selectOption('year');
  await page.getByLabel(/What are these samples for/).selectOption('field sample');
  await page.getByLabel(/What are the locations the site/).selectOption('monitoring well');
  await page.getByRole('row', { name: /^Rows 50000 50000 50000 0 0 0 0/ }).waitFor();
  await page
    .getByText(/^Of the 50000 results it adds, against/)
    .first()
    .waitFor();
  const share = await page.evaluate(() => {
    const { gaps } = window as unknown as { gaps: { longest: number; since: number } };
    return gaps.longest / (performance.now() - gaps.since);
  });
  expect(share, 'longest the page could not answer, of all the time').toBeLessThan(1 / 3);
  await app.picture('import-verdicts');
  await page.getByRole('button', { name: 'Take it in' }).click();
  await page.getByText(/^lab-50000.csv: Added .*50000 in results/).waitFor();

  // The same again adds nothing and says so, and is matched as before.
  await files.setInputFiles(lab(50_000));
  await page.getByText('as for the last file with these headings').first().waitFor();
  await page.getByLabel(/Which event do/).selectOption('year');
  await page.getByLabel(/What are these samples for/).selectOption('field sample');
  await page.getByRole('row', { name: /^Rows 50000 50000 0 0 50000 0 0/ }).waitFor();
  await page.getByText('The file adds nothing and changes nothing.').first().waitFor();
});

test('a value that differs is shown old and new, and stays as it was till somebody agrees', async () => {
  const app = await openApp({ size: 'tablet', path: '?site=osier-bend' });
  const { page } = app;
  await menu(page, /Take files into its tables/);
  await page
    .getByLabel(/A block from a spreadsheet/)
    .fill(
      'id\tkind\tstatus\nMW-1\tmonitoring well\tdecommissioned\nMW-2\tmonitoring well\tdecommissioned',
    );
  await page.getByRole('button', { name: 'Look at the block' }).click();
  const take = page.getByLabel(/Take the values of the file where they differ/);
  await take.waitFor();
  await page.getByRole('row', { name: /^Rows 2 0 0 0 0 2 0/ }).waitFor();
  await take.selectOption('take');
  await page
    .getByText(/row \d+, status: .*→ decommissioned$/)
    .first()
    .waitFor();
  await page.getByRole('row', { name: /^Rows 2 2 0 2 0 0 0/ }).waitFor();
  await app.picture('import-changed');
  expect(await app.axe()).toEqual([]);
  await page.getByRole('button', { name: 'Take it in' }).click();
  await page
    .getByText(/2 changed/)
    .first()
    .waitFor();
});
