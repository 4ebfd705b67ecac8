/**
 * What a browser test needs. A test opens the app, acts on `app.page` as a
 * person would, and looks; the page closes by itself, and a complaint in its
 * console or a request to another address fails the test unless it asked for one.
 *
 *     const app = await openApp({ size: 'laptop' });
 *     await app.drawn();
 *     await app.page.getByLabel('Event').selectOption('2024-06');
 *     expect(await app.axe()).toEqual([]);
 */
import { chromium, type Browser } from 'playwright-core';
import { expect, inject, onTestFinished } from 'vitest';
import { openPage, savePicture, type OpenedPage, type PageOptions } from './opened-page';

export type { OpenedPage, Size, Violation } from './opened-page';

export type OpenOptions = PageOptions & {
  /** What follows the app's address: a file name, `?query`, `#hash`. */
  readonly path?: string;
  /** Another address than the built app's: a page the test serves itself. */
  readonly address?: string;
  /** The test looks at `complaints` and `requests` itself, because it expects some. */
  readonly mayComplain?: boolean;
};

let connected: Promise<Browser> | undefined;

/** This worker's Chromium: each draws in software, and two share a machine better than one. */
const ownChromium = (): string => {
  const chromiums = inject('chromiums');
  const worker = Number(process.env.VITEST_POOL_ID ?? 1);
  const address = chromiums[(worker - 1) % chromiums.length];
  if (address === undefined) throw new Error('No Chromium was started.');
  return address;
};

export const browser = (): Promise<Browser> => (connected ??= chromium.connect(ownChromium()));

/** Opens the built app for one test, not put on the device unless asked. See the top of this file. */
export const openApp = async (options: OpenOptions = {}): Promise<OpenedPage> => {
  const address = new URL(options.path ?? '', options.address ?? inject('address')).href;
  const app = await openPage(await browser(), address, { onDevice: false, ...options });
  onTestFinished(async ({ task }) => {
    try {
      if (task.result?.state === 'fail') {
        const name = task.name.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-');
        await savePicture(app.page, `failed-${name.slice(0, 60)}`);
      }
    } finally {
      await app.close();
    }
    if (options.mayComplain) return;
    expect(app.complaints, 'complaints in the page').toEqual([]);
    expect(app.foreignRequests(), 'requests to another address').toEqual([]);
  });
  return app;
};
