import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';
import { Drafting } from './drafting.svelte';
import { FieldSheets } from './field-sheets.svelte';
import { HitQuestion } from './hit-question.svelte';
import { LayingPlan } from './laying-plan.svelte';
import type { MapTool } from './map-tool';
import { Replanning } from './replanning.svelte';
import { ScreenPlan } from './screen-plan.svelte';

/** What is in hand in the Lay out way. Never part of the site. */
export class LayOut {
  readonly draft: Drafting;
  readonly laying: LayingPlan;
  readonly question: HitQuestion;
  readonly replanning: Replanning;
  readonly sheets: FieldSheets;
  readonly screens: ScreenPlan;
  #site: OpenSite;

  constructor(site: OpenSite) {
    this.#site = site;
    this.draft = new Drafting(site);
    this.laying = new LayingPlan(site);
    this.question = new HitQuestion(this.laying);
    this.replanning = new Replanning(site, this.laying, this.question);
    this.sheets = new FieldSheets(site);
    this.screens = new ScreenPlan(site, this.sheets, this.laying);
  }

  /** The tool over the map; null while presses choose points as ever. */
  get tool(): MapTool | null {
    if (this.#site.way !== 'lay-out') return null;
    if (this.draft.kind !== null) return this.draft.tool;
    return this.laying.tool ?? this.replanning.tool;
  }
}

/** The laying out of a site; the same one each time it is asked for. */
export const layOutOf = onePerSite((site) => new LayOut(site));
