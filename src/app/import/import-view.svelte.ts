import { wordsOf } from '../../domain/findings/ground/coordinates';
import { TABLES, type TableName } from '../../domain/site/schema';
import { evidentAnswers, offeredAgain, proposedAnswers, type Answers } from '../../io/import/ask';
import { DELIMITER_WORDS, type Delimiter } from '../../io/import/dress';
import { ENCODING_WORDS, type Encoding } from '../../io/import/encoding';
import type { ColumnUse, Mapping, Proposal } from '../../io/import/mapping';
import type { Dressed } from '../../io/import/delimited-reader';
import type { Coordinates, Progress } from '../../io/import/source-table';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';
import type { FoundTables, PreviewShown, Report, SourceShown } from './importing';
import { ImportingAway, Stopped } from './importing-away';
import { bringOver } from './bring-over';
import { ImportQueue } from './import-queue.svelte';
import { leftOutSaid } from './left-out';
import {
  hasPlaces,
  matchedColumns,
  slotsToChoose,
  unfilled,
  withUse,
  type MatchedColumn,
} from './matched-columns';
import { noneTaken } from './none-taken';
import {
  NOTHING_REMEMBERED,
  rememberedAnswers,
  rememberedMappings,
  rememberMapping,
} from './remembered';

export { DELIMITER_WORDS, ENCODING_WORDS };
export type { ColumnUse, Coordinates, Delimiter, Encoding, MatchedColumn, SourceShown };
export type Preview = PreviewShown;

/** Files on their way into the tables of a site, one after the other. */
export class ImportView {
  open = $state(false);
  readonly queue = new ImportQueue();
  source: SourceShown | null = $state.raw(null);
  mapping: Mapping | null = $state.raw(null);
  answers: Answers = $state.raw({});
  preview: Preview | null = $state.raw(null);
  progress: Progress | null = $state.raw(null);
  /** What shows is being read or looked at anew, and nothing can be taken in. */
  busy = $state(false);
  /** What is being done while there is progress: "Reading". */
  doing = $state('');
  dressed: Dressed = $state.raw({});
  trouble = $state('');
  /** The grid of its coordinates is being chosen: until it is, nothing can be taken in. */
  isChoosingGrid = $state(false);

  #proposal: Proposal | null = $state.raw(null);
  /** The look that counts: what an earlier one answers is dropped. */
  #turn = 0;
  readonly #away = new ImportingAway();
  readonly #site: OpenSite;

  constructor(site: OpenSite) {
    this.#site = site;
  }

