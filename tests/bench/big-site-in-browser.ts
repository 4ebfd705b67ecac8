/**
 * A site of 5,000 locations, 50,000 water levels and 1,000,000 results open in
 * the built app in a real Chromium: how much script each thing a person does
 * takes on the page. The aim is under 100 ms each.
 *
 *     npx tsx tests/bench/big-site-in-browser.ts [results]
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Locator } from 'playwright-core';
import { startChromium } from '../browser/chromium';
import { openPage } from '../browser/opened-page';
import { serveBuiltApp } from '../browser/serve';
import { BIG, siteOfSize } from './big-site';
import {
  answerTo,
  gapsOf,
  longestGap,
  peakMemory,
  scriptMeter,
  seconds,
  watchGaps,
} from './page-time';
import { note } from './rounds';

const RESULTS = Number(process.argv[2] ?? 1_000_000);
const WAIT = { timeout: 240_000 };

const folder = mkdtempSync(join(tmpdir(), 'big-site-'));
const path = join(folder, 'big-site.zip');
writeFileSync(path, siteOfSize({ ...BIG, results: RESULTS }));

const server = await startChromium();
const app = await serveBuiltApp();
try {
  const browser = await chromium.connect(server.wsEndpoint());
  const opened = await openPage(browser, `${app.address}?site=osier-bend`, { size: 'laptop' });
  const { page, context, complaints } = opened;
  page.setDefaultTimeout(WAIT.timeout);
  await opened.drawn();
  await watchGaps(page);
  const script = await scriptMeter(page);
  const said = (what: string, took: { script: number; task: number }, gap: number) =>
    note(
      what,
      `${Math.round(took.script)} ms of script, ${Math.round(took.task)} ms of all work, longest gap ${gap} ms`,
    );
  /** Do something and wait till the page is quiet again. */
  const measure = async (what: string, does: () => Promise<unknown>) => {
    await script();
    await longestGap(page);
    await does();
    await quiet();
    said(what, await script(), await longestGap(page));
  };
  const quiet = async () => {
    for (let calm = 0; calm < 3;) {
      await page.waitForTimeout(120);
      calm = (await gapsOf(page)).recent < 60 ? calm + 1 : 0;
    }
  };

  const start = performance.now();
  await page.locator('summary', { hasText: /^Open, save$/ }).click();
  await page.locator('input[type=file][accept]').first().setInputFiles(path);
  await page.getByText('A big site').first().waitFor();
  await opened.drawn();
  await quiet();
  note(
    'Opened',
    `in ${seconds(performance.now() - start)}; longest gap ${await longestGap(page)} ms; memory ${await peakMemory(browser)} MB`,
  );

  /** Choose in a field; the app's own answer is told from what comes after it. */
  const choose = async (what: string, field: Locator, value: string) => {
    await field.waitFor();
    let answer = 0;
    await measure(what, async () => {
      answer = await answerTo(field, value);
    });
    note('  of this the app’s own answer', `${answer} ms`);
  };
  const event = page.getByLabel('Event').first();
  const map = page.locator('canvas').first();
  const box = (await map.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
  const middle = [box.x + box.width / 2, box.y + box.height / 2] as const;
  for (const round of ['first', 'again']) {
    await measure(`pan, ${round}`, async () => {
      await page.mouse.move(...middle);
      await page.mouse.down();
      for (let i = 1; i <= 10; i++) await page.mouse.move(middle[0] + i * 8, middle[1] + i * 3);
      await page.mouse.up();
    });
    await measure(`select a point, ${round}`, () =>
      page.mouse.click(middle[0] + (round === 'first' ? 0 : 40), middle[1]),
    );
    await choose(`change the event, ${round}`, event, round === 'first' ? 'E-150' : 'E-120');
  }
  await measure('open Results', () => page.getByRole('button', { name: 'Results' }).click());
  for (const analyte of ['benzene', 'trichloroethylene', 'vinyl chloride'])
    await choose(`choose ${analyte}`, page.getByRole('combobox', { name: /^Analyte$/ }), analyte);
  for (const set of ['A tenth', 'Federal drinking water 2024 (40 CFR 141)', 'A tenth'])
    await choose(`choose ${set}`, page.getByLabel('Compared with').first(), set);
  await choose('change the event in Results', event, 'E-090');
  if (process.argv.includes('every-event')) {
    await measure('every event together', () =>
      page.getByLabel('Results of every event together').check(),
    );
    for (const analyte of ['toluene', 'benzene', ''])
      await choose(
        `choose ${analyte || 'all analytes'}, every event`,
        page.getByRole('combobox', { name: /^Analyte$/ }),
        analyte,
      );
    for (const analyte of ['', 'lead'])
      for (const set of ['Federal drinking water 2024 (40 CFR 141)', 'A tenth']) {
        if (analyte) await page.getByRole('combobox', { name: /^Analyte$/ }).selectOption(analyte);
        await quiet();
        await choose(
          `choose ${set} for ${analyte || 'all analytes'}, every event`,
          page.getByLabel('Compared with').first(),
          set,
        );
      }
  }
  note('Memory', `${await peakMemory(browser)} MB`);
  if (complaints.length > 0) console.log(complaints.join('\n'));
  await context.close();
} finally {
  await server.close();
  await app.close();
  rmSync(folder, { recursive: true });
}
