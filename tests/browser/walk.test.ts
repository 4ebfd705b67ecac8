/** The walk on the wall, by keyboard alone, as a room sees it. */
import { mkdtempSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Location } from '../../src/domain/site/schema';
import type { Site } from '../../src/domain/site/site';
import { inUnits } from '../../src/domain/units';
import { contrast } from '../../src/map/look/contrast';
import { openFolder } from '../unit/folder';
import { browser, openApp, type OpenedPage } from './harness';
import { openPage, PICTURES } from './opened-page';
import { pdfMarks } from './pdf-marks';

async function began(site: string, size: 'wide' | 'laptop' | 'tablet' = 'wide') {
  const app = await openApp({ size, path: `?site=${site}` });
  await app.drawn();
  await app.page.getByRole('button', { name: /Walk through/ }).click();
  await app.page.getByRole('button', { name: 'Start the walk' }).click();
  await app.page.getByRole('region', { name: /^Stop 1 of/ }).waitFor();
  return app;
}

const title = ({ page }: OpenedPage) => page.getByRole('heading', { level: 1 }).innerText();

/** Whether the words of a stop fit without scrolling, and no two of them overlap. */
const overflow = ({ page }: OpenedPage) =>
  page.evaluate(() => {
    const words = document.querySelector('section[aria-label^="Stop"]');
    return words ? words.scrollHeight - words.clientHeight : -1;
  });

/** px of the legend that would have to be scrolled to. */
const legendHidden = ({ page }: OpenedPage) =>
  page
    .locator('[role="region"][aria-label="Legend"]')
    .evaluate((legend) => legend.scrollHeight - legend.clientHeight);

/** Which of some points lie outside the map's window once it rests, by the coordinates along its sides. */
async function outOfWindow({ page }: OpenedPage, site: Site, points: readonly string[]) {
  const frame = page.locator('svg:has(> g > rect.neat)');
  const read = () =>
    frame.evaluate((drawn) => {
      const neat = drawn.querySelector('rect.neat');
      const labels = [...drawn.querySelectorAll('g > text')].map((text) => ({
        at: Number(text.textContent?.replaceAll(/[^\d]/g, '')),
        isEast: text.textContent?.includes('E') === true,
        px: text.getAttribute('x') ?? text.getAttribute('transform')?.split(/[ )]/)[1],
      }));
      return { labels, size: ['width', 'height'].map((of) => Number(neat?.getAttribute(of))) };
    });
  const first = await read();
  await page.waitForTimeout(400);
  const { labels, size } = await read();
  if (JSON.stringify(first.labels) !== JSON.stringify(labels)) return ['still on its way'];
  const [one, two] = labels.filter(({ isEast }) => isEast);
  const up = labels.find(({ isEast }) => !isEast);
  if (!one || !two || !up) return ['the window has no coordinates'];
  const scale = (Number(two.px) - Number(one.px)) / (two.at - one.at);
  const { unit } = site.settings.grid;
  const isIn = ({ easting, northing }: Pick<Location, 'easting' | 'northing'>) => {
    if (!easting || !northing) return false;
    const x = Number(one.px) + scale * (inUnits(easting.value, unit) - one.at);
    const y = Number(up.px) - scale * (inUnits(northing.value, unit) - up.at);
    return x > 0 && x < (size[0] ?? 0) && y > 0 && y < (size[1] ?? 0);
  };
  return points.filter((id) => {
    const location = site.locations.get(id);
    return !location || !isIn(location);
  });
}

