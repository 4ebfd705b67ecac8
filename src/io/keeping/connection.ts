import type { IDBPDatabase } from 'idb';
import { fail, type Result } from '../../domain/result';
import { isClosed, openShelves, troubleOf, type Shelves, type Trouble } from './database';

/** Written for good before it is said to be: the browser waits for the disk. */
export const STRICT = { durability: 'strict' } as const;

/** The browser's database, opened when it is first asked for and again when it was closed on us. */
export class Connection {
  readonly #name: string;
  #open: Promise<IDBPDatabase<Shelves>> | null = null;

  constructor(name: string) {
    this.#name = name;
  }

  /** Work on the database. Nothing is thrown: trouble comes back. */
  async work<T>(
    work: (database: IDBPDatabase<Shelves>) => Promise<Result<T, Trouble>>,
  ): Promise<Result<T, Trouble>> {
    if (typeof indexedDB === 'undefined') return fail({ kind: 'refused' });
    for (const isLast of [false, true]) {
      const connection = (this.#open ??= openShelves(this.#name, () => {
        this.#open = null;
      }));
      let database;
      try {
        database = await connection;
      } catch (error) {
        if (this.#open === connection) this.#open = null;
        return fail(isClosed(error) ? { kind: 'refused' } : troubleOf(error));
      }
      try {
        return await work(database);
      } catch (error) {
        if (isLast || !isClosed(error)) return fail(troubleOf(error));
        if (this.#open === connection) this.#open = null;
      }
    }
    return fail({ kind: 'refused' });
  }

  /** Let the database go; the next work opens it again. */
  async close(): Promise<void> {
    const connection = this.#open;
    this.#open = null;
    await connection?.then(
      (database) => database.close(),
      () => undefined,
    );
  }
}

/** Make the requests of a transaction and wait until they are written; else none of them is. */
export async function allOrNothing(
  writing: { readonly done: Promise<void>; abort(): void },
  requests: readonly (() => Promise<unknown>)[],
): Promise<void> {
  const under: Promise<unknown>[] = [writing.done];
  try {
    for (const request of requests) under.push(request());
    await Promise.all(under);
  } catch (error) {
    for (const each of under) each.catch(() => undefined);
    const why = writing.done.then(
      () => error,
      (reason: unknown) => reason,
    );
    try {
      // One refused before it was made leaves the others to be written.
      writing.abort();
    } catch {
      throw await why; // it had ended already, and knows best
    }
    await why;
    throw error;
  }
}
