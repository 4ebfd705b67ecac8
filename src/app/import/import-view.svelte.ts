import { wordsOf } from '../../domain/findings/ground/coordinates';
import { TABLES, type TableName } from '../../domain/site/schema';
import { rowTexts } from '../../domain/site/table';
import { proposedAnswers, type Answers } from '../../io/import/ask';
import { DELIMITER_WORDS, type Delimiter } from '../../io/import/dress';
import { ENCODING_WORDS, type Encoding } from '../../io/import/encoding';
import { slotNamed, slotsOf, slotTitle } from '../../io/import/forms';
import {
  proposeMapping,
  type ColumnUse,
  type Mapping,
  type Proposal,
} from '../../io/import/match-columns';
import { previewing, summaryOf, type Preview } from '../../io/import/preview';
import type { Dressed } from '../../io/import/read-delimited';
import { refusedCsv } from '../../io/import/refused';
import type { Coordinates, Progress, SourceTable } from '../../io/import/source-table';
import type { OpenSite } from '../open-site.svelte';
import { candidatesIn, pastedCandidate, type Candidate } from './candidates';
import { rememberedMappings, rememberMapping } from './remembered';

export { DELIMITER_WORDS, ENCODING_WORDS };
export type { ColumnUse, Coordinates, Delimiter, Encoding, Preview };

/** Work is done for this long at a time; between, the page answers. */
const AT_A_TIME = 12; // ms

const breath = () => new Promise((go) => setTimeout(go));

/** A column of the file as the screen shows it. */
export type MatchedColumn = {
  readonly at: number;
  readonly heading: string;
  readonly use: ColumnUse;
  readonly why: string;
  readonly sure: boolean;
  /** Its cells in the first rows. */
  readonly first: readonly string[];
  /** Whether it holds a length, whose unit a person may say. */
  readonly isLength: boolean;
};

/** Files on their way into the tables of a site, one after the other. */
export class ImportView {
  open = $state(false);
  /** Tables still to be looked at; the first is in hand. */
  queue: readonly Candidate[] = $state.raw([]);
  source: SourceTable | null = $state.raw(null);
  mapping: Mapping | null = $state.raw(null);
  answers: Answers = $state.raw({});
  preview: Preview | null = $state.raw(null);
  progress: Progress | null = $state.raw(null);
  dressed: Dressed = $state.raw({});
  trouble = $state('');
  /** What the files before this one did. */
  done: readonly string[] = $state.raw([]);

  #proposal: Proposal | null = $state.raw(null);
  /** The look that counts: an earlier one stops where it is. */
  #turn = 0;
  readonly #site: OpenSite;

  constructor(site: OpenSite) {
    this.#site = site;
  }

  readonly columns: readonly MatchedColumn[] = $derived.by(() => {
    const { source, mapping } = this;
    if (!source || !mapping) return [];
    const firsts = [0, 1, 2].map((row) => rowTexts(source.table, row));
    return mapping.columns.map((use, at): MatchedColumn => {
      const match = this.#proposal?.matches[at];
      const own = match?.use === use;
      const slot = use.use === 'slot' ? slotNamed(mapping.form, use.slot) : null;
      return {
        at,
        heading: source.headings[at] ?? '',
        use,
        why: own ? match.why : 'as you say',
        sure: !own || match.score >= 0.9,
        first: firsts.map((texts) => texts[at] ?? ''),
        isLength: slot?.field.kind === 'length' || slot?.field.kind === 'distance',
      };
    });
  });

  /** Where a column can go, by table. */
  readonly slots = $derived.by(() => {
    const all = this.mapping ? slotsOf(this.mapping.form) : [];
    return all.map((slot) => ({
      id: slot.id,
      title: slotTitle(slot),
      says: slot.says,
      choices: slot.field.choices ?? [],
    }));
  });

  /** Places no column fills, which a person may say for every row. */
  readonly unfilled = $derived.by(() => {
    const filled = this.mapping?.columns.flatMap((use) => (use.use === 'slot' ? use.slot : []));
    const asked = this.preview?.asks.map(({ id }) => id) ?? [];
    return this.slots.filter(
      ({ id }) => !id.startsWith('@') && !filled?.includes(id) && !asked.includes(`is ${id}`),
    );
  });

  /** Whether the file says where things are, so that its grid matters. */
  readonly hasPlaces = $derived(
    this.mapping?.columns.some(
      (use) =>
        use.use === 'slot' &&
        /easting|northing|longitude|latitude|@place|features\.shape/.test(use.slot),
    ) ?? false,
  );

