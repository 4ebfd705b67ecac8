/** A day in the field on a tablet: a point through all of its steps, and the day's papers. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { openApp } from './harness';
import { pdfMarks } from './pdf-marks';
import { confirmed, openPlanned, recordPoint } from './ten-points';

const onTablet = async () => {
  const app = await openApp({ size: 'tablet', path: '?site=osier-bend' });
  await app.drawn();
  await openPlanned(app.page);
  return app;
};

/** Controls of Record lower or narrower than a gloved finger: 56 px, and 44 px wide. */
const tooSmall = (page: Page) =>
  page.locator('.in-the-field').evaluate((sheet) =>
    [...sheet.querySelectorAll('button, input, select, summary')].flatMap((control) => {
      const within = control.closest('label, .box') ?? control;
      const { width, height } = within.getBoundingClientRect();
      const name = control.getAttribute('aria-label') ?? control.textContent?.trim();
      return height === 0 || (height >= 55.5 && width >= 44)
        ? []
        : [`${control.tagName} ${name}: ${width.toFixed(0)} × ${height.toFixed(0)}`];
    }),
  );

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
    await page.getByRole('button', { name: 'Make a set for this site from it' }).click();
    await page.getByText(/^Source: Set on this site, from: R\. W\. Puls/).waitFor();
    await page.getByText('Change this set').click();
    await page.getByLabel('Successive readings').fill('2');
    await page.getByLabel('Successive readings').press('Enter');
    await page.getByText(/2 successive readings, at least 3 min apart/).waitFor();
    expect(await tooSmall(page)).toEqual([]);
    await page.getByLabel('Turbidity', { exact: true }).fill('45');
    await page.getByRole('button', { name: 'Confirm the readings' }).click();
    await page.getByText(/Too few readings yet/).waitFor();
    await page.getByText(/Turbidity is 45 NTU, over 10 NTU/).waitFor();
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
    await page.getByRole('button', { name: 'Samples', exact: true }).click();
    await page.getByRole('button', { name: 'Draft custody list, to print' }).click();
    await page.getByRole('dialog', { name: 'Draft custody list' }).waitFor();
    await app.picture('record-custody');
  });
});

describe('a day that does not go as planned', () => {
  test('a refusal, a dropped point, a well that was mistyped, and the sheet that tells of them', async () => {
    const app = await onTablet();
    const { page } = app;
    const button = (name: string | RegExp) => page.getByRole('button', { name });
    expect(await tooSmall(page)).toEqual([]);

    await button('Open P-04').click();
    await page.getByText('Refusal', { exact: true }).click();
    await page.getByLabel('Depth reached').fill('6,2');
    await button('Confirm the hole').click();
    await confirmed(page, /refusal at 6\.2 ft/);
    await button('Take it back').click();
    await expect.poll(() => page.getByLabel('Depth reached').inputValue()).toBe('6,2');
    await button('Confirm the hole').click();
    await confirmed(page, /refusal at 6\.2 ft/);
    expect(await tooSmall(page)).toEqual([]);
    await button('All points').click();

    await button('Open P-10').click();
    await page.getByText('Move or drop this point').click();
    await page.getByLabel('Reason').fill('Under a parked lorry');
    // P-09 stands 40 ft west and 50 ft north of it: √4100 = 64.03 ft. By hand.
    await page
      .getByText(/P-10 dropped: nothing is sampled within 64\.0 ft of it; the nearest is P-09/)
      .waitFor();
    await button('Drop P-10').click();
    await confirmed(page, /P-10 dropped/);
    await page.getByText('0 of 9 push points finished, 1 dropped').waitFor();
    const misses = page.getByRole('region', { name: 'What the layout misses' });
    await expect.poll(() => misses.getByRole('listitem').count()).toBe(2);
    await app.drawn();
    await app.picture('record-dropped');

    await button('Wells').click();
    await button('Gauge MW-1').click();
    await page
      .getByText('Read from MW-1-MP1, notch on casing, in use since 2025-01-10, at 103.11 ft.')
      .waitFor();
    await page.getByText('Last read 11.32 ft on 2026-04-02 at 10:00, static.').waitFor();
    await page.getByLabel('Depth to water').fill('21.32');
    await page
      .getByText(/10\.00 ft lower than last time: more than 1\.00 ft\. Read it again/)
      .waitFor();
    await page.getByText(/^Static is less than 0\.02 ft in 15 min/).click();
    await page.getByLabel('Over', { exact: true }).fill('10');
    await page.getByLabel('Over', { exact: true }).press('Enter');
    await page.getByText(/^Static is less than 0\.02 ft in 10 min/).waitFor();
    await page.getByText(/^Set on this site\./).waitFor();
    await app.picture('record-well');
    expect(await app.axe()).toEqual([]);
    expect(await tooSmall(page)).toEqual([]);
    await page.getByLabel('Depth to water').fill('11.40');
    await page.getByText(/0\.08 ft lower than last time/).waitFor();
    await button('Confirm the reading').click();
    await confirmed(page, /MW-1-S1, water 11\.40 ft/);
    await button('All points').click();
    await page.getByText('1 of 1 screens read in this round').waitFor();

    await page.getByRole('button', { name: 'Field sheet', exact: true }).click();
    const left = page.getByRole('region', { name: 'Field sheet' });
    await left.getByText(/^9 holes still to push, 126\.0 ft in all/).waitFor();
    await button('Field sheet, to print').click();
    const sheet = page.getByRole('dialog', { name: 'Field sheet and sampling record' });
    await sheet.getByRole('rowheader', { name: 'P-04, refusal' }).waitFor();
    await sheet.getByRole('rowheader', { name: 'P-04 A, next try, NOT CLEARED' }).waitFor();
    await sheet.getByRole('cell', { name: 'Dropped in the field: Under a parked lorry' }).waitFor();
    expect(await app.axe()).toEqual([]);
    await app.picture('record-field-sheet');
    const paper = await page.pdf({
      path: 'tests/pictures/field-sheet.pdf',
      preferCSSPageSize: true,
      printBackground: true,
    });
    const { page: size, pages } = pdfMarks(paper);
    expect(size.map(Math.round)).toEqual([792, 612]); // letter, lying, in points
    expect(pages).toBeLessThanOrEqual(2);
    // Nothing stands past the edge of the paper.
    expect(
      await sheet.locator('article').evaluate((all) => all.scrollWidth - all.clientWidth),
    ).toBeLessThanOrEqual(0);
  });
});