describe.each(['osier-bend', 'quellmoor'])('the walk of %s', (site) => {
  test('goes from stop to stop by the keys of a clicker, in letters that are read at four metres', async () => {
    const app = await began(site);
    const { page } = app;
    const count = await page.getByRole('button', { name: /^Stop \d+:/ }).count();
    expect(count).toBeGreaterThanOrEqual(7);
    const titles: string[] = [];
    await app.drawn();
    const canvas = page.locator('.maplibregl-canvas');
    await canvas.evaluate((drawnOn) => (drawnOn.id = 'first-stop'));
    for (let i = 0; i < count; i++) {
      await app.drawn();
      titles.push(await title(app));
      const size = await page
        .locator('section[aria-label^="Stop"] p')
        .last()
        .evaluate((p) => Number.parseFloat(getComputedStyle(p).fontSize));
      expect(size).toBeGreaterThanOrEqual(24);
      expect(await overflow(app)).toBeLessThanOrEqual(0);
      expect(await legendHidden(app)).toBeLessThanOrEqual(1);
      await app.picture(`walk-${site}-${i + 1}`);
      await page.keyboard.press(i % 2 ? 'PageDown' : 'ArrowRight');
    }
    expect(new Set(titles).size).toBe(count);
    await page.keyboard.press('PageUp');
    expect(await title(app)).toBe(titles.at(-2));
    // One map glides through all stops: another would begin anew at each.
    expect(await canvas.getAttribute('id')).toBe('first-stop');
  }, 240_000);
});

/** Contrast of words with what they stand on, by the colours the browser gives. */
const contrastOf = async ({ page }: OpenedPage, words: string) => {
  const [ink, ground] = await page
    .locator(words)
    .first()
    .evaluate((element) => {
      let on: Element | null = element;
      const clear = (of: Element) => getComputedStyle(of).backgroundColor === 'rgba(0, 0, 0, 0)';
      while (on?.parentElement && clear(on)) on = on.parentElement;
      return [getComputedStyle(element).color, on ? getComputedStyle(on).backgroundColor : ''];
    });
  const hex = (colour = '') =>
    `#${(colour.match(/\d+/g) ?? []).map((n) => Number(n).toString(16).padStart(2, '0')).join('')}`;
  return contrast(hex(ink), hex(ground));
};

test('on a wall of 3840 by 2160 the letters grow, nothing is cut, and sentences stand out in a bright and a dark room', async () => {
  const app = await began('quellmoor');
  const { page } = app;
  await page.evaluate(() => document.fullscreenElement && document.exitFullscreen());
  await page.setViewportSize({ width: 3840, height: 2160 });
  // Every stop by key; their pictures are taken by walk-pictures.ts, since each takes seconds.
  const count = await page.getByRole('button', { name: /^Stop \d+:/ }).count();
  const titles = new Set<string>();
  for (let stop = 1; stop <= count; stop++) {
    await page.getByRole('region', { name: `Stop ${stop} of ${count}` }).waitFor();
    titles.add(await title(app));
    expect(await overflow(app)).toBeLessThanOrEqual(0);
    expect(await legendHidden(app)).toBeLessThanOrEqual(1);
    await page.keyboard.press('PageDown');
  }
  expect(titles.size).toBe(count);
  await page.keyboard.press('Home');
  for (let i = 0; i < 5; i++) await page.keyboard.press('PageDown');
  for (const room of ['bright', 'dark']) {
    await app.drawn();
    const size = await page
      .locator('section[aria-label^="Stop"] p')
      .last()
      .evaluate((p) => Number.parseFloat(getComputedStyle(p).fontSize));
    expect(size).toBeGreaterThanOrEqual(48);
    expect(await overflow(app)).toBeLessThanOrEqual(0);
    // WCAG 2.2: 7 to 1 for what is read (1.4.6), 4.5 to 1 for the rest (1.4.3).
    expect(await contrastOf(app, 'section[aria-label^="Stop"] h1')).toBeGreaterThanOrEqual(7);
    expect(
      await contrastOf(app, 'section[aria-label^="Stop"] p:last-child'),
    ).toBeGreaterThanOrEqual(7);
    expect(await contrastOf(app, 'section[aria-label^="Stop"] p button')).toBeGreaterThanOrEqual(
      4.5,
    );
    expect(await contrastOf(app, 'section[aria-label^="Stop"] .stamp')).toBeGreaterThanOrEqual(4.5);
    await app.picture(`walk-wall-${room}`);
    await page.keyboard.press('t');
  }
}, 180_000);