  readonly doubts = $derived(
    (this.preview?.doubts ?? []).map((doubt) => wordsOf(this.#site.site, doubt)),
  );

  readonly summary = $derived(this.preview ? summaryOf(this.preview) : '');

  /** Questions without which rows are refused. */
  readonly unanswered = $derived(
    (this.preview?.asks ?? []).filter(({ id, needed }) => needed && !(id in this.answers)),
  );

  async openFiles(files: readonly File[]): Promise<void> {
    this.open = true;
    this.trouble = '';
    const found: Candidate[] = [];
    const troubles: string[] = [];
    for (const file of files) {
      const candidates = await candidatesIn(file);
      if (candidates.ok) found.push(...candidates.value);
      else troubles.push(candidates.problem);
    }
    this.trouble = troubles.join(' ');
    await this.#add(found);
  }

  async openText(text: string): Promise<void> {
    this.open = true;
    this.trouble = '';
    if (text.trim() !== '') await this.#add([pastedCandidate(text)]);
  }

  async #add(found: readonly Candidate[]) {
    const idle = this.queue.length === 0;
    this.queue = [...this.queue, ...found];
    if (idle && found.length > 0) await this.#begin();
  }

  /** Read the first of the queue, as it seems to be dressed or as a person says. */
  async #begin(dressed: Dressed = {}) {
    const turn = ++this.#turn;
    const [candidate] = this.queue;
    this.dressed = dressed;
    this.source = this.mapping = this.preview = this.#proposal = null;
    this.answers = {};
    if (!candidate) return;
    this.progress = { done: 0, of: 1, rows: 0 };
    const reading = candidate.read(dressed);
    for (;;) {
      const step = await reading.next();
      if (turn !== this.#turn) return;
      if (!step.done) {
        this.progress = step.value;
        await breath();
        continue;
      }
      this.progress = null;
      if (step.value.ok) return this.#match(step.value.value, null);
      this.trouble = step.value.problem;
      return this.skip(true);
    }
  }

  async #match(source: SourceTable, form: TableName | null) {
    this.source = source;
    this.#proposal = proposeMapping(source, form, rememberedMappings());
    this.mapping = this.#proposal.mapping;
    await this.#look();
  }

  /** What taking the file would do, with what is known so far. */
  async #look() {
    const turn = ++this.#turn;
    const { source, mapping } = this;
    if (!source || !mapping) return;
    const { package: given, site, grid } = this.#site;
    const steps = previewing(source, mapping, this.answers, { package: given, site, grid });
    let since = performance.now();
    for (;;) {
      const step = steps.next();
      if (step.done) {
        this.progress = null;
        this.preview = step.value;
        return;
      }
      if (performance.now() - since < AT_A_TIME) continue;
      this.progress = step.value;
      await breath();
      if (turn !== this.#turn) return;
      since = performance.now();
    }
  }

  dress(change: Dressed) {
    void this.#begin({ ...this.dressed, ...change });
  }

  chooseForm(form: TableName) {
    this.answers = {};
    if (this.source) void this.#match(this.source, form);
  }

  /** Say what a column is. A place is filled by one column: another that had it is left out. */
  use(at: number, use: ColumnUse) {
    const { mapping } = this;
    if (!mapping) return;
    const columns = mapping.columns.map((before, i): ColumnUse => {
      if (i === at) return use;
      const same = use.use === 'slot' && before.use === 'slot' && before.slot === use.slot;
      return same ? { use: 'leave' } : before;
    });
    this.mapping = { ...mapping, columns };
    void this.#look();
  }

  setCoordinates(coordinates: Coordinates) {
    if (!this.mapping) return;
    this.mapping = { ...this.mapping, coordinates };
    void this.#look();
  }

  answer(id: string, value: string) {
    const { [id]: _, ...others } = this.answers;
    this.answers = value === '' ? others : { ...others, [id]: value };
    void this.#look();
  }

  /** Agree with what the file itself speaks for, where nothing was said yet. */
  agree = () => {
    this.answers = { ...proposedAnswers(this.preview?.asks ?? []), ...this.answers };
    void this.#look();
  };

  /** Make it so: one step that can be undone. */
  take = () => {
    const { preview, mapping } = this;
    if (!preview || !mapping) return;
    if (preview.edit) {
      const made = this.#site.edit(preview.label, preview.edit);
      if (!made.ok) {
        this.trouble =
          made.problem === 'read-only'
            ? 'Another window has this site: nothing can be taken in here.'
            : 'The site has changed meanwhile: look again.';
        return;
      }
    }
    this.#site.showFirst();
    rememberMapping(mapping);
    this.done = [...this.done, `${this.source?.name ?? ''}: ${this.summary}`];
    this.skip();
  };

  /** On to the next file; this one is left out, or done. */
  skip = (keepTrouble = false) => {
    if (!keepTrouble) this.trouble = '';
    this.queue = this.queue.slice(1);
    void this.#begin();
  };

  /** Stop whatever is being read. */
  stop = () => {
    this.#turn++;
    this.progress = null;
    this.trouble = 'Stopped. Nothing was taken in.';
    this.queue = [];
    this.source = this.mapping = this.preview = null;
  };

  close = () => {
    this.stop();
    this.trouble = '';
    this.done = [];
    this.open = false;
  };

  /** The refused rows as a file, with the reason in a last column. */
  refusedFile(): { readonly name: string; readonly text: string } | null {
    const { source, preview } = this;
    if (!source || !preview) return null;
    const stem = source.name.replace(/\.[a-z]+$/i, '').replaceAll(/[^\p{L}\p{N}]+/gu, '-');
    return { name: `${stem}-refused.csv`, text: refusedCsv(source, preview) };
  }
}

/** "Water levels", for a choice of what a file is. */
export const formTitle = (form: TableName) => TABLES[form].title;

const views = new WeakMap<OpenSite, ImportView>();

/** What is on its way into a site; the same each time it is asked for. */
export function importOf(site: OpenSite): ImportView {
  const before = views.get(site);
  if (before) return before;
  const made = new ImportView(site);
  views.set(site, made);
  return made;
}
