import { SiteStore } from '../../io/keeping/site-store';

/** What keeping needs of the world around it; a test gives its own. */
export type Surroundings = {
  readonly store: SiteStore;
  /** One writer a site; null where the browser has none, and the store alone stands guard. */
  readonly locks: Pick<LockManager, 'request'> | null;
  /** News between windows: which site has a new entry. Null where the browser has none. */
  readonly news: () => Channel | null;
  readonly now: () => Date;
  /** A name nobody else makes up. */
  readonly newName: () => string;
  /** Lets the page answer clicks before the next piece of work. */
  readonly pause: () => Promise<void>;
  /** Entries after which the state is written whole, in the background. */
  readonly snapshotEvery: number;
  /** Waits before a write that failed is tried again, in ms; the last is used from then on. */
  readonly retryAfter: readonly number[];
};

export type News = { readonly id: string; readonly last: number };

export type Channel = {
  post(news: News): void;
  listen(hear: (news: News) => void): void;
  close(): void;
};

const isNews = (value: unknown): value is News =>
  typeof value === 'object' && value !== null && 'id' in value && 'last' in value;

/** Windows of this app on the same site list hear each other under this name. */
function browserChannel(name: string): Channel | null {
  if (typeof BroadcastChannel === 'undefined') return null;
  const channel = new BroadcastChannel(name);
  return {
    post: (news) => channel.postMessage(news),
    listen: (hear) => {
      channel.onmessage = ({ data }) => {
        if (isNews(data)) hear(data);
      };
    },
    close: () => channel.close(),
  };
}

const newName = () =>
  Array.from(crypto.getRandomValues(new Uint8Array(8)), (byte) =>
    byte.toString(16).padStart(2, '0'),
  ).join('');

const pause = () =>
  new Promise<void>((resolve) => {
    if (typeof requestIdleCallback === 'function')
      requestIdleCallback(() => resolve(), { timeout: 200 });
    else setTimeout(resolve, 0);
  });

const lockManager = (): LockManager | null =>
  (typeof navigator === 'undefined' ? null : navigator.locks) ?? null;

/** The browser this runs in. @param name  of its database, its locks and its channel */
export const thisBrowser = (name = 'downgradient'): Surroundings => ({
  store: new SiteStore(name),
  locks: lockManager(),
  news: () => browserChannel(name),
  now: () => new Date(),
  newName,
  pause,
  snapshotEvery: 64,
  retryAfter: [1_000, 2_000, 5_000, 15_000],
});
