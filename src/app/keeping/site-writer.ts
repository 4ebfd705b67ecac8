import type { DataPackage } from '../../domain/site/data-package';
import type { Edit } from '../../domain/site/edits/apply';
import { KEPT_FORMAT, type KeptSite, type Trouble } from '../../io/keeping/database';
import type { Ahead } from '../../io/keeping/entry';
import { aboutBytesOf, blocksOf } from '../../io/keeping/kept-package';
import type { ReadSite } from '../../io/keeping/read-kept';
import type { Entry } from '../../io/keeping/site-store';
import type { WholeSite } from '../../io/keeping/whole-site';
import { Snapshots, type State } from './snapshots';
import { StoredBlocks } from './stored-blocks';
import type { Surroundings } from './surroundings';

/** One entry on its way to the disk. */
export type ToKeep = {
  readonly n: number;
  readonly line: string;
  readonly changed: number;
  readonly after: DataPackage;
  /** To be written out; null where its blocks are written instead. */
  readonly edit: Edit | null;
  readonly isDescriptorNew: boolean;
};

type Queued = ToKeep & {
  /** Number of an earlier entry with the same state; null when there is none. */
  readonly sameAs: number | null;
  readonly done: (isKept: boolean) => void;
};

/** Who the writer works for. */
export type Owner = {
  /** The site as it stands in memory, after its last entry. */
  readonly now: () => { readonly n: number; readonly whole: WholeSite };
  /** Everything up to entry `last` is on the disk; so many are not. */
  readonly onkept: (last: number, unsaved: number) => void;
  readonly ontrouble: (trouble: Trouble) => void;
};

/** Entries one transaction writes at most. */
const MOST_AT_ONCE = 100;

/**
 * Writes the steps of one site to the browser's database, in order, each before
 * it is said to be kept; and the state whole from time to time. What fails for
 * want of room is tried again by itself.
 */
export class SiteWriter {
  readonly #around: Surroundings;
  readonly #owner: Owner;
  readonly #by: string;
  readonly #blocks = new StoredBlocks();
  readonly #snapshots: Snapshots;
  #id: string;
  /** Held back until this window has the right to write. */
  mayWrite = false;

  #durable: State = { n: 0, package: {} as DataPackage };
  #queue: Queued[] = [];
  #numbers = new WeakMap<DataPackage, number>();
  #isToBeCreated = false;
  /** Files carried that are not on the disk yet: written before the next entry. */
  #unwritten = new Map<string, Uint8Array>();

  #work: Promise<void> | null = null;
  #isAskedAgain = false;
  #failures = 0;
  #retry: ReturnType<typeof setTimeout> | null = null;
  #isClosed = false;

  constructor(id: string, around: Surroundings, owner: Owner) {
    this.#id = id;
    this.#around = around;
    this.#owner = owner;
    this.#by = around.newName();
    this.#snapshots = new Snapshots(around, this.#blocks);
  }

  /** Write the site as a new one, under this id, as soon as this window may. */
  startAnew(id: string): void {
    const { n, whole } = this.#owner.now();
    this.#id = id;
    this.#numbers.set(whole.package, n);
    this.#isToBeCreated = true;
    this.mayWrite = false;
  }

  /** Start from what was read. @param numbers  of all blocks on the disk */
  take({ site, package: read, base, blocks, unplayed }: ReadSite, numbers: readonly number[]) {
    this.#durable = { n: site.last, package: read };
    this.#numbers = new WeakMap([[read, site.last]]);
    this.#snapshots.take(base, site.last);
    // An entry that can't be played would hide all that come after it.
    this.#isToBeCreated = unplayed > 0;
    this.#blocks.take(blocks, numbers);
  }

  /** Keep an entry: true once it is on the disk, false where it could not be written. */
  add(entry: ToKeep): Promise<boolean> {
    const sameAs = this.#numbers.get(entry.after) ?? null;
    this.#numbers.set(entry.after, entry.n);
    return new Promise((done) => {
      this.#queue.push({ ...entry, sameAs, done });
      this.go();
    });
  }

  /** A file that is to be on the disk before the next entry is. */
  addFile(path: string, bytes: Uint8Array): void {
    this.#unwritten.set(path, bytes);
  }