test('water is seen to move where its direction is resolved, says it is direction only, and stands still for who asks; the speaker has a window', async () => {
  const app = await began('osier-bend');
  const { page } = app;
  for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
  await app.drawn();
  const water = page.locator('canvas[data-moving-water]');
  expect(await water.count()).toBe(0); // less motion is asked for
  await page.emulateMedia({ reducedMotion: 'no-preference' });
  await page.getByText('direction only: neither speed nor contamination').waitFor();
  const ink = () => water.evaluate((canvas: HTMLCanvasElement) => canvas.toDataURL());
  const before = await ink();
  await expect.poll(ink).not.toBe(before);
  await app.picture('walk-water');
  // While the map glides, the room for it changes: stop 3 has a section under it.
  const { site } = openFolder('demo-sites/osier-bend');
  await page.keyboard.press('Home');
  for (const stop of [2, 3, 4]) {
    await page.keyboard.press('PageDown');
    await page.getByRole('region', { name: `Stop ${stop} of` }).waitFor();
    const points =
      stop === 3 ? site.strata.map(({ location }) => location) : ['MW-1', 'MW-3', 'MW-6', 'PZ-8'];
    if (stop > 2) await expect.poll(() => outOfWindow(app, site, points)).toEqual([]);
  }
  await page.keyboard.press('PageDown');
  await water.waitFor();
  await page.keyboard.press('m');
  await expect.poll(() => water.count()).toBe(0);
  await page.emulateMedia({ reducedMotion: 'reduce' });

  const opening = page.waitForEvent('popup');
  await page.keyboard.press('s');
  const speaker = await opening;
  await speaker.getByRole('heading', { name: 'Notes', exact: true }).waitFor();
  expect(await speaker.locator('header').innerText()).toMatch(
    /Stop 5 of \d+\s+\d\d:\d\d · \d+:\d\d/,
  );
  await speaker.screenshot({ path: 'tests/pictures/walk-speaker.png' });
  await speaker.keyboard.press('PageDown');
  await page.getByRole('region', { name: /^Stop 6 of/ }).waitFor();
  await page.keyboard.press('p');
  const ring = page.locator('[data-wall-pointer]');
  const left = () => ring.evaluate((one) => one.getBoundingClientRect().left);
  const stood = await left();
  await page.keyboard.press('Shift+ArrowRight');
  await expect.poll(left).toBeGreaterThan(stood + 20);
  await page.getByRole('slider', { name: 'Event' }).focus();
  await page.keyboard.press('PageUp');
  await page.getByRole('region', { name: /^Stop 5 of/ }).waitFor();
  await page.getByRole('button', { name: 'Leave' }).click();
  await expect.poll(() => speaker.isClosed()).toBe(true);
  expect(app.complaints).toEqual([]);
});

describe('a stop', () => {
  test('opens any number and any point, and is a key away', async () => {
    const app = await began('osier-bend');
    const { page } = app;
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    await app.drawn();
    expect(await title(app)).toContain('toward the east');
    await page.getByRole('button', { name: /^106°/ }).click();
    await page.getByRole('region', { name: 'Work behind the number' }).waitFor();
    expect(await app.axe()).toEqual([]);
    await app.picture('walk-work');
    await page.getByRole('button', { name: 'Back to the stop' }).click();
    await expect
      .poll(() => page.getByRole('region', { name: 'Work behind the number' }).count())
      .toBe(0);
    await page.keyboard.press('t');
    await app.drawn();
    expect(await app.axe()).toEqual([]);
    await app.picture('walk-dark');
  });

  test('tells of another event when the slider moves, and leaves the desk as it was', async () => {
    const app = await began('osier-bend', 'laptop');
    const { page } = app;
    for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
    await page.getByRole('slider', { name: 'Event' }).press('ArrowLeft');
    await app.drawn();
    await expect.poll(() => page.getByRole('button', { name: /^126°/ }).count()).toBe(1);
    expect(await app.axe()).toEqual([]);
    await app.picture('walk');
    await page.getByRole('button', { name: 'Leave' }).click();
    await app.drawn();
    expect(await app.axe()).toEqual([]);
    await app.picture('walk-sheet');

    const stops = () => page.getByRole('button', { name: /^Edit / }).count();
    const before = await stops();
    await page.getByRole('button', { name: 'Keep this view' }).click();
    await expect.poll(stops).toBe(before + 1);
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await expect.poll(stops).toBe(before);
  });
});

