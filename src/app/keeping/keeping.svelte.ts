import type { DataPackage } from '../../domain/site/data-package';
import { fail, ok, type Result } from '../../domain/result';
import { type KeptSite } from '../../io/keeping/database';
import { changeOf, lineOf } from '../../io/keeping/journal';
import { readKept } from '../../io/keeping/read-kept';
import type { WholeSite } from '../../io/keeping/whole-site';
import type { Digests } from '../../io/keeping/folder';
import { FolderPlace } from './folder-place.svelte';
import { SiteKeeper } from './site-keeper.svelte';
import { hold } from './site-lock';
import { thisBrowser, type Channel, type Surroundings } from './surroundings';
import { OPEN_ELSEWHERE, openingWords, troubleWords } from './words';

/** How much this browser keeps for this page, and may, in bytes. */
export type Room = { readonly used: number; readonly allowed: number };

/**
 * The sites kept in this browser: the list, and what can be done to a site
 * that is not open. What can go wrong comes back as a sentence.
 *
 *     const keeping = new Keeping();
 *     await keeping.refresh();
 *     const opened = await keeping.open(keeping.sites[0].id, (site) => …);
 */
export class Keeping {
  readonly #around: Surroundings;
  readonly #channel: Channel | null;
  #sites: readonly KeptSite[] = $state.raw([]);
  #problem: string | null = $state(null);

  constructor(around: Surroundings = thisBrowser()) {
    this.#around = around;
    this.#channel = around.news();
    this.#channel?.listen(() => void this.refresh());
  }

  /** The sites kept here, the last changed first. */
  get sites(): readonly KeptSite[] {
    return this.#sites;
  }

  /** Why there is no list: this browser keeps nothing, or not for us. Null when there is one. */
  get problem(): string | null {
    return this.#problem;
  }

  /** Look again. The list also looks by itself whenever a site is changed in any window. */
  async refresh(): Promise<void> {
    const list = await this.#around.store.list();
    this.#problem = list.ok ? null : openingWords(list.problem);
    if (list.ok) this.#sites = list.value.toSorted((a, b) => b.changed - a.changed);
  }

  /** Keep a new site, from files or blank. It can be used at once. */
  begin(site: WholeSite): SiteKeeper {
    void askToStay();
    return SiteKeeper.begin(site, this.#around);
  }

  /**
   * Open a kept site; a sentence where it can't be.
   * @param onnews  called with the site when another window has changed it
   */
  async open(
    id: string,
    onnews: (site: DataPackage) => void = () => undefined,
  ): Promise<Result<SiteKeeper, string>> {
    const opened = await SiteKeeper.open(id, this.#around, onnews);
    return opened.ok ? opened : fail(openingWords(opened.problem));
  }

  /** Give a site that is not open another title, as an edit of it. */
  async rename(
    id: string,
    title: string,
    who: string | null = null,
  ): Promise<Result<null, string>> {
    return this.#alone(id, async () => {
      const { store, now, newName } = this.#around;
      const read = await readKept(store, id);
      if (!read.ok) return fail(openingWords(read.problem));
      const { site, package: before } = read.value;
      const when = now();
      const edit = { kind: 'change-settings', settings: { title } } as const;
      const change = changeOf(before, edit);
      const line = lineOf({
        when: when.toISOString(),
        who,
        did: 'edit',
        label: `Name the site ${title}`,
        change,
      });
      const entry = { n: site.last + 1, line, ahead: { kind: 'edit', edit } } as const;
      const header = { title, changed: when.getTime(), by: newName() };
      const made = await store.append(id, site.last, [entry], header);
      return made.ok ? ok(null) : fail(troubleWords(made.problem, 0));
    });
  }

  /** Delete a site that is not open, with its journal. It can't be undone: ask first. */
  async remove(id: string): Promise<Result<null, string>> {
    return this.#alone(id, async () => {
      const made = await this.#around.store.remove(id);
      return made.ok ? made : fail(troubleWords(made.problem, 0));
    });
  }

  /** The folder remembered for an open site; null where there is none. */
  folderOf({ id }: SiteKeeper): Promise<FolderPlace | null> {
    return FolderPlace.of(this.#around.store, id);
  }

  /** Save an open site to a folder from now on. @param digests  what was read there, if it came from it */
  useFolder(
    keeper: SiteKeeper,
    folder: FileSystemDirectoryHandle,
    digests: Digests = {},
  ): Promise<FolderPlace> {
    return FolderPlace.take(this.#around.store, keeper, folder, digests);
  }

  /** Drop what a window left behind that broke off while a site was being made. */
  async sweep(): Promise<void> {
    const { store, locks } = this.#around;
    const strays = await store.strays();
    if (!strays.ok || !locks) return;
    for (const id of strays.value) {
      const held = await hold(locks, id);
      if (held) await store.remove(id);
      held?.release();
    }
  }

  /** How much room this browser gives; null where it does not say. */
  async room(): Promise<Room | null> {
    const { usage, quota } = (await storage()?.estimate()) ?? {};
    return usage === undefined || quota === undefined ? null : { used: usage, allowed: quota };
  }

  /** Let the list go. */
  close(): void {
    this.#channel?.close();
  }

  /** Do something to a site nobody has open, and tell the other windows. */
  async #alone(
    id: string,
    work: () => Promise<Result<null, string>>,
  ): Promise<Result<null, string>> {
    const held = await hold(this.#around.locks, id);
    if (!held) return fail(OPEN_ELSEWHERE);
    const made = await work();
    held.release();
    await this.refresh();
    this.#channel?.post({ id, last: 0 });
    return made;
  }
}

/** Absent where the page was not opened over a safe connection. */
const storage = () =>
  typeof navigator === 'undefined' ? undefined : (navigator.storage as StorageManager | undefined);

/** Ask the browser not to clear our database by itself when room gets short. */
const askToStay = async () => {
  await storage()
    ?.persist()
    .catch(() => false);
};
