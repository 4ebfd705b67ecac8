import { headsAt } from '../domain/findings/history';
import { choicesIn, type Asked } from '../domain/lab/asked-results';
import type { Shown } from '../domain/site/shown';
import type { Site } from '../domain/site/site';
import { zonesOf } from '../domain/water/flow';

/**
 * What was chosen to be shown, as far as the site as it is now has it: an
 * event, a zone gauged in it and a set of levels the site has come in place of
 * those it has not, or no longer. The same value where nothing need change.
 */
export function shownIn(site: Site, chosen: Shown): Shown {
  const event =
    chosen.event !== null && site.events.has(chosen.event) ? chosen.event : firstEvent(site);
  const zone = zoneIn(site, event, chosen.zone);
  const levelSet = levelSetIn(site, chosen.levelSet);
  const here = event === chosen.event && zone === chosen.zone;
  if (here && levelSet === chosen.levelSet) return chosen;
  return { ...chosen, event, zone, levelSet, ...(here ? {} : { construction: [] }) };
}

/** A zone gauged in the event: the one chosen, else the first; null where there is none. */
function zoneIn(site: Site, event: string | null, chosen: string | null): string | null {
  if (event === null) return null;
  const zones = zonesOf(headsAt(site, event));
  return zones.includes(chosen) ? chosen : (zones[0] ?? null);
}

/** The latest event with levels, else the latest. */
function firstEvent({ events, waterLevels }: Site): string | null {
  const latest = [...events.values()].toSorted((a, b) => b.first_day.localeCompare(a.first_day));
  const gauged = latest.find(({ id }) => waterLevels.some(({ event }) => event === id));
  return (gauged ?? latest[0])?.id ?? null;
}

function levelSetIn(site: Site, chosen: string | null): string | null {
  const { screeningLevels: levels } = site;
  const has = (name: string) => levels.some(({ set }) => set === name);
  if (chosen !== null && has(chosen)) return chosen;
  return site.settings.levelSets.find(has) ?? levels[0]?.set ?? null;
}

/** What results were asked for, without a zone or matrix the site no longer has. */
export function askedIn(site: Site, asked: Asked): Asked {
  if (asked.zone === null && asked.matrix === null) return asked;
  const { zones, matrices } = choicesIn(site);
  const zone = asked.zone !== null && zones.includes(asked.zone) ? asked.zone : null;
  const matrix = asked.matrix !== null && matrices.includes(asked.matrix) ? asked.matrix : null;
  return zone === asked.zone && matrix === asked.matrix ? asked : { ...asked, zone, matrix };
}
