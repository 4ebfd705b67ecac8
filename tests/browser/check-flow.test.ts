/** A reviewer questions the arrow in a real browser: plane, surface, section, time, sheet. */
import { expect, test } from 'vitest';
import { openApp, type OpenedPage } from './harness';

/** The demo with wells at its latest event. */
async function opened(size: 'wide' | 'laptop' | 'tablet' = 'laptop') {
  const app = await openApp({ size, path: '?site=osier-bend' });
  await app.drawn();
  return app;
}

const unfold = ({ page }: OpenedPage, title: string) =>
  page.locator('summary', { has: page.getByRole('heading', { name: title }) }).click();

test('the plane is questioned: other weights, one well less, every triangle, chance', async () => {
  const app = await opened();
  const { page } = app;
  await unfold(app, 'The plane, questioned');
  await page.getByText(/drives the answer/).waitFor();
  await expect
    .poll(() => page.getByRole('row', { name: /All heads weighed alike/ }).count())
    .toBe(1);
  await page.getByLabel('Their directions on the map').check();
  await page.getByRole('button', { name: 'Simulate' }).click();
  await page.getByText(/% of draws from \d{3}° to \d{3}°/).waitFor();
  await app.drawn();
  await expect.poll(() => page.locator('body').innerText()).not.toContain('NaN');
  expect(await app.axe()).toEqual([]);
  await app.picture('check-plane');
});

test('the surface is kriged in a worker, its contours on the map and its interval judged', async () => {
  const app = await opened();
  const { page } = app;
  await unfold(app, 'The surface');
  await page.getByText(/This interval is supported by the heads/).waitFor();
  await app.drawn();
  await app.picture('check-surface');
  await page.getByLabel('Drawn').selectOption('kriged about a plane');
  await page.getByRole('heading', { name: 'Variogram' }).waitFor();
  await page.getByLabel('The kriging error, as patterns').check();
  await page.getByLabel('Flow lines, square to the contours').check();
  await page.getByLabel(/^Interval/).fill('0.01');
  await page.getByLabel(/^Interval/).press('Enter');
  await page.getByText(/finer than the heads’ error/).waitFor();
  await page.getByLabel(/^Interval/).fill('0.25');
  await page.getByLabel(/^Interval/).press('Enter');
  await page.getByText(/This interval is supported/).waitFor();
  await app.drawn();
  await expect.poll(() => page.locator('body').innerText()).not.toContain('NaN');
  expect(await app.axe()).toEqual([]);
  await app.picture('check-surface-kriged');
});

test.each(['wide', 'laptop', 'tablet'] as const)(
  'the section, nests and time at the size of a %s screen: readable, pressed as on the map',
  async (size) => {
    const app = await opened(size);
    const { page } = app;
    await unfold(app, 'The section');
    await page.getByRole('img', { name: /^Section of \d+ points/ }).waitFor();
    await page.getByText(/^Its \d+ points/).click();
    await page.getByRole('button', { name: 'PZ-3D', exact: true }).last().click();
    await expect
      .poll(() => page.getByRole('region', { name: 'Point PZ-3D' }).isVisible())
      .toBe(true);
    await page.getByRole('button', { name: 'Larger, over the map' }).click();
    await app.drawn();
    await app.picture('check-section');
    await page.keyboard.press('Escape');
    await unfold(app, 'The section');
    await unfold(app, 'Up and down');
    await unfold(app, 'Over time');
    await page
      .getByText(/Downward, from|Upward, from|cannot be told/)
      .first()
      .waitFor();
    await page.getByLabel('On the map, as bars').check();
    await app.drawn();
    const text = await page.locator('body').innerText();
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
    expect(await app.axe()).toEqual([]);
    await page.getByRole('heading', { name: 'Direction, event by event' }).scrollIntoViewIfNeeded();
    await app.picture('check-time');
  },
);

test('the velocity is a range with its cautions, and the travel time one along the flow line', async () => {
  const app = await opened();
  const { page } = app;
  await page.getByRole('button', { name: 'MW-4', exact: true }).first().click();
  await unfold(app, 'How fast');
  await page.getByLabel('Hydraulic conductivity, ft/d', { exact: true }).selectOption({
    label: 'fine sand',
  });
  await page.getByLabel('Effective porosity, part of one', { exact: true }).selectOption({
    label: 'sand',
  });
  await page.getByText(/Travel time/).waitFor();
  await expect
    .poll(() => page.getByText(/rarely known better than to a factor of ten/).count())
    .toBe(1);
  await expect.poll(() => page.locator('body').innerText()).not.toMatch(/NaN|undefined|Infinity/);
  expect(await app.axe()).toEqual([]);
  await app.picture('check-how-fast');
});

test('the calculation sheet opens over the page, prints alone, and closes by key', async () => {
  const app = await opened();
  const { page } = app;
  await unfold(app, 'The surface');
  await page.getByText(/This interval is supported/).waitFor();
  await unfold(app, 'Calculation sheet');
  await page.getByLabel('Prepared by').fill('A. Preparer');
  await page.getByRole('button', { name: 'Open the sheet' }).click();
  const sheet = page.getByRole('dialog', { name: 'Calculation sheet' });
  await sheet.getByText('1 Heads in the plane').waitFor();
  const text = await sheet.innerText();
  expect(text).toContain('A. Preparer');
  expect(text).toContain('product floats on it and no density was measured');
  expect(text).not.toMatch(/NaN|undefined|Infinity/);
  expect(await app.axe()).toEqual([]);
  await app.picture('check-sheet');
  await page.emulateMedia({ media: 'print' });
  await expect.poll(() => page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
  await expect.poll(() => page.locator('.desk').isVisible()).toBe(false);
  await page.screenshot({ path: 'tests/pictures/check-sheet-print.png', fullPage: true });
  await page.emulateMedia({ media: 'screen' });
  await page.keyboard.press('Escape');
  await expect.poll(() => sheet.count()).toBe(0);
});