describe('a figure sheet', () => {
  test('printed at 1:600, 100 ft is 2.000 inches, on one page of its own size, in words that can be selected', async () => {
    const app = await openApp({ size: 'wide', path: '?site=osier-bend' });
    await app.drawn();
    const { page } = app;
    await page.getByRole('button', { name: /Walk through/ }).click();
    await page.getByRole('button', { name: 'Make a figure sheet' }).click();
    const sheet = page.locator('svg[data-sheet]');
    await sheet.waitFor();
    await app.picture('figure');
    expect(await app.axe()).toEqual([]);
    await page.getByLabel('Scale', { exact: true }).selectOption('600');

    const marks = pdfMarks(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
    expect(marks.pages).toBe(1);
    expect(marks.page[0] / 72).toBeCloseTo(17, 1);
    expect(marks.page[1] / 72).toBeCloseTo(11, 1);
    const bars = marks.rectangles.filter(
      ([wide, high]) => Math.abs(high - (6 * 72) / 96) < 0.2 && wide > 100,
    );
    expect(bars.length).toBeGreaterThan(0);
    expect(Math.abs(Math.max(...bars.map(([wide]) => wide)) / 72 - 2)).toBeLessThan(0.01);
    expect(marks.texts).toBeGreaterThan(40);
    expect(marks.embedded).toBeGreaterThan(0);
    expect(marks.readable).toBeGreaterThanOrEqual(marks.embedded);
  });
});

async function saved({ page }: OpenedPage, button: string, as: string): Promise<string> {
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: button, exact: true }).click();
  const path = join(mkdtempSync(join(tmpdir(), 'sheet-')), as);
  await (await saving).saveAs(path);
  return path;
}

