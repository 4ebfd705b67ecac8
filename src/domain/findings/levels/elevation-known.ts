import { cell } from '../../site/cite';
import { measuringPointElevation } from '../../water/measuring-point';
import { leftOutWords } from '../../water/event-heads';
import type { Finding, Rule } from '../finding';
import { finding, said } from '../words';

/** A level without an elevation to hang from, or with one that was only estimated. */
export const elevationKnown: Rule = ({ site, event, heads }) =>
  heads.flatMap((one): Finding[] => {
    const { screen, location, reading, measuringPoint: mark, leftOut } = one;
    if (!mark || leftOut === 'read-again' || !reading.depth_to_water) return [];
    const elevation = measuringPointElevation(site, mark);
    const who = [location.id];
    const cells = [cell('measuring_points', mark, 'elevation'), cell('locations', location, 'ground_elevation')]; // prettier-ignore
    if (!elevation.ok)
      return [
        finding('not surveyed', screen.id, event, {
          severity: 'caution',
          who,
          says: `The level in ${screen.id} has no elevation: ${leftOutWords(elevation.reason)}.`,
          todo: 'Have the mark surveyed; the depth to water is kept until then.',
          cells,
        }),
      ];
    if (!elevation.estimated) return [];
    const error = location.ground_accuracy;
    return [
      finding('estimated elevation', screen.id, event, {
        severity: leftOut === null ? 'serious' : 'note',
        who,
        says: `The head in ${screen.id} rests on an estimated ground elevation${error ? `, good to ${said(site, error.value, 1)}` : ''}${leftOut === null ? ', and counts in the plane' : ', and is left out'}.`,
        todo: 'Have it surveyed before the head is used for a direction.',
        cells,
      }),
    ];
  });
