/** A day in the field on a tablet: a point through all of its steps, and the day's papers. */
import { describe, expect, test } from 'vitest';
import { openApp } from './harness';
import { confirmed, openPlanned, recordPoint } from './ten-points';

const onTablet = async () => {
  const app = await openApp({ size: 'tablet', path: '?site=osier-bend' });
  await app.drawn();
  await openPlanned(app.page);
  return app;
};

describe('one point through all of its steps', () => {
  test('is purged, sampled, closed and undone', { timeout: 240_000 }, async () => {
    const app = await onTablet();
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