  /** Write what is to be written; called again meanwhile, look once more afterwards. */
  go(): void {
    if (this.#work) {
      this.#isAskedAgain = true;
      return;
    }
    if (this.#retry) clearTimeout(this.#retry);
    this.#retry = null;
    this.#isAskedAgain = false;
    this.#work = this.#write()
      .catch((error: unknown) => this.#fail({ kind: 'failed', said: String(error) }))
      .finally(() => {
        this.#work = null;
        if (this.#isAskedAgain) this.go();
      });
  }

  /** No snapshot is begun from now on. */
  beginToClose(): void {
    this.#isClosed = true;
  }

  /** Wait until nothing more can be written. */
  async close(): Promise<void> {
    this.go();
    while (this.#work) await this.#work;
    if (this.#retry) clearTimeout(this.#retry);
  }

  async #write(): Promise<void> {
    while (this.mayWrite) {
      let trouble: Trouble | null = null;
      if (this.#isToBeCreated) trouble = await this.#create();
      else if (this.#queue.length > 0) {
        trouble = await this.#append();
        if (!trouble && this.#snapshots.isOverdue(this.#durable)) await this.#snapshotOn();
      } else if (this.#isClosed || !this.#snapshots.isDue(this.#durable)) return;
      else {
        await this.#around.pause();
        if (this.#queue.length === 0) await this.#snapshotOn();
      }
      if (trouble) {
        this.#fail(trouble);
        return;
      }
    }
  }

  #snapshotOn(): Promise<void> {
    const of = { id: this.#id, by: this.#by, bytesOf: (site: DataPackage) => this.#bytesOf(site) };
    return this.#snapshots.on(this.#durable, of);
  }

  #fail(trouble: Trouble): void {
    this.#owner.ontrouble(trouble);
    for (const { done } of this.#queue) done(false);
    if (trouble.kind !== 'full' && trouble.kind !== 'failed') return;
    const waits = this.#around.retryAfter;
    const wait = waits[Math.min(this.#failures++, waits.length - 1)] ?? 1_000;
    if (!this.#isClosed) this.#retry = setTimeout(() => this.go(), wait);
  }

  /** Everything up to an entry is on the disk. */
  #kept(n: number, site: DataPackage): void {
    const kept = this.#queue.filter((item) => item.n <= n);
    this.#queue = this.#queue.filter((item) => item.n > n);
    this.#durable = { n, package: site };
    this.#failures = 0;
    this.#owner.onkept(n, this.#queue.length);
    for (const { done } of kept) done(true);
  }

  /** Write the site whole: a new one, or one whose storage was cleared under us. */
  async #create(): Promise<Trouble | null> {
    const { store } = this.#around;
    const { n, whole } = this.#owner.now();
    const { package: now, carried, lines } = whole;
    const changed = this.#queue.at(-1)?.changed ?? this.#around.now().getTime();
    this.#blocks.clear();
    this.#snapshots.begin(n);
    const files = await store.putFiles(this.#id, carried);
    if (!files.ok) return files.problem;
    for (const path of carried.keys()) this.#unwritten.delete(path);
    const trouble = await this.#writeBlocks(now);
    if (trouble) return trouble;
    const site: KeptSite = {
      id: this.#id,
      title: now.settings.title,
      format: KEPT_FORMAT,
      last: n,
      by: this.#by,
      changed,
      bytes: this.#bytesOf(now),
    };
    const made = await store.create(site, { n, kept: this.#blocks.shellOf(now) }, lines);
    if (!made.ok) return made.problem;
    this.#isToBeCreated = false;
    this.#snapshots.wasWritten(n);
    this.#kept(n, now);
    return null;
  }

  async #append(): Promise<Trouble | null> {
    const without = await this.#writeFiles();
    if (without) return without;
    const items: Queued[] = [];
    const entries: Entry[] = [];
    for (const item of this.#queue.slice(0, MOST_AT_ONCE)) {
      const written = this.#writtenOut(item);
      if (!written && items.length > 0) break;
      if (!written) {
        const trouble = await this.#writeBlocks(item.after);
        if (trouble) return trouble;
      }
      const ahead = written ?? { kind: 'blocks', kept: this.#keptOf(item) };
      items.push(item);
      entries.push({ n: item.n, line: item.line, ahead });
      if (!written) break;
    }
    const last = items.at(-1);
    if (!last) return null;
    const change = { title: last.after.settings.title, changed: last.changed, by: this.#by };
    const made = await this.#around.store.append(this.#id, this.#durable.n, entries, change);
    if (made.ok) this.#kept(last.n, last.after);
    else return this.#afterRefusal(made.problem);
    return null;
  }

  #afterRefusal(trouble: Trouble): Trouble | null {
    if (trouble.kind === 'gone') {
      this.#isToBeCreated = true;
      return null;
    }
    if (trouble.kind !== 'changed-elsewhere' || trouble.by !== this.#by) return trouble;
    // It was written after all, though the browser did not get round to saying so.
    const written = this.#queue.find(({ n }) => n === trouble.last);
    if (!written) return trouble;
    this.#kept(written.n, written.after);
    return null;
  }

  #writtenOut({ edit, sameAs }: Queued): Ahead | null {
    if (edit) return { kind: 'edit', edit };
    const isThere = sameAs !== null && sameAs >= this.#snapshots.floor;
    return isThere ? { kind: 'state', after: sameAs } : null;
  }

  #keptOf({ after, isDescriptorNew }: Queued) {
    const kept = this.#blocks.shellOf(after);
    return isDescriptorNew ? kept : { ...kept, descriptor: null };
  }

  #bytesOf(site: DataPackage): number {
    const { carried } = this.#owner.now().whole;
    const files = [...carried.values()].reduce((sum, { length }) => sum + length, 0);
    return blocksOf(site).reduce((sum, block) => sum + aboutBytesOf(block), files);
  }

  /** Write the files that steps to come may name. */
  async #writeFiles(): Promise<Trouble | null> {
    const files = new Map(this.#unwritten);
    if (files.size === 0) return null;
    const written = await this.#around.store.putFiles(this.#id, files);
    if (!written.ok) return written.problem;
    for (const path of files.keys()) this.#unwritten.delete(path);
    return null;
  }

  /** Write the blocks of a site that are not on the disk yet. */
  async #writeBlocks(site: DataPackage): Promise<Trouble | null> {
    for (;;) {
      const some = await this.#blocks.writeSome(this.#around.store, this.#id, site);
      if (!some.ok) return some.problem;
      if (!some.value) return null;
      await this.#around.pause();
    }
  }
}
