import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { cableTo, isOnDevice } from './cable';
import { openApp } from './harness';
import { servePage, type ServedPage } from './pages/serve-page';
import type {} from './pages/keeping/main';

let served: ServedPage;
beforeAll(async () => {
  served = await servePage('keeping');
});
afterAll(() => served?.close());

test('after the first visit the app opens with the network cut, the map and another demo included', async () => {
  const cable = await cableTo(inject('address'));
  const app = await openApp({ address: cable.address, onDevice: true, mayComplain: true });
  await isOnDevice(app.page);
  cable.cut();
  await app.page.goto(`${cable.address}?site=quellmoor`);
  await app.drawn();
  expect(await app.page.title()).toMatch(/ · Downgradient$/);
  expect(app.foreignRequests()).toEqual([]);
});

test('the browser finds nothing wrong with installing the app', async () => {
  const cable = await cableTo(inject('address'));
  const app = await openApp({ address: cable.address, onDevice: true });
  await isOnDevice(app.page);
  const session = await app.context.newCDPSession(app.page);
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  const { errors, data } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  expect(JSON.parse(data ?? '{}')).toMatchObject({ name: 'Downgradient', display: 'standalone' });
  // Each test has a private window, where nothing can be installed; that is all that is wrong.
  expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([]);
});

test('edits made with the network cut are kept, and there when it comes back', async () => {
  const cable = await cableTo(served.address);
  const app = await openApp({ address: cable.address, onDevice: true, mayComplain: true });
  await isOnDevice(app.page);
  cable.cut();
  await app.page.reload();
  await app.page.waitForFunction(() => 'keepingPage' in window);
  const id = await app.page.evaluate(() => window.keepingPage.begin());
  expect(await app.page.evaluate(() => window.keepingPage.write('8.90'))).toBe(true);
  await app.page.reload();
  await app.page.evaluate((site) => window.keepingPage.open(site), id);
  expect(await app.page.evaluate(() => window.keepingPage.level())).toBe('8.90');
  // The zip is made by a worker nobody had asked for before the cut.
  expect(
    await app.page.evaluate(async () => {
      const { keeper, zipped } = window.keepingPage;
      return keeper ? (await zipped(keeper.whole)).length : 0;
    }),
  ).toBeGreaterThan(500);
});

test('a newer version waits until it is taken, and then the page is the newer one', async () => {
  const cable = await cableTo(served.address);
  const { page, context } = await openApp({ address: cable.address, onDevice: true });
  await isOnDevice(page);
  expect(await page.evaluate(() => window.keepingPage.appOnDevice.isUpdateReady)).toBe(false);

  const newer = (version: string) =>
    cable.change((path, text) => {
      if (path.endsWith('service-worker.js')) return text.replace(/VERSION='\w+'/, version);
      return text.replace('<title>Keeping</title>', `<title>${version}</title>`);
    });
  for (const version of ["VERSION='newer'", "VERSION='newest'"]) {
    newer(version);
    const before = await page.title();
    await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
    await page.waitForFunction(() => window.keepingPage.appOnDevice.isUpdateReady);
    await page.reload();
    expect(await page.title()).toBe(before);
    await page.waitForFunction(() => window.keepingPage.appOnDevice.isUpdateReady);
    await Promise.all([
      page.waitForEvent('load'),
      page.evaluate(() => window.keepingPage.appOnDevice.takeUpdate()),
    ]);
    await page.waitForFunction(() => 'keepingPage' in window);
    expect(await page.title()).toBe(version);
  }
  // The version before stays for windows still open; older ones are gone.
  const caches = await page.evaluate(async () => (await window.caches.keys()).toSorted());
  expect(caches).toEqual(['downgradient-app-newer', 'downgradient-app-newest']);
  await context.close();
});
