import { expect, test, vi } from 'vitest';
import { SiteKeeper } from '../../../src/app/keeping/site-keeper.svelte';
import type { Surroundings } from '../../../src/app/keeping/surroundings';
import { Keeping } from '../../../src/app/keeping/keeping.svelte';
import type { Edit } from '../../../src/domain/site/edits/apply';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { cellText } from '../../../src/domain/site/table';
import { fail } from '../../../src/domain/result';
import { SiteStore } from '../../../src/io/keeping/site-store';
import { readJournal } from '../../../src/io/keeping/journal';
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

const edit = (keeper: SiteKeeper, what: Edit, label = 'Edit') => {
  const before = keeper.site;
  return keeper.keep({ did: 'edit', label, edit: what, before, after: made(before, what) });
};

const opened = async (id: string, around: Surroundings, onnews?: (site: DataPackage) => void) => {
  const result = await SiteKeeper.open(id, around, onnews);
  if (!result.ok) throw new Error(result.problem.kind);
  return result.value;
};

const realPut = IDBObjectStore.prototype.put;

const level = (site: DataPackage, row = 0) =>
  site.tables.water_levels && cellText(site.tables.water_levels, row, 'depth_to_water');

test('a site is usable at once, is saved by itself, and opens as it was', async () => {
  const around = windowOf();
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  expect(keeper.state).toBe('saving');
  await vi.waitFor(() => expect(keeper.state).toBe('saved'));
  await keeper.close();
  const again = await opened(keeper.id, around);
  expect(contentOf(again.site)).toEqual(contentOf(smallSite()));
  expect(again.problems).toEqual([]);
});

test('an edit that has shown “Saved” is there after the window is gone', async () => {
  const around = windowOf();
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  expect(await edit(keeper, writeLevel('8.35'), 'Write 8.35')).toBe(true);
  expect([keeper.state, keeper.words, keeper.unsaved]).toEqual(['saved', 'Saved', 0]);
  // The window is gone without a word: its locks go with it.
  const again = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect(level(again.site)).toBe('8.35');
});

test('the state is “saving” until the database has confirmed', async () => {
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), windowOf());
  const saved = edit(keeper, writeLevel('8.35'));
  expect([keeper.state, keeper.words]).toEqual(['saving', 'Saving…']);
  await saved;
  expect(keeper.state).toBe('saved');
});

test('an edit writes its entry only: no block, however long the table', async () => {
  const store = new SiteStore(newDatabase());
  const blocks = vi.spyOn(store, 'putBlocks');
  const site = made(smallSite(), resultRows(40_000));
  const keeper = SiteKeeper.begin(wholeOf(site), windowOf({ store }));
  await vi.waitFor(() => expect(keeper.state).toBe('saved'));
  blocks.mockClear();
  const cell = { row: 20_000, column: 'value', text: '5.2 J' };
  await edit(keeper, { kind: 'write-cells', table: 'results', cells: [cell] });
  expect(blocks).not.toHaveBeenCalled();
});

test('an import is kept by its blocks, never row by row, and its line has hash and counts', async () => {
  const around = windowOf();
  const append = vi.spyOn(around.store, 'append');
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  await vi.waitFor(() => expect(keeper.state).toBe('saved'));
  const before = keeper.site;
  const what: Edit = { kind: 'together', edits: [writeLevel('8.21'), resultRows(20_000)] };
  const file = {
    name: 'lab.csv',
    sha256: 'ab'.repeat(32),
    rows: 20_004,
    taken: 20_000,
    refused: 3,
    blank: 1,
  };
  const step = { did: 'edit', label: 'Import lab.csv', edit: what, files: [file] } as const;
  expect(await keeper.keep({ ...step, before, after: made(before, what) })).toBe(true);

  const entry = append.mock.calls.at(-1)?.[2][0];
  expect(entry?.ahead.kind).toBe('blocks');
  expect(JSON.stringify(entry).length).toBeLessThan(5_000);
  const [line] = readJournal(entry?.line ?? '');
  expect(line).toMatchObject({
    did: 'edit',
    label: 'Import lab.csv',
    files: [file],
    change: {
      what: 'together',
      changes: [
        {
          what: 'write-cells',
          table: 'water_levels',
          cells: [{ row: 2, column: 'depth_to_water', before: '8.20', after: '8.21' }],
        },
        { what: 'add-rows', table: 'results', row: 2, count: 20_000 },
      ],
    },
  });

  const again = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect(contentOf(again.site)).toEqual(contentOf(keeper.site));
});

