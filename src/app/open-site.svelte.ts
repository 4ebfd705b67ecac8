import { getContext, setContext, untrack } from 'svelte';
import type { Grid } from '../domain/grid';
import { fail, type Result } from '../domain/result';
import type { DataPackage } from '../domain/site/data-package';
import { apply, type Edit, type EditProblem } from '../domain/site/edits/apply';
import type { Problem } from '../domain/site/problem';
import type { Decision } from '../domain/site/schema';
import { SHOWN_AT_FIRST, type Shown } from '../domain/site/shown';
import { checking, examine, findingsOf } from '../domain/findings/findings-of';
import { ASKED_AT_FIRST, askedOf, judgedIn, type Asked } from '../domain/lab/asked-results';
import { drawnOf } from '../domain/lab/drawn-results';
import { judgedList } from '../domain/lab/judged-selection';
import { ofAnalyte } from '../domain/lab/selection';
import { readingResultsIn } from '../domain/lab/site-results';
import { flowAt, headsAt } from '../domain/findings/history';
import { zonesOf } from '../domain/water/flow';
import type { Work } from '../domain/work';
import type { ImportedFile } from '../io/keeping/journal';
import { gridOf, siteOf } from '../io/open-site';
import { NO_FILES } from '../io/keeping/whole-site';
import { withFile, type Files } from '../io/package/files';
import type { SiteKeeper, Step } from './keeping/site-keeper.svelte';
import * as history from './history';
import { inTurns, readInSteps, takeSteps, type RowsRead } from './open-in-steps';
import { localSecond } from './record/clock';
import { askedIn, shownIn } from './shown-in';

/** The four ways of working, named for what the person does. */
export type Way = 'lay-out' | 'record' | 'check' | 'walk';

/** A site as it comes from files, a demo or this browser. */
export type SiteToOpen = {
  readonly package: DataPackage;
  readonly problems: readonly Problem[];
  /** Who keeps it already. */
  readonly keeper?: SiteKeeper;
  /** Files of its folder beside its tables, for a site that nobody keeps yet. */
  readonly files?: Files;
  /** Called at its first edit, for a site that nobody keeps yet. */
  readonly beginKeeping?: () => SiteKeeper;
};

/**
 * The open site, and what follows from it. `$state.raw` because a site is
 * immutable and only ever replaced: nothing is proxied, so values go to the
 * map, to workers and to tests just as they are.
 */
export class OpenSite {
  #history: history.History<DataPackage>;
  /** What could not be read of the files as they were opened. */
  readonly openingProblems: readonly Problem[];

  way = $state<Way>('check');
  #chosen: Shown = $state.raw(SHOWN_AT_FIRST);
  /** The location in hand, by id. Switching ways never loses it. */
  selected: string | null = $state(null);
  /** The number whose work is open. */
  work: Work | null = $state.raw(null);

  /**
   * What a sheet draws on the map beside the site itself, by the sheet's own
   * name for it: contours, triangles, a grid being laid. Each is replaced whole.
   */
  overlays: Readonly<Record<string, readonly unknown[]>> = $state.raw({});

