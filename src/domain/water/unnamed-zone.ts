import { groupBy } from '../group';
import type { Screen } from '../site/schema';
import type { Site } from '../site/site';
import { acceptedInterval, contactCrossed } from './contact';
import type { GaugedScreen } from './event-heads';
import { intervalOf } from './screen-interval';

/** Whether any screen of a site has a zone. */
export function zonesAreNamed({ screens }: Site): boolean {
  for (const { zone } of screens.values()) if (zone !== null) return true;
  return false;
}

/** Whether a screen's interval crosses a contact, as far as its location was logged, and nobody accepted it. */
export function crossingIn(site: Site): (screen: Screen) => boolean {
  const layers = groupBy(site.strata, ({ location }) => location);
  return (screen) => {
    const location = site.locations.get(screen.location);
    const logged = layers.get(screen.location);
    return (
      location !== undefined &&
      logged !== undefined &&
      contactCrossed(screen, location, logged) !== null &&
      acceptedInterval(site, screen.id) === null
    );
  };
}

/**
 * Whether a screen may be taken to be of the one zone of a site where nobody
 * has named any: not if its interval crosses a contact.
 */
export function ofOneZone(site: Site): (screen: Screen) => boolean {
  if (zonesAreNamed(site)) return () => false;
  const crosses = crossingIn(site);
  return (screen) => !crosses(screen);
}

/** Screens among these that have no zone and cross no contact, each once, in the order of the readings. */
export function withoutZone(site: Site, gauged: readonly GaugedScreen[]): readonly Screen[] {
  const unnamed = gauged.flatMap(({ screen }) => (screen.zone === null ? [screen] : []));
  if (unnamed.length === 0) return [];
  const crosses = crossingIn(site);
  return [...new Set(unnamed)].filter((screen) => !crosses(screen));
}

/** Gauged screens that lie above a depth at which none is open, and those below it. */
export type Apart = {
  readonly above: readonly GaugedScreen[];
  readonly below: readonly GaugedScreen[];
};

/**
 * Where gauged screens fall into a shallower and a deeper group: at the widest
 * gap between their intervals, if it is longer than the longest of these (a
 * judgement, no source). Null where they lie among each other; screens whose
 * elevations are not known are in neither group.
 */
export function depthsApart(gauged: readonly GaugedScreen[]): Apart | null {
  const placed = gauged.flatMap(placedInterval).toSorted((a, b) => b.top - a.top);
  let widest = Math.max(...placed.map(({ top, base }) => top - base));
  let lowest = Infinity;
  let parted = 0;
  placed.forEach(({ top, base }, i) => {
    if (i > 0 && lowest - top > widest) {
      widest = lowest - top;
      parted = i;
    }
    lowest = Math.min(lowest, base);
  });
  const inOrder = placed.map(({ one }) => one);
  return parted === 0 ? null : { above: inOrder.slice(0, parted), below: inOrder.slice(parted) };
}

function placedInterval(one: GaugedScreen) {
  const found = intervalOf(one.screen, one.location);
  const { topElevation: top, baseElevation: base } = found.ok
    ? found.value
    : { topElevation: null, baseElevation: null };
  return top && base ? [{ one, top: top.value, base: base.value }] : [];
}
