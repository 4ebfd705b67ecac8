import { fail, ok, type Result } from '../../domain/result';
import type { Block } from '../../domain/site/table';
import type { Files } from '../package/files';
import { allOrNothing, Connection, STRICT } from './connection';
import type { KeptSite, Place, Snapshot, Trouble } from './database';
import type { Ahead, Numbered } from './entry';
import { blockIdsOf } from './kept-package';

/** What one entry writes: its line for people, and what is played again. */
export type Entry = { readonly n: number; readonly line: string; readonly ahead: Ahead };

/** What the list of sites says after an entry. */
export type HeaderChange = Pick<KeptSite, 'title' | 'changed' | 'by'>;

export type Head = {
  readonly site: KeptSite;
  readonly snapshot: Snapshot;
  readonly ahead: readonly Numbered[];
};

type Answer<T> = Promise<Result<T, Trouble>>;

/** All keys of one site, where they are pairs: an array sorts after numbers and texts. */
const allOf = (id: string) => IDBKeyRange.bound([id], [id, []]);
const upTo = (id: string, n: number) => IDBKeyRange.bound([id], [id, n]);
const after = (id: string, n: number) => IDBKeyRange.bound([id, n], [id, []], true);

/**
 * The sites kept in the browser's database. Each method is one transaction: all
 * of it is there afterwards, or nothing. Nothing is thrown: trouble comes back.
 */
export class SiteStore {
  readonly #database: Connection;

  constructor(name = 'downgradient') {
    this.#database = new Connection(name);
  }

  async list(): Answer<KeptSite[]> {
    return this.#database.work(async (database) => ok(await database.getAll('sites')));
  }

