import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Block } from '../../domain/site/table';
import type { Ahead } from './entry';
import type { KeptPackage } from './kept-package';

/** One line of the list of sites. */
export type KeptSite = {
  readonly id: string;
  readonly title: string;
  /** The version of the layout it is kept in; that of `KEPT_FORMAT` when written. */
  readonly format: number;
  /** Number of the last entry of its journal; 0 before the first. */
  readonly last: number;
  /** Who wrote that entry: a name made up for each time a site is opened. */
  readonly by: string;
  /** When it was last changed, by this machine's clock, in ms since 1970. */
  readonly changed: number;
  /** About what it takes, in bytes, at the last snapshot. */
  readonly bytes: number;
};

/** A whole state of a site, and the number of the last entry it holds. */
export type Snapshot = { readonly n: number; readonly kept: KeptPackage };

/** Where a site is saved beside the browser: a folder, and what was last read or written there. */
export type Place = {
  readonly folder: FileSystemDirectoryHandle;
  /** Of each file, SHA-256 in hex. */
  readonly digests: Readonly<Record<string, string>>;
  /** The same of saves begun since; each may have been broken off at any file. */
  readonly begun: readonly Readonly<Record<string, string>>[];
  /** The last entry the folder holds. */
  readonly n: number;
};

/** The layout of what is kept here. A newer one is left alone. */
export const KEPT_FORMAT = 1;

const DATABASE_VERSION = 1;

export interface Shelves extends DBSchema {
  sites: { key: string; value: KeptSite };
  snapshots: { key: string; value: Snapshot };
  /** What came after the snapshot, to be played on it. */
  ahead: { key: [string, number]; value: Ahead };
  /** The lines of journal.jsonl written here, for good. */
  journal: { key: [string, number]; value: string };
  blocks: { key: [string, number]; value: Block };
  /** Files of the site's folder that are none of its tables, and the journal it came with. */
  files: { key: [string, string]; value: Uint8Array };
  places: { key: string; value: Place };
}

/** Why something could not be kept or read. */
export type Trouble =
  | { readonly kind: 'full' }
  /** The browser gives no database: a private window, a policy, none there. */
  | { readonly kind: 'refused' }
  /** What is kept was written by a newer version of this app. */
  | { readonly kind: 'newer' }
  /** The site is not there any more. */
  | { readonly kind: 'gone' }
  /** The site has entries we did not write. */
  | { readonly kind: 'changed-elsewhere'; readonly last: number; readonly by: string }
  | { readonly kind: 'failed'; readonly said: string };

const nameOf = (error: unknown) => (error instanceof Error ? error.name : '');

/** What a database's exception means to us. */
export function troubleOf(error: unknown): Trouble {
  switch (nameOf(error)) {
    case 'QuotaExceededError':
      return { kind: 'full' };
    case 'SecurityError':
      return { kind: 'refused' };
    case 'VersionError':
      return { kind: 'newer' };
    default:
      return { kind: 'failed', said: error instanceof Error ? error.message : String(error) };
  }
}

/** Whether the connection was closed under us: storage cleared, or a newer version took over. */
export const isClosed = (error: unknown) => nameOf(error) === 'InvalidStateError';

export const openShelves = async (
  name: string,
  onclosed: () => void,
): Promise<IDBPDatabase<Shelves>> =>
  openDB<Shelves>(name, DATABASE_VERSION, {
    upgrade(database, before) {
      if (before < 1) {
        database.createObjectStore('sites');
        database.createObjectStore('snapshots');
        database.createObjectStore('ahead');
        database.createObjectStore('journal');
        database.createObjectStore('blocks');
        database.createObjectStore('files');
        database.createObjectStore('places');
      }
    },
    blocking(_current, _blocked, event) {
      (event.target as IDBDatabase).close();
      onclosed();
    },
    terminated: onclosed,
  });
