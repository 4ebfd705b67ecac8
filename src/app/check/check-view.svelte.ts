import type { MapTool } from '../lay-out/map-tool';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';
import { SectionChoice } from './section-choice.svelte';
import { SeepageChoice } from './seepage-choice.svelte';
import { SurfaceChoice } from './surface-choice.svelte';
import { ThreePicking } from './three-picking.svelte';

/** What a reviewer has chosen while checking an event. Never part of the site. */
export class CheckView {
  readonly surface: SurfaceChoice;
  readonly section: SectionChoice;
  readonly seepage: SeepageChoice;
  readonly three: ThreePicking;
  #site: OpenSite;

  constructor(site: OpenSite) {
    this.#site = site;
    this.surface = new SurfaceChoice(
      () => site.site,
      () => site.flow,
    );
    this.section = new SectionChoice(site);
    this.seepage = new SeepageChoice(
      () => site.site,
      () => site.flow,
      () => site.selected,
      () => this.surface,
    );
    this.three = new ThreePicking(site);
  }

  /** The tool over the map; null while presses choose points as ever. */
  get tool(): MapTool | null {
    if (this.#site.way !== 'check') return null;
    if (this.section.drawing) return this.section.tool;
    return this.three.picked === null ? null : this.three.tool;
  }
}

/** The checking of a site; the same one each time it is asked for. */
export const checkViewOf = onePerSite((site) => new CheckView(site));