  readonly columns: readonly MatchedColumn[] = $derived(
    this.source && this.mapping ? matchedColumns(this.source, this.mapping, this.#proposal) : [],
  );

  /** Where a column can go, by table. */
  readonly slots = $derived(this.mapping ? slotsToChoose(this.mapping.form) : []);

  /** Places no column fills, which a person may say for every row. */
  readonly unfilled = $derived(
    this.mapping ? unfilled(this.slots, this.mapping, this.preview?.asks ?? []) : [],
  );

  readonly hasPlaces = $derived(this.mapping !== null && hasPlaces(this.mapping));

  readonly doubts = $derived(
    (this.preview?.doubts ?? []).map((doubt) => wordsOf(this.#site.site, doubt)),
  );

  readonly summary = $derived(this.preview?.summary ?? '');

  /** Why no row of it can be taken yet; null where some can. */
  readonly none = $derived.by(() => {
    const isAnswered = (id: string) => id in this.answers;
    const { size } = this.#site.site.locations;
    return this.preview && noneTaken(this.preview, isAnswered, this.queue.waiting, size);
  });

  /** Questions without which rows are refused. */
  readonly unanswered = $derived(
    (this.preview?.asks ?? []).filter(({ id, needed }) => needed && !(id in this.answers)),
  );

  /** What was answered of the last file of its kind, and is open here. */
  readonly offered: Answers = $derived(
    this.preview && this.mapping
      ? offeredAgain(this.preview.asks, this.answers, rememberedAnswers(this.#title, this.mapping.shape)) // prettier-ignore
      : {},
  );

  openFiles = (files: readonly File[]) =>
    this.#find((away) => away.ask((room) => room.find(files)));

  openText = (text: string) =>
    text.trim() === ''
      ? Promise.resolve()
      : this.#find((away) => away.ask((room) => room.paste(text)));

  async #find(ask: (away: ImportingAway) => Promise<FoundTables>): Promise<void> {
    this.open = true;
    this.trouble = '';
    const found = await this.#answered(ask(this.#away));
    if (!found) return;
    this.trouble = found.troubles.join(' ');
    const idle = this.queue.inHand === null;
    this.queue.add(found.tables);
    if (idle && found.tables.length > 0) await this.#begin();
  }

  /** What was asked for; null where it is not wanted any more or cannot be had, which is said. */
  async #answered<Answer>(asked: Promise<Answer>): Promise<Answer | null> {
    try {
      return await asked;
    } catch (error) {
      if (error instanceof Stopped) return null;
      this.stop();
      this.trouble = `The file could not be read through: ${error instanceof Error ? error.message : String(error)}`;
      return null;
    }
  }

  /** Shows how far the work in hand has got, until other work is. */
  #report(doing: string, turn: number): Report {
    this.doing = doing;
    return this.#away.report((progress) => {
      if (turn === this.#turn) this.progress = progress;
    });
  }

  /** Read the first of the queue, as it seems to be dressed or as a person says. */
  async #begin(dressed: Dressed = {}) {
    const turn = ++this.#turn;
    const table = this.queue.inHand;
    this.dressed = dressed;
    this.isChoosingGrid = false;
    this.source = this.mapping = this.preview = this.#proposal = null;
    this.progress = null;
    this.answers = {};
    this.busy = table !== null;
    if (!table) return;
    this.progress = { done: 0, of: 1, rows: 0 };
    const report = this.#report('read', turn);
    const read = await this.#answered(
      this.#away.ask((room) => room.read(table.number, dressed, report)),
    );
    if (!read || turn !== this.#turn) return;
    this.progress = null;
    if (read.ok) return this.#match(read.value, null);
    this.queue.note(read.problem, false);
    this.#next();
  }

  async #match(source: SourceShown, form: TableName | null, isAnew = false) {
    const turn = ++this.#turn;
    const remembered = isAnew ? NOTHING_REMEMBERED : rememberedMappings(this.#title);
    const proposal = await this.#answered(this.#away.ask((room) => room.match(form, remembered)));
    if (!proposal || turn !== this.#turn) return;
    this.source = source;
    this.#proposal = proposal;
    this.mapping = proposal.mapping;
    await this.#look();
  }

  /** What taking the file would do, with what is known so far. */
  async #look() {
    const turn = ++this.#turn;
    const { mapping, answers } = this;
    if (!mapping) return;
    this.busy = true;
    const look = async () => {
      await this.#away.send(this.#site.package, mapping.form === 'results');
      if (turn !== this.#turn) return null;
      const report = this.#report('checked', turn);
      return this.#away.ask((room) => room.look(mapping, answers, report));
    };
    const preview = await this.#answered(look());
    if (!preview || turn !== this.#turn) return;
    this.progress = null;
    this.busy = false;
    this.preview = preview;
  }

  get #title(): string {
    return this.#site.site.settings.title;
  }

  dress(change: Dressed) {
    void this.#begin({ ...this.dressed, ...change });
  }

  chooseForm(form: TableName) {
    this.answers = {};
    if (this.source) void this.#match(this.source, form);
  }

  /** Match its columns by their headings, whatever was said of such a file before. */
  matchAnew = () => {
    this.answers = {};
    if (this.source) void this.#match(this.source, null, true);
  };

  /** Say what a column is. */
  use(at: number, use: ColumnUse) {
    if (!this.mapping) return;
    this.mapping = withUse(this.mapping, at, use, this.source?.headings[at] ?? '');
    void this.#look();
  }

  setCoordinates(coordinates: Coordinates) {
    this.isChoosingGrid = false;
    if (!this.mapping) return;
    this.mapping = { ...this.mapping, coordinates };
    void this.#look();
  }

  answer(id: string, value: string) {
    const { [id]: _, ...others } = this.answers;
    this.answers = value === '' ? others : { ...others, [id]: value };
    void this.#look();
  }

  /** Answer as for the last file of its kind, where nothing was said yet. */
  asBefore = () => this.#give(this.offered);

  /** Agree with what the file itself speaks for, where nothing was said yet. */
  agree = () => this.#give(evidentAnswers(this.preview?.asks ?? []));

  /** Answer what the file says nothing of as is usual, where nothing was said yet. */
  asUsual = () =>
    this.#give(proposedAnswers((this.preview?.asks ?? []).filter((ask) => ask.usual)));

  #give(answers: Answers) {
    this.answers = { ...answers, ...this.answers };
    void this.#look();
  }

