import { cell } from '../../site/cite';
import type { GaugedScreen } from '../../water/event-heads';
import type { Finding, Rule } from '../finding';
import { dayOf, hoursBetween } from '../moments';
import { counted, finding, lapse, listed, locationsOf } from '../words';

type Timed = { readonly one: GaugedScreen; readonly time: string; readonly hours: number };

/**
 * Heads of one plane read over more than the reviewer's limit: levels move
 * meanwhile. "A short time, for example a day": ASTM D6000.
 */
export const gaugingSpread: Rule = ({ site, event, flows }) =>
  flows.flatMap(({ zone, gauged }) => {
    const limit = site.settings.gaugingSpread;
    const timed = timedFrom(gauged.filter(({ leftOut }) => leftOut === null));
    const [first, last] = [timed[0], timed.at(-1)];
    if (!first || !last || last.hours - first.hours <= limit) return [];
    const middle = timed[timed.length >> 1] ?? first;
    const apart = timed.filter(({ hours }) => Math.abs(hours - middle.hours) > limit);
    const off = apart.length > 0 ? apart : [first, last];
    const lone = off.length * 2 < timed.length;
    return [
      finding('gauging took long', zone ?? 'all', event, {
        severity: 'caution',
        who: locationsOf(off.map(({ one }) => one)),
        says: `The ${counted(timed.length, 'head')} of ${zone ?? 'this event'} were read over ${lapse(last.hours - first.hours)}, from ${dayOf(first.time)} to ${dayOf(last.time)}; the limit here is ${lapse(limit)}.${lone ? ` ${listed(off.map(({ one }) => one.screen.id))} ${off.length === 1 ? 'was' : 'were'} read more than that apart from the others.` : ''}`,
        todo: 'Leave the late readings out, show that the levels stood still meanwhile, or gauge again in one round.',
        cells: off.map(({ one }) => cell('water_levels', one.reading, 'time')),
      }),
    ];
  });

/** Readings with a time, the earliest first, in hours after the first of them. */
function timedFrom(heads: readonly GaugedScreen[]): Timed[] {
  const times = heads.flatMap((one) =>
    one.reading.time === null ? [] : [{ one, time: one.reading.time }],
  );
  const from = times[0]?.time ?? '';
  return times
    .map(({ one, time }) => ({ one, time, hours: hoursBetween(from, time) }))
    .toSorted((a, b) => a.hours - b.hours);
}

/** A reading dated outside the days of its event, or with no time at all. */
export const outsideEvent: Rule = ({ site, event, heads }) => {
  const round = event === null ? undefined : site.events.get(event);
  if (!round) return [];
  const outside = heads.flatMap((one): Finding[] => {
    const { time } = one.reading;
    const day = time === null ? null : dayOf(time);
    if (day === null || (day >= round.first_day && day <= round.last_day)) return [];
    return [
      finding('read outside the event', one.screen.id, event, {
        severity: 'caution',
        who: [one.location.id],
        says: `${one.screen.id} was read on ${day}, outside the days of this event, ${round.first_day} to ${round.last_day}.`,
        todo: 'Correct the day, or move the reading to the event it belongs to.',
        cells: [cell('water_levels', one.reading, 'time')],
      }),
    ];
  });
  const undated = heads.filter(({ reading }) => reading.time === null);
  return undated.length === 0
    ? outside
    : [
        ...outside,
        finding('no time of reading', 'readings', event, {
          severity: undated.some(({ leftOut }) => leftOut === null) ? 'caution' : 'note',
          who: locationsOf(undated),
          says: `${counted(undated.length, 'reading')} ${undated.length === 1 ? 'has' : 'have'} no time: whether the gauging was one round cannot be told.`,
          todo: 'Write the times from the field form.',
          cells: undated.map(({ reading }) => cell('water_levels', reading, 'time')),
        }),
      ];
};
