import type { Site } from '../site/site';
import { headsOf, type GaugedScreen } from '../water/event-heads';
import { flowOf, type Flow } from '../water/flow';

/** What was worked out of a site's events, kept as long as the site is the same. */
type Kept = {
  events: readonly string[] | null;
  readonly heads: Map<string, readonly GaugedScreen[]>;
  readonly flows: Map<string, Flow>;
};

const kept = new WeakMap<Site, Kept>();

function keptOf(site: Site): Kept {
  const before = kept.get(site);
  if (before) return before;
  const made: Kept = { events: null, heads: new Map(), flows: new Map() };
  kept.set(site, made);
  return made;
}

/** Every screen gauged in an event. */
export function headsAt(site: Site, event: string): readonly GaugedScreen[] {
  const { heads } = keptOf(site);
  const made = heads.get(event) ?? headsOf(site, event);
  heads.set(event, made);
  return made;
}

/** The flow of a zone in an event, from every head that counts. */
export function flowAt(site: Site, event: string, zone: string | null): Flow {
  const { flows } = keptOf(site);
  const key = JSON.stringify([event, zone]);
  const made = flows.get(key) ?? flowOf(site, event, zone, headsAt(site, event));
  flows.set(key, made);
  return made;
}

/** Events with water levels, the earliest first. */
export function gaugedEvents(site: Site): readonly string[] {
  const all = keptOf(site);
  if (all.events) return all.events;
  const gauged = new Set(site.waterLevels.map(({ event }) => event));
  all.events = [...site.events.values()]
    .filter(({ id }) => gauged.has(id))
    .toSorted((a, b) => a.first_day.localeCompare(b.first_day))
    .map(({ id }) => id);
  return all.events;
}

/** The gauged event before this one; null for the first. */
export function previousEvent(site: Site, event: string): string | null {
  const events = gaugedEvents(site);
  return events[events.indexOf(event) - 1] ?? null;
}
