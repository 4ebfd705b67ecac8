import { gridSuspicions, type GridSuspicion, type PlacedPoint } from '../../grid-suspicions';
import { cell } from '../../site/cite';
import type { Location } from '../../site/schema';
import type { Site } from '../../site/site';
import { unitText } from '../../show';
import { inUnits } from '../../units';
import type { Finding, Rule } from '../finding';
import { distanceSaid, finding } from '../words';

/** Coordinates that can be read and can hardly be right: zero, far off, exchanged, in degrees. */
export const coordinates: Rule = ({ site, covers }) => {
  const unit = site.grid.unit;
  const points = [...site.locations.values()].flatMap((location): PlacedPoint[] =>
    location.easting && location.northing
      ? [
          {
            id: location.id,
            easting: inUnits(location.easting.value, unit),
            northing: inUnits(location.northing.value, unit),
          },
        ]
      : [],
  );
  return gridSuspicions(points, unit, covers).flatMap((suspicion): Finding[] => {
    const words = wordsOf(site, suspicion);
    const location = 'id' in suspicion ? (site.locations.get(suspicion.id) ?? null) : null;
    return [
      finding('coordinates in doubt', location?.id ?? 'site', null, {
        severity: 'caution',
        who: location ? [location.id] : [],
        says: words.says,
        todo: words.todo,
        cells: location ? both(location) : [],
      }),
    ];
  });
};

const both = (location: Location) => [
  cell('locations', location, 'easting'),
  cell('locations', location, 'northing'),
];

/** What is doubtful about coordinates, and what to do about it. */
export function wordsOf(site: Site, suspicion: GridSuspicion): Pick<Finding, 'says' | 'todo'> {
  switch (suspicion.kind) {
    case 'zero':
      return {
        says:
          suspicion.coordinate === 'both'
            ? `${suspicion.id} stands at 0, 0, far from every other point.`
            : `The ${suspicion.coordinate} of ${suspicion.id} is 0, and that of no other point is near it.`,
        todo: 'Leave what is not known blank; a zero is a place.',
      };
    case 'far-from-the-others':
      return {
        says: `${suspicion.id} stands ${far(site, suspicion.distance)} from the middle of the points; half of them are within ${far(site, suspicion.usual)}.`,
        todo: 'Look for a wrong digit, another unit or another grid in its easting and northing.',
      };
    case 'swapped':
      return {
        says: `${suspicion.id} stands far from the others, and among them with its easting and northing exchanged.`,
        todo: 'Exchange the two if the survey says so.',
      };
    case 'all-swapped':
      return {
        says: 'Easting and northing seem to be exchanged in every row.',
        todo: 'Exchange the two columns.',
      };
    case 'other-unit':
      return {
        says: `The points lie in the area of the grid only if their numbers are in ${unitText(suspicion.likely)} and not in ${unitText(suspicion.unit)}.`,
        todo: 'Correct the unit of the grid in the settings.',
      };
    case 'outside-the-area':
      return {
        says: 'All points lie outside the area the grid is meant for.',
        todo: 'Choose the grid the coordinates are in.',
      };
    case 'degrees':
      return {
        says: `The coordinates look like degrees${suspicion.exchanged ? ', latitude first' : ''}, not like eastings and northings of a grid.`,
        todo: 'Bring them into the grid of the site; no distance or direction can be worked in degrees.',
      };
    case 'too-wide':
      return {
        says: `The points spread over ${far(site, suspicion.width)}: too wide for one site.`,
        todo: 'Look for points in another grid or unit.',
      };
  }
}

const far = (site: Site, distance: number) =>
  distance > 5000 ? `${Math.round(distance / 1000)} km` : distanceSaid(site, distance, 0);
