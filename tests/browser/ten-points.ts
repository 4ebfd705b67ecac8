/** An invented site of ten planned points, and a crew recording them on a tablet. */
import { strToU8, zipSync } from 'fflate';
import type { Page } from 'playwright-core';

export const NAMES = Array.from({ length: 10 }, (_, i) => `P-${String(i + 1).padStart(2, '0')}`);

/** Planned in feet, as a zip of its folder. */
export const planned = () => {
  const resource = (name: string) => ({ name, path: `${name}.csv` });
  const descriptor = {
    name: 'ten-points',
    title: 'Ten points (invented)',
    profile: 'data-package',
    resources: ['locations', 'screens', 'strata', 'events', 'measuring_points', 'water_levels'].map(
      resource,
    ),
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
          'MW-1,101.20,surveyed,monitoring well,installed,1180,560',
        ].join('\n'),
      ),
      'screens.csv': strToU8(
        ['id,location,planned_tip_depth,planned_exposed_length', ...screens, 'MW-1-S1,MW-1,,'].join(
          '\n',
        ),
      ),
      'events.csv': strToU8('id,title,first_day,last_day\nspring,Spring,2026-04-02,2026-04-02'),
      'measuring_points.csv': strToU8(
        'id,screen,from_day,description,elevation\nMW-1-MP1,MW-1-S1,2025-01-10,notch on casing,103.11',
      ),
      'water_levels.csv': strToU8(
        'screen,event,time,depth_to_water,measuring_point,status\nMW-1-S1,spring,2026-04-02T10:00,11.32,MW-1-MP1,static',
      ),
      'strata.csv': strToU8(
        'location,top,bottom,description,class\nP-01,0,11,Sand,sand\nP-01,11,20,Clay,clay',
      ),
    }),
  );
};

/** Opens the zip, and the way of working in the field. */
export async function openPlanned(page: Page) {
  await page.getByText('Open, save', { exact: true }).click();
  await page.getByLabel('Open a zip of a site').setInputFiles({
    name: 'ten-points.zip',
    mimeType: 'application/zip',
    buffer: planned(),
  });
  await page.getByRole('heading', { level: 1, name: /Ten points/ }).waitFor();
  await page.getByRole('button', { name: /^Record/ }).click();
}

export const confirmed = (page: Page, words: RegExp) =>
  page.locator('.confirmed', { hasText: words }).waitFor();

/** Hole, interval and one level of a point, as a crew would type them. */
export async function recordPoint(
  page: Page,
  name: string,
  from: 'the hole' | 'the interval' = 'the hole',
) {
  await page.getByRole('button', { name: `Open ${name}` }).click();
  if (from === 'the hole') {
    await page.getByText('Reached', { exact: true }).click();
    await page.getByLabel('Depth reached').fill('14.05');
    await page.getByRole('button', { name: 'Confirm the hole' }).click();
    await confirmed(page, /reached at 14\.05 ft/);
  }
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
