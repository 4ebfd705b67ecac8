import { turbidSamples } from '../../lab/turbid';
import type { Finding, Rule } from '../finding';
import { finding } from '../words';
import { placesOf, samplesAt } from './event-results';

/** Samples taken before the water had cleared: metals and what clings to particles may be too high. */
export const turbidity: Rule = ({ site, event }) =>
  samplesAt(site, event).flatMap((sample): Finding[] => {
    const doubt = turbidSamples(site).get(sample.id);
    return doubt === undefined
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
