import { cell } from '../../site/cite';
import type { Source } from '../../work';
import type { GaugedScreen } from '../../water/event-heads';
import type { Site } from '../../site/site';
import type { Rule } from '../finding';
import { dayOf, isBefore } from '../moments';
import { finding } from '../words';

/** A reading of something that was not there: not yet set, already pulled, or its hole filled. */
export const gaugedWhenAbsent: Rule = ({ site, event, heads }) =>
  heads.flatMap((one) => {
    const doubt = absence(site, one);
    if (!doubt) return [];
    return [
      finding('gauged while it was not there', one.screen.id, event, {
        severity: one.leftOut === null ? 'serious' : 'caution',
        who: [one.location.id],
        says: doubt.says,
        todo: 'Correct the day of the reading or of the construction; it cannot be control on a map of that day.',
        cells: [cell('water_levels', one.reading, 'time'), ...doubt.cells],
      }),
    ];
  });

type Doubt = { readonly says: string; readonly cells: readonly Source[] };

function absence(site: Site, { screen, location, reading }: GaugedScreen): Doubt | null {
  const { time } = reading;
  const { set_time: set, pulled_time: pulled } = screen;
  if (location.status === 'planned' || location.status === 'refused')
    return {
      says: `A level is recorded for ${screen.id}, whose location is only ${location.status}.`,
      cells: [cell('locations', location, 'status')],
    };
  if (time === null) return null;
  if (set !== null && isBefore(time, set))
    return {
      says: `${screen.id} was read at ${time}, before it was set at ${set}.`,
      cells: [cell('screens', screen, 'set_time')],
    };
  if (pulled !== null && isBefore(pulled, time))
    return {
      says: `${screen.id} was read at ${time}, after it was pulled at ${pulled}.`,
      cells: [cell('screens', screen, 'pulled_time')],
    };
  return filledBefore(site, location.id, screen.id, dayOf(time));
}

/** All holes of the location were filled before that day. */
function filledBefore(site: Site, location: string, screen: string, day: string): Doubt | null {
  const holes = site.attempts.filter((attempt) => attempt.location === location);
  const days = holes.map(({ decommission_day }) => decommission_day ?? '9999');
  if (holes.length === 0 || days.some((filled) => filled >= day)) return null;
  const last = days.toSorted().at(-1) ?? '';
  return {
    says: `${screen} was read on ${day}, after its hole was filled on ${last}.`,
    cells: holes.map((hole) => cell('attempts', hole, 'decommission_day')),
  };
}
