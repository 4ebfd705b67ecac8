import { examine, findingsOf } from '../../domain/findings/findings-of';
import type { Asked } from '../../domain/lab/asked-results';
import { SHOWN_AT_FIRST, type Shown } from '../../domain/site/shown';
import {
  flowTable,
  headsTable,
  pushTable,
  resultsTable,
  type ReportTable,
} from '../../domain/walk/report-tables';
import { usualSurface } from '../../domain/walk/usual-surface';
import { resultsWords } from '../../domain/walk/view-words';
import { sectionLines } from '../../domain/water/section';
import {
  sheetAreas,
  windowAt,
  type FigureForm,
  type ScaleUnit,
  type SheetKind,
} from '../../domain/walk/figure';
import { answersFor } from '../answers-for';
import type { OpenSite } from '../open-site.svelte';
import { sectionFor, usualCorridor } from './section-cut';
import { SIGNED, signedOf } from './signed.svelte';

const TITLES: Readonly<Record<SheetKind, string>> = {
  map: 'Water levels, direction of flow and results',
  section: 'Section: ground, screens and water',
  table: 'Table of the event',
};

/** What a sheet is called before somebody names it; a map of a site without an event is of its points. */
function usualTitle(kind: SheetKind, { site, shown }: OpenSite): string {
  if (kind !== 'map' || shown.event !== null) return TITLES[kind];
  const isPlanned = [...site.locations.values()].some(({ status }) => status === 'planned');
  return isPlanned ? 'Planned direct-push points' : 'Site map';
}

/** A figure being made: what its form says, and what is drawn on it. Its switches are its own. */
export class Figure {
  readonly #site: OpenSite;
  /** What the desk showed when the sheet was begun, with what was changed on the sheet since. */
  #chosen: Shown = $state.raw(SHOWN_AT_FIRST);
  /** Which results beside event and analyte, as on the desk. */
  readonly asked: Asked;

  form: FigureForm = $state.raw({
    kind: 'map',
    line: null,
    exaggeration: null,
    table: 'heads',
    boxes: false,
    paper: 'tabloid',
    upright: false,
    ratio: 1200,
    scaleUnit: 'ft',
    title: TITLES.map,
    number: '',
    project: '',
    preparer: '',
    reviewer: '',
    revision: '',
  });
  contours = $state(true);
  /** The middle of the map: east and north in grid metres. */
  centre: readonly [number, number] = $state.raw([0, 0]);

  constructor(site: OpenSite) {
    this.#site = site;
    this.#chosen = site.shown;
    this.asked = site.asked;
    const { project, preparer, reviewer, revision } = signedOf(site);
    this.form = {
      ...this.form,
      title: usualTitle('map', site),
      project,
      preparer,
      reviewer,
      revision,
    };
  }

  readonly answers = $derived.by(() => answersFor(this.#site.site, this.#chosen, this.asked));
  readonly findings = $derived.by(() => {
    const { site, grid } = this.#site;
    return findingsOf(examine(site, this.answers.shown.event, grid.covers));
  });

  get shown(): Shown {
    return this.answers.shown;
  }

  /** Show something else on this sheet; the desk stays as it is. */
  show(change: Partial<Shown>) {
    this.#chosen = { ...this.shown, ...change };
  }

  readonly areas = $derived(sheetAreas(this.form));
  readonly window = $derived.by(() =>
    windowAt(
      this.centre,
      this.areas.map,
      this.form.ratio,
      this.#site.site.grid.combinedFactor ?? 1,
    ),
  );

  /** Null where none are asked for, or where no direction is resolved to go with them. */
  readonly surface = $derived.by(() =>
    this.contours ? usualSurface(this.#site.site, this.answers.flow) : null,
  );

  /** A title nobody changed goes with what stands on the sheet. */
  set(change: Partial<FigureForm>) {
    const { kind, title } = this.form;
    const isUsual = title === usualTitle(kind, this.#site);
    const named = isUsual && change.kind ? { title: usualTitle(change.kind, this.#site) } : {};
    this.form = { ...this.form, ...named, ...change };
    const signed = signedOf(this.#site);
    for (const line of SIGNED) signed[line] = this.form[line];
  }

  /** The section lines of the site. */
  readonly lines = $derived.by(() => sectionLines(this.#site.site));
  /** The section on the sheet; null where no line is drawn. */
  readonly section = $derived.by(() => {
    const { kind, line } = this.form;
    const corridor = usualCorridor(this.#site.site);
    return kind === 'section'
      ? sectionFor(this.answers, line === null ? undefined : { line, corridor })
      : null;
  });
  /** The table on the sheet; null where another kind is asked for. */
  readonly table = $derived.by((): ReportTable | null => {
    const { site, heads, shown, results } = this.answers;
    if (this.form.kind !== 'table') return null;
    switch (this.form.table) {
      case 'heads':
        return headsTable(site, heads);
      case 'flow':
        return flowTable(site, shown.zone);
      case 'results':
        return {
          ...resultsTable(results),
          title: `Results: ${resultsWords(shown, this.asked)}`,
        };
      case 'pushes':
        return pushTable(site);
    }
  });

  /** The unit scales are said in for this site. */
  get usualUnit(): ScaleUnit {
    return this.#site.site.settings.grid.unit === 'm' ? 'm' : 'ft';
  }
}
