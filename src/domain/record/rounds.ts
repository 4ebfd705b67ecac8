import type { Edit } from '../site/edits/apply';
import type { Event } from '../site/schema';
import type { Site } from '../site/site';
import { cellsOf } from './holes';

/** The round a day falls in: the latest that was under way then; null when there is none. */
export const roundOf = (site: Site, day: string): Event | null =>
  [...site.events.values()]
    .filter(({ first_day, last_day }) => first_day <= day && day <= last_day)
    .toSorted((a, b) => b.first_day.localeCompare(a.first_day))[0] ?? null;

/** Name of the round begun on a day, one that no round has. */
export function newRoundName(site: Site, day: string): string {
  let name = day;
  for (let n = 2; site.events.has(name); n++) name = `${day} ${n}`;
  return name;
}

/**
 * What has to be done to a round so that a reading of a day belongs to it: it
 * is begun if there is none of that name, and stretched to the day if it is
 * outside it. Nothing where it is within.
 */
export function roundEdits(site: Site, round: string, day: string): readonly Edit[] {
  const event = site.events.get(round);
  if (!event)
    return [
      {
        kind: 'add-rows',
        table: 'events',
        rows: [{ id: round, title: `Fieldwork of ${day}`, first_day: day, last_day: day }],
      },
    ];
  const stretched = {
    ...(day < event.first_day ? { first_day: day } : {}),
    ...(day > event.last_day ? { last_day: day } : {}),
  };
  return Object.keys(stretched).length === 0
    ? []
    : [{ kind: 'write-cells', table: 'events', cells: cellsOf(event, stretched) }];
}
