/** A day in the field on a tablet: points recorded one at a time, and all of it kept. */
import { strToU8, zipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { openApp } from './harness';

const NAMES = Array.from({ length: 10 }, (_, i) => `P-${String(i + 1).padStart(2, '0')}`);

/** An invented site of ten planned points, in feet, as a zip of its folder. */
const planned = () => {
  const resource = (name: string) => ({ name, path: `${name}.csv` });
  const descriptor = {
    name: 'ten-points',
    title: 'Ten points (invented)',
    profile: 'data-package',
    resources: ['locations', 'screens', 'strata'].map(resource),
    downgradient: {
      format: 1,
      grid: { name: 'Local grid', code: null, projection: null, unit: 'ft' },
      verticalUnit: 'ft',
      verticalDatum: 'NAVD 88',
      volumeUnit: 'gal',
    },
  };
  const locations = NAMES.map(
    (id, i) =>
      `${id},${100.5 + (i % 2) * 0.2},surveyed,direct push,planned,${1000 + 40 * i},${500 + 25 * (i % 3)}`,
  );
  const screens = NAMES.map((id) => `${id}-S1,${id},14.00,4.00`);
  return Buffer.from(
    zipSync({
      'datapackage.json': strToU8(JSON.stringify(descriptor)),
      'locations.csv': strToU8(
        [
          'id,ground_elevation,ground_how,kind,status,planned_easting,planned_northing',
          ...locations,
        ].join('\n'),
      ),
      'screens.csv': strToU8(
        ['id,location,planned_tip_depth,planned_exposed_length', ...screens].join('\n'),
      ),
      'strata.csv': strToU8(
        'location,top,bottom,description,class\nP-01,0,11,Sand,sand\nP-01,11,20,Clay,clay',
      ),
    }),
  );
};

const openPlanned = async () => {
  const app = await openApp({ size: 'tablet', path: '?site=osier-bend' });
  await app.drawn();
  await app.page.getByText('Open', { exact: true }).click();
  await app.page.getByLabel('A zip of one').setInputFiles({
    name: 'ten-points.zip',
    mimeType: 'application/zip',
    buffer: planned(),
  });
  await app.page.getByRole('heading', { level: 1, name: /Ten points/ }).waitFor();
  await app.page.getByRole('button', { name: /^Record/ }).click();
  return app;
};

const confirmed = (page: Page, words: RegExp) =>
  page.locator('.confirmed', { hasText: words }).waitFor();

/** Hole, interval and one level of a point, as a crew would type them. */
async function recordPoint(page: Page, name: string) {
  await page.getByRole('button', { name: `Open ${name}` }).click();
  await page.getByText('Reached', { exact: true }).click();
  await page.getByLabel('Depth reached').fill('14.05');
  await page.getByRole('button', { name: 'Confirm the hole' }).click();
  await confirmed(page, /reached at 14\.05 ft/);
  await page.getByLabel('Tip depth').fill('14.05');
  await page.getByLabel('Tool offset').fill('0.15');
  await page.getByLabel('Retraction').fill('4');
  await page.getByLabel('Exposed length').fill('4');
  await page.getByLabel('Screen length').fill('4');
  await page.getByLabel('Sounded depth').fill('13.88');
  await page.getByLabel('Stick-up').fill('1.42');
  await page.getByRole('button', { name: 'Confirm the interval' }).click();
  await confirmed(page, /tip at 14\.05 ft/);
  await page.getByLabel('Depth to water').fill('9,87'); // a keypad's comma
  await page.getByRole('button', { name: 'Confirm the reading' }).click();
  await confirmed(page, /water 9[.,]87 ft/);
  await page.getByRole('button', { name: 'All points' }).click();
}

describe('ten points recorded on a tablet', () => {
  test('are all there after the page goes away in the middle', { timeout: 240_000 }, async () => {
    const app = await openPlanned();
    const { page } = app;
    await app.context.setOffline(true);
    const tally = (step: string) => page.locator(`dt:text-is("${step}") + dd`).innerText();
    for (const name of NAMES.slice(0, 5)) await recordPoint(page, name);
    await expect.poll(() => tally('Water')).toBe('5 / 10');
    await page.getByRole('status').getByText('Saved').waitFor();

    await app.context.setOffline(false);
    await page.goto(new URL('.', page.url()).href);
    await app.drawn();
    await page.getByRole('button', { name: /^Record/ }).click();
    await expect.poll(() => tally('Hole')).toBe('5 / 10');
    await expect.poll(() => tally('Interval')).toBe('5 / 10');
    await expect.poll(() => tally('Water')).toBe('5 / 10');
    await app.context.setOffline(true);
    for (const name of NAMES.slice(5)) await recordPoint(page, name);
    await expect.poll(() => tally('Water')).toBe('10 / 10');
    expect(await app.axe()).toEqual([]);
    await app.picture('record-list');
  });
});

describe('one point through all of its steps', () => {
  test('is purged, sampled, closed and undone', { timeout: 240_000 }, async () => {
    const app = await openPlanned();
    const { page } = app;
    await recordPoint(page, 'P-01');
    await page.getByRole('button', { name: 'Open P-01' }).click();
    expect(await app.axe()).toEqual([]);
    await page.getByRole('button', { name: /Interval/ }).click();
    await page.getByLabel('Sounded depth').fill('13.55');
    await page.getByText(/0\.35 ft above the screen base: more than 0\.20 ft/).waitFor();
    await page.getByText(/crosses the contact of sand over clay at 11\.00 ft/).waitFor();
    await app.picture('record-interval');
    await page.getByRole('button', { name: /Water/ }).click();
    await page.getByLabel('Depth to water').fill('9.86');
    await page.getByRole('button', { name: 'Confirm the reading' }).click();
    await page.getByText(/agree, 0\.01 ft apart .* checks the tape, not rest/).waitFor();
    expect(await app.axe()).toEqual([]);
    await app.picture('record-water');

    await page
      .getByRole('button', { name: /Sample/ })
      .first()
      .click();
    await page.getByText(/^Source: R\. W\. Puls and M\. J\. Barcelona, 1996/).waitFor();
    await page.getByLabel('Turbidity', { exact: true }).fill('45');
    await page.getByRole('button', { name: 'Confirm the readings' }).click();
    await page.getByText(/Too few readings yet/).waitFor();
    await page.getByLabel('Containers').fill('3 × 40 mL vial');
    await page.getByRole('button', { name: 'Confirm the sample' }).click();
    await confirmed(page, /P-01-S1-\d{8}, field sample/);
    expect(await app.axe()).toEqual([]);
    await app.picture('record-sample');

    await page.getByRole('button', { name: /Decommission/ }).click();
    await page.getByLabel('Hole diameter').fill('2.25');
    await page.getByLabel('Volume placed').fill('3.5');
    await page.getByText(/At least what the hole holds, 2\.90 gal/).waitFor();
    await page.getByLabel('Material').fill('Bentonite grout');
    await page.getByText('Tremie', { exact: true }).click();
    await expect
      .poll(() => page.getByRole('button', { name: /hole is closed/ }).isDisabled())
      .toBe(true);
    await page.getByLabel('Filled by').fill('A.B.');
    await app.picture('record-close');
    await page.getByRole('button', { name: /hole is closed/ }).click();
    await page.getByText('Every hole of P-01 is closed.').waitFor();
    expect(await app.axe()).toEqual([]);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.getByRole('button', { name: /hole is closed/ }).waitFor();
    await page.getByRole('button', { name: 'All points' }).click();
    await page.getByRole('button', { name: 'Draft custody list, to print' }).click();
    await page.getByRole('dialog', { name: 'Draft custody list' }).waitFor();
    await app.picture('record-custody');
  });
});