test('undo and redo are appended, also over an import and back before a snapshot', async () => {
  const around = windowOf({ snapshotEvery: 2 });
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  const states = [keeper.site];
  for (const what of [writeLevel('8.1'), resultRows(9_000), writeLevel('8.3', 1)]) {
    await edit(keeper, what);
    states.push(keeper.site);
  }
  for (const [did, at] of [
    ['undo', 2],
    ['undo', 1],
    ['undo', 0],
    ['redo', 1],
    ['redo', 2],
  ] as const) {
    const after = states[at] ?? smallSite();
    await keeper.keep({ did, label: did, edit: null, before: keeper.site, after });
    const now = await opened(keeper.id, { ...around, locks: new StandInLocks() });
    expect(contentOf(now.site)).toEqual(contentOf(after));
    await now.close();
  }
  expect(readJournal(keeper.whole.lines.join('\n')).map((line) => line?.did)).toEqual([
    ...['edit', 'edit', 'edit', 'undo', 'undo', 'undo', 'redo', 'redo'],
  ]);
});

test('an edit made on something else than the last state is kept all the same', async () => {
  const around = windowOf();
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  await edit(keeper, writeLevel('8.1'));
  const what = writeLevel('8.9', 1);
  const after = made(smallSite(), what);
  await keeper.keep({ did: 'edit', label: 'Edit', edit: what, before: smallSite(), after });
  const again = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect([level(again.site, 0), level(again.site, 1)]).toEqual(['8.20', '8.9']);
});

test('a snapshot drops the entries and blocks it makes needless; the journal’s lines stay', async () => {
  const around = windowOf({ snapshotEvery: 4 });
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  for (let i = 0; i < 50; i++) await edit(keeper, writeLevel(`8.${i}`));
  await keeper.close();
  const { store } = around;
  const [head, lines, blocks] = await Promise.all([
    store.head(keeper.id),
    store.lines(keeper.id),
    store.blockNumbers(keeper.id),
  ]);
  if (!head.ok || !lines.ok || !blocks.ok) throw new Error('not there');
  expect(head.value.snapshot.n + head.value.ahead.length).toBe(50);
  expect(head.value.ahead.length).toBeLessThan(20);
  expect(lines.value).toHaveLength(50);
  expect(blocks.value.length).toBeLessThanOrEqual(3);
});

test('a clock set back changes neither the order of edits nor what is kept', async () => {
  const times = ['2026-05-31T14:05:00Z', '2026-05-31T14:06:00Z', '2019-01-01T00:00:00Z'];
  const around = windowOf({ now: () => new Date(times.shift() ?? '2019-01-01T00:00:01Z') });
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  for (const text of ['8.1', '8.2', '8.3', '8.4']) await edit(keeper, writeLevel(text), text);
  const again = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect(level(again.site)).toBe('8.4');
  const lines = readJournal(again.whole.lines.join('\n'));
  expect(lines.map((line) => line?.label)).toEqual(['8.1', '8.2', '8.3', '8.4']);
  expect(lines.map((line) => line?.when.slice(0, 4))).toEqual(['2026', '2026', '2019', '2019']);
});

