import type { OpenSite, Way } from '../open-site.svelte';
import { eventInHand, putEventInHand } from './event-in-hand';

/** What a person had in hand in this window: of the last site, its way of working and their initials. */
type InHand = { readonly site: string; readonly way: Way; readonly initials: string };

const KEY = 'downgradient:in-hand';

const WAYS: readonly Way[] = ['lay-out', 'record', 'check', 'walk'];

/** Put down for the next load of this window; a site that nobody keeps is not. */
export function putInHand({ keeper, way, initials, shown }: OpenSite) {
  if (!keeper) return;
  putEventInHand(keeper.id, shown.event);
  const hand: InHand = { site: keeper.id, way, initials };
  try {
    sessionStorage.setItem(KEY, JSON.stringify(hand));
  } catch {
    // A browser that keeps nothing opens the usual way.
  }
}

/** The event a kept site was last looked at in, in view again; the latest where it is not known or no longer there. */
export function takeEventInHand(site: OpenSite) {
  if (site.keeper) showEventOf(site.keeper.id, site);
}

/** Show the event that a kept site, by its id, was last looked at in; nothing is changed where it has no such event. */
export function showEventOf(id: string, site: OpenSite) {
  const event = eventInHand(id);
  if (event !== null && site.site.events.has(event)) site.show({ event });
}

/** The way and initials of the last load of this window taken up again, where it was of this site. */
export function takeInHand(site: OpenSite) {
  try {
    const hand = JSON.parse(sessionStorage.getItem(KEY) ?? 'null') as Partial<InHand> | null;
    if (!hand || hand.site !== site.keeper?.id) return;
    site.way = WAYS.find((way) => way === hand.way) ?? site.way;
    if (typeof hand.initials === 'string') site.initials = hand.initials;
  } catch {
    // As above, or somebody else wrote there.
  }
}
