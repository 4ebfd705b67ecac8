/**
 * A laboratory file of 1,000,000 rows (about 80 MB) through the import screen of
 * the built app in a real Chromium, against PapaParse alone on the same file in
 * a worker of the same page:
 *
 *     npx tsx tests/bench/import-in-browser.ts [rows] [rounds]
 *
 * Said of each round: the time, the longest the page could not have answered a
 * click, and the most memory the page's process held while the file was read.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { startChromium } from '../browser/chromium';
import { openPage } from '../browser/opened-page';
import { serveBuiltApp } from '../browser/serve';
import { labFile, LEVELS } from './lab-file';
import {
  forgetPeak,
  fromChangeTill,
  longestGap,
  peakMemory,
  seconds,
  watchGaps,
} from './page-time';
import { note } from './rounds';

const ROWS = Number(process.argv[2] ?? 1_000_000);
const ROUNDS = Number(process.argv[3] ?? 2);
const WAIT = { timeout: 300_000 };

const PEER = 'papaparse-alone.js';

/** The peer's worker: the file's text parsed whole, or by the pieces PapaParse itself reads files in. */
const peerSource = () => {
  const require = createRequire(import.meta.url);
  const library = readFileSync(require.resolve('papaparse/papaparse.min.js'), 'utf8');
  return `${library}
onmessage = async ({ data: { file, whole } }) => {
  const start = performance.now();
  const done = (rows) => postMessage({ took: performance.now() - start, rows });
  if (whole) done(Papa.parse(await file.text()).data.length);
  else {
    let rows = 0;
    Papa.parse(file, { chunk: ({ data }) => { rows += data.length; }, complete: () => done(rows) });
  }
};`;
};

type Alone = { readonly took: number; readonly rows: number };

/** PapaParse alone on the file of an input of its own, in a worker of the page. */
const papaAlone = (page: Page, whole: boolean): Promise<Alone> =>
  page.evaluate(
    ([address, isWhole]) =>
      new Promise<Alone>((done, failed) => {
        const file = document.querySelector<HTMLInputElement>('#peer-file')?.files?.[0];
        const worker = new Worker(address);
        worker.onerror = ({ message }) => failed(new Error(message));
        worker.onmessage = ({ data }: MessageEvent<Alone>) => {
          worker.terminate();
          done(data);
        };
        worker.postMessage({ file, whole: isWhole });
      }),
    [PEER, whole] as const,
  );

const folder = mkdtempSync(join(tmpdir(), 'lab-file-'));
const path = join(folder, 'lab.csv');
writeFileSync(path, labFile(ROWS));

