/**
 * A layout of 3,000 points among 500 drawn utilities open in the built app in a
 * real Chromium, its angle dragged 30 steps with the mouse: how much script each
 * step takes on the page. The aim is within a frame of a 60 Hz screen, 16.7 ms.
 *
 *     npx tsx tests/bench/drag-in-browser.ts
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { chromium, type Page } from 'playwright-core';
import { seeded } from '../../src/domain/layout/seeded';
import { startChromium } from '../browser/chromium';
import { openPage } from '../browser/opened-page';
import { serveBuiltApp } from '../browser/serve';
import { scriptMeter } from './page-time';
import { note } from './rounds';

const SIDE = 1000;
const NODES = 3000;
const UTILITIES = 500;
const STEPS = 30;
const FRAME = 1000 / 60;
const [EAST, NORTH] = [500_000, 4_800_000];

/** The ground of `layout.bench.ts`, with forty wells on it. */
function site(): Uint8Array {
  const random = seeded(20260531);
  const at = (x: number, y: number) => `${(EAST + x).toFixed(2)} ${(NORTH + y).toFixed(2)}`;
  const corners = [at(0, 0), at(SIDE, 0), at(SIDE, SIDE), at(0, SIDE), at(0, 0)];
  const features = [`B,boundary,"POLYGON ((${corners.join(', ')}))",`];
  for (let i = 0; i < UTILITIES; i++) {
    const [x, y] = [random() * SIDE, random() * SIDE];
    const end = at(x + 120 * (random() - 0.5), y + 120 * (random() - 0.5));
    features.push(`U${i},utility,"LINESTRING (${at(x, y)}, ${end})",2`);
  }
  const locations = Array.from({ length: 40 }, (_, i) => {
    const [east, north] = [EAST + random() * SIDE, NORTH + random() * SIDE];
    return `MW-${i + 1},${east.toFixed(2)},${north.toFixed(2)},101.20,surveyed,monitoring well,installed`;
  });
  const descriptor = {
    title: 'Many utilities',
    downgradient: {
      format: 1,
      grid: { name: 'NAD83 / UTM zone 12N', code: 'EPSG:26912', unit: 'm' },
      verticalUnit: 'm',
      verticalDatum: 'NAVD 88',
      soundingTolerance: 0.06,
    },
  };
  const lines = (header: string, rows: readonly string[]) =>
    strToU8(`${header}\n${rows.join('\n')}\n`);
  return zipSync({
    'datapackage.json': strToU8(JSON.stringify(descriptor)),
    'locations.csv': lines(
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      locations,
    ),
    'features.csv': lines('id,kind,shape,buffer', features),
  });
}

/** Till the page has drawn what it was last given. */
const twoFrames = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<void>((done) => {
        requestAnimationFrame(() => requestAnimationFrame(() => done()));
      }),
  );

const part = (numbers: readonly number[], share: number) =>
  numbers.toSorted((a, b) => a - b)[Math.ceil(share * numbers.length) - 1] ?? NaN;
const said = (times: readonly number[]) =>
  `median ${part(times, 0.5).toFixed(1)} ms, nine of ten within ${part(times, 0.9).toFixed(1)} ms, most ${Math.max(...times).toFixed(1)} ms`;

const folder = mkdtempSync(join(tmpdir(), 'many-utilities-'));
const path = join(folder, 'many-utilities.zip');
writeFileSync(path, site());

const server = await startChromium();
const app = await serveBuiltApp();
try {
  const browser = await chromium.connect(server.wsEndpoint());
  const opened = await openPage(browser, `${app.address}?site=osier-bend`, { size: 'laptop' });
  const { page, context, complaints } = opened;
  await opened.drawn();
  await page.locator('summary', { hasText: /^Open, save$/ }).click();
  await page.locator('input[type=file][accept]').first().setInputFiles(path);
  await page.getByText('Many utilities').first().waitFor();
  await page.getByRole('button', { name: /^Lay out/ }).click();
  await page.getByRole('button', { name: 'Grid', exact: true }).click();
  await page.getByLabel('Given').selectOption('count');
  await page.getByLabel('Points wanted, about').fill(String(NODES));
  await page.getByText(/^\d+ points/).first().waitFor(); // prettier-ignore
  await opened.drawn();
  const tally = page.locator('dl', { hasText: 'Ground for each' }).locator('dd');
  const [clear, blocked] = await tally.allTextContents();

  const slider = page.getByLabel(/^Rows run along/);
  await slider.scrollIntoViewIfNeeded();
  const box = await slider.boundingBox();
  if (!box) throw new Error('no angle to drag');
  const angle = async () => Number(await slider.inputValue());
  const middle = box.y + box.height / 2;
  const place = (degrees: number) => box.x + 8 + ((box.width - 16) * degrees) / 180;

  const script = await scriptMeter(page);
  const drag = async (from: number) => {
    const [scripts, tasks]: [number[], number[]] = [[], []];
    await page.mouse.move(place(from), middle);
    await page.mouse.down();
    await twoFrames(page);
    let before = await angle();
    for (let step = 1; step <= STEPS; step++) {
      await script();
      await page.mouse.move(place(from + 2 * step), middle);
      await twoFrames(page);
      const spent = await script();
      const now = await angle();
      if (now === before) throw new Error(`step ${step} turned nothing`);
      before = now;
      scripts.push(spent.script);
      tasks.push(spent.task);
    }
    await page.mouse.up();
    await script();
    await page.waitForTimeout(1500);
    const rest = await script();
    return { scripts, tasks, rest };
  };
  // As much again, holding still: what asking and waiting cost by themselves.
  const idle: number[] = [];
  for (let i = 0; i < STEPS; i++) {
    await script();
    await twoFrames(page);
    idle.push((await script()).script);
  }

  await drag(90);
  const { scripts, tasks, rest } = await drag(20);
  const title = `${NODES} points asked for among ${UTILITIES} utilities (${clear?.trim()} clear; blocked ${blocked?.trim()}), the angle dragged ${STEPS} steps`;
  note(title, `script for each step: ${said(scripts)}; a frame is ${FRAME.toFixed(1)} ms`);
  note('All work of the page for each step, drawing included', said(tasks));
  note('Script of the page where nothing is dragged', said(idle));
  note(
    'When the angle rests, the map and the lists drawn again',
    `${rest.script.toFixed(0)} ms of script`,
  );
  if (complaints.length > 0) console.log(complaints.join('\n'));
  await context.close();
} finally {
  await server.close();
  await app.close();
  rmSync(folder, { recursive: true });
}
