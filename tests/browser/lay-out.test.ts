/** Before fieldwork, as a person does it: draw, lay, shift, set screens, print, and undo it all. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { openApp, type OpenOptions } from './harness';
import { pdfMarks } from './pdf-marks';

async function openLayOut(options: OpenOptions = {}) {
  const app = await openApp({ path: '?site=osier-bend', ...options });
  await app.drawn();
  await app.page.getByRole('button', { name: /^Lay out/ }).click();
  return app;
}

const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: typeof name === 'string' });

async function drawByKeys(page: Page, kind: string, name: string, corners: string) {
  await button(page, kind).click();
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel(/^Coordinates, one corner a line/).fill(corners);
  await button(page, 'Add these corners').click();
}

/** Half a square of 400 by 300 ft, and a gas line across it. */
const BOUNDARY = '488500, 1822000\n488900, 1822000\n488900, 1822300\n488500, 1822300';
const GAS = '488500 1822152\n488900 1822152';

/** Where a place of the grid is on the screen, by what the map says the mouse is over at two others. */
async function placeOf(page: Page, [east, north]: readonly [number, number]) {
  const box = await page.locator('[data-window]').boundingBox();
  if (!box) throw new Error('no map');
  const said = async (x: number, y: number) => {
    await page.mouse.move(x, y);
    const words = page.getByText(/[\d,.]+ E\s+[\d,.]+ N/);
    const text = (await words.textContent())?.replaceAll(',', '') ?? '';
    return [Number(/([\d.]+) E/.exec(text)?.[1]), Number(/([\d.]+) N/.exec(text)?.[1])] as const;
  };
  const [x0, y0] = [box.x + 0.3 * box.width, box.y + 0.3 * box.height];
  const [x1, y1] = [box.x + 0.6 * box.width, box.y + 0.6 * box.height];
  const [[e0, n0], [e1, n1]] = [await said(x0, y0), await said(x1, y1)];
  return {
    x: x0 + ((east - e0) / (e1 - e0)) * (x1 - x0),
    y: y0 + ((north - n0) / (n1 - n0)) * (y1 - y0),
  };
}

/** Points of 1/72 inch that a page may be off for its paper: the printer's rounding. */
const PAPER_ROUNDING = 1;

/** The sheet as pages: nothing cut, no number broken in two, heads and cautions on every page. */
async function printed(
  page: Page,
  title: string,
  paper: 'letter' | 'A4',
  size: readonly [number, number],
) {
  await page.getByRole('combobox', { name: /^Paper/ }).selectOption(paper);
  await button(page, title).click();
  const sheet = page.getByRole('dialog', { name: title });
  await sheet.waitFor();
  await page.emulateMedia({ media: 'print' });
  // As wide as the paper within its margins: 10 in of letter, 271 mm of A4.
  await page.setViewportSize({ width: paper === 'letter' ? 960 : 1024, height: 700 });
  const looked = await sheet.evaluate((whole) => {
    const cells = [...whole.querySelectorAll<HTMLElement>('th, td')];
    const right = whole.getBoundingClientRect().right;
    const shown = (name: string) =>
      [...whole.querySelectorAll(name)].map((part) => getComputedStyle(part).display);
    const lines = (cell: HTMLElement) => {
      const range = document.createRange();
      range.selectNodeContents(cell);
      return new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size;
    };
    return {
      cut: cells.filter(
        (cell) =>
          cell.scrollWidth > cell.clientWidth + 1 || cell.getBoundingClientRect().right > right + 1,
      ).length,
      broken: [...whole.querySelectorAll<HTMLElement>('tbody td.number')].filter(
        (cell) => lines(cell) > 1,
      ).length,
      numbers: whole.querySelectorAll('tbody td.number').length,
      heads: shown('thead'),
      foot: whole.querySelector('tfoot')?.textContent ?? '',
      running: whole.querySelector('thead .running')?.textContent ?? '',
    };
  });
  expect(looked.cut, `${title}: cells cut off`).toBe(0);
  expect(looked.numbers).toBeGreaterThan(20);
  expect(looked.broken, `${title}: numbers broken in two`).toBe(0);
  // Both tables repeat their heads on every page they reach.
  expect(looked.heads).toEqual(['table-header-group', 'table-header-group']);
  expect(looked.running).toMatch(/Osier Bend.* · \d{4}-\d\d-\d\d · \d+ of \d+ points NOT CLEARED/s);
  expect(looked.foot).toContain('drawn lines only');
  const marks = pdfMarks(
    await page.pdf({ path: `tests/pictures/${title}-${paper}.pdf`, preferCSSPageSize: true }),
  );
  expect(Math.abs(marks.page[0] - size[0])).toBeLessThanOrEqual(PAPER_ROUNDING);
  expect(Math.abs(marks.page[1] - size[1])).toBeLessThanOrEqual(PAPER_ROUNDING);
  expect(marks.pages).toBeGreaterThanOrEqual(2);
  await page.emulateMedia({ media: 'screen' });
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.keyboard.press('Escape');
}

