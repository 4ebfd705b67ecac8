import { reachOf } from '../../domain/walk/delineation-stop';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';

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
  /** How far from an exceedance a point may lie to close its side, metres: as in the walk at first. */
  within: number = $state(0);
  /** How far below, metres. */
  below: number = $state(0);

  constructor({ site }: OpenSite) {
    const { within, below } = reachOf(site);
    this.within = within;
    this.below = below;
  }
}

/** The view of a site's results; the same one each time it is asked for. */
export const resultsViewOf = onePerSite((site) => new ResultsView(site));
