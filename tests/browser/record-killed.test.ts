/** Ten points recorded with no network, and the battery pulled in the middle. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, inject, onTestFinished, test } from 'vitest';
import { kill, startOn, type Running } from '../faults/killable';
import { cableTo, isOnDevice } from './cable';
import { firstThatStarts, thisMachine } from './chromium';
import { SIZES } from './opened-page';
import { NAMES, openPlanned, recordPoint } from './ten-points';

const tally = (page: Page, step: string) => page.locator(`dt:text-is("${step}") + dd`).innerText();

async function tallies(page: Page, all: string) {
  for (const step of ['Hole', 'Interval', 'Water'])
    await expect.poll(() => tally(page, step)).toBe(all);
}

/** What a crew typed of a point stands in its steps: depth of the hole, tip, stick-up, water. */
async function isAsTyped(page: Page, name: string, depth: string) {
  await page.getByRole('button', { name: `Open ${name}` }).click();
  const step = (words: RegExp) => page.getByRole('navigation').getByRole('button', { name: words });
  await step(/Hole/).click();
  await page.getByText(`${name}: reached at ${depth} ft`).waitFor();
  await step(/Interval/).click();
  await expect.poll(() => page.getByLabel('Tip depth').inputValue()).toBe('14.05');
  await expect.poll(() => page.getByLabel('Stick-up').inputValue()).toBe('1.42');
  await step(/Water/).click();
  await page.getByRole('cell', { name: '9.87', exact: true }).waitFor();
  await page.getByRole('button', { name: 'All points' }).click();
}

test(
  'of ten points recorded offline, every one confirmed is there after the browser is killed in the middle and again at the end',
  { timeout: 240_000 },
  async () => {
    const profile = mkdtempSync(join(tmpdir(), 'downgradient-field-'));
    const cable = await cableTo(inject('address'));
    const program = await firstThatStarts(thisMachine, (each) => Promise.resolve(each));
    let running: Running | null = null;
    onTestFinished(async () => {
      if (running) await kill(running, profile);
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    });
    /** As in the morning, or after the battery: a browser of the same tablet. */
    const open = async (path: string) => {
      running = await startOn(program, profile, new URL(path, cable.address).href);
      const { page } = running;
      await page.setViewportSize(SIZES.tablet);
      await page.getByRole('button', { name: /^Record/ }).waitFor();
      const killed = async () => {
        if (running) await kill(running, profile);
        running = null;
      };
      return { page, killed };
    };

    const first = await open('?site=osier-bend');
    await isOnDevice(first.page);
    cable.cut();
    await openPlanned(first.page);
    for (const name of NAMES.slice(0, 5)) await recordPoint(first.page, name);
    // A sixth is half typed; its hole is confirmed, and at that moment the battery goes.
    await first.page.getByRole('button', { name: `Open ${NAMES[5]}` }).click();
    await first.page.getByText('Reached', { exact: true }).click();
    await first.page.getByLabel('Depth reached').fill('13.60');
    await first.page.getByRole('button', { name: 'Confirm the hole' }).click();
    await first.page.locator('.confirmed', { hasText: 'reached at 13.60 ft' }).waitFor();
    await first.killed();

    const second = await open('');
    await second.page.getByRole('heading', { level: 1, name: /Ten points/ }).waitFor();
    await second.page.getByRole('button', { name: /^Record/ }).click();
    await expect.poll(() => tally(second.page, 'Hole')).toBe('6 / 10');
    await expect.poll(() => tally(second.page, 'Interval')).toBe('5 / 10');
    await expect.poll(() => tally(second.page, 'Water')).toBe('5 / 10');
    await second.page.getByRole('button', { name: `Open ${NAMES[5]}` }).click();
    await second.page.getByRole('button', { name: /Hole/ }).first().click();
    await second.page.getByRole('list', { name: 'Holes so far' }).getByText('13.60 ft').waitFor();
    await second.page.getByRole('button', { name: 'All points' }).click();
    await recordPoint(second.page, NAMES[5] ?? '', 'the interval');
    for (const name of NAMES.slice(6)) await recordPoint(second.page, name);
    await second.killed();

    const third = await open('');
    await third.page.getByRole('button', { name: /^Record/ }).click();
    await tallies(third.page, '10 / 10');
    await third.page.getByLabel('All', { exact: true }).check();
    for (const name of NAMES)
      await isAsTyped(third.page, name, name === NAMES[5] ? '13.60' : '14.05');
    await third.killed();
  },
);
