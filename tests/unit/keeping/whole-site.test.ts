import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { zipped, unzipped } from '../../../src/app/keeping/pack';
import { SiteKeeper } from '../../../src/app/keeping/site-keeper.svelte';
import type { DataPackage } from '../../../src/domain/site/data-package';
import type { Edit } from '../../../src/domain/site/edits/apply';
import { picturesOf, type Picture } from '../../../src/domain/site/pictures';
import { sentenceOf } from '../../../src/domain/site/problem';
import { fieldsOf, TABLE_NAMES } from '../../../src/domain/site/schema';
import { tableOf } from '../../../src/domain/site/table';
import { changeOf, lineOf, readJournal } from '../../../src/io/keeping/journal';
import { SiteStore } from '../../../src/io/keeping/site-store';
import { filesOf, openWhole, type WholeSite } from '../../../src/io/keeping/whole-site';
import { bytesOf, openZip, textOf, zipOf, type Files } from '../../../src/io/package/files';
import { migrated, type OpenedFolder, type Steps } from '../../../src/io/package/migrate';
import { openPackage } from '../../../src/io/package/open';
import {
  contentOf,
  made,
  newDatabase,
  resultRows,
  smallSite,
  StandInChannels,
  StandInLocks,
  windowOf,
  wholeOf,
  writeLevel,
} from './stand-ins';

vi.setConfig({ testTimeout: 60_000 }); // on a busy machine

const DEMOS = fileURLToPath(new URL('../../../demo-sites/', import.meta.url));

/** A demo site's folder, with a picture and a journal of earlier work beside its tables. */
const folderOf = (name: string): Files => {
  const files = new Map<string, Uint8Array>();
  for (const file of readdirSync(join(DEMOS, name)))
    files.set(file, new Uint8Array(readFileSync(join(DEMOS, name, file))));
  files.set('images/plan of 2019.png', new Uint8Array([137, 80, 78, 71, 0, 255]));
  files.set('journal.jsonl', bytesOf('{"when":"2025-01-01T08:00:00Z","who":null}\r\nnot ours\n'));
  return files;
};

const opened = (files: Files): WholeSite => {
  const result = openWhole(files);
  if (!result.ok) throw new Error(sentenceOf(result.problem));
  return result.value.site;
};

const openedZip = (bytes: Uint8Array): WholeSite => {
  const files = openZip(bytes);
  if (!files.ok) throw new Error(files.problem);
  return opened(files.value);
};

test.each(['osier-bend', 'quellmoor'])(
  'the site %s opens, saves, opens as the same site; saved twice the zip is the same to the byte',
  async (name) => {
    const folder = folderOf(name);
    const first = opened(folder);
    const zip = await zipped(first);
    const second = openedZip(zip);
    // The descriptor is written anew at the first save, with the units of columns that are
    // newer than it; all else is the same site.
    const plain = ({ package: site }: WholeSite) => {
      const { descriptor, columnUnits, ...rest } = contentOf(site);
      return rest;
    };
    expect(plain(second)).toEqual(plain(first));
    expect(second.package.columnUnits).toMatchObject(first.package.columnUnits);
    expect(await zipped(second)).toEqual(zip);
    expect(await unzipped(second)).toEqual(filesOf(second));

    // What is none of its tables is carried along untouched.
    const files = filesOf(second);
    for (const path of ['images/plan of 2019.png', 'journal.jsonl', 'README.md', 'expected.json'])
      expect(files.get(path)).toEqual(folder.get(path));
  },
);

test('a site that went through the browser’s database gives the same zip', async () => {
  const around = windowOf();
  const whole = opened(folderOf('osier-bend'));
  const keeper = SiteKeeper.begin(whole, around);
  await keeper.close();
  const again = await SiteKeeper.open(keeper.id, around);
  if (!again.ok) throw new Error(again.problem.kind);
  expect(zipOf(filesOf(again.value.whole))).toEqual(zipOf(filesOf(whole)));
});