  /**
   * What a site is read from, apart from its blocks. Blocks are read one by one
   * with `blocks`, so that a large site does not hold up the page.
   */
  async head(id: string): Answer<Head> {
    return this.#database.work(async (database) => {
      const reading = database.transaction(['sites', 'snapshots', 'ahead']);
      const [site, snapshot, keys, values] = await Promise.all([
        reading.objectStore('sites').get(id),
        reading.objectStore('snapshots').get(id),
        reading.objectStore('ahead').getAllKeys(allOf(id)),
        reading.objectStore('ahead').getAll(allOf(id)),
        reading.done,
      ]);
      if (!site || !snapshot) return fail({ kind: 'gone' });
      return ok({ site, snapshot, ahead: numbered(keys, values) });
    });
  }

  /** What another window added after an entry. */
  async since(id: string, n: number): Answer<Pick<Head, 'site' | 'ahead'>> {
    return this.#database.work(async (database) => {
      const reading = database.transaction(['sites', 'ahead']);
      const [site, keys, values] = await Promise.all([
        reading.objectStore('sites').get(id),
        reading.objectStore('ahead').getAllKeys(after(id, n)),
        reading.objectStore('ahead').getAll(after(id, n)),
        reading.done,
      ]);
      return site ? ok({ site, ahead: numbered(keys, values) }) : fail({ kind: 'gone' });
    });
  }

  /** Blocks by number; one that is not there is left out. */
  async blocks(id: string, numbers: readonly number[]): Answer<Map<number, Block>> {
    return this.#database.work(async (database) => {
      const reading = database.transaction('blocks');
      const found = await Promise.all(numbers.map((number) => reading.store.get([id, number])));
      await reading.done;
      const pairs = found.map((block, i) => [numbers[i] ?? -1, block] as const);
      return ok(new Map(pairs.filter((pair): pair is readonly [number, Block] => !!pair[1])));
    });
  }

  /** The numbers of all blocks kept of a site, named by anything or not. */
  async blockNumbers(id: string): Answer<number[]> {
    return this.#database.work(async (database) => {
      const keys = await database.getAllKeys('blocks', allOf(id));
      return ok(keys.map(([, number]) => number));
    });
  }

  /** Files of the site's folder beside its tables, and the journal it came with. */
  async files(id: string): Answer<Files> {
    return this.#database.work(async (database) => {
      const reading = database.transaction('files');
      const [keys, values] = await Promise.all([
        reading.store.getAllKeys(allOf(id)),
        reading.store.getAll(allOf(id)),
        reading.done,
      ]);
      return ok(new Map(keys.map(([, path], i) => [path, values[i] ?? new Uint8Array()])));
    });
  }

  /** The journal's lines written here, oldest first. */
  async lines(id: string): Answer<string[]> {
    return this.#database.work(async (database) => ok(await database.getAll('journal', allOf(id))));
  }

  /** Write blocks. They are nothing until a snapshot or an entry names them. */
  async putBlocks(id: string, blocks: ReadonlyMap<number, Block>): Answer<null> {
    return this.#database.work(async (database) => {
      const writing = database.transaction('blocks', 'readwrite', STRICT);
      await allOrNothing(
        writing,
        [...blocks].map(
          ([number, block]) =>
            () =>
              writing.store.put(block, [id, number]),
        ),
      );
      return ok(null);
    });
  }

  async putFiles(id: string, files: Files): Answer<null> {
    return this.#database.work(async (database) => {
      const writing = database.transaction('files', 'readwrite', STRICT);
      await allOrNothing(
        writing,
        [...files].map(
          ([path, bytes]) =>
            () =>
              writing.store.put(bytes, [id, path]),
        ),
      );
      return ok(null);
    });
  }

  /** Put a site on the list; its blocks and files are there already. */
  async create(site: KeptSite, snapshot: Snapshot, lines: readonly string[]): Answer<null> {
    return this.#database.work(async (database) => {
      const writing = database.transaction(
        ['sites', 'snapshots', 'journal', 'ahead'],
        'readwrite',
        STRICT,
      );
      const first = site.last - lines.length + 1;
      const journal = writing.objectStore('journal');
      await allOrNothing(writing, [
        () => writing.objectStore('ahead').delete(allOf(site.id)),
        () => journal.delete(allOf(site.id)),
        () => writing.objectStore('sites').put(site, site.id),
        () => writing.objectStore('snapshots').put(snapshot, site.id),
        ...lines.map((line, i) => () => journal.put(line, [site.id, first + i])),
      ]);
      return ok(null);
    });
  }

  /**
   * Add entries to the journal: what makes an edit kept. Refused where the
   * journal does not end with entry `last`, so that no window writes over another.
   */
  async append(
    id: string,
    last: number,
    entries: readonly Entry[],
    change: HeaderChange,
  ): Answer<null> {
    return this.#database.work(async (database) => {
      const writing = database.transaction(['sites', 'journal', 'ahead'], 'readwrite', STRICT);
      const sites = writing.objectStore('sites');
      const site = await sites.get(id);
      if (!site || site.last !== last) {
        await writing.done;
        return fail<Trouble>(
          site ? { kind: 'changed-elsewhere', last: site.last, by: site.by } : { kind: 'gone' },
        );
      }
      await allOrNothing(writing, [
        ...entries.flatMap(({ n, line, ahead }) => [
          () => writing.objectStore('journal').put(line, [id, n]),
          () => writing.objectStore('ahead').put(ahead, [id, n]),
        ]),
        () => sites.put({ ...site, ...change, last: entries.at(-1)?.n ?? last }, id),
      ]);
      return ok(null);
    });
  }

  /**
   * Put a newer snapshot in place of the old, and drop what only the old one
   * needed. Gives the numbers of the blocks that are left.
   * @param by  who must have written the last entry; null where a lock sees to it
   */
  async putSnapshot(
    id: string,
    snapshot: Snapshot,
    bytes: number,
    by: string | null,
  ): Answer<ReadonlySet<number>> {
    return this.#database.work(async (database) => {
      const writing = database.transaction(
        ['sites', 'snapshots', 'ahead', 'blocks'],
        'readwrite',
        STRICT,
      );
      const sites = writing.objectStore('sites');
      const ahead = writing.objectStore('ahead');
      const blocks = writing.objectStore('blocks');
      const [site, later, there] = await Promise.all([
        sites.get(id),
        ahead.getAll(after(id, snapshot.n)),
        blocks.getAllKeys(allOf(id)),
      ]);
      if (!site || (by !== null && site.by !== by)) {
        await writing.done;
        return fail<Trouble>(
          site ? { kind: 'changed-elsewhere', last: site.last, by: site.by } : { kind: 'gone' },
        );
      }
      const named = new Set([
        ...blockIdsOf(snapshot.kept),
        ...later.flatMap((entry) => (entry.kind === 'blocks' ? blockIdsOf(entry.kept) : [])),
      ]);
      const needless = there.filter(([, number]) => !named.has(number));
      await allOrNothing(writing, [
        () => writing.objectStore('snapshots').put(snapshot, id),
        () => ahead.delete(upTo(id, snapshot.n)),
        ...needless.map((key) => () => blocks.delete(key)),
        () => sites.put({ ...site, bytes }, id),
      ]);
      return ok(named);
    });
  }

  /** Take a site off the list, with everything kept of it. */
  async remove(id: string): Answer<null> {
    return this.#database.work(async (database) => {
      const names = [
        'sites',
        'snapshots',
        'ahead',
        'journal',
        'blocks',
        'files',
        'places',
      ] as const;
      const writing = database.transaction(names, 'readwrite', STRICT);
      await allOrNothing(writing, [
        ...(['sites', 'snapshots', 'places'] as const).map(
          (name) => () => writing.objectStore(name).delete(id),
        ),
        ...(['ahead', 'journal', 'blocks', 'files'] as const).map(
          (name) => () => writing.objectStore(name).delete(allOf(id)),
        ),
      ]);
      return ok(null);
    });
  }

  /** Sites that have blocks or files but are not on the list: left by a window that broke off. */
  async strays(): Answer<string[]> {
    return this.#database.work(async (database) => {
      const reading = database.transaction(['sites', 'blocks', 'files']);
      const [listed, ofBlocks, ofFiles] = await Promise.all([
        reading.objectStore('sites').getAllKeys(),
        reading.objectStore('blocks').getAllKeys(),
        reading.objectStore('files').getAllKeys(),
        reading.done,
      ]);
      const ids = new Set([...ofBlocks, ...ofFiles].map(([id]) => id));
      return ok([...ids].filter((id) => !listed.includes(id)));
    });
  }

  async place(id: string): Answer<Place | null> {
    return this.#database.work(async (database) => ok((await database.get('places', id)) ?? null));
  }

  async putPlace(id: string, place: Place): Answer<null> {
    return this.#database.work(async (database) => {
      await database.put('places', place, id);
      return ok(null);
    });
  }

  /** Let the database go; the next call opens it again. */
  close(): Promise<void> {
    return this.#database.close();
  }
}

const numbered = (keys: readonly [string, number][], values: readonly Ahead[]): Numbered[] =>
  values.map((ahead, i) => ({ n: keys[i]?.[1] ?? 0, ahead }));
