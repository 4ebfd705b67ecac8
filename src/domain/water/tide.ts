import type { Site } from '../site/site';

/** Times local to the site, between which all levels of an event were to be read. */
export type TideWindow = { readonly from: string; readonly to: string };

/** The tide window set for an event; null where none is, so that nothing is known of a tide. */
export function tideWindow(site: Site, event: string | null): TideWindow | null {
  const round = event === null ? undefined : site.events.get(event);
  return round?.tide_from && round.tide_to ? { from: round.tide_from, to: round.tide_to } : null;
}

/**
 * What an arrow from spot levels at a tidal site must not be read without. The
 * filter of 71 hourly levels: S. E. Serfes, 1991, Determining the mean hydraulic
 * gradient of ground water affected by tidal fluctuations, Ground Water 29(4)
 * (value and title from memory).
 */
export const TIDAL_WORDS =
  'Spot levels at a tidal site are instantaneous only: a net direction needs the filtered mean of a continuous record, such as 71 hourly levels (Serfes, 1991; from memory).';
