import type { Event } from '../site/schema';
import type { Site } from '../site/site';
import type { WalkOf } from './stop';

/**
 * The event in which most direct-push points were sampled, where that is another
 * than the one told of: rounds after it are of the few wells that stand. The
 * later of two alike. Null where there is none.
 */
export function pushEvent(site: Site, { event: told }: Pick<WalkOf, 'event'>): Event | null {
  const points = new Map<string, Set<string>>();
  for (const { event, screen: id, kind } of site.samples.values()) {
    const screen = id === null ? undefined : site.screens.get(id);
    if (event === null || kind !== 'field sample' || !screen) continue;
    if (site.locations.get(screen.location)?.kind !== 'direct push') continue;
    const here = points.get(event) ?? new Set();
    points.set(event, here.add(screen.location));
  }
  const [most] = [...points].toSorted(
    ([a, x], [b, y]) => y.size - x.size || dayOf(site, b).localeCompare(dayOf(site, a)),
  );
  return most === undefined || most[0] === told ? null : (site.events.get(most[0]) ?? null);
}

const dayOf = (site: Site, event: string) => site.events.get(event)?.first_day ?? '';
