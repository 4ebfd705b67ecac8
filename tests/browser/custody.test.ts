/** What was sent to the laboratory against what came back, on the screen. */
import { expect, test } from 'vitest';
import { zipOf } from '../../src/io/package/files';
import { filesIn } from '../faults/zips';
import { openApp } from './harness';

test('a sample that came back under another name is given its results; one that did not come back is named', async () => {
  const app = await openApp({ path: '?site=osier-bend', size: 'tablet' });
  await app.drawn();
  const { page } = app;
  const demo = new Map(filesIn('demo-sites/osier-bend'));
  const results = Buffer.from(demo.get('results.csv') ?? [])
    .toString()
    .split('\n');
  demo.set(
    'results.csv',
    Buffer.from(
      results
        .filter((line) => !line.startsWith('MW-2-2609,'))
        .map((line) => line.replace(/^MW-1-2609,/, 'mw 01 2609,'))
        .join('\n'),
    ),
  );
  await page.locator('summary', { hasText: /^Open/ }).first().click();
  const zip = { name: 'a.zip', mimeType: 'application/zip', buffer: Buffer.from(zipOf(demo)) };
  await page.getByLabel('Open a zip of a site').setInputFiles(zip);
  await page.getByText('Not yet edited').waitFor({ state: 'detached' });
  await page
    .getByRole('button', { name: /Results/ })
    .first()
    .click();

  const section = page.locator('details', { hasText: 'Sent and reported' }).last();
  await section.getByText('2 to look at').waitFor();
  await section.getByText('mw 01 2609', { exact: true }).waitFor();
  await section.getByText(/but for spelling the names are the same/).waitFor();
  await section.getByRole('listitem').getByText('MW-2-2609').waitFor();
  await section.scrollIntoViewIfNeeded();
  await app.picture('custody');
  expect(await app.axe()).toEqual([]);
  await section.getByRole('button', { name: 'Give its results to MW-1-2609' }).click();
  await section.getByText('1 to look at').waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await section.getByText('2 to look at').waitFor();
});
