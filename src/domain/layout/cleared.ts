import type { Site } from '../site/site';

/** A point recorded as cleared of lines: the last word on it counts. */
export type Cleared = {
  /** As recorded: ticket, expiry, private locate, hand-clear depth, by whom. */
  readonly words: string;
  readonly who: string | null;
  readonly when: string | null;
  /** Last day the ticket holds, 2026-05-31; null where none was written. */
  readonly until: string | null;
  /** Depth cleared by hand, as written with its unit; null where none was. */
  readonly handCleared: string | null;
};

/** What is recorded when a point is cleared. Blank where nobody said. */
export type ClearanceRecord = {
  readonly ticket: string;
  readonly expires: string;
  readonly privateLocate: string;
  readonly handCleared: string;
  readonly by: string;
};

/** Begins the reason of a decision that takes a clearance back, as when the point is moved. */
export const NO_LONGER_CLEARED = 'NOT CLEARED any more';

/** The clearance of a point; null where none is recorded, or it was taken back: the point is NOT CLEARED. */
export function clearedOn(site: Site, location: string): Cleared | null {
  const last = site.decisions.findLast(({ what, on }) => what === 'clear point' && on === location);
  if (!last || last.reason.startsWith(NO_LONGER_CLEARED)) return null;
  const until = /\bexpires (\d{4}-\d\d-\d\d)\b/.exec(last.reason)?.[1] ?? null;
  const handCleared = /\bhand-cleared to ([^;]+)/.exec(last.reason)?.[1]?.trim() ?? null;
  return { words: last.reason, who: last.who, when: last.when, until, handCleared };
}

/** Whether a clearance holds on a day: recorded, and its ticket not expired. */
export const holdsOn = (cleared: Cleared | null, day: string): boolean =>
  cleared !== null && (cleared.until === null || cleared.until >= day);

/** How a point stands on a day: the words the sheet prints. */
export const clearedWords = (cleared: Cleared | null, day: string): string =>
  cleared === null
    ? 'NOT CLEARED'
    : holdsOn(cleared, day)
      ? `Cleared: ${cleared.words}`
      : `NOT CLEARED: ticket expired ${cleared.until}`;

/**
 * The record as the reason of a decision. Null without a ticket and without
 * whoever cleared it: there is nothing to record then.
 */
export function clearanceReason(record: ClearanceRecord): string | null {
  const [ticket, by] = [record.ticket.trim(), record.by.trim()];
  if (ticket === '' || by === '') return null;
  const parts: readonly (readonly [string, string])[] = [
    ['ticket', ticket],
    ['expires', record.expires.trim()],
    ['private locate', record.privateLocate.trim()],
    ['hand-cleared to', record.handCleared.trim()],
    ['cleared by', by],
  ];
  return parts
    .filter(([, value]) => value !== '')
    .map(([name, value]) => `${name} ${value}`)
    .join('; ');
}
