/**
 * The pictures of README.md, of the app as it is built now:
 *
 *     npm run pictures
 *
 * They go to demo-sites/pictures/, each by the way of working it shows.
 */
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { startChromium } from './chromium';
import { openPage, type Size } from './opened-page';
import { ROOT, serveBuiltApp } from './serve';

type Picture = {
  readonly name: string;
  readonly path: string;
  readonly size: Size;
  /** What a person does before the picture is taken. */
  readonly until: (page: Page) => Promise<void>;
};

const pressed = async (page: Page, ...names: readonly (string | RegExp)[]) => {
  for (const name of names)
    await page
      .getByRole('button', { name, exact: typeof name === 'string' })
      .first()
      .click();
};

const PICTURES: readonly Picture[] = [
  {
    name: 'lay-out',
    path: '?site=osier-bend',
    size: 'laptop',
    until: async (page) => {
      await pressed(page, /^Lay out/, 'Grid');
      await page.getByLabel(/^Spacing, /).fill('120');
    },
  },
  { name: 'check', path: '?site=osier-bend', size: 'laptop', until: async () => {} },
  {
    name: 'work',
    path: '?site=quellmoor',
    size: 'laptop',
    until: async (page) => {
      await page.getByRole('button', { name: /°/ }).first().click();
    },
  },
  {
    name: 'results',
    path: '?site=osier-bend',
    size: 'laptop',
    until: async (page) => {
      await page.getByLabel('Event').selectOption('2025-09');
      await page.getByRole('button', { name: 'Results', exact: true }).click();
      await page.getByLabel('Boxes of results beside the points').check();
    },
  },
  {
    name: 'walk-through',
    path: '?site=osier-bend',
    size: 'wide',
    until: async (page) => {
      await pressed(page, /Walk through/, 'Start the walk');
      await page.getByRole('region', { name: /^Stop 1 of/ }).waitFor();
      for (let stop = 1; stop < 5; stop++) await page.keyboard.press('PageDown');
      await page.getByRole('region', { name: /^Stop 5 of/ }).waitFor();
    },
  },
];

const server = await startChromium();
const app = await serveBuiltApp();
try {
  const browser = await chromium.connect(server.wsEndpoint());
  for (const { name, path, size, until } of PICTURES) {
    const opened = await openPage(browser, new URL(path, app.address).href, { size });
    await opened.drawn();
    await until(opened.page);
    await opened.page.waitForTimeout(500); // the map says first that it is at work
    await opened.drawn();
    await opened.page.mouse.move(2, 2);
    await opened.page.screenshot({ path: join(ROOT, 'demo-sites', 'pictures', `${name}.png`) });
    for (const complaint of opened.complaints) console.log(`${name}: ${complaint}`);
    await opened.close();
  }
} finally {
  await server.close();
  await app.close();
}
