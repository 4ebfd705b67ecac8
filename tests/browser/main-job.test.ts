/** The main job in a real browser: open, see, choose, ask a number where it came from. */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openApp, type OpenedPage, type Size } from './harness';

const INL = join(import.meta.dirname, '../fixtures/inl-southwest/site');

/** The printed number of a caption such as "106°". */
const degrees = (text: string) => Number(/(\d+)°/.exec(text)?.[1]);

async function directionShown({ page }: OpenedPage) {
  return degrees(await page.locator('dt:has-text("grid north") + dd').innerText());
}

test.each(['wide', 'laptop', 'tablet'] as const)(
  'at the size of a %s screen the demo opens on its latest event, asking nobody; axe finds nothing on the sheet, a point and a work',
  async (size: Size) => {
    const app = await openApp({ size, path: '?site=osier-bend' });
    await app.drawn();
    await expect
      .poll(() => app.page.getByRole('heading', { level: 1 }).innerText())
      .toContain('Osier Bend');
    await expect.poll(() => directionShown(app)).toBe(106);
    expect(app.foreignRequests()).toEqual([]);
    await app.picture('check');
    expect(await app.axe()).toEqual([]);
    await app.page.getByRole('button', { name: 'MW-5', exact: true }).first().click();
    await app.page.getByLabel('Event').selectOption('2025-09');
    await app.drawn();
    expect(await app.axe()).toEqual([]);
    await app.picture('point');
    await app.page.getByRole('button', { name: /Horizontal gradient/ }).click();
    expect(await app.axe()).toEqual([]);
    await app.picture('work');
  },
);

describe('on a laptop', () => {
  test('choosing an event turns the arrow, and undoing nothing is said', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    await app.page.getByLabel('Event').selectOption('2026-03');
    await app.drawn();
    await expect.poll(() => directionShown(app)).toBe(126);
    await expect.poll(() => app.page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
  });

  test('a direction that is not resolved has no arrow, and a statement why', async () => {
    const app = await openApp({ path: '?site=quellmoor' });
    await app.drawn();
    await app.page.getByLabel('Event').selectOption('2025-10');
    await app.drawn();
    await app.page.getByText('The direction of flow is not resolved.').waitFor();
    await expect
      .poll(() => app.page.getByText(/no more than the stated errors/).count())
      .toBeGreaterThan(0);
    await expect.poll(() => app.page.getByText('Direction, grid north').count()).toBe(0);
    await app.picture('not-resolved');
  });

  test('a number opens its work, and every printed line gives its printed answer', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    await app.page.getByLabel('Event').selectOption('2025-09');
    await app.page.getByRole('button', { name: /Horizontal gradient/ }).click();
    const work = app.page.getByRole('region', { name: 'Work behind the number' });
    await work.waitFor();
    for (const folded of await work.locator('details:not([open]) > summary').all())
      await folded.click();
    const lines = await work.locator('[data-work-line]').allInnerTexts();
    const answers = await work.locator('[data-work-answer]').allInnerTexts();
    expect(lines.length).toBeGreaterThanOrEqual(3);
    lines.forEach((line, i) => {
      const answer = answers[i] ?? '';
      const value = new Function(
        'sqrt',
        `return ${line.replaceAll('−', '-').replaceAll('^', '**')}`,
      )(Math.sqrt) as number;
      const decimals = /\.(\d+)/.exec(answer)?.[1]?.length ?? 0;
      expect(Math.abs(value - Number(answer.replace('−', '-')))).toBeLessThanOrEqual(
        0.5 * 10 ** -decimals * (1 + 1e-6),
      );
    });
    await app.page.keyboard.press('Escape');
    await expect.poll(() => work.count()).toBe(0);
  });

  test('a head opens down to the two cells somebody typed', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    await app.page.getByRole('button', { name: /^960\.20, Head in MW-1/ }).click();
    const work = app.page.getByRole('region', { name: 'Work behind the number' });
    await expect.poll(() => work.innerText()).toMatch(/water_levels\.csv, row \d+, depth_to_water/);
    await expect.poll(() => work.innerText()).toMatch(/measuring_points\.csv, row 2, elevation/);
  });

  test('a non-detect at 25 against a level of 5 is said not to be told', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    await app.page.getByLabel('Event').selectOption('2025-09');
    await app.page.getByRole('button', { name: 'Results', exact: true }).click();
    await app.page.getByText('limit exceeds level (cannot tell)').first().click();
    const told = app.page.getByText(/limit of 25 µg\/L is above the level/);
    await expect.poll(() => told.count()).toBeGreaterThan(0);
  });

  test('the three-point construction is drawn when asked', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    await app.page.getByLabel('Draw the three-point construction').check();
    await app.drawn();
    await expect
      .poll(() => app.page.getByLabel('Wells of the construction').isVisible())
      .toBe(true);
    await app.picture('construction');
  });

  test('all of it works from the keyboard: event, point, work and back', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    const { page } = app;
    const tabTo = async (wanted: string) => {
      for (let i = 0; i < 80; i++) {
        await page.keyboard.press('Tab');
        const name = await page.evaluate(() => {
          const at = document.activeElement;
          return `${at?.getAttribute('aria-label') ?? ''} ${at?.textContent ?? ''}`;
        });
        if (name.includes(wanted)) return;
      }
      throw new Error(`no way to “${wanted}” by key`);
    };
    await tabTo('Horizontal gradient');
    await page.keyboard.press('Enter');
    await page.getByRole('region', { name: 'Work behind the number' }).waitFor();
    await page.keyboard.press('Enter'); // the button that goes back has the focus
    await tabTo('MW-4');
    await page.keyboard.press('Enter');
    await page.getByRole('region', { name: 'Point MW-4' }).waitFor();
  });

  test('a folder of real wells opens, and says what it cannot', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    await app.page.getByText('Open, save', { exact: true }).click();
    await app.page.getByLabel('Open a folder of tables').setInputFiles(INL);
    await app.page.getByRole('heading', { level: 1, name: /Idaho/ }).waitFor();
    await app.page.getByLabel('Event').selectOption('Levels 2008');
    await app.drawn();
    await expect.poll(() => directionShown(app)).toBe(226);
    await expect
      .poll(() => app.page.getByText(/do not lie on one plane/).count())
      .toBeGreaterThan(0);
    await app.picture('real-wells');
  });

  test('a folder that is no site is said in a sentence, and another can be opened', async () => {
    const app = await openApp({ path: '?site=osier-bend' });
    await app.drawn();
    await app.page.getByText('Open, save', { exact: true }).click();
    await app.page.getByLabel('Open a zip of a site').setInputFiles({
      name: 'site.zip',
      mimeType: 'application/zip',
      buffer: Buffer.from('not a zip'),
    });
    await app.page.getByRole('alert').waitFor();
    await expect
      .poll(() => app.page.getByRole('alert').innerText())
      .toBe('This zip is not opened: it is cut short, or is no zip.');
    await app.page.getByText('Open, save', { exact: true }).click();
    await app.page.getByRole('button', { name: 'Demo site: quellmoor' }).click();
    await app.drawn();
  });
});