  /** Make it so: one step that can be undone. */
  take = async () => {
    const { preview, mapping } = this;
    if (!preview || !mapping || this.busy || this.isChoosingGrid) return;
    if (preview.hasEdit && !(await this.#take(preview))) return;
    rememberMapping(this.#title, mapping, this.answers);
    this.queue.note(preview.took, true);
    this.#next();
  };

  async #take({ label }: Preview): Promise<boolean> {
    const turn = ++this.#turn;
    const before = this.#site.package;
    const isWanted = () => turn === this.#turn && this.#site.package === before;
    const tell = (doing: string, progress: Progress) => {
      if (turn === this.#turn) [this.doing, this.progress] = [doing, progress];
    };
    this.busy = true;
    tell('brought over', { done: 0, of: 1, rows: 0 });
    const made = await this.#answered(bringOver(this.#away, this.#site, label, isWanted, tell));
    if (!made || turn !== this.#turn) return false;
    this.progress = null;
    this.busy = false;
    if (made.ok) return true;
    this.trouble =
      made.problem === 'read-only'
        ? 'Another window has this site: nothing can be taken in here.'
        : 'The site has changed meanwhile: look again.';
    void this.#look();
    return false;
  }

  /** On to the next file; this one is left out. */
  skip = () => {
    this.queue.note(leftOutSaid(this.preview?.account ?? null), false);
    this.#next();
  };

  /** Come back to this file after the others. */
  later = () => {
    this.queue.later();
    void this.#begin();
  };

  /** Look at another file of the queue now, and at this one after it. */
  takeFirst = (number: number) => {
    this.queue.first(number);
    void this.#begin();
  };

  #next() {
    this.trouble = '';
    this.queue.next();
    void this.#begin();
  }

  /** Stop whatever is being read. */
  stop = () => {
    this.#turn++;
    this.#away.stop();
    this.progress = null;
    this.busy = false;
    this.trouble = 'Stopped. Nothing was taken in.';
    this.queue.empty();
    this.source = this.mapping = this.preview = null;
  };

  close = () => {
    this.stop();
    this.trouble = '';
    this.queue.done = [];
    this.open = false;
  };

  /** The refused rows as a file, with the reason in a last column. */
  async refusedFile(): Promise<{ readonly name: string; readonly text: string } | null> {
    const name = this.source?.name ?? '';
    const text = await this.#answered(this.#away.ask((room) => room.refused()));
    const stem = name.replace(/\.[a-z]+$/i, '').replaceAll(/[^\p{L}\p{N}]+/gu, '-');
    return text ? { name: `${stem}-refused.csv`, text } : null;
  }
}

/** "Water levels", for a choice of what a file is. */
export const formTitle = (form: TableName) => TABLES[form].title;

/** What is on its way into a site; the same each time it is asked for. */
export const importOf = onePerSite((site) => new ImportView(site));
