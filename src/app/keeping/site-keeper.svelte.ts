import type { DataPackage } from '../../domain/site/data-package';
import type { Edit } from '../../domain/site/edits/apply';
import { fail, ok, type Result } from '../../domain/result';
import { KEPT_FORMAT, type KeptSite, type Trouble } from '../../io/keeping/database';
import { isSmall, type Ahead } from '../../io/keeping/entry';
import { changeOf, lineOf, type ImportedFile, type JournalLine } from '../../io/keeping/journal';
import { aboutBytesOf, blocksOf } from '../../io/keeping/kept-package';
import { readKept, readOn, type ReadSite } from '../../io/keeping/read-kept';
import type { Entry } from '../../io/keeping/site-store';
import { NO_FILES, type WholeSite } from '../../io/keeping/whole-site';
import { hold, holdNext, type Hold } from './site-lock';
import { StoredBlocks } from './stored-blocks';
import type { Channel, Surroundings } from './surroundings';
import { lossWords, READ_ONLY, troubleWords } from './words';

/** One thing done to the site, to be kept. */
export type Step = {
  readonly did: JournalLine['did'];
  /** As the menu says it: "Write 8.30 at DP-3". */
  readonly label: string;
  /** What was done; null for undo and redo. */
  readonly edit: Edit | null;
  readonly before: DataPackage;
  readonly after: DataPackage;
  /** Initials, where the person gave them. */
  readonly who?: string | null;
  /** The files an import took its rows from. */
  readonly files?: readonly ImportedFile[];
};

/**
 * - `saved`: everything shown is on the disk;
 * - `saving`: the last edits are on their way;
 * - `full`: there is no room, edits are in memory, saving is tried again;
 * - `not-kept`: edits are in memory only; `words` say why.
 */
export type KeepingState = 'saved' | 'saving' | 'full' | 'not-kept';

type Queued = {
  readonly n: number;
  readonly line: string;
  readonly changed: number;
  readonly after: DataPackage;
  /** To be written out, where it is small and follows on what was kept before. */
  readonly edit: Edit | null;
  /** Number of an earlier entry with the same state; null when there is none. */
  readonly sameAs: number | null;
  readonly isDescriptorNew: boolean;
  readonly done: (isKept: boolean) => void;
};

/** The site after an entry. */
type State = { readonly n: number; readonly package: DataPackage };

/** Entries one transaction writes at most. */
const MOST_AT_ONCE = 100;
/** So many times the usual entries, and a snapshot no longer waits for a pause in the edits. */
const OVERDUE = 4;

/**
 * Keeps one open site in the browser's database: every step is on the disk
 * before the state says `saved`. One window writes; another reads along, and
 * takes over when the first is closed.
 *
 *     const made = apply(site, edit);
 *     if (made.ok) void keeper.keep({ did: 'edit', label, edit, before: site, after: made.value });
 */
export class SiteKeeper {
  readonly #around: Surroundings;
  readonly #by: string;
  readonly #channel: Channel | null;
  readonly #giveUp = new AbortController();
  readonly #onnews: (site: DataPackage) => void;
  #hold: Hold | null = null;

  #id: string = $state('');
  #package: DataPackage = $state.raw() as DataPackage;
  #isWriting = $state(true);
  #trouble: Trouble | null = $state.raw(null);
  #unsaved = $state(0);
  #problems: readonly string[] = $state.raw([]);

  /** Number of the last step taken, and of the last that is on the disk. */
  #n = $state(0);
  #durable: State;
  #queue: Queued[] = [];
  #numbers = new WeakMap<DataPackage, number>();
  /** States after this entry are found again by number. */
  #floor = 0;
  #base = 0;
  #isSnapshotWanted = false;
  #snapshot: State | null = null;
  #isToBeCreated = false;

  readonly #blocks = new StoredBlocks();
  #carried: WholeSite['carried'] = NO_FILES;
  #lines: string[] = [];
  #work: Promise<void> | null = null;
  #isAskedAgain = false;
  #reading: Promise<void> | null = null;
  #holding: Promise<void> | null = null;
  /** The last entry another window told of. */
  #heard = 0;
  #failures = 0;
  #retry: ReturnType<typeof setTimeout> | null = null;
  #isClosed = false;