/** A store that fails as a browser's does, while told to. */
class FailingStore extends SiteStore {
  trouble: 'full' | 'refused' | null = null;
  readonly #fails = () => Promise.resolve(fail({ kind: this.trouble ?? 'full' }));
  override append: SiteStore['append'] = (...given) =>
    this.trouble ? this.#fails() : super.append(...given);
  override create: SiteStore['create'] = (...given) =>
    this.trouble ? this.#fails() : super.create(...given);
  override putBlocks: SiteStore['putBlocks'] = (...given) =>
    this.trouble ? this.#fails() : super.putBlocks(...given);
  override putFiles: SiteStore['putFiles'] = (...given) =>
    this.trouble ? this.#fails() : super.putFiles(...given);
}

test('a full disk says so, edits go on in memory, and all is saved once there is room', async () => {
  const store = new FailingStore(newDatabase());
  const around = windowOf({ store });
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  await vi.waitFor(() => expect(keeper.state).toBe('saved'));
  store.trouble = 'full';
  expect(await edit(keeper, writeLevel('8.1'))).toBe(false);
  expect(await edit(keeper, resultRows(9_000))).toBe(false);
  expect(await edit(keeper, writeLevel('8.2'))).toBe(false);
  expect(keeper.state).toBe('full');
  expect(keeper.words).toMatch(/^Not saved: .*disk is full\. 3 edits are only in memory\./);
  expect(level(keeper.site)).toBe('8.2');
  store.trouble = null;
  await vi.waitFor(() => expect(keeper.state).toBe('saved'));
  const again = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect(contentOf(again.site)).toEqual(contentOf(keeper.site));
  expect(again.whole.lines).toEqual(keeper.whole.lines);
});

test('the disk runs full in the middle of a write: nothing of that edit is there, all before it is', async () => {
  const around = windowOf();
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  await edit(keeper, writeLevel('8.1'));
  // The second of the three records of an entry does not fit.
  const put = vi.spyOn(IDBObjectStore.prototype, 'put');
  put.mockImplementation(function (this: IDBObjectStore, value: unknown, key?: IDBValidKey) {
    if (this.name === 'ahead') throw new DOMException('no room', 'QuotaExceededError');
    return realPut.call(this, value, key);
  });
  expect(await edit(keeper, writeLevel('8.2'))).toBe(false);
  expect(keeper.state).toBe('full');
  const between = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect([level(between.site), between.whole.lines.length]).toEqual(['8.1', 1]);
  put.mockRestore();
  await vi.waitFor(() => expect(keeper.state).toBe('saved'));
  const after = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect([level(after.site), after.whole.lines.length]).toEqual(['8.2', 2]);
});

test('where the browser keeps nothing the site works in memory and says why', async () => {
  const store = new FailingStore(newDatabase());
  store.trouble = 'refused';
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), windowOf({ store }));
  expect(await edit(keeper, writeLevel('8.1'))).toBe(false);
  expect(keeper.state).toBe('not-kept');
  expect(keeper.words).toMatch(/private window.*Save the site to a file/);
  expect(level(keeper.whole.package)).toBe('8.1');
  expect(keeper.whole.lines).toHaveLength(1);
});

test('where there is no database at all the list says so instead of breaking', async () => {
  vi.stubGlobal('indexedDB', undefined);
  const keeping = new Keeping(windowOf());
  await keeping.refresh();
  vi.unstubAllGlobals();
  expect(keeping.problem).toMatch(/keeps nothing/);
});

test('storage cleared under the app: the site in memory is written anew, journal and images too', async () => {
  const name = newDatabase();
  const around = windowOf({ store: new SiteStore(name) });
  const carried = new Map([['images/plan.png', new Uint8Array([1, 2, 3])]]);
  const keeper = SiteKeeper.begin(wholeOf(smallSite(), { carried }), around);
  await edit(keeper, resultRows(9_000));
  await edit(keeper, writeLevel('8.1'));
  await new Promise<void>((resolve, reject) => {
    const deleting = indexedDB.deleteDatabase(name);
    deleting.onsuccess = () => resolve();
    deleting.onerror = () => reject(new Error('not deleted'));
  });
  expect(await edit(keeper, writeLevel('8.2'))).toBe(true);
  const again = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect(contentOf(again.site)).toEqual(contentOf(keeper.site));
  expect(again.whole.lines).toEqual(keeper.whole.lines);
  expect(again.whole.lines).toHaveLength(3);
  expect([...again.whole.carried]).toEqual([...carried]);
});

