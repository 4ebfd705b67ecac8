import { drawnSurface } from '../../domain/water/drawn-surface';
import { sheetAreas, windowAt, type FigureForm, type ScaleUnit } from '../../domain/walk/figure';
import { SurfaceChoice } from '../check/surface-choice.svelte';
import type { OpenSite } from '../open-site.svelte';

/** A figure being made: what its form says, and what is drawn on it. */
export class Figure {
  readonly #site: OpenSite;
  readonly #surface: SurfaceChoice;

  form: FigureForm = $state.raw({
    paper: 'tabloid',
    upright: false,
    ratio: 1200,
    scaleUnit: 'ft',
    title: 'Water levels, direction of flow and results',
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

  set(change: Partial<FigureForm>) {
    this.form = { ...this.form, ...change };
  }

  /** The unit scales are said in for this site. */
  get usualUnit(): ScaleUnit {
    return this.#site.site.settings.grid.unit === 'm' ? 'm' : 'ft';
  }
}