describe('drawing and laying', () => {
  test('a boundary and a gas line are drawn, a grid is laid clear of it, a node shifted, all undone', async () => {
    const app = await openLayOut();
    const { page } = app;
    await button(page, 'Erase Property line').click();
    await drawByKeys(page, 'boundary', 'Trial ground', BOUNDARY);
    await expect.poll(() => page.getByText('120000 ftUS² (2.75 acres)').count()).toBe(1);
    await button(page, 'Add the boundary').click();
    await drawByKeys(page, 'utility', 'Trial gas', GAS);
    await page.getByLabel(/^Keep off/).fill('12');
    await button(page, 'Add the utility').click();
    await page.getByText('400.0 ftUS long').waitFor();

    await button(page, 'Grid').click();
    await page.getByLabel(/^Spacing, /).fill('52');
    await app.drawn();
    await app.picture('lay-out-grid');
    const blocked = page.getByRole('list', { name: 'Blocked nodes' }).getByRole('listitem');
    const byGas = blocked.filter({ hasText: /(in|from) utility Trial gas/ });
    await expect.poll(() => byGas.count()).toBeGreaterThanOrEqual(2);
    await byGas
      .first()
      .getByRole('button', { name: /^Shift/ })
      .click();
    await page
      .getByText(/Shifted \d+\.\d ftUS toward \d{3}° from E/)
      .first()
      .waitFor();
    expect(await app.axe()).toEqual([]);

    const lay = page.getByRole('button', { name: /^Lay these \d+ points/ });
    const count = Number(/\d+/.exec((await lay.textContent()) ?? '')?.[0]);
    const planned = page.getByText(/\d+\s+points?\s+planned/);
    const had = Number(/\d+/.exec((await planned.textContent()) ?? '')?.[0]);
    await lay.click();
    await page.getByText(`${had + count} points planned`).waitFor();
    await app.drawn();
    await app.picture('lay-out-laid');

    const set = page.getByRole('button', { name: /^Set screens at \d+ points/ });
    expect(Number(/\d+/.exec((await set.textContent()) ?? '')?.[0])).toBeGreaterThan(3);
    await expect
      .poll(() => page.getByRole('cell', { name: 'straddling' }).count())
      .toBeGreaterThan(3);
    await set.click();
    await set.scrollIntoViewIfNeeded();
    await app.drawn();
    await app.picture('lay-out-screens');
    expect(await app.axe()).toEqual([]);

    await page.getByText('Clearance', { exact: true }).click();
    await button(page, 'Record clearance of DP-31').click();
    await page.getByLabel('One-call ticket').fill('T-4471');
    await page.getByLabel('Ticket expires').fill('2020-01-31');
    await page.getByLabel('Cleared by').fill('RK');
    await button(page, 'Record it as cleared').click();
    await page.getByText('NOT CLEARED: ticket expired 2020-01-31').first().waitFor();

    await button(page, 'Push sheet').click();
    const sheet = page.getByRole('dialog', { name: 'Push sheet' });
    await sheet.getByText('NOT CLEARED').first().waitFor();
    for (const unit of ['ft below ground', 'gal'])
      expect(
        await sheet.getByRole('columnheader').filter({ hasText: unit }).count(),
      ).toBeGreaterThan(1);
    await app.picture('push-sheet');
    expect(await app.axe()).toEqual([]);
    await page.keyboard.press('Escape');
    await printed(page, 'Push sheet', 'letter', [792, 612]);
    await printed(page, 'Stake-out list', 'A4', [842, 595]);

    await page.getByText('Planned points', { exact: true }).click();
    const point = page.getByRole('combobox', { name: /^Point/ });
    await point.selectOption('DP-32');
    const east = page.getByLabel(/^Easting, /);
    const before = Number(await east.inputValue());
    await east.fill((before + 10).toFixed(2));
    await east.press('Tab');
    await page.getByText('10.0 ftUS toward 090°').waitFor();
    await page.getByText(/moved \d+\.\d % ± .* without it/).waitFor();
    await button(page, 'Move DP-32 there').click();
    await expect.poll(async () => Number(await east.inputValue())).toBe(before + 10);
    expect(await button(page, 'Drop DP-32').isDisabled(), 'dropped without a reason').toBe(true);
    await page.getByLabel('Reason', { exact: true }).fill('owner refused');
    await button(page, 'Drop DP-32').click();
    await page.getByText(/DP-32 dropped: nothing is sampled within/).waitFor();
    await page.getByText(`${had + count - 1} points planned`).waitFor();

    const undo = page.getByRole('button', { name: 'Undo', exact: true });
    while (await undo.isEnabled()) await undo.click();
    await page.getByText(new RegExp(`^\\s*${had}\\s+points?\\s+planned`)).waitFor();
    await expect.poll(() => page.getByText('Trial gas').count()).toBe(0);
  });

  test('a building is drawn by pressing the map, and its corner dragged', async () => {
    const app = await openLayOut();
    const { page } = app;
    await button(page, 'building').click();
    const map = page.locator('[data-window]');
    const box = await map.boundingBox();
    if (!box) throw new Error('no map');
    const at = (x: number, y: number) => ({ x: box.x + box.width * x, y: box.y + box.height * y });
    for (const [x, y] of [
      [0.2, 0.7],
      [0.3, 0.7],
      [0.3, 0.8],
    ] as const)
      await page.mouse.click(at(x, y).x, at(x, y).y);
    const words = page.getByText(/ftUS² .*ftUS around|ftUS².*around/);
    await words.waitFor();
    const small = await words.textContent();
    await page.mouse.move(at(0.3, 0.8).x, at(0.3, 0.8).y);
    await page.mouse.down();
    await page.mouse.move(at(0.34, 0.86).x, at(0.34, 0.86).y, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => words.textContent()).not.toBe(small);
    await app.picture('lay-out-drawing');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
  });

  test('on a tablet, by touch: a utility is drawn with width and buffer, its end dragged, and a planned point carried to another place', async () => {
    const app = await openLayOut({ size: 'tablet' });
    const { page } = app;
    const box = await page.locator('[data-window]').boundingBox();
    if (!box) throw new Error('no map');
    const at = (x: number, y: number) => ({ x: box.x + box.width * x, y: box.y + box.height * y });
    const finger = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x = 0, y = 0) =>
      finger.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x, y }],
      });
    const drag = async (from: { x: number; y: number }, to: { x: number; y: number }) => {
      await touch('touchStart', from.x, from.y);
      for (const share of [0.25, 0.5, 0.75, 1])
        await touch(
          'touchMove',
          from.x + (to.x - from.x) * share,
          from.y + (to.y - from.y) * share,
        );
      await touch('touchEnd');
    };

    await button(page, 'utility').tap();
    const [first, last] = [at(0.2, 0.72), at(0.45, 0.72)];
    await page.touchscreen.tap(first.x, first.y);
    await page.getByText('1 more corner needed.').waitFor();
    await page.touchscreen.tap(last.x, last.y);
    const long = page.getByText(/^\s*[\d,.]+ ftUS long\.\s*$/);
    await long.waitFor();
    const length = async () => Number.parseFloat((await long.textContent())?.trim() ?? '');
    const short = await length();
    await drag(last, at(0.6, 0.72));
    await expect.poll(length).toBeGreaterThan(short * 1.4);
    await page.getByLabel(/^Full width/).fill('4');
    await page.getByLabel(/^Keep off/).fill('10');
    await page.getByLabel('Name', { exact: true }).fill('Trial main');
    // A tap may fall while the page is still moving under the finger; a person taps again.
    const add = button(page, 'Add the utility');
    const added = page.getByRole('row', { name: /Trial main/ });
    await expect
      .poll(async () => {
        if ((await added.count()) === 0) await add.tap({ timeout: 5_000 }).catch(() => undefined);
        return added.count();
      })
      .toBe(1);

    await page.getByText('Planned points', { exact: true }).tap();
    await page.getByRole('combobox', { name: /^Point/ }).selectOption('DP-30');
    await button(page, 'Move on the map').tap();
    await app.drawn();
    const east = page.getByLabel(/^Easting, /);
    const before = Number(await east.inputValue());
    const north = Number(await page.getByLabel(/^Northing, /).inputValue());
    const place = await placeOf(page, [before, north]);
    await drag(place, { x: place.x - 60, y: place.y });
    await expect.poll(async () => Number(await east.inputValue())).toBeLessThan(before - 20);
    await page.getByText(/ftUS toward 27\d°/).waitFor();
    await app.picture('lay-out-touch');
    await button(page, 'Put back').tap();
    await expect.poll(async () => Number(await east.inputValue())).toBe(before);
    expect(await app.axe()).toEqual([]);
  });
});
