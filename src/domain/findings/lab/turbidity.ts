import { groupBy } from '../../group';
import { clearBelowOf } from '../../lab/lab-settings';
import { cell } from '../../site/cite';
import type { Row, Sample } from '../../site/schema';
import type { Source } from '../../work';
import type { Finding, Rule } from '../finding';
import { isBefore } from '../moments';
import { finding } from '../words';
import { placesOf, samplesAt } from './event-results';

const NOT_CLEAR = /turbid|did not clear|cloudy|muddy/i;

/** Samples taken before the water had cleared: metals and what clings to particles may be too high. */
export const turbidity: Rule = ({ site, event }) => {
  const purged = groupBy(
    site.purgeReadings.filter((reading) => reading.event === event),
    ({ screen }) => screen,
  );
  const clear = clearBelowOf(site.settings);
  return samplesAt(site, event).flatMap((sample): Finding[] => {
    if (sample.kind !== 'field sample') return [];
    const doubt = cloudy(sample, purged.get(sample.screen ?? '') ?? [], clear);
    return doubt === null
      ? []
      : [
          finding('turbid sample', sample.id, event, {
            severity: 'caution',
            who: placesOf(site, [sample]),
            says: `${sample.id} was taken from turbid water: ${doubt.says}.`,
            todo: 'Flag total metals and compounds that cling to particles; compare with a filtered sample.',
            cells: doubt.cells,
          }),
        ];
  });
};

function cloudy(
  sample: Sample,
  purged: readonly Row<'purge_readings'>[],
  clear: number,
): { readonly says: string; readonly cells: readonly Source[] } | null {
  const before = purged
    .filter(({ time, turbidity: t }) => t !== null && !(sample.time && isBefore(sample.time, time)))
    .toSorted((a, b) => a.time.localeCompare(b.time));
  const last = before.at(-1);
  if (last?.turbidity && last.turbidity.value > clear)
    return {
      says: `the last reading before it was ${last.turbidity.text} NTU, and ${clear} NTU is called clear`,
      cells: [cell('purge_readings', last, 'turbidity')],
    };
  if (!last && NOT_CLEAR.test(sample.note ?? ''))
    return {
      says: `its note says “${sample.note ?? ''}”`,
      cells: [cell('samples', sample, 'note')],
    };
  return null;
}
