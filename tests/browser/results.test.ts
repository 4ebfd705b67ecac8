/** Results against levels in a real browser: counts, the table, boxes, sides, over time, levels. */
import { describe, expect, test } from 'vitest';
import { openApp, type OpenOptions } from './harness';

async function openResults(options: OpenOptions = {}) {
  const app = await openApp({ path: '?site=osier-bend', ...options });
  await app.drawn();
  await app.page.getByLabel('Event').selectOption('2025-09');
  await app.page.getByRole('button', { name: 'Results', exact: true }).click();
  return app;
}

describe.each(['wide', 'laptop', 'tablet'] as const)('at the size of a %s screen', (size) => {
  test('results, their table and their boxes are shown, and axe finds nothing', async () => {
    const app = await openResults({ size });
    await app.picture('results');
    await app.page.getByRole('button', { name: 'Table of samples by analytes' }).click();
    await app.page.getByRole('region', { name: 'Table of samples by analytes' }).waitFor();
    await app.picture('results-table');
    expect(await app.axe()).toEqual([]);
    await app.page.keyboard.press('Escape');
    await app.page.getByLabel('Boxes of results beside the points').check();
    await app.drawn();
    await app.picture('results-boxes');
    expect(await app.axe()).toEqual([]);
  });
});
