import { onePerSite } from '../one-per-site.svelte';

/** What the results part of Check shows, beside what the site shows everywhere. Never part of the site. */
export class ResultsView {
  /** Which part of Check is in hand. */
  part = $state<'flow' | 'results'>('flow');
  /** The table of samples by analytes is open over the map. */
  table = $state(false);
  /** Boxes of results stand beside the points. */
  boxes = $state(false);
  /** Whether the sides of each exceedance are drawn on the map. */
  sides = $state(false);
  /** How far from an exceedance a point may lie to close its side, metres: 100 ft at first. */
  within = $state(30.48);
  /** How far below, metres: 20 ft at first. */
  below = $state(6.096);
}

/** The view of a site's results; the same one each time it is asked for. */
export const resultsViewOf = onePerSite(() => new ResultsView());
