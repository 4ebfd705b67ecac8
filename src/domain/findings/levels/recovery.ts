import { cell } from '../../site/cite';
import type { GaugedScreen } from '../../water/event-heads';
import type { Finding, Rule } from '../finding';
import { hoursBetween } from '../moments';
import { finding, lapse } from '../words';

/**
 * At least 24 h after construction, development or purging, longer where the
 * ground yields little: EPA 530/R-93-001, 1992, ch. 4.
 */
const TO_RECOVER = 24; // h

const WORDS: Readonly<Partial<Record<GaugedScreen['reading']['status'], string>>> = {
  recovering: 'was still recovering when it was read',
  pumping: 'was being pumped when it was read',
  flowing: 'was flowing when it was read',
};

/** A well whose level was not at rest; temporary push points have a finding of their own. */
export const notAtRest: Rule = ({ event, heads }) =>
  heads.flatMap((one): Finding[] => {
    const { screen, location, reading, leftOut } = one;
    const words = WORDS[reading.status];
    const counts = leftOut === null;
    if (!words || leftOut === 'read-again' || (one.class === 'push' && !counts)) return [];
    return [
      finding('not at rest', screen.id, event, {
        severity: counts ? 'serious' : location.kind === 'supply well' ? 'note' : 'caution',
        who: [location.id],
        says: `${screen.id} ${words}${counts ? ', and counts in the plane' : ' and is left out of the plane'}.`,
        todo: counts
          ? 'Leave it out, or show by two readings that it had come to rest.'
          : 'Read it again when it has come to rest, and before the next event.',
        cells: [cell('water_levels', reading, 'status')],
      }),
    ];
  });

/** A well gauged within a day of its construction. */
export const justBuilt: Rule = ({ event, heads }) =>
  heads.flatMap((one): Finding[] => {
    const { screen, location, reading, leftOut } = one;
    if (one.class !== 'well' || screen.set_time === null || reading.time === null) return [];
    const waited = hoursBetween(screen.set_time, reading.time);
    if (waited < 0 || waited >= TO_RECOVER || !one.head) return [];
    return [
      finding('gauged too soon', screen.id, event, {
        severity: leftOut === null ? 'caution' : 'note',
        who: [location.id],
        says: `${screen.id} was gauged ${lapse(waited)} after it was set; a new well is left at least ${TO_RECOVER} h.`,
        todo: 'Leave it out of this event unless it is shown to have recovered.',
        cells: [cell('water_levels', reading, 'time'), cell('screens', screen, 'set_time')],
      }),
    ];
  });
