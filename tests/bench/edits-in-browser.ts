/**
 * From an edit to what it changes on the page, in the built app in a real
 * Chromium: at the usual size, and at a sixteenth, a quarter and the whole of the
 * big one. A depth is typed in Tables; then it is undone and redone with the map
 * and the heads of its event on the screen. The aims are within a frame of a
 * 60 Hz screen, 16.7 ms, at the usual size and 100 ms at the big one. Said with
 * it: how long each size takes to open, and the memory it comes to.
 *
 *     npx tsx tests/bench/edits-in-browser.ts
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { startChromium } from '../browser/chromium';
import { openPage } from '../browser/opened-page';
import { serveBuiltApp } from '../browser/serve';
import { BIG, siteOfSize, USUAL, type SiteSize } from './big-site';
import { longestGap, peakMemory, seconds, watchGaps } from './page-time';
import { note } from './rounds';

const part = (of: number): SiteSize => ({
  ...BIG,
  locations: BIG.locations / of,
  gauged: Math.ceil(BIG.gauged / of),
  results: BIG.results / of,
});
const SIZES: readonly (readonly [name: string, size: SiteSize])[] = [
  ['the usual size', USUAL],
  ['a sixteenth of the big size', { ...part(16), locations: 312 }],
  ['a quarter of the big size', part(4)],
  ['the big size', BIG],
];

/** Times each is done; odd, for a middle one. */
const TIMES = 11;

/** Presses Undo or Redo; how long till all that hangs from it stands in the document, and till that is painted. */
const pressed = (page: Page, deed: 'Undo' | 'Redo') =>
  page.evaluate(async (name) => {
    const button = [...document.querySelectorAll('button')].find((each) =>
      `${each.getAttribute('aria-label') ?? ''} ${each.textContent}`.includes(name),
    );
    if (!button || button.disabled) throw new Error(`nothing to ${name}`);
    const start = performance.now();
    button.click();
    // Svelte answers in the microtasks that follow, before any other task of the page.
    for (let i = 0; i < 20; i++) await Promise.resolve();
    const answered = performance.now() - start;
    await new Promise<void>((done) => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => done();
        port2.postMessage(null);
      });
    });
    return { answered, painted: performance.now() - start };
  }, deed);

const middle = (numbers: readonly number[]) =>
  numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? NaN;
const said = (numbers: readonly number[]) =>
  `median ${middle(numbers).toFixed(1)} ms, most ${Math.max(...numbers).toFixed(1)} ms`;

const folder = mkdtempSync(join(tmpdir(), 'edits-'));
const server = await startChromium();
const app = await serveBuiltApp();
try {
  const browser = await chromium.connect(server.wsEndpoint());
  for (const [name, size] of SIZES) {
    const path = join(folder, 'site.zip');
    writeFileSync(path, siteOfSize(size));
    const opened = await openPage(browser, `${app.address}?site=osier-bend`, { size: 'laptop' });
    const { page } = opened;
    page.setDefaultTimeout(240_000);
    await opened.drawn();
    await watchGaps(page);
    const start = performance.now();
    await page.locator('summary', { hasText: /^Open, save$/ }).click();
    await page.locator('input[type=file][accept]').first().setInputFiles(path);
    await page.getByText('A big site').first().waitFor();
    await opened.drawn();
    const took = performance.now() - start;
    note(
      `Opened, ${name}: ${size.locations.toLocaleString('en-US')} locations, ${size.events} events, ${size.results.toLocaleString('en-US')} results`,
      `${seconds(took)}, longest gap ${await longestGap(page)} ms, memory ${await peakMemory(browser)} MB`,
    );

    await page.getByLabel('Event').first().selectOption('E-001');
    await page.getByRole('button', { name: 'Tables', exact: true }).click();
    await page.getByLabel('Table', { exact: true }).selectOption('water_levels');
    const cell = page.locator('#cell-0-4');
    await cell.click();
    await page.keyboard.type((Number(await cell.innerText()) + 0.1).toFixed(2));
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Back to the map' }).click();
    await opened.drawn();

    const heads = () => page.locator('main, body').first().innerText();
    const before = await heads();
    const times: { answered: number; painted: number }[] = [];
    for (let i = 0; i < 2 * TIMES; i++) {
      const time = await pressed(page, i % 2 === 0 ? 'Undo' : 'Redo');
      await opened.drawn();
      if (i === 0 && (await heads()) === before) throw new Error('the edit changed nothing');
      times.push(time);
    }
    note(
      `A depth changed, ${name}`,
      `all of it answered: ${said(times.map(({ answered }) => answered))}; painted: ${said(times.map(({ painted }) => painted))}`,
    );
    await opened.close();
  }
} finally {
  await server.close();
  await app.close();
  rmSync(folder, { recursive: true });
}
