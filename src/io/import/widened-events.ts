import { ADJOINS, daysFrom } from './event-days';
import type { Target } from './context';
import type { Change } from './once';
import type { Used } from './used-names';

/**
 * First and last days of the site's events, where rows that are taken lie beside
 * them. What lies further off than a few days is left to the findings: it may be
 * a mistyped date.
 */
export function widenedEvents({ events }: Used, { site }: Target): Change[] {
  const changes: Change[] = [];
  for (const [id, { first, last }] of events) {
    const event = site.events.get(id);
    if (!event) continue;
    const write = (column: 'first_day' | 'last_day', after: string) => {
      if (after === '' || daysFrom(after, event) === 0) return;
      if (daysFrom(after, event) > MOST_WIDENED) return;
      const before = event[column];
      changes.push({ table: 'events', row: event.row - 2, column, before, after, from: 0 });
    };
    if (first < event.first_day) write('first_day', first);
    if (last > event.last_day) write('last_day', last);
  }
  return changes;
}

/** As far as days that adjoin one another reach in a fortnight of field work. */
const MOST_WIDENED = 14 + ADJOINS;