test('a picture placed in the open site is on the disk before the step that names it, and goes through the zip to the byte', async () => {
  const store = new SiteStore(newDatabase());
  const [locks, channels] = [new StandInLocks(), new StandInChannels()];
  const around = windowOf({ store, locks, news: channels.news });
  const whole = opened(folderOf('osier-bend'));
  const keeper = SiteKeeper.begin(whole, around);
  const reader = await vi.waitFor(async () => {
    const found = await SiteKeeper.open(keeper.id, windowOf({ store, locks, news: channels.news }));
    if (!found.ok) throw new Error(found.problem.kind);
    return found.value;
  });
  const bytes = Uint8Array.from({ length: 5_000 }, (_, i) => (i * 7) % 251);
  const picture: Picture = {
    path: 'images/air-photo.png',
    title: 'Air photo',
    type: 'image/png',
    size: { width: 900, height: 600 },
    marks: [{ name: 'Well MW-1', dots: [10, 20], grid: [488580, 1822310] }],
    opacity: 0.5,
    shown: true,
  };
  const before = keeper.site;
  const edit: Edit = { kind: 'place-pictures', pictures: [picture] };
  keeper.carry(picture.path, bytes);
  const isKept = await keeper.keep({ did: 'edit', label: 'Place it', edit, before, after: made(before, edit) }); // prettier-ignore
  expect(isKept).toBe(true);
  const onDisk = await store.files(keeper.id);
  expect(onDisk.ok && onDisk.value.get(picture.path)).toEqual(bytes);
  // A window that reads along has it too.
  await vi.waitFor(() => expect(reader.carried.get(picture.path)).toEqual(bytes));
  await reader.close();
  await keeper.close();

  const again = await SiteKeeper.open(keeper.id, around);
  if (!again.ok) throw new Error(again.problem.kind);
  const zip = await zipped(again.value.whole);
  const back = openedZip(zip);
  expect(back.carried.get(picture.path)).toEqual(bytes);
  expect(picturesOf(back.package.descriptor)).toEqual([picture]);
  expect(await zipped(back)).toEqual(zip);
});

test('columns we do not know and the order of rows survive an edit and a save', () => {
  const files = new Map(folderOf('osier-bend'));
  files.set('locations.csv', bytesOf('driller,id,easting\nB,Z-9,3\nA,A-1,1\n,M-5,2\n'));
  const site = opened(files).package;
  const cell = { row: 1, column: 'easting', text: '1.50' };
  const edited = made(site, { kind: 'write-cells', table: 'locations', cells: [cell] });
  expect(textOf(filesOf(wholeOf(edited)).get('locations.csv') ?? new Uint8Array())).toBe(
    'driller,id,easting\nB,Z-9,3\nA,A-1,1.50\n,M-5,2\n',
  );
});

test('the journal is only added to: every byte that was there stays', () => {
  const bytes = fc.uint8Array({ maxLength: 40 });
  const lines = fc.array(
    fc.json().map((text) => text.replaceAll(/\s/g, ' ')),
    { maxLength: 4 },
  );
  fc.assert(
    fc.property(bytes, lines, (before, added) => {
      const carried = new Map([['journal.jsonl', before]]);
      const once = filesOf(wholeOf(smallSite(), { carried, lines: added }));
      const journal = once.get('journal.jsonl') ?? new Uint8Array();
      expect(journal.slice(0, before.length)).toEqual(before);
      if (added.length > 0)
        expect(textOf(journal.slice(before.length)).trimStart()).toBe(`${added.join('\n')}\n`);
      // Opened and saved again with nothing done, it is the same file.
      expect(filesOf(opened(once)).get('journal.jsonl')).toEqual(journal);
    }),
  );
});

test('a site nothing was done to has no journal', () => {
  expect(filesOf(wholeOf(smallSite())).has('journal.jsonl')).toBe(false);
});

test('a line of the journal says when, who, what, and what stood there before', () => {
  const site = smallSite();
  const line = lineOf({
    when: '2026-05-31T14:05:09.000Z',
    who: 'KB',
    did: 'edit',
    label: 'Write 8.35',
    change: changeOf(site, writeLevel('8.35')),
  });
  expect(line).toBe(
    '{"when":"2026-05-31T14:05:09.000Z","who":"KB","did":"edit","label":"Write 8.35",' +
      '"change":{"what":"write-cells","table":"water_levels","cells":' +
      '[{"row":2,"column":"depth_to_water","before":"8.20","after":"8.35"}]}}',
  );
});

test('rows taken out are written down, so that no reading is lost', () => {
  const edit = { kind: 'remove-rows', table: 'water_levels', rows: [1] } as const;
  expect(changeOf(smallSite(), edit)).toEqual({
    what: 'remove-rows',
    table: 'water_levels',
    count: 1,
    rows: [
      {
        row: 3,
        before: {
          screen: 'DP-2',
          event: 'E1',
          time: '2026-05-30',
          depth_to_water: '<soft>',
          status: 'recovering',
        },
      },
    ],
  });
});

test('in a step of several edits, each part says what it found after those before it', () => {
  const edits = [writeLevel('8.30'), writeLevel('8.40'), resultRows(2)];
  expect(changeOf(smallSite(), { kind: 'together', edits })).toMatchObject({
    changes: [
      { cells: [{ before: '8.20', after: '8.30' }] },
      { cells: [{ before: '8.30', after: '8.40' }] },
      { what: 'add-rows', row: 2, count: 2 },
    ],
  });
});

