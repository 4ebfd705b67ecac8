import { cell } from '../../site/cite';
import { TIDAL_WORDS, tideWindow } from '../../water/tide';
import type { Finding, Rule } from '../finding';
import { isBefore } from '../moments';
import { finding, listed, locationsOf } from '../words';

/** Levels that count and were read before or after the tide window set for the event. */
export const outsideTide: Rule = ({ site, event, flows }) => {
  const tide = tideWindow(site, event);
  if (!tide) return [];
  return flows.flatMap(({ zone, gauged }): Finding[] => {
    const outside = gauged.filter(
      ({ leftOut, reading: { time } }) =>
        leftOut === null && time !== null && (isBefore(time, tide.from) || isBefore(tide.to, time)),
    );
    if (outside.length === 0) return [];
    return [
      finding('outside the tide window', zone ?? 'all', event, {
        severity: 'caution',
        who: locationsOf(outside),
        says: `${listed(outside.map(({ screen }) => screen.id))} ${outside.length === 1 ? 'was' : 'were'} read outside the tide window of this event, ${tide.from.replace('T', ' ')} to ${tide.to.replace('T', ' ')}: the tide moved between these levels and the others.`,
        todo: 'Leave them out, or gauge again within one window.',
        cells: outside.map(({ reading }) => cell('water_levels', reading, 'time')),
      }),
    ];
  });
};

/** A tidal event: its arrow holds for the moment only. */
export const instantaneousOnly: Rule = ({ site, event }) =>
  tideWindow(site, event) === null
    ? []
    : [
        finding('instantaneous only', 'levels', event, {
          severity: 'note',
          who: [],
          says: TIDAL_WORDS,
          todo: 'Take the mean of a continuous record for a net direction.',
          cells: [],
        }),
      ];