test('sheets of a map, a section and a table go out as PDF of their own size with words and letters in it, as SVG and as a picture; so do the memo and the tables', async () => {
  const app = await openApp({ size: 'wide', path: '?site=osier-bend' });
  await app.drawn();
  const { page } = app;
  await page.getByRole('button', { name: /Walk through/ }).click();
  await page.getByRole('button', { name: 'Make a figure sheet' }).click();
  await page.locator('svg[data-sheet]').waitFor();
  await page.getByLabel('Boxes of results').check();
  for (const kind of ['map', 'section', 'table']) {
    await page.getByLabel('On the sheet').selectOption(kind);
    if (kind !== 'table') await page.getByLabel('Scale', { exact: true }).selectOption('600');
    await app.picture(`figure-${kind}`);
    const path = await saved(app, 'Save as PDF', `${kind}.pdf`);
    const marks = pdfMarks(readFileSync(path));
    expect(marks.page[0] / 72).toBeCloseTo(17, 2);
    expect(marks.page[1] / 72).toBeCloseTo(11, 2);
    expect(marks.texts).toBeGreaterThan(25);
    expect(marks.embedded).toBeGreaterThan(0);
    expect(marks.readable).toBeGreaterThanOrEqual(marks.embedded);
    if (kind === 'table') continue;
    // 100 ft at 1:600, the bar six px high.
    const bars = marks.rectangles.filter(
      ([wide, high]) => Math.abs(high - 4.5) < 0.2 && wide > 100,
    );
    expect(Math.abs(Math.max(...bars.map(([wide]) => wide)) / 72 - 2)).toBeLessThan(0.01);
  }
  await page.getByLabel('On the sheet').selectOption('section');
  const svg = readFileSync(await saved(app, 'Save as SVG', 'sheet.svg'), 'utf8');
  expect(svg).toMatch(/<text[^>]*>DP-17</);
  expect(svg).toContain('src:url(data:font/woff;base64,');
  expect(svg.replaceAll(/data:[^)]*|xmlns(:\w+)?="[^"]*"/g, '')).not.toMatch(
    /https?:|var\(|class=/,
  );
  await page.getByLabel('Dots to the inch').selectOption('150');
  const png = readFileSync(await saved(app, 'Save as PNG', 'sheet.png'));
  expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([17 * 150, 11 * 150]);
  expect(await app.axe()).toEqual([]);

  await page.getByRole('button', { name: 'Back', exact: true }).click();
  await page.getByRole('heading', { name: 'Memo and tables' }).click();
  const csv = readFileSync(await saved(app, 'Heads as CSV', 'heads.csv'), 'utf8');
  expect(csv).toMatch(/^Screen,Zone,Read,.*\n(.*\n)*MW-2,shallow,.*,958\.45,yes/);
  await page.getByRole('button', { name: 'Open the memo of the event' }).click();
  await page.getByRole('heading', { name: 'Calculation sheet' }).waitFor();
  await app.picture('memo');
  expect(await app.axe()).toEqual([]);
  const memoPath = await saved(app, 'Save as HTML', 'memo.html');
  const memo = readFileSync(memoPath, 'utf8');
  expect(memo).toContain('PRELIMINARY, NOT VALIDATED');
  expect(memo).not.toMatch(/<(script|button|link)/);

  const read = await openPage(await browser(), pathToFileURL(memoPath).href, {
    before: (opened) => opened.context().setOffline(true),
  });
  try {
    const heads = await read.page.locator('[aria-label="Calculation sheet"] h2').allInnerTexts();
    expect(heads.map((words) => Number.parseInt(words))).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    const family = read.page.locator('article p').first();
    expect(await family.evaluate((words) => getComputedStyle(words).fontFamily)).toMatch(
      /^"?Source Sans 3/,
    );
    await read.picture('memo-from-disk');
    expect(read.complaints).toEqual([]);
    expect(read.requests.filter((one) => !one.startsWith('data:'))).toHaveLength(1);
    const pages = await read.page.pdf({ preferCSSPageSize: true, printBackground: true });
    writeFileSync(join(PICTURES, 'memo.pdf'), pages);
    const marks = pdfMarks(pages);
    expect(marks.pages).toBeGreaterThan(4);
    expect(marks.embedded).toBeGreaterThan(0);
    expect(marks.readable).toBeGreaterThanOrEqual(marks.embedded);
  } finally {
    await read.close();
  }
  expect(app.complaints).toEqual([]);
}, 180_000);

describe('the walk as one file', () => {
  test('opens from disk with the network cut, tells the same, opens its numbers and asks nobody', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    const { page } = app;
    await page.getByRole('button', { name: /Walk through/ }).click();
    await page.getByRole('heading', { name: 'The walk as one file' }).click();
    await page.getByText(/^Inside: .*Events: 3 rows/).waitFor();
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save the walk as one file' }).click();
    const path = join(mkdtempSync(join(tmpdir(), 'walk-')), 'walk.html');
    await (await saving).saveAs(path);
    expect(statSync(path).size).toBeLessThan(3_000_000);

    const file = await openPage(await browser(), pathToFileURL(path).href, {
      size: 'wide',
      before: (opened) => opened.context().setOffline(true),
    });
    try {
      await file.drawn();
      for (let i = 0; i < 4; i++) await file.page.keyboard.press('PageDown');
      expect(await title(file)).toContain('toward the east');
      await file.picture('walk-file');
      expect(await file.axe()).toEqual([]);
      await file.page.getByRole('button', { name: /^106°/ }).click();
      await file.page.getByRole('region', { name: 'Work behind the number' }).waitFor();
      await expect
        .poll(() => file.page.getByRole('button', { name: /Keep|Leave|Undo/ }).count())
        .toBe(0);
      expect(file.complaints).toEqual([]);
      expect(file.requests.filter((one) => !/^(file|data):/.test(one))).toEqual([]);
      expect(file.requests.filter((one) => one.startsWith('file:'))).toHaveLength(1);
    } finally {
      await file.close();
    }
  });
});
