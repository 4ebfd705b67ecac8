/** What goes wrong around the app, as a person at the screen meets it. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { zipOf } from '../../src/io/package/files';
import { filesIn } from '../faults/zips';
import { openApp } from './harness';

const decide = async (page: Page, well: string, why: string) => {
  await page.getByRole('button', { name: well, exact: true }).first().click();
  await page.getByRole('button', { name: `Leave out ${well} @ 2026-09` }).click();
  await page.getByLabel(/Why\?/).fill(why);
  await page.getByRole('button', { name: 'Leave it out of the plane' }).click();
};

const isSaved = (page: Page) =>
  page.getByRole('status').getByText('Saved', { exact: true }).waitFor();

test('two windows on one site: the second reads along and says so, follows, and takes over', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  await app.drawn();
  const { page: first, context } = app;
  await decide(first, 'MW-4', 'Lock forced');
  await isSaved(first);

  const second = await context.newPage();
  await second.goto(new URL('.', first.url()).href);
  await second
    .getByRole('alert')
    .getByText(/open in another window and can only be read/)
    .waitFor();
  await second.getByText('7 heads in the plane').waitFor();
  expect(await second.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);

  await first.bringToFront();
  await first.getByRole('button', { name: 'Undo' }).click();
  await second.getByText('8 heads in the plane').waitFor();
  await isSaved(first);
  await first.close();

  await second.getByRole('alert').waitFor({ state: 'detached' });
  await decide(second, 'MW-2', 'Cap left off');
  await second.getByText('7 heads in the plane').waitFor();
  await isSaved(second);
});

test('the browser’s room runs out: it is said in full, work goes on in memory, and all is saved once there is room', async () => {
  const app = await openApp({ path: '?site=osier-bend', size: 'tablet' });
  await app.drawn();
  const { page, context } = app;
  const session = await context.newCDPSession(page);
  const { origin } = new URL(page.url());
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1_000 });
  await decide(page, 'MW-4', 'Lock forced');
  await page
    .getByRole('alert')
    .getByText(/^Not saved: .*disk is full.*only in memory/)
    .waitFor();
  await page.getByText('7 heads in the plane').waitFor();
  expect(await app.axe()).toEqual([]);
  await session.send('Storage.overrideQuotaForOrigin', { origin });
  await isSaved(page);
  await page.goto(new URL('.', page.url()).href);
  await page.getByText('7 heads in the plane').waitFor();
});

test('a site of a newer format, and a zip cut short, are refused in words; what was kept is still on the list', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  await app.drawn();
  const { page } = app;
  await decide(page, 'MW-4', 'Lock forced');
  await isSaved(page);
  const demo = new Map(filesIn('demo-sites/osier-bend'));
  const descriptor = new TextDecoder().decode(demo.get('datapackage.json'));
  demo.set(
    'datapackage.json',
    new TextEncoder().encode(descriptor.replace('"format": 1', '"format": 9')),
  );
  const zip = zipOf(demo);
  const open = async (name: string, bytes: Uint8Array) => {
    await page.locator('summary', { hasText: /^Open/ }).first().click();
    await page
      .getByLabel('Open a zip of a site')
      .setInputFiles({ name, mimeType: 'application/zip', buffer: Buffer.from(bytes) });
  };
  await open('newer.zip', zip);
  await page.getByText(/open this site with a newer version/).waitFor();
  await open('short.zip', zip.slice(0, zip.length - 700));
  await page.getByText(/it is cut short, or is no zip/).waitFor();
  await page.locator('summary', { hasText: /^Open/ }).first().click();
  await page
    .getByRole('button', { name: /^Osier Bend/ })
    .first()
    .click();
  await page.getByText('7 heads in the plane').waitFor();
});

test('markup in the names of a site is text on the screen, and runs nothing', async () => {
  const app = await openApp({ path: '?site=osier-bend' });
  await app.drawn();
  const { page } = app;
  const markup = '<img src=x onerror=document.title=1>';
  const demo = new Map(filesIn('demo-sites/osier-bend'));
  const change = (path: string, made: (text: string) => string) =>
    demo.set(path, Buffer.from(made(Buffer.from(demo.get(path) ?? []).toString())));
  for (const path of demo.keys())
    if (path.endsWith('.csv')) change(path, (text) => text.replaceAll('MW-4', markup));
  change('datapackage.json', (text) => text.replace('Osier Bend', `Osier ${markup}`));
  await page.locator('summary', { hasText: /^Open/ }).first().click();
  const zip = { name: 'a.zip', mimeType: 'application/zip', buffer: Buffer.from(zipOf(demo)) };
  await page.getByLabel('Open a zip of a site').setInputFiles(zip);
  await page.getByRole('heading', { level: 1, name: markup }).waitFor();
  await page.getByRole('button', { name: markup, exact: true }).first().click();
  await page.getByRole('button', { name: 'Tables', exact: true }).click();
  await page.getByRole('gridcell', { name: markup, exact: true }).waitFor();
  expect(await page.locator('img[src="x"]').count()).toBe(0);
  expect(await page.title()).not.toBe('1');
});

describe('WebGL', () => {
  const works = async (page: Page) => {
    await page.getByText('8 heads in the plane').waitFor();
    await page
      .getByRole('row', { name: /^MW-1 / })
      .getByRole('button', { name: /show the work/ })
      .first()
      .click();
    await page
      .getByRole('button', { name: /\.csv, row \d+, / })
      .first()
      .waitFor();
    await page
      .getByRole('button', { name: /Close|Back/ })
      .first()
      .click();
    await page.locator('summary', { hasText: 'The section' }).click();
    await page.locator('svg').getByText('MW-1', { exact: true }).first().waitFor();
    await page.getByRole('button', { name: 'Tables', exact: true }).click();
    await page.getByRole('grid', { name: 'Locations' }).waitFor();
    await page.locator('#cell-0-11').click();
    await page.keyboard.type('Without it');
    await page.keyboard.press('Enter');
    await isSaved(page);
  };

  test('is not there: it is said, and the arithmetic, the section and the tables work', async () => {
    const app = await openApp({
      path: '?site=osier-bend',
      before: async (page) => {
        await page.addInitScript(() => {
          const proto = HTMLCanvasElement.prototype;
          const { value } = Object.getOwnPropertyDescriptor(proto, 'getContext') ?? {};
          const given = value as (this: unknown, kind: string, ...more: unknown[]) => unknown;
          Object.defineProperty(proto, 'getContext', {
            value(this: unknown, kind: string, ...more: unknown[]) {
              return kind.startsWith('webgl') ? null : given.call(this, kind, ...more);
            },
          });
        });
      },
    });
    await app.page.getByText('This browser gives the map no WebGL').waitFor();
    await works(app.page);
  });

  test('is lost on the way: it is said, and the arithmetic, the section and the tables work', async () => {
    const app = await openApp({ path: '?site=osier-bend', mayComplain: true });
    await app.drawn();
    await app.page.evaluate(() =>
      document
        .querySelector<HTMLCanvasElement>('canvas.maplibregl-canvas')
        ?.getContext('webgl2')
        ?.getExtension('WEBGL_lose_context')
        ?.loseContext(),
    );
    await app.page.getByText('This browser gives the map no WebGL').waitFor();
    await works(app.page);
  });
});
