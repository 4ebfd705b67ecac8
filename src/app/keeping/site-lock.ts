/** The right to write to one site, held until it is let go. */
export type Hold = { readonly release: () => void };

type Locks = Pick<LockManager, 'request'>;

const nameOf = (id: string) => `downgradient:site:${id}`;

/** Where the browser has no locks nobody is kept out; the store refuses what does not follow on. */
const FREE: Hold = { release: () => undefined };

/** The right to write to a site, if no other window has it; else null. */
export function hold(locks: Locks | null, id: string): Promise<Hold | null> {
  if (!locks) return Promise.resolve(FREE);
  return new Promise((resolve) => {
    locks
      .request(nameOf(id), { ifAvailable: true }, (lock) => {
        if (!lock) return resolve(null);
        return new Promise<void>((release) => resolve({ release }));
      })
      .catch(() => resolve(FREE)); // the page has no address to lock for
  });
}

/** The right to write to a site as soon as the window that has it lets go; null when given up. */
export function holdNext(locks: Locks, id: string, giveUp: AbortSignal): Promise<Hold | null> {
  return new Promise((resolve) => {
    locks
      .request(nameOf(id), { signal: giveUp }, () => {
        return new Promise<void>((release) => resolve({ release }));
      })
      .catch(() => resolve(null));
  });
}