const server = await startChromium();
const app = await serveBuiltApp();
try {
  const browser = await chromium.connect(server.wsEndpoint());
  const { page, context, complaints } = await openPage(browser, `${app.address}?site=osier-bend`, {
    size: 'laptop',
    before: async (before) => {
      await before.route(`**/${PEER}`, (route) =>
        route.fulfill({ contentType: 'text/javascript', body: peerSource() }),
      );
    },
  });
  const menu = async (item: string | RegExp) => {
    await page.locator('summary', { hasText: /^Open, save$/ }).click();
    await page.getByRole('banner').getByRole('button', { name: item }).click();
  };
  await menu('A new, empty site');
  await page.getByLabel('Title', { exact: true }).fill('A million results');
  await page.getByRole('button', { name: 'Choose another grid' }).click();
  await page.getByLabel('Grid by name, number or region').fill('NAD83 UTM 12N');
  await page
    .getByRole('button', { name: /^NAD83 \/ UTM zone 12N/ })
    .first()
    .click();
  await page.getByRole('button', { name: 'Keep these settings' }).click();
  await menu(/Take files into its tables/);
  await page.getByLabel(/A block from a spreadsheet/).fill(LEVELS);
  await page.getByRole('button', { name: 'Look at the block' }).click();
  const set = page.getByLabel('What is this set of levels called?');
  await set.fill('Levels');
  await set.press('Enter');
  await page.getByRole('row', { name: /^Rows 7 7 7 / }).waitFor();
  await page.getByRole('button', { name: 'Take it in' }).click();
  await page.getByText(/^what was pasted: Added/).waitFor();

  await page.evaluate(() => {
    const input = document.createElement('input');
    input.type = 'file';
    input.id = 'peer-file';
    document.body.append(input);
  });
  await page.locator('#peer-file').setInputFiles(path);
  await watchGaps(page);

  /** From a change of a field till there is a preview that holds. */
  const part = async (till: string, does: () => Promise<unknown>) => {
    await longestGap(page);
    const took = await fromChangeTill(page, till, does);
    return { took, gap: await longestGap(page) };
  };
  const LOOKED = 'section[aria-busy=false] footer';

  for (let round = 1; round <= ROUNDS; round++) {
    const whole = await papaAlone(page, true);
    const pieces = await papaAlone(page, false);
    const isForgotten = await forgetPeak(browser);
    const read = await part('section[aria-busy] input[type=number]', () =>
      page.getByLabel('Files', { exact: true }).setInputFiles(path),
    );
    const start = performance.now();
    await page.locator(LOOKED).waitFor(WAIT);
    const first = { took: performance.now() - start, gap: await longestGap(page) };
    const looks: { took: number; gap: number }[] = [];
    for (const [question, answer] of [
      [/Which event do/, 'year'],
      [/What are these samples for/, 'field sample'],
      [/What are the locations the site/, 'monitoring well'],
    ] as const) {
      const select = page.getByLabel(question).first();
      looks.push(await part(LOOKED, () => select.selectOption(answer)));
    }
    const account = await page.getByRole('row', { name: /^Rows / }).innerText();
    const verdicts = await page.locator('.verdicts').innerText();
    const last = looks.at(-1) ?? first;
    const total = read.took + last.took;
    const peer = Math.min(whole.took, pieces.took);
    note(
      `Round ${round}: ${account.replaceAll(/\s+/g, ' ')}`,
      `PapaParse alone: whole ${seconds(whole.took)}, by pieces ${seconds(pieces.took)} (${pieces.rows} rows)`,
    );
    note(
      '  read, checked, converted and given verdicts',
      `${seconds(total)}: ${(total / peer).toFixed(2)} × PapaParse alone (${(total / whole.took).toFixed(2)} × whole, ${(total / pieces.took).toFixed(2)} × by pieces)`,
    );
    note(
      '  of this read',
      `${seconds(read.took)} (longest gap ${read.gap} ms); questions found ${seconds(first.took)} (${first.gap} ms), answered ${looks.map(({ took, gap }) => `${seconds(took)} (${gap} ms)`).join(', ')}`,
    );
    note(
      '  read and looked at first, till its questions stand there',
      `${seconds(read.took + first.took)}: ${((read.took + first.took) / peer).toFixed(2)} × PapaParse alone`,
    );
    note(
      '  most memory of the page’s process',
      `${await peakMemory(browser)} MB${isForgotten ? '' : ', PapaParse’s included'}; ${verdicts.replaceAll(/\s+/g, ' ')}`,
    );
    if (round < ROUNDS) {
      await page.getByRole('button', { name: 'Leave this file out' }).click();
      continue;
    }
    await longestGap(page);
    const begun = performance.now();
    await page.getByRole('button', { name: 'Take it in' }).click();
    await page.getByText(/^lab.csv: Added/).waitFor(WAIT);
    const taken = { took: performance.now() - begun, gap: await longestGap(page) };
    note(
      '  taken in',
      `${seconds(taken.took)} (longest gap ${taken.gap} ms); memory ${await peakMemory(browser)} MB`,
    );
  }
  if (complaints.length > 0) console.log(complaints.join('\n'));
  await context.close();
} finally {
  await server.close();
  await app.close();
  rmSync(folder, { recursive: true });
}
