/** A page under observation: what it requested, what it complained of, what it looks like. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { ROOT } from './serve';

/** Width and height in CSS pixels: a meeting's screen, a desk, a tablet held upright. */
export const SIZES = {
  wide: { width: 1920, height: 1080 },
  laptop: { width: 1280, height: 800 },
  tablet: { width: 820, height: 1180 },
} as const;

export type Size = keyof typeof SIZES;

export type PageOptions = {
  readonly size?: Size;
  /** Runs in the page before any script of its own, to stub a file picker for instance. */
  readonly before?: (page: Page) => Promise<void>;
  /** False: the app is not put on the device for days without a network, which takes a second of work. */
  readonly onDevice?: boolean;
};

export type Violation = {
  readonly rule: string;
  readonly impact: string;
  /** One line for each element: where it stands and what is wrong. */
  readonly where: readonly string[];
};

export type OpenedPage = {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Every address requested, in order, `data:` and `blob:` included. */
  readonly requests: readonly string[];
  /** Errors and warnings in the console, uncaught exceptions, failed requests: empty if all is well. */
  readonly complaints: readonly string[];
  /** The requests that left the app's own address. */
  readonly foreignRequests: () => string[];
  /** Waits until the app says its map has drawn and is idle. */
  readonly drawn: () => Promise<void>;
  /** Saves what is on screen as tests/pictures/NAME-WIDTHxHEIGHT.png and returns the file's path. */
  readonly picture: (name: string) => Promise<string>;
  /** Accessibility findings on what is on screen (WCAG 2.2 A and AA, and axe's best practices). */
  readonly axe: () => Promise<Violation[]>;
  readonly close: () => Promise<void>;
};

/**
 * The app's side of `drawn()`: it sets `document.documentElement.dataset.drawn`
 * to 'yes' when the map has drawn what it was given and is idle, and to 'no'
 * as soon as it is given something else.
 */
const DRAWN = 'html[data-drawn="yes"]';

/** MapLibre and software drawing talk about the graphics card; none of it is the app's doing. */
const ABOUT_THE_GRAPHICS_CARD = /GPU stall due to ReadPixels|GL Driver Message|swiftshader/i;

/** What the browser library says where the app was not to be put on the device. */
const NOT_ON_DEVICE = 'Service Worker registration blocked by Playwright';

/** Where pictures go that tests take. */
export const PICTURES = join(ROOT, 'tests', 'pictures');

const isForeign = (own: string) => (address: string) =>
  !/^(data|blob|about):/.test(address) && new URL(address).origin !== new URL(own).origin;

export const savePicture = async (page: Page, name: string) => {
  mkdirSync(PICTURES, { recursive: true });
  const size = page.viewportSize();
  const path = join(PICTURES, `${name}-${size?.width}x${size?.height}.png`);
  await page.screenshot({ path });
  return path;
};

const findViolations = async (page: Page): Promise<Violation[]> => {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, impact, nodes }) => ({
    rule: id,
    impact: impact ?? 'unknown',
    where: nodes.map(({ target, failureSummary = '' }) =>
      `${target.join(' ')}: ${failureSummary}`.replaceAll(/\s+/g, ' '),
    ),
  }));
};

/** Opens an address in a fresh, empty profile. The caller closes it. */
export const openPage = async (
  browser: Browser,
  address: string,
  { size = 'laptop', before, onDevice = true }: PageOptions = {},
): Promise<OpenedPage> => {
  const context = await browser.newContext({
    viewport: SIZES[size],
    hasTouch: size === 'tablet',
    reducedMotion: 'reduce',
    locale: 'en-US',
    timezoneId: 'UTC',
    acceptDownloads: true,
    serviceWorkers: onDevice ? 'allow' : 'block',
  });
  const requests: string[] = [];
  const complaints: string[] = [];
  context.on('request', (request) => requests.push(request.url()));
  context.on('requestfailed', (request) => {
    const reason = request.failure()?.errorText ?? '';
    if (reason !== 'net::ERR_ABORTED') complaints.push(`${request.url()} failed: ${reason}`);
  });
  context.on('console', (message) => {
    const said = message.text();
    if (!['error', 'warning'].includes(message.type()) || said === NOT_ON_DEVICE) return;
    if (!ABOUT_THE_GRAPHICS_CARD.test(said)) complaints.push(`console ${message.type()}: ${said}`);
  });
  context.on('weberror', (error) => complaints.push(`uncaught: ${error.error().message}`));
  try {
    const page = await context.newPage();
    await before?.(page);
    await page.goto(address);
    return {
      page,
      context,
      requests,
      complaints,
      foreignRequests: () => requests.filter(isForeign(address)),
      drawn: async () => {
        await page.waitForSelector(DRAWN, { state: 'attached' });
      },
      picture: (name) => savePicture(page, name),
      axe: () => findViolations(page),
      close: () => context.close(),
    };
  } catch (error) {
    await context.close();
    throw error;
  }
};
