import type { Problem } from '../../domain/site/problem';
import { fail, ok, type Result } from '../../domain/result';
import type { Place } from '../../io/keeping/database';
import { digestsOf, writeFolder, type Digests, type FolderProblem } from '../../io/keeping/folder';
import type { SiteStore } from '../../io/keeping/site-store';
import type { WholeSite } from '../../io/keeping/whole-site';
import { openFolderAway } from '../open-away';
import type { RowsRead } from '../open-in-steps';
import { unzipped } from './pack';
import type { SiteKeeper } from './site-keeper.svelte';

/** Parts of the File System Access API (WICG, 2023) that TypeScript does not list. */
type Picker = { showDirectoryPicker?: (options: object) => Promise<FileSystemDirectoryHandle> };
type Permitted = FileSystemDirectoryHandle & {
  requestPermission?: (wish: { mode: 'readwrite' }) => Promise<PermissionState>;
};

const picker = () => (globalThis as Picker).showDirectoryPicker?.bind(globalThis);

/** Whether this browser lets a page open a folder and save into it; else there is the zip. */
export const canPickFolder = (): boolean => picker() !== undefined;

/** A folder the person chooses; null where they choose none. Call it from a click. */
export async function pickFolder(): Promise<FileSystemDirectoryHandle | null> {
  try {
    return (await picker()?.({ mode: 'readwrite' })) ?? null;
  } catch (error) {
    if (error instanceof Error && error.name === 'AbortError') return null;
    throw error;
  }
}

export type FolderSite = {
  readonly site: WholeSite;
  readonly problems: readonly Problem[];
  readonly folder: FileSystemDirectoryHandle;
  readonly digests: Digests;
};

/** The site in a folder, opened away from the page; a sentence where there is none. */
export async function openFolder(
  folder: FileSystemDirectoryHandle,
  report?: (rows: RowsRead) => void,
): Promise<Result<FolderSite, string>> {
  const opened = await openFolderAway(folder, report);
  return opened.ok ? ok({ ...opened.value, folder }) : opened;
}

/**
 * The folder an open site is saved to. It is remembered with the site, so that
 * the next day one click (for the browser's permission) saves there again.
 */
export class FolderPlace {
  readonly #store: SiteStore;
  readonly #id: string;
  #place: Place = $state.raw() as Place;

  private constructor(store: SiteStore, id: string, place: Place) {
    this.#store = store;
    this.#id = id;
    this.#place = place;
  }

  /** The folder remembered for a site; null where there is none. */
  static async of(store: SiteStore, id: string): Promise<FolderPlace | null> {
    const place = await store.place(id);
    return place.ok && place.value ? new FolderPlace(store, id, place.value) : null;
  }

  /** Save a site to a folder from now on. @param digests  what was read there; none for a new place */
  static async take(
    store: SiteStore,
    { id, steps }: SiteKeeper,
    folder: FileSystemDirectoryHandle,
    digests: Digests = {},
  ): Promise<FolderPlace> {
    const n = Object.keys(digests).length > 0 ? steps : -1;
    const place = { folder, digests, begun: [], n };
    await store.putPlace(id, place);
    return new FolderPlace(store, id, place);
  }

  get name(): string {
    return this.#place.folder.name;
  }

  /** Steps taken since the folder was last saved; it was never where this is more than all steps. */
  behind({ steps }: SiteKeeper): number {
    return steps - this.#place.n;
  }

  /**
   * Save the site into the folder: only the files that differ. Nothing is written where a file was changed there by someone else,
   * unless `replace` says to. Call it from a click: the browser may ask first.
   */
  async save(keeper: SiteKeeper, replace = false): Promise<Result<null, FolderProblem>> {
    const folder: Permitted = this.#place.folder;
    const permission = (await folder.requestPermission?.({ mode: 'readwrite' })) ?? 'granted';
    if (permission !== 'granted')
      return fail({ kind: 'not-written', said: 'this page was not allowed to' });
    const { steps, whole } = keeper;
    const files = await unzipped(whole);
    const digests = await digestsOf(files);
    const begun = [...this.#place.begun, digests];
    const ours = [this.#place.digests, ...begun];
    await this.#remember({ ...this.#place, begun });
    const written = await writeFolder(folder, { files, digests }, ours, replace);
    if (!written.ok) return written;
    await this.#remember({ ...this.#place, digests, begun: [], n: steps });
    return ok(null);
  }

  async #remember(place: Place): Promise<void> {
    this.#place = place;
    await this.#store.putPlace(this.#id, place);
  }
}
