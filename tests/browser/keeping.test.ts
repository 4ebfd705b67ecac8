import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openApp, type OpenOptions } from './harness';
import { servePage, type ServedPage } from './pages/serve-page';
import type {} from './pages/keeping/main';

let served: ServedPage;
beforeAll(async () => {
  served = await servePage('keeping');
});
afterAll(() => served?.close());

const open = async (options: OpenOptions = {}) => {
  const app = await openApp({ ...options, address: served.address });
  await app.page.waitForFunction(() => 'keepingPage' in window);
  return app;
};

const isSaved = (page: Page) => page.waitForSelector('#state[data-state="saved"]');

test('a site is saved, listed, and opens again in a new page as it was', async () => {
  const { page, context } = await open();
  const id = await page.evaluate(() => window.keepingPage.begin());
  await isSaved(page);
  expect(await page.evaluate(() => window.keepingPage.write('8.35'))).toBe(true);
  expect(await page.evaluate(() => window.keepingPage.shown())).toBe('Saved');
  await page.close();

  const again = await context.newPage();
  await again.goto(served.address);
  const list = await again.evaluate(async () => {
    await window.keepingPage.keeping.refresh();
    return window.keepingPage.keeping.sites.map(({ title, last }) => ({ title, last }));
  });
  expect(list).toEqual([{ title: 'Test yard', last: 1 }]);
  expect(await again.evaluate((site) => window.keepingPage.open(site), id)).toBeNull();
  expect(await again.evaluate(() => window.keepingPage.level())).toBe('8.35');
});

test('two windows on one site: the second reads along and takes over when the first closes', async () => {
  const { page: first, context } = await open();
  const id = await first.evaluate(() => window.keepingPage.begin());
  await isSaved(first);
  const second = await context.newPage();
  await second.goto(served.address);
  await second.evaluate((site) => window.keepingPage.open(site), id);
  expect(await second.evaluate(() => window.keepingPage.shown())).toMatch(/open in another window/);
  expect(await second.evaluate(() => window.keepingPage.write('9.99'))).toBe(false);

  await first.evaluate(() => window.keepingPage.write('8.41'));
  await second.waitForFunction(() => window.keepingPage.level() === '8.41');

  await first.close();
  await second.waitForFunction(() => window.keepingPage.keeper?.isWriting);
  expect(await second.evaluate(() => window.keepingPage.write('8.42'))).toBe(true);
  expect(await second.evaluate(() => window.keepingPage.keeper?.steps)).toBe(2);
});

test('the browser’s room runs out: it says so, works in memory, and saves once there is room', async () => {
  const { page, context } = await open();
  const session = await context.newCDPSession(page);
  const { origin } = new URL(served.address);
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 300_000 });
  await page.evaluate(() => window.keepingPage.begin());
  await isSaved(page);
  expect(
    await page.evaluate(() =>
      window.keepingPage.edit('Import', window.keepingPage.resultRows(90_000)),
    ),
  ).toBe(false);
  expect(await page.evaluate(() => window.keepingPage.shown())).toMatch(
    /^Not saved: .*full.* 1 edit is only in memory/,
  );
  await page.evaluate(() => void window.keepingPage.write('8.50'));
  expect(await page.evaluate(() => window.keepingPage.level())).toBe('8.50');
  await session.send('Storage.overrideQuotaForOrigin', { origin });
  await isSaved(page);
  const id = await page.evaluate(() => window.keepingPage.keeper?.id ?? '');
  await page.reload();
  await page.evaluate((site) => window.keepingPage.open(site), id);
  expect(
    await page.evaluate(() => [
      window.keepingPage.level(),
      window.keepingPage.keeper?.site.tables.results?.size,
    ]),
  ).toEqual(['8.50', 90_000]);
});

test('the browser’s storage is cleared under the open site: the next edit writes it all anew', async () => {
  const { page, context } = await open();
  const id = await page.evaluate(() => window.keepingPage.begin());
  await isSaved(page);
  await page.evaluate(() => window.keepingPage.write('8.51'));
  const session = await context.newCDPSession(page);
  const { origin } = new URL(served.address);
  await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' });
  expect(await page.evaluate(() => window.keepingPage.write('8.52'))).toBe(true);
  await page.reload();
  expect(await page.evaluate((site) => window.keepingPage.open(site), id)).toBeNull();
  expect(
    await page.evaluate(() => [
      window.keepingPage.level(),
      window.keepingPage.keeper?.whole.lines.length,
      [...(window.keepingPage.keeper?.whole.carried.keys() ?? [])],
    ]),
  ).toEqual(['8.52', 2, ['README.md', 'images/plan.png']]);
});