test('a second window reads, hears each edit, and takes over when the first is closed', async () => {
  const name = newDatabase();
  const shared = { locks: new StandInLocks(), news: new StandInChannels().news };
  const first = windowOf({ ...shared, store: new SiteStore(name) });
  const second = windowOf({ ...shared, store: new SiteStore(name), snapshotEvery: 3 });
  const a = SiteKeeper.begin(wholeOf(smallSite()), first);
  await edit(a, writeLevel('8.1'));
  const heard: (string | undefined)[] = [];
  const b = await opened(a.id, second, (site) => heard.push(level(site)));
  expect(b.isWriting).toBe(false);
  expect(b.words).toMatch(/open in another window/);
  expect(await edit(b, writeLevel('9.9'))).toBe(false);

  await edit(a, writeLevel('8.2'));
  await vi.waitFor(() => expect(heard).toEqual(['8.2']));
  await edit(a, resultRows(9_000));
  await edit(a, writeLevel('8.3'));
  await vi.waitFor(() => expect(heard.at(-1)).toBe('8.3'));
  expect(contentOf(b.site)).toEqual(contentOf(a.site));

  await a.close();
  await vi.waitFor(() => expect(b.isWriting).toBe(true));
  expect(await edit(b, writeLevel('8.4'))).toBe(true);
  await b.close();
  const again = await opened(a.id, first);
  expect(level(again.site)).toBe('8.4');
  expect(again.whole.lines).toHaveLength(5);
});

test('where the browser has no locks, the window that comes second is refused and keeps a copy', async () => {
  const name = newDatabase();
  const unlocked = () => windowOf({ locks: null, store: new SiteStore(name), snapshotEvery: 2 });
  const a = SiteKeeper.begin(wholeOf(smallSite()), unlocked());
  await edit(a, writeLevel('8.1'));
  const b = await opened(a.id, unlocked());
  await edit(a, writeLevel('8.2'));
  expect(await edit(b, writeLevel('9.9'))).toBe(false);
  expect(b.state).toBe('not-kept');
  expect(b.words).toMatch(/changed in another window.*Keep this one as a copy/);
  for (const text of ['8.3', '8.4', '8.5']) expect(await edit(a, writeLevel(text))).toBe(true);

  b.keepAsCopy();
  await vi.waitFor(() => expect(b.state).toBe('saved'));
  expect(b.id).not.toBe(a.id);
  expect(level((await opened(a.id, unlocked())).site)).toBe('8.5');
  expect(level((await opened(b.id, unlocked())).site)).toBe('9.9');
});

test('several sites side by side: listed, renamed, deleted; an open one is left alone', async () => {
  const around = windowOf();
  const keeping = new Keeping(around);
  const north = keeping.begin(wholeOf(smallSite()));
  const south = keeping.begin(wholeOf(smallSite()));
  await edit(south, { kind: 'change-settings', settings: { title: 'South yard' } });
  await vi.waitFor(() => expect(keeping.sites).toHaveLength(2));
  expect(keeping.sites.map(({ title }) => title).toSorted()).toEqual(['South yard', 'Test site']);
  expect(keeping.sites.every(({ bytes }) => bytes > 100)).toBe(true);

  expect(await keeping.remove(north.id)).toMatchObject({ ok: false });
  await north.close();
  expect(await keeping.rename(north.id, 'North yard')).toMatchObject({ ok: true });
  const renamed = await opened(north.id, around);
  expect(renamed.site.settings.title).toBe('North yard');
  expect(readJournal(renamed.whole.lines.join('\n')).at(-1)?.change).toEqual({
    what: 'change-settings',
    before: { title: 'Test site' },
    after: { title: 'North yard' },
  });
  await renamed.close();
  expect(await keeping.remove(north.id)).toMatchObject({ ok: true });
  expect(keeping.sites.map(({ title }) => title)).toEqual(['South yard']);
  expect(await keeping.open(north.id)).toEqual({
    ok: false,
    problem: 'This site is no longer in this browser.',
  });
  expect(await around.store.blockNumbers(north.id)).toEqual({ ok: true, value: [] });
});

