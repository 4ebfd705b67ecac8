import { drawnSurface } from '../../domain/water/drawn-surface';
import { worstByScreen } from '../../domain/lab/worst-by-screen';
import { metres } from '../../domain/units';
import {
  flowTable,
  headsTable,
  pushTable,
  resultsTable,
  type ReportTable,
} from '../../domain/walk/report-tables';
import { headUnder, sectionLines, sectionOf } from '../../domain/water/section';
import {
  sheetAreas,
  windowAt,
  type FigureForm,
  type ScaleUnit,
  type SheetKind,
} from '../../domain/walk/figure';
import { SurfaceChoice } from '../check/surface-choice.svelte';
import type { OpenSite } from '../open-site.svelte';

const TITLES: Readonly<Record<SheetKind, string>> = {
  map: 'Water levels, direction of flow and results',
  section: 'Section: ground, screens and water',
  table: 'Table of the event',
};

/** A figure being made: what its form says, and what is drawn on it. */
export class Figure {
  readonly #site: OpenSite;
  readonly #surface: SurfaceChoice;

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
    this.#surface = new SurfaceChoice(
      () => site.site,
      () => site.flow,
    );
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
  readonly surface = $derived.by(() => {
    const { question, interval } = this.#surface;
    if (!this.contours || !question || interval === null || !this.#site.flow?.resolved) return null;
    const surface = drawnSurface(question);
    return surface.ok ? { surface: surface.value, interval } : null;
  });

  /** A title nobody changed goes with what stands on the sheet. */
  set(change: Partial<FigureForm>) {
    const { kind, title } = this.form;
    const named = title === TITLES[kind] && change.kind ? { title: TITLES[change.kind] } : {};
    this.form = { ...this.form, ...named, ...change };
  }

  /** The section lines of the site. */
  readonly lines = $derived.by(() => sectionLines(this.#site.site));
  /** The section on the sheet; null where no line is drawn. */
  readonly section = $derived.by(() => {
    const site = this.#site;
    const line = this.lines.find(({ feature }) => feature.id === this.form.line) ?? this.lines[0];
    if (this.form.kind !== 'section' || !line) return null;
    const unit = site.site.settings.grid.unit;
    const corridor = metres(unit === 'm' ? 15 : 50, unit);
    const made = sectionOf(
      site.site,
      line.line,
      corridor,
      site.heads,
      headUnder(site.site, site.flow),
      worstByScreen(site.shown.verdicts ? site.shownResults : []),
    );
    return made && { name: line.feature.name ?? line.feature.id, corridor, made };
  });
  /** The table on the sheet; null where another kind is asked for. */
  readonly table = $derived.by((): ReportTable | null => {
    const { site, heads, shown, shownResults } = this.#site;
    if (this.form.kind !== 'table') return null;
    switch (this.form.table) {
      case 'heads':
        return headsTable(site, heads);
      case 'flow':
        return flowTable(site, shown.zone);
      case 'results':
        return resultsTable(shownResults);
      case 'pushes':
        return pushTable(site);
    }
  });

  /** The unit scales are said in for this site. */
  get usualUnit(): ScaleUnit {
    return this.#site.site.settings.grid.unit === 'm' ? 'm' : 'ft';
  }
}