test('a browser that gives no database keeps the site in memory and says so', async () => {
  const { page } = await open({
    before: async (page) => {
      await page.addInitScript(() => {
        IDBFactory.prototype.open = () => {
          throw new DOMException('The operation is insecure.', 'SecurityError');
        };
      });
    },
  });
  await page.evaluate(() => window.keepingPage.begin());
  await page.waitForSelector('#state[data-state="not-kept"]');
  expect(await page.evaluate(() => window.keepingPage.write('8.60'))).toBe(false);
  expect(await page.evaluate(() => window.keepingPage.shown())).toMatch(/private window/);
  expect(await page.evaluate(() => window.keepingPage.level())).toBe('8.60');
});

/** The origin's private folder stands in for one the person chooses: the same kind of thing. */
const pickable = async (page: Page) => {
  await page.addInitScript(() => {
    Object.assign(window, {
      showDirectoryPicker: async () =>
        (await navigator.storage.getDirectory()).getDirectoryHandle('yard', { create: true }),
    });
  });
};

test('a folder is saved in place, remembered, and opens as the same site', async () => {
  const { page } = await open({ before: pickable });
  const id = await page.evaluate(() => window.keepingPage.begin());
  await isSaved(page);
  const saved = await page.evaluate(async () => {
    const { keeping, keeper, pickFolder, write } = window.keepingPage;
    const folder = await pickFolder();
    if (!keeper || !folder) throw new Error('nothing to save');
    // Files of somebody else's in the same folder.
    const other = await (
      await folder.getFileHandle('notes.txt', { create: true })
    ).createWritable();
    await other.write('mine');
    await other.close();
    const place = await keeping.useFolder(keeper, folder);
    await write('8.70');
    const behind = [place.behind(keeper)];
    const result = await place.save(keeper);
    behind.push(place.behind(keeper));
    return { result, behind, name: place.name };
  });
  expect(saved).toEqual({ result: { ok: true, value: null }, behind: [2, 0], name: 'yard' });

  await page.reload();
  await page.evaluate((site) => window.keepingPage.open(site), id);
  const later = await page.evaluate(async () => {
    const { keeping, keeper, write, digestOf, openFolder, pickFolder } = window.keepingPage;
    const place = keeper && (await keeping.folderOf(keeper));
    if (!place) throw new Error('the folder was forgotten');
    await write('8.71');
    const result = await place.save(keeper);
    const folder = await pickFolder();
    const opened = folder && (await openFolder(folder));
    if (!opened?.ok) throw new Error('the folder does not open');
    const { site } = opened.value;
    return {
      result,
      same: digestOf(site.package) === digestOf(keeper.site),
      carried: [...site.carried.keys()].toSorted(),
      lines: new TextDecoder().decode(site.carried.get('journal.jsonl')).split('\n').length,
    };
  });
  expect(later).toEqual({
    result: { ok: true, value: null },
    same: true,
    carried: ['README.md', 'images/plan.png', 'journal.jsonl', 'notes.txt'],
    lines: 3,
  });
});

test('a file somebody else changed in the folder is not written over unasked', async () => {
  const { page } = await open({ before: pickable });
  await page.evaluate(() => window.keepingPage.begin());
  await isSaved(page);
  const results = await page.evaluate(async () => {
    const { keeping, keeper, pickFolder, write } = window.keepingPage;
    const folder = await pickFolder();
    if (!keeper || !folder) throw new Error('nothing to save');
    const place = await keeping.useFolder(keeper, folder);
    await place.save(keeper);
    const file = await folder.getFileHandle('water_levels.csv');
    const writing = await file.createWritable();
    await writing.write('screen,depth_to_water\nMW-1,7.77\n');
    await writing.close();
    await write('8.80');
    const refused = await place.save(keeper);
    const text = await (await file.getFile()).text();
    const replaced = await place.save(keeper, true);
    return { refused, text, replaced, now: await (await file.getFile()).text() };
  });
  expect(results.refused).toEqual({
    ok: false,
    problem: { kind: 'changed-there', paths: ['water_levels.csv'] },
  });
  expect(results.text).toContain('7.77');
  expect(results.replaced).toEqual({ ok: true, value: null });
  expect(results.now).toContain('8.80');
});

test('the zip is made in a worker under the app’s security policy, twice the same', async () => {
  const { page } = await open();
  await page.evaluate(() => window.keepingPage.begin());
  const zips = await page.evaluate(async () => {
    const { keeper, zipped } = window.keepingPage;
    if (!keeper) throw new Error('no site');
    const [a, b] = [await zipped(keeper.whole), await zipped(keeper.whole)];
    return { same: a.every((byte, i) => byte === b[i]) && a.length === b.length, size: a.length };
  });
  expect(zips.same).toBe(true);
  expect(zips.size).toBeGreaterThan(500);
});