test('blocks of a site that was never finished are swept away, those of one being made are not', async () => {
  const around = windowOf();
  const block = { size: 1, columns: [{ dictionary: ['8.2'], codes: new Uint16Array(1) }] };
  await around.store.putBlocks('broken off', new Map([[1, block]]));
  await around.store.putBlocks('being made', new Map([[1, block]]));
  void around.locks?.request('downgradient:site:being made', {}, () => new Promise(() => {}));
  await new Keeping(around).sweep();
  expect(await around.store.strays()).toEqual({ ok: true, value: ['being made'] });
});

test('a block the browser lost leaves blank rows that are named; the rest of the site opens', async () => {
  const name = newDatabase();
  const around = windowOf({ store: new SiteStore(name) });
  const keeper = SiteKeeper.begin(wholeOf(made(smallSite(), resultRows(20_000))), around);
  await keeper.close();
  const head = await around.store.head(keeper.id);
  const lost = head.ok ? head.value.snapshot.kept.tables.results?.blocks[1]?.id : undefined;
  await new Promise((resolve) => {
    const opening = indexedDB.open(name);
    opening.onsuccess = () => {
      const writing = opening.result.transaction('blocks', 'readwrite');
      writing.objectStore('blocks').delete([keeper.id, lost ?? -1]);
      writing.oncomplete = resolve;
    };
  });
  const again = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect(again.problems).toEqual([
    'results, rows 16386 to 20001: the browser no longer has them; they stand blank.',
  ]);
  expect(again.site.tables.results?.size).toBe(20_000);
  expect(level(again.site)).toBe('8.20');
});

test('an entry that can’t be played again does not hide those after it', async () => {
  const around = windowOf();
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  await edit(keeper, writeLevel('8.1'));
  await keeper.close();
  const impossible = {
    n: 2,
    line: '{}',
    ahead: { kind: 'edit', edit: writeLevel('9', 99) },
  } as const;
  await around.store.append(keeper.id, 1, [impossible], { title: 'Test site', changed: 0, by: '' });
  const mended = await opened(keeper.id, around);
  expect(mended.problems[0]).toMatch(/^The last edit could not be made again/);
  await edit(mended, writeLevel('8.3'));
  const again = await opened(keeper.id, { ...around, locks: new StandInLocks() });
  expect([level(again.site), again.problems, again.whole.lines.length]).toEqual(['8.3', [], 3]);
});

test('a site kept by a newer version is not opened, and not touched', async () => {
  const around = windowOf();
  const keeper = SiteKeeper.begin(wholeOf(smallSite()), around);
  await keeper.close();
  const head = await around.store.head(keeper.id);
  if (!head.ok) throw new Error('not there');
  await around.store.create({ ...head.value.site, format: 2 }, head.value.snapshot, []);
  expect(await new Keeping(around).open(keeper.id)).toEqual({
    ok: false,
    problem: 'This site was kept by a newer version of this app. Reload the page to get it.',
  });
});

test('a database of a newer version is refused politely', async () => {
  const name = newDatabase();
  await new Promise((resolve) => {
    const opening = indexedDB.open(name, 99);
    opening.onsuccess = () => {
      opening.result.close();
      resolve(null);
    };
  });
  const keeping = new Keeping(windowOf({ store: new SiteStore(name) }));
  await keeping.refresh();
  expect(keeping.problem).toMatch(/newer version/);
});
