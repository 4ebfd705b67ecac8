import type { DataPackage } from '../../domain/site/data-package';
import { fail, ok, type Result } from '../../domain/result';
import type { Trouble } from '../../io/keeping/database';
import { readKept } from '../../io/keeping/read-kept';
import { NO_FILES, type WholeSite } from '../../io/keeping/whole-site';
import { withFile } from '../../io/package/files';
import { readNews } from './read-news';
import { hold, holdNext, type Hold } from './site-lock';
import { SiteWriter } from './site-writer';
import { lineOfStep, writtenOut, type Step } from './step';
import type { Channel, Surroundings } from './surroundings';
import { lossWords, READ_ONLY, troubleWords } from './words';

export type { Step };

/**
 * - `saved`: everything shown is on the disk;
 * - `saving`: the last edits are on their way;
 * - `full`: there is no room, edits are in memory, saving is tried again;
 * - `not-kept`: edits are in memory only; `words` say why.
 */
export type KeepingState = 'saved' | 'saving' | 'full' | 'not-kept';

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
  readonly #writer: SiteWriter;
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
  /** Number of the last step taken. */
  #n = $state(0);

  #carried: WholeSite['carried'] = NO_FILES;
  #lines: string[] = [];
  #reading: Promise<void> | null = null;
  #holding: Promise<void> | null = null;
  /** The last entry another window told of. */
  #heard = 0;
  #isClosed = false;

  private constructor(id: string, around: Surroundings, onnews: (site: DataPackage) => void) {
    this.#id = id;
    this.#around = around;
    this.#onnews = onnews;
    this.#channel = around.news();
    this.#writer = new SiteWriter(id, around, {
      now: () => ({ n: this.#n, whole: this.whole }),
      onkept: (last, unsaved) => {
        this.#unsaved = unsaved;
        this.#trouble = null;
        this.#channel?.post({ id: this.#id, last });
      },
      ontrouble: (trouble) => {
        this.#trouble = trouble;
      },
    });
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
    else keeper.#write();
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

  /** Files of the folder beside its tables. */
  get carried(): WholeSite['carried'] {
    return this.#carried;
  }

  /**
   * Put a file into the folder, beside the tables. It is on the disk before the
   * next step is, so that no step names a file that is not there.
   */
  carry(path: string, bytes: Uint8Array): void {
    this.#carried = withFile(this.#carried, path, bytes);
    this.#writer.addFile(path, bytes);
  }

  /**
   * Keep a step. True once it is on the disk; false where it could not be
   * written, and is in memory, or where this window only reads.
   */
  keep(step: Step): Promise<boolean> {
    if (!this.#isWriting || this.#isClosed) return Promise.resolve(false);
    const when = this.#around.now();
    const before = this.#package;
    const { after } = step;
    const line = lineOfStep(step, when);
    const n = ++this.#n;
    this.#package = after;
    this.#lines.push(line);
    this.#unsaved++;
    return this.#writer.add({
      n,
      line,
      changed: when.getTime(),
      after,
      edit: writtenOut(step, before),
      isDescriptorNew: after.descriptor !== before.descriptor,
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
    this.#writer.beginToClose();
    this.#giveUp.abort();
    await this.#holding;
    await this.#writer.close();
    this.#channel?.close();
    this.#hold?.release();
  }

  #startAnew(site: WholeSite): void {
    this.#package = site.package;
    this.#carried = site.carried;
    this.#lines = [...site.lines];
    this.#n = Math.max(this.#n, site.lines.length);
    this.#writer.startAnew(this.#id);
    this.#trouble = null;
    this.#unsaved = Math.max(1, this.#unsaved);
    this.#isWriting = true;
    // Before the first block is written, so that no window takes them for strays.
    this.#hold = null;
    this.#holding = hold(this.#around.locks, this.#id).then((held) => {
      this.#hold = held;
      if (held) this.#write();
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
    const { site, package: now, missing, unplayed } = read.value;
    this.#package = now;
    this.#n = site.last;
    this.#writer.take(read.value, numbers.value);
    this.#problems = lossWords(missing, unplayed);
    return ok(null);
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
      this.#write();
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
    const from = { package: this.#package, n: this.#n };
    const news = await readNews(this.#around.store, this.#id, from);
    if (!news) return false;
    this.#package = news.package;
    this.#n = news.n;
    if (news.lines) this.#lines = news.lines;
    if (news.carried) this.#carried = news.carried;
    this.#onnews(this.#package);
    return true;
  }

  /** This window has the right to write: begin. */
  #write(): void {
    this.#writer.mayWrite = true;
    this.#writer.go();
  }
}