test('lines of a journal that are not ours are passed over', () => {
  const ours = lineOf({ when: '2026-05-31T14:05:09Z', who: null, did: 'undo', label: 'Undo' });
  expect(readJournal(`${ours}\r\n\nnot json\n[1]\nnull\n{"when":1}\n`)).toEqual([
    { when: '2026-05-31T14:05:09Z', who: null, did: 'undo', label: 'Undo' },
    ...[null, null, null, null],
  ]);
});

/** An invented format 0: the settings stood under "site", and depths were called "dtw". */
const FROM_ZERO: Steps<OpenedFolder> = new Map([
  [
    0,
    ({ descriptor, files }) => {
      const { site, ...rest } = descriptor;
      const levels = textOf(files.get('water_levels.csv') ?? new Uint8Array());
      return {
        descriptor: { ...rest, downgradient: { ...(site as object), format: 1 } },
        files: new Map(files).set(
          'water_levels.csv',
          bytesOf(levels.replace('dtw', 'depth_to_water')),
        ),
      };
    },
  ],
]);

const olderSite = (): Files =>
  new Map([
    [
      'datapackage.json',
      bytesOf(
        JSON.stringify({
          title: 'Old yard',
          site: { verticalUnit: 'ft', grid: { unit: 'ft' } },
          downgradient: { format: 0 },
        }),
      ),
    ],
    ['water_levels.csv', bytesOf('screen,dtw\nMW-1,8.20\n')],
  ]);

test('a site in an older format is brought to this one, step by step', () => {
  const result = openPackage(olderSite(), FROM_ZERO);
  if (!result.ok) throw new Error(sentenceOf(result.problem));
  const { package: site } = result.value;
  expect(site.settings).toMatchObject({ title: 'Old yard', verticalUnit: 'ft' });
  expect(site.tables.water_levels?.columns).toEqual(['screen', 'depth_to_water']);
  const saved = JSON.parse(textOf(filesOf(wholeOf(site)).get('datapackage.json')!));
  expect(saved.downgradient.format).toBe(1);
});

test('a format no step leads from, and a newer one, are refused with a sentence', () => {
  const older = openPackage(olderSite());
  expect(older.ok ? '' : sentenceOf(older.problem)).toBe(
    'datapackage.json: expected format 1, found “0”.',
  );
  const newer = new Map([['datapackage.json', bytesOf('{"downgradient":{"format":2}}')]]);
  const refused = openPackage(newer);
  expect(refused.ok ? '' : sentenceOf(refused.problem)).toMatch(/open this site with a newer/);
});

test('steps are taken in order, and none is left out', () => {
  const steps: Steps<string> = new Map([
    [0, (s) => `${s}1`],
    [1, (s) => `${s}2`],
    [3, (s) => `${s}4`],
  ]);
  expect(migrated('0', 0, 2, steps)).toBe('012');
  expect(migrated('2', 2, 2, steps)).toBe('2');
  expect(migrated('0', 0, 4, steps)).toBeNull();
  expect(migrated('5', 5, 4, steps)).toBeNull();
});

test('whatever stands in the cells of any table, it comes back, and the second save is the first', () => {
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 8 }),
    fc.constantFrom(
      '',
      '=A1',
      "'=A1",
      '+1',
      '-1.0',
      '@x',
      '\t',
      '"',
      ',',
      'a\r\nb',
      '\n',
      ' 8.20 ',
    ),
    fc.constantFrom('\uFEFF', '\r', "'", "''", '#N/A', 'null', '1,200', '<0.5'),
  );
  const table = fc.constantFrom(...TABLE_NAMES).chain((name) =>
    fc.record({
      name: fc.constant(name),
      columns: fc.shuffledSubarray([...fieldsOf(name).map(([column]) => column), 'own', 'x,"y'], {
        minLength: 1,
        maxLength: 4,
      }),
      rows: fc.array(fc.array(text, { minLength: 4, maxLength: 4 }), { maxLength: 5 }),
    }),
  );
  fc.assert(
    fc.property(fc.uniqueArray(table, { selector: ({ name }) => name, maxLength: 4 }), (tables) => {
      const given = tables.map(({ name, columns, rows }) => [
        name,
        tableOf(
          columns,
          rows.map((row) => row.slice(0, columns.length)),
        ),
      ]);
      const site: DataPackage = { ...smallSite(), paths: {}, tables: Object.fromEntries(given) };
      const once = filesOf(wholeOf(site));
      const again = opened(once);
      expect(contentOf(again.package).tables).toEqual(contentOf(site).tables);
      expect(zipOf(filesOf(again))).toEqual(zipOf(once));
    }),
    { numRuns: 200 },
  );
});
