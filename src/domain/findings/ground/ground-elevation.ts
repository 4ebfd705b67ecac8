import { cell } from '../../site/cite';
import type { Rule } from '../finding';
import { feet, finding, middleOf, said, usualSpread } from '../words';

/** So many times the scatter of the ground, and at least so much, is another unit, datum or digit. A judgement, no source. */
const TIMES = 12;
const AT_LEAST = feet(30);

const FEWEST = 5;

/** Ground elevations far from those of the other points. */
export const groundElevation: Rule = ({ site }) => {
  const known = [...site.locations.values()].flatMap((location) =>
    location.ground_elevation && location.ground_how !== 'none'
      ? [{ location, elevation: location.ground_elevation }]
      : [],
  );
  const values = known.map(({ elevation }) => elevation.value);
  const [middle, scatter] = [middleOf(values), usualSpread(values)];
  if (known.length < FEWEST || middle === null || scatter === null) return [];
  return known.flatMap(({ location, elevation }) =>
    Math.abs(elevation.value - middle) <= Math.max(TIMES * scatter, AT_LEAST)
      ? []
      : [
          finding('ground elevation in doubt', location.id, null, {
            severity: 'caution',
            who: [location.id],
            says: `The ground at ${location.id}, ${said(site, elevation.value)}, is far from that of the other points, about ${said(site, middle)}.`,
            todo: 'Look for a wrong digit, another unit or another vertical datum.',
            cells: [cell('locations', location, 'ground_elevation')],
          }),
        ],
  );
};