  readonly #opened = $derived.by(() => {
    const { grid, problem } = gridOf(this.package);
    return { grid, site: siteOf(this.package, grid, problem) };
  });
  /** What is shown: what was chosen, as far as the site has it after every edit and undo. */
  readonly shown: Shown = $derived(shownIn(this.site, this.#chosen));
  readonly heads = $derived(this.shown.event === null ? [] : headsAt(this.site, this.shown.event));
  readonly zones = $derived(zonesOf(this.heads));
  readonly flow = $derived(
    this.shown.event === null ? null : flowAt(this.site, this.shown.event, this.shown.zone),
  );
  readonly findings = $derived(findingsOf(examine(this.site, this.shown.event, this.grid.covers)));
  #asked: Asked = $state.raw(ASKED_AT_FIRST);
  readonly #askedHere = $derived(askedIn(this.site, this.#asked));
  // By themselves, so that a choice of another analyte or set filters nothing anew.
  readonly #event = $derived(this.shown.event);
  readonly #analyte = $derived(this.shown.analyte);
  readonly #levelSet = $derived(this.shown.levelSet);
  /** What is asked for, every analyte; and of it the analyte in view. */
  readonly selection = $derived(askedOf(this.site, this.#event, this.asked));
  readonly #inView = $derived(ofAnalyte(this.selection, this.#analyte));
  /** What is asked for against the level set, every analyte; field samples of the event at first. */
  readonly judged = $derived(judgedIn(this.site, this.#levelSet, this.selection));
  /** Of these, the analyte in view. */
  readonly judgedInView = $derived(judgedIn(this.site, this.#levelSet, this.#inView));
  /** Of these, enough to draw the marks of every screen by. */
  readonly drawnResults = $derived(drawnOf(this.site, this.judgedInView));
  /** `judgedInView` as objects: not for what is looked at while every event is asked for. */
  readonly shownResults = $derived(judgedList(this.judgedInView));

  #keeper: SiteKeeper | null;
  readonly #beginKeeping: (() => SiteKeeper) | null;
  #files: Files;

  constructor(opened: SiteToOpen) {
    this.#history = $state.raw(history.begin(opened.package));
    this.openingProblems = opened.problems;
    this.#keeper = $state.raw(opened.keeper ?? null);
    this.#beginKeeping = opened.beginKeeping ?? null;
    this.#files = opened.files ?? NO_FILES;
    this.#chosen = this.shown;
  }

  /** Who keeps the site; null for one that is looked at and not yet edited, such as a demo. */
  get keeper(): SiteKeeper | null {
    return this.#keeper;
  }

  /** Whether edits are taken: not while another window has the site. */
  get canEdit(): boolean {
    return this.#keeper?.isWriting ?? true;
  }

  /** The site as another window has just changed it. */
  follow(site: DataPackage) {
    this.#history = history.begin(site);
  }

  get package(): DataPackage {
    return this.#history.now.value;
  }

  get site() {
    return this.#opened.site;
  }

  get grid(): Grid {
    return this.#opened.grid;
  }

  get problems(): readonly Problem[] {
    return [...this.openingProblems, ...this.site.problems];
  }

  /** What undoing would undo, for its button; null when there is nothing. */
  get undoLabel(): string | null {
    return this.#history.past.length > 0 ? this.#history.now.label : null;
  }

  get redoLabel(): string | null {
    return this.#history.future[0]?.label ?? null;
  }

  /**
   * Make an edit; or say why not, and leave the site as it was.
   * @param files  those an import took its rows from
   */
  edit(
    label: string,
    edit: Edit,
    files: readonly ImportedFile[] = [],
  ): Result<DataPackage, EditProblem | 'read-only'> {
    if (!this.canEdit) return fail('read-only');
    const before = this.package;
    const result = apply(before, edit);
    if (result.ok) this.#perform(label, edit, before, result.value, files);
    return result;
  }

  /**
   * `edit` for very many rows: they are read in steps, in which the page
   * answers, before the site has them.
   * @param isWanted  asked before the site changes: false leaves it as it stands
   */
  async editInSteps(
    label: string,
    edit: Edit,
    files: readonly ImportedFile[],
    isWanted: () => boolean,
    report: (rows: RowsRead) => void,
  ): Promise<Result<DataPackage, EditProblem | 'read-only' | 'changed'>> {
    const before = this.package;
    if (!isWanted()) return fail('changed');
    const result = apply(before, edit);
    if (!result.ok) return result;
    await readInSteps(result.value, report);
    const ahead = new OpenSite({ package: result.value, problems: [] });
    ahead.show(this.#chosen);
    await ahead.workOut();
    if (!this.canEdit) return fail('read-only');
    if (!isWanted() || this.package !== before) return fail('changed');
    this.#perform(label, edit, before, result.value, files);
    return result;
  }

  /** Work out what is shown first, with rests: another of the same package has it at once. */
  async workOut(): Promise<void> {
    const { event } = this.shown;
    await inTurns([() => this.heads, () => this.flow]);
    if (event !== null) await takeSteps(readingResultsIn(this.site, event));
    await inTurns([() => this.judged]);
    await takeSteps(checking(examine(this.site, event, this.grid.covers)));
  }

  #perform(
    label: string,
    edit: Edit,
    before: DataPackage,
    after: DataPackage,
    files: readonly ImportedFile[],
  ) {
    this.#keeper ??= this.#beginKeeping?.() ?? null;
    // What is in view stays in view, though the edit brings a later event.
    const { event, levelSet } = this.shown;
    this.#chosen = {
      ...this.#chosen,
      event: this.#chosen.event ?? event,
      levelSet: this.#chosen.levelSet ?? levelSet,
    };
    this.#history = history.perform(this.#history, label, after);
    this.#keep({ did: 'edit', label, edit, before, after, ...(files.length > 0 ? { files } : {}) });
  }

  /** Files of the site's folder beside its tables. */
  get files(): Files {
    return this.#keeper?.carried ?? this.#files;
  }

  /** Put a file into the site's folder, for the edit that names it. */
  carry(path: string, bytes: Uint8Array) {
    this.#keeper ??= this.#beginKeeping?.() ?? null;
    if (this.#keeper) this.#keeper.carry(path, bytes);
    else this.#files = withFile(this.#files, path, bytes);
  }

  #keep(step: Step) {
    void this.#keeper?.keep({ ...step, who: this.initials });
  }

  /** Initials of whoever works here, for decisions; blank if not given. */
  initials = $state('');

  /** Decide something with a written reason, now; of several things alike, in one step. */
  decide(label: string, what: Decision['what'], on: string | readonly string[], reason: string) {
    const by = { reason, who: this.initials, when: localSecond().slice(0, 16) };
    const deed = (one: string) => ({ kind: 'decide', what, on: one, ...by }) as const;
    if (typeof on === 'string') return this.edit(label, deed(on));
    return this.edit(label, { kind: 'together', edits: on.map(deed) });
  }

  undo = () => this.#step('undo', this.undoLabel, history.undo);

  redo = () => this.#step('redo', this.redoLabel, history.redo);

  #step(
    did: 'undo' | 'redo',
    label: string | null,
    move: (h: history.History<DataPackage>) => history.History<DataPackage>,
  ) {
    if (label === null || !this.canEdit) return;
    const before = this.package;
    this.#history = move(this.#history);
    this.#keep({ did, label, edit: null, before, after: this.package });
  }

  /** Change what is shown. A three-point construction goes with the event and zone it was made in. */
  show(change: Partial<Shown>) {
    const next = { ...this.#chosen, ...change };
    const { event, zone } = shownIn(this.site, next);
    const isHere = event === this.shown.event && zone === this.shown.zone;
    this.#chosen = isHere ? next : { ...next, construction: change.construction ?? [] };
  }

  /** Which results the sheet and the map show, beside event and analyte. */
  get asked(): Asked {
    return this.#askedHere;
  }

  set asked(asked: Asked) {
    this.#asked = asked;
  }

  /** Draw something more on the map, in place of what stood under that name; nothing takes it away. */
  overlay(name: string, items: readonly unknown[]) {
    // An effect that draws does not wait on what is drawn, or it would run for ever.
    const { [name]: before, ...others } = untrack(() => this.overlays);
    if (items.length > 0) this.overlays = { ...others, [name]: items };
    else if (before) this.overlays = others;
  }

  select = (location: string | null) => {
    this.selected = location;
  };
}

const KEY = Symbol('site');
/** Makes a site the one that everything below a part of the page asks for with `useSite`. */
export const provideSite = (site: OpenSite) => setContext(KEY, site);
/** The site that is open; only while a part of the page is being made. */
export const useSite = () => getContext<OpenSite>(KEY);