  private constructor(id: string, around: Surroundings, onnews: (site: DataPackage) => void) {
    this.#durable = { n: 0, package: this.#package };
    this.#id = id;
    this.#around = around;
    this.#onnews = onnews;
    this.#by = around.newName();
    this.#channel = around.news();
  }

  /** Keep a new site: it can be used at once, and is written in the background. */
  static begin(site: WholeSite, around: Surroundings): SiteKeeper {
    const keeper = new SiteKeeper(around.newName(), around, () => undefined);
    keeper.#startAnew(site);
    return keeper;
  }

  /**
   * Open a kept site. Where another window has it, it can be read here and
   * follows what is done there.
   * @param onnews  called with the site when another window has changed it
   */
  static async open(
    id: string,
    around: Surroundings,
    onnews: (site: DataPackage) => void = () => undefined,
  ): Promise<Result<SiteKeeper, Trouble>> {
    const keeper = new SiteKeeper(id, around, onnews);
    keeper.#hold = await hold(around.locks, id);
    const read = await keeper.#read();
    if (!read.ok) {
      await keeper.close();
      return fail(read.problem);
    }
    keeper.#isWriting = keeper.#hold !== null;
    if (!keeper.#isWriting) keeper.#readAlong();
    else keeper.#go();
    return ok(keeper);
  }

  get id(): string {
    return this.#id;
  }

  /** The site as it stands in this window. */
  get site(): DataPackage {
    return this.#package;
  }

  /** Whether this window may write; else another has the site, and edits are not taken. */
  get isWriting(): boolean {
    return this.#isWriting;
  }

  get state(): KeepingState {
    if (this.#trouble) return this.#trouble.kind === 'full' ? 'full' : 'not-kept';
    return this.#unsaved > 0 ? 'saving' : 'saved';
  }

  /** The state in words. */
  get words(): string {
    if (this.#trouble) return troubleWords(this.#trouble, this.#unsaved);
    if (!this.#isWriting) return READ_ONLY;
    return this.#unsaved > 0 ? 'Saving…' : 'Saved';
  }

  /** Steps that are in memory only: closing the window now would lose them. */
  get unsaved(): number {
    return this.#unsaved;
  }

  /** What could not be read when the site was opened, as sentences. */
  get problems(): readonly string[] {
    return this.#problems;
  }

  /** Number of the last step: for telling whether a folder or zip is behind. */
  get steps(): number {
    return this.#n;
  }

  /** The site with all of its folder, for saving to a folder or zip. */
  get whole(): WholeSite {
    return { package: this.#package, carried: this.#carried, lines: [...this.#lines] };
  }

  /**
   * Keep a step. True once it is on the disk; false where it could not be
   * written, and is in memory, or where this window only reads.
   */
  keep(step: Step): Promise<boolean> {
    if (!this.#isWriting || this.#isClosed) return Promise.resolve(false);
    const { did, label, edit, before, after, files } = step;
    const when = this.#around.now();
    const line = lineOf({
      when: when.toISOString(),
      who: step.who?.trim() || null,
      did,
      label,
      ...(files ? { files } : {}),
      ...(edit ? { change: changeOf(before, edit) } : {}),
    });
    const follows = before === this.#package;
    const sameAs = this.#numbers.get(after) ?? null;
    const n = ++this.#n;
    const isDescriptorNew = after.descriptor !== this.#package.descriptor;
    this.#numbers.set(after, n);
    this.#package = after;
    this.#lines.push(line);
    this.#unsaved++;
    return new Promise((done) => {
      this.#queue.push({
        n,
        line,
        changed: when.getTime(),
        after,
        edit: edit && follows && isSmall(edit) ? plain(edit) : null,
        sameAs,
        isDescriptorNew,
        done,
      });
      this.#go();
    });
  }

  /** Keep what is in memory as a site of its own: when another window has changed this one. */
  keepAsCopy(): void {
    this.#hold?.release();
    this.#id = this.#around.newName();
    this.#startAnew(this.whole);
  }

  /** Wait until nothing more can be written, and let the site go. */
  async close(): Promise<void> {
    this.#isClosed = true;
    this.#giveUp.abort();
    await this.#holding;
    this.#go();
    while (this.#work) await this.#work;
    if (this.#retry) clearTimeout(this.#retry);
    this.#channel?.close();
    this.#hold?.release();
  }

  #startAnew(site: WholeSite): void {
    this.#package = site.package;
    this.#carried = site.carried;
    this.#lines = [...site.lines];
    this.#n = Math.max(this.#n, site.lines.length);
    this.#numbers.set(site.package, this.#n);
    this.#isToBeCreated = true;
    this.#trouble = null;
    this.#unsaved = Math.max(1, this.#unsaved);
    this.#isWriting = true;
    // Before the first block is written, so that no window takes them for strays.
    this.#hold = null;
    this.#holding = hold(this.#around.locks, this.#id).then((held) => {
      this.#hold = held;
      this.#go();
    });
  }

  async #read(): Promise<Result<null, Trouble>> {
    const { store } = this.#around;
    const [read, carried, lines, numbers] = await Promise.all([
      readKept(store, this.#id),
      store.files(this.#id),
      store.lines(this.#id),
      store.blockNumbers(this.#id),
    ]);
    if (!read.ok) return read;
    if (!carried.ok) return carried;
    if (!lines.ok) return lines;
    if (!numbers.ok) return numbers;
    this.#carried = carried.value;
    this.#lines = lines.value;
    this.#take(read.value, numbers.value);
    return ok(null);
  }

  #take(read: ReadSite, numbers: readonly number[]): void {
    const { site, base, blocks, missing, unplayed } = read;
    this.#package = read.package;
    this.#n = site.last;
    this.#durable = { n: site.last, package: read.package };
    this.#numbers = new WeakMap([[read.package, site.last]]);
    this.#base = base;
    // The states in between are not in memory, and can't be stepped back to.
    this.#floor = site.last;
    this.#isSnapshotWanted = base < site.last;
    // An entry that can't be played would hide all that come after it.
    this.#isToBeCreated = unplayed > 0;
    this.#blocks.take(blocks, numbers);
    this.#problems = lossWords(missing, unplayed);
  }

  /** Follow the window that writes, and be the next to. */
  #readAlong(): void {
    this.#channel?.listen(({ id, last }) => {
      if (id !== this.#id || this.#isWriting) return;
      this.#heard = Math.max(this.#heard, last);
      this.#readNews();
    });
    const { locks } = this.#around;
    if (!locks) return;
    void holdNext(locks, this.#id, this.#giveUp.signal).then(async (held) => {
      if (!held) return;
      await this.#reading;
      const before = this.#n;
      const read = this.#isClosed ? fail(null) : await this.#read();
      if (!read.ok) {
        held.release();
        this.#trouble = read.problem;
        return;
      }
      this.#hold = held;
      this.#isWriting = true;
      if (this.#n !== before) this.#onnews(this.#package);
      this.#go();
    });
  }

  #readNews(): void {
    this.#reading ??= this.#catchUp().finally(() => {
      this.#reading = null;
    });
  }

