/** Stand-ins for what the browser gives: its database, locks and channels; and sites to keep. */
import 'fake-indexeddb/auto';
import type { Channel, News, Surroundings } from '../../../src/app/keeping/surroundings';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { apply, type Edit } from '../../../src/domain/site/edits/apply';
import { eachRow } from '../../../src/domain/site/table';
import { SiteStore } from '../../../src/io/keeping/site-store';
import type { WholeSite } from '../../../src/io/keeping/whole-site';
import { packageFrom } from '../site-from';

type LockWork = (lock: Lock | null) => unknown;

/** Web Locks of one browser: exclusive, first come first served (W3C Web Locks API). */
export class StandInLocks {
  #held = new Set<string>();
  #waiting: { name: string; run: () => void }[] = [];

  readonly request = ((name: string, options: LockOptions, work: LockWork) => {
    if (options.ifAvailable && this.#held.has(name)) return Promise.resolve(work(null));
    return new Promise<unknown>((resolve, reject) => {
      const run = () => {
        this.#held.add(name);
        void Promise.resolve(work({ name, mode: 'exclusive' })).then((value) => {
          this.#held.delete(name);
          resolve(value);
          const next = this.#waiting.findIndex((each) => each.name === name);
          if (next >= 0) this.#waiting.splice(next, 1)[0]?.run();
        });
      };
      if (!this.#held.has(name)) run();
      else {
        const waiting = { name, run };
        this.#waiting.push(waiting);
        options.signal?.addEventListener('abort', () => {
          this.#waiting = this.#waiting.filter((each) => each !== waiting);
          reject(new DOMException('given up', 'AbortError'));
        });
      }
    });
  }) as LockManager['request'];
}

/** Channels of one browser: what one window posts, the others hear. */
export class StandInChannels {
  #open = new Set<{ hear: (news: News) => void }>();

  readonly news = (): Channel => {
    const own = { hear: (_: News) => {} };
    this.#open.add(own);
    return {
      post: (news) => {
        for (const each of this.#open) if (each !== own) queueMicrotask(() => each.hear(news));
      },
      listen: (hear) => {
        own.hear = hear;
      },
      close: () => this.#open.delete(own),
    };
  };
}

let names = 0;

/** A database nobody has used yet. */
export const newDatabase = () => `keeping-test-${++names}`;

/** Surroundings of one window; windows of one browser share locks and channels. */
export const windowOf = (over: Partial<Surroundings> = {}): Surroundings => ({
  store: new SiteStore(newDatabase()),
  locks: new StandInLocks(),
  news: new StandInChannels().news,
  now: () => new Date(Date.UTC(2026, 4, 31, 14, 5, 9)),
  newName: () => `name-${++names}`,
  pause: () => Promise.resolve(),
  snapshotEvery: 64,
  retryAfter: [5],
  ...over,
});

/** Three wells gauged once, a planned point, and words that need care. */
export const smallSite = (): DataPackage => ({
  ...packageFrom({
    locations: [
      'id,easting,northing,kind,status,driller’s own',
      'MW-1,100,200,monitoring well,pushed,"a, b"',
      'DP-2,150.5,260,direct push,planned,',
      'DP-3,,,direct push,planned,=1+1',
    ],
    water_levels: [
      'screen,event,time,depth_to_water,status',
      'MW-1,E1,2026-05-30,8.20,static',
      'DP-2,E1,2026-05-30,<soft>,recovering',
    ],
  }),
  descriptor: { name: 'test-site', 'x-unknown': { kept: [1, 'two', null] } },
});

export const wholeOf = (site: DataPackage, over: Partial<WholeSite> = {}): WholeSite => ({
  package: site,
  carried: new Map(),
  lines: [],
  ...over,
});

/** All of a site as plain values, for comparing. */
export const contentOf = ({ settings, tables, paths, columnUnits, descriptor }: DataPackage) => ({
  settings,
  paths,
  columnUnits,
  descriptor,
  tables: Object.fromEntries(
    Object.entries(tables).map(([name, table]) => [
      name,
      { columns: table.columns, size: table.size, rows: [...eachRow(table)] },
    ]),
  ),
});

export const made = (site: DataPackage, edit: Edit): DataPackage => {
  const result = apply(site, edit);
  if (!result.ok) throw new Error(result.problem);
  return result.value;
};

export const writeLevel = (text: string, row = 0): Edit => ({
  kind: 'write-cells',
  table: 'water_levels',
  cells: [{ row, column: 'depth_to_water', text }],
});

/** So many results, as an import adds them. */
export const resultRows = (count: number, from = 0): Edit => ({
  kind: 'add-rows',
  table: 'results',
  rows: Array.from({ length: count }, (_, i) => ({
    sample: `S-${from + i}`,
    analyte: ['benzene', 'toluene', 'o-xylene'][i % 3] ?? '',
    value: `${(from + i) % 97}.5`,
    unit: 'ug/L',
  })),
});
