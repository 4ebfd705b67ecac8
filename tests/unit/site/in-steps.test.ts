import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { openAway, openFolderAway } from '../../../src/app/open-away';
import { readInSteps } from '../../../src/app/open-in-steps';
import { gridOf, siteOf } from '../../../src/io/open-site';
import { BLOCK_ROWS, tableOf } from '../../../src/domain/site/table';
import { openWhole } from '../../../src/io/keeping/whole-site';
import { zipOf, type Files } from '../../../src/io/package/files';

const FOLDER = new URL('../../../demo-sites/osier-bend/', import.meta.url);
const files: Files = new Map(
  readdirSync(FOLDER)
    .filter((name) => /\.(csv|json)$/.test(name))
    .map((name) => [name, new Uint8Array(readFileSync(new URL(name, FOLDER)))]),
);
const whole = openWhole(files);
if (!whole.ok) throw new Error('The demo site does not open.');
const { package: osierBend } = whole.value.site;

const read = (given: typeof osierBend) => {
  const { grid, problem } = gridOf(given);
  return siteOf(given, grid, problem);
};

test('a zip opened away from the page is the site its folder is', async () => {
  const told: number[] = [];
  const zip = new File([new Uint8Array(zipOf(files))], 'osier-bend.zip');
  const opened = await openAway([zip], ({ done, of }) => told.push(done / of));
  if (!opened.ok) throw new Error(opened.problem);
  expect(opened.value.site.package).toEqual(osierBend);
  expect(told.length).toBeGreaterThan(0);
  expect(told).toEqual(told.toSorted((a, b) => a - b));
  expect(told.every((share) => share > 0 && share <= 1)).toBe(true);
});

/** The folder as a browser hands one over, as far as it is read. */
const folderHandle = (of: Files) =>
  ({
    entries: async function* () {
      for (const [name, bytes] of of) {
        const file = await Promise.resolve(new File([new Uint8Array(bytes)], name));
        yield [name, { kind: 'file', getFile: () => Promise.resolve(file) }];
      }
    },
  }) as unknown as FileSystemDirectoryHandle;

test('a folder opened away from the page is its site, with the sum of each of its files', async () => {
  const opened = await openFolderAway(folderHandle(files));
  if (!opened.ok) throw new Error(opened.problem);
  expect(opened.value.site.package).toEqual(osierBend);
  expect(Object.keys(opened.value.digests).toSorted()).toEqual([...files.keys()].toSorted());
  // SHA-256 by Node's own library.
  for (const [name, bytes] of files)
    expect(opened.value.digests[name]).toBe(createHash('sha256').update(bytes).digest('hex'));
  expect((await openFolderAway(folderHandle(new Map()))).ok).toBe(false);
});

test('what is no site is refused in words', async () => {
  const damaged = await openAway([new File(['no zip'], 'site.zip')]);
  expect(damaged).toMatchObject({
    ok: false,
    problem: expect.stringContaining('no zip') as string,
  });
  const other = await openAway([new File(['a'], 'notes.txt')]);
  expect(other).toMatchObject({ ok: false });
});

test('a site read in steps is at hand afterwards, the same things as before', async () => {
  const events = osierBend.tables.events;
  if (!events) throw new Error('The demo site has no events.');
  const many = Array.from({ length: 3 * BLOCK_ROWS }, (_, i) => [
    `E-${i}`,
    'Round',
    '2025-03-01',
    '2025-03-02',
  ]);
  const given = {
    ...osierBend,
    tables: {
      ...osierBend.tables,
      events: tableOf(['id', 'title', 'first_day', 'last_day'], many),
    },
  };
  await readInSteps(given);
  const site = read(given);
  expect(site.accounts.events).toEqual({
    rows: many.length,
    read: many.length,
    refused: 0,
    blank: 0,
  });
  expect(read(given).events).toBe(site.events);
});

test('a table the site lacks is not read anew each time the site is', () => {
  const { qualifier_legends: _, purge_readings: __, ...tables } = osierBend.tables;
  const without = { ...osierBend, tables };
  const [once, again] = [read(without), read(without)];
  expect(again.qualifierLegends).toBe(once.qualifierLegends);
  expect(again.purgeReadings).toBe(once.purgeReadings);
});