  async #catchUp(): Promise<void> {
    while (this.#heard > this.#n && !this.#isClosed) if (!(await this.#readOn())) return;
  }

  async #readOn(): Promise<boolean> {
    const { store } = this.#around;
    const on = await readOn(store, this.#id, { package: this.#package, n: this.#n });
    if (on.ok && on.value) {
      this.#package = on.value.package;
      this.#n = on.value.site.last;
    } else {
      const read = await readKept(store, this.#id);
      if (!read.ok) return false;
      this.#package = read.value.package;
      this.#n = read.value.site.last;
    }
    const lines = await store.lines(this.#id);
    if (lines.ok) this.#lines = lines.value;
    this.#onnews(this.#package);
    return true;
  }

  /** Write what is to be written; called again meanwhile, look once more afterwards. */
  #go(): void {
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
        if (this.#isAskedAgain) this.#go();
      });
  }

  get #canWrite(): boolean {
    return this.#isWriting && this.#hold !== null;
  }

  async #write(): Promise<void> {
    while (this.#canWrite) {
      let trouble: Trouble | null = null;
      if (this.#isToBeCreated) trouble = await this.#create();
      else if (this.#queue.length > 0) {
        trouble = await this.#append();
        if (!trouble && this.#behind > OVERDUE * this.#around.snapshotEvery)
          await this.#snapshotOn();
      } else if (this.#isClosed || !this.#isSnapshotDue) return;
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

  #fail(trouble: Trouble): void {
    this.#trouble = trouble;
    for (const { done } of this.#queue) done(false);
    if (trouble.kind !== 'full' && trouble.kind !== 'failed') return;
    const waits = this.#around.retryAfter;
    const wait = waits[Math.min(this.#failures++, waits.length - 1)] ?? 1_000;
    if (!this.#isClosed) this.#retry = setTimeout(() => this.#go(), wait);
  }

  /** Everything up to an entry is on the disk. */
  #kept(n: number, site: DataPackage): void {
    const kept = this.#queue.filter((item) => item.n <= n);
    this.#queue = this.#queue.filter((item) => item.n > n);
    this.#durable = { n, package: site };
    this.#unsaved = this.#queue.length;
    this.#trouble = null;
    this.#failures = 0;
    for (const { done } of kept) done(true);
    this.#channel?.post({ id: this.#id, last: n });
  }

  /** Write the site whole: a new one, or one whose storage was cleared under us. */
  async #create(): Promise<Trouble | null> {
    const { store } = this.#around;
    const now = this.#package;
    const n = this.#n;
    const lines = [...this.#lines];
    const changed = this.#queue.at(-1)?.changed ?? this.#around.now().getTime();
    this.#blocks.clear();
    this.#floor = n;
    this.#snapshot = null;
    const files = await store.putFiles(this.#id, this.#carried);
    if (!files.ok) return files.problem;
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
    this.#base = n;
    this.#kept(n, now);
    return null;
  }

  async #append(): Promise<Trouble | null> {
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
    const change = {
      title: last.after.settings.title,
      changed: last.changed,
      by: this.#by,
    };
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
    return sameAs !== null && sameAs >= this.#floor ? { kind: 'state', after: sameAs } : null;
  }

  #keptOf({ after, isDescriptorNew }: Queued) {
    const kept = this.#blocks.shellOf(after);
    return isDescriptorNew ? kept : { ...kept, descriptor: null };
  }

  #bytesOf(site: DataPackage): number {
    const files = [...this.#carried.values()].reduce((sum, { length }) => sum + length, 0);
    return blocksOf(site).reduce((sum, block) => sum + aboutBytesOf(block), files);
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

  /** Entries the snapshot does not hold. */
  get #behind(): number {
    return this.#durable.n - this.#base;
  }

  get #isSnapshotDue(): boolean {
    const isDue = this.#behind >= this.#around.snapshotEvery || this.#isSnapshotWanted;
    return this.#snapshot !== null || isDue;
  }

  /** One piece of a snapshot, between edits. */
  async #snapshotOn(): Promise<void> {
    this.#isSnapshotWanted = false;
    this.#snapshot ??= { ...this.#durable };
    const { n, package: site } = this.#snapshot;
    // From now on entries may not lean on states before it.
    this.#floor = Math.max(this.#floor, n);
    const { store, locks } = this.#around;
    const some = await this.#blocks.writeSome(store, this.#id, site);
    if (!some.ok) return this.#giveUpSnapshot();
    if (some.value) return;
    const snapshot = { n, kept: this.#blocks.shellOf(site) };
    const by = locks ? null : this.#by;
    const made = await store.putSnapshot(this.#id, snapshot, this.#bytesOf(site), by);
    if (!made.ok) return this.#giveUpSnapshot();
    this.#blocks.keepOnly(made.value);
    this.#base = n;
    this.#snapshot = null;
  }

  /** The journal has it all: the next snapshot is due after as many entries again. */
  #giveUpSnapshot(): void {
    this.#base = this.#durable.n;
    this.#snapshot = null;
  }
}

/** An edit as plain data, whatever it was put together from. */
const plain = (edit: Edit): Edit => JSON.parse(JSON.stringify(edit)) as Edit;
