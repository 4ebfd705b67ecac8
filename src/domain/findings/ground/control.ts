import { controlFinding, type ControlCheck, type ControlFinding } from '../../grid-suspicions';
import { cell } from '../../site/cite';
import type { Location } from '../../site/schema';
import type { Site } from '../../site/site';
import { inUnits } from '../../units';
import type { Finding, Rule } from '../finding';
import { distanceSaid, finding, listed } from '../words';

type Marked = { readonly location: Location; readonly check: ControlCheck };

/** Points of the site whose place is known from outside as well. */
const markedIn = ({ locations, grid: { unit } }: Site): readonly Marked[] =>
  [...locations.values()].flatMap((location): Marked[] => {
    const { easting, northing, control_easting: e, control_northing: n } = location;
    if (!easting || !northing || !e || !n) return [];
    const known = [inUnits(e.value, unit), inUnits(n.value, unit)] as const;
    const table = [inUnits(easting.value, unit), inUnits(northing.value, unit)] as const;
    return [{ location, check: { id: location.id, known, table } }];
  });

/** What the points known from outside say of the site's coordinates. */
export const controlOf = (site: Site): ControlFinding =>
  controlFinding(
    markedIn(site).map(({ check }) => check),
    site.grid.unit,
  );

/**
 * Coordinates of the site against those of control points. A shift that all
 * points share, such as survey feet taken for international feet, shows here
 * and nowhere else.
 */
export const control: Rule = ({ site }) => {
  const marks = markedIn(site);
  const found = controlOf(site);
  const words = controlWords(site, found);
  if (!words || found.kind === 'agrees') return [];
  const who = found.kind === 'disagrees' ? found.marks.map(({ id }) => id) : marks.map(({ location }) => location.id); // prettier-ignore
  return [
    finding('control points', 'site', null, {
      severity: found.kind === 'disagrees' ? 'caution' : 'serious',
      who,
      says: words.says,
      todo: words.todo,
      cells: marks.flatMap(({ location }) => [
        cell('locations', location, 'control_easting'),
        cell('locations', location, 'control_northing'),
        cell('locations', location, 'easting'),
        cell('locations', location, 'northing'),
      ]),
    }),
  ];
};

const FOOT: Readonly<Record<'ft' | 'us-ft', string>> = {
  ft: 'international feet',
  'us-ft': 'US survey feet',
};

/** What a comparison with control points says, and what to do; null where there is none to compare with. */
export function controlWords(
  site: Site,
  found: ControlFinding,
): Pick<Finding, 'says' | 'todo'> | null {
  const { unit } = site.grid;
  switch (found.kind) {
    case 'no-control':
      return null;
    case 'agrees':
      return {
        says: `The coordinates agree with the control points: the largest difference is ${distanceSaid(site, found.greatest, unit === 'm' ? 3 : 2)}.`,
        todo: '',
      };
    case 'other-foot':
      return {
        says: `Against the control points the coordinates are off by 2 parts per million, ${distanceSaid(site, found.shift)} here: they were turned from metres into ${FOOT[found.tableIn]}, and the control is in ${FOOT[found.knownIn]}.`,
        todo: 'Ask the surveyor which foot; then choose the grid in that foot, or turn the coordinates into the other. Distances within the site do not show it.',
      };
    case 'swapped':
      return {
        says: 'Easting and northing are exchanged: with the two changed about, the control points agree.',
        todo: 'Exchange the two columns.',
      };
    case 'other-unit':
      return {
        says: `The coordinates are ${significantly(found.factor)} times the known ones: one of the two is in metres and the other in feet.`,
        todo: 'Correct the unit of the grid in the settings, or turn the coordinates.',
      };
    case 'shifted':
      return {
        says: `All control points are off by the same ${distanceSaid(site, found.distance)}: ${distanceSaid(site, found.east)} in easting and ${distanceSaid(site, found.north)} in northing.`,
        todo: 'Look for another datum, false origin or zone, or a base station set up on the wrong mark.',
      };
    case 'disagrees':
      return {
        says: `The control points do not agree with the coordinates, nor with each other: ${listed(found.marks.map(({ id, distance }) => `${id} ${distanceSaid(site, distance)}`))} off.`,
        todo: 'Check the known coordinates and the survey of these points.',
      };
  }
}

const significantly = (factor: number) => factor.toFixed(factor < 1 ? 4 : 3);
