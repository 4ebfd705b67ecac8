import type { EastNorth, Grid, LngLat } from '../../domain/grid';
import { fail, ok, type Result } from '../../domain/result';
import { unitText } from '../../domain/show';
import { decimal } from '../../domain/site/read-cell';
import { readAngle } from '../../io/projection/angles';

/** How a place that is typed is given: on a grid, or as longitude and latitude. */
export type GivenAs = 'grid' | 'own' | 'WGS 84';

/** Headings of the two fields of a place. */
export const fieldsOfPlace = (given: GivenAs): readonly [string, string] =>
  given === 'grid' ? ['easting', 'northing'] : ['longitude', 'latitude'];

/** How a place may be given on a grid; one tied to nothing has no longitudes. */
export const waysToGive = (grid: Grid | null): readonly (readonly [GivenAs, string])[] =>
  grid === null || grid.datum.name === null
    ? [['grid', `eastings and northings${grid ? `, ${unitText(grid.unit)}` : ''}`]]
    : [
        ['grid', `eastings and northings of ${grid.name}, ${unitText(grid.unit)}`],
        ['own', `longitudes and latitudes on ${grid.datum.name}`],
        ...(grid.datum.name === 'WGS 84'
          ? []
          : [['WGS 84', 'longitudes and latitudes on WGS 84'] as const]),
      ];

/** What is typed of a place, in two fields, as coordinates of a grid; or what is wrong with it. */
export function knownPlace(
  grid: Grid,
  given: GivenAs,
  [first, second]: readonly [string, string],
): Result<EastNorth, string> {
  if (given === 'grid') {
    const [easting, northing] = [decimal(first.trim()), decimal(second.trim())];
    if (easting === null) return fail(`expected an easting in ${unitText(grid.unit)}, found “${first.trim()}”`); // prettier-ignore
    if (northing === null) return fail(`expected a northing in ${unitText(grid.unit)}, found “${second.trim()}”`); // prettier-ignore
    return ok([easting, northing]);
  }
  const longitude = readAngle(first, 'longitude');
  if (!longitude.ok) return fail(`expected ${longitude.problem.expected}, found “${longitude.problem.found}”`); // prettier-ignore
  const latitude = readAngle(second, 'latitude');
  if (!latitude.ok) return fail(`expected ${latitude.problem.expected}, found “${latitude.problem.found}”`); // prettier-ignore
  const at: LngLat = [longitude.value, latitude.value];
  const place = given === 'own' ? grid.fromOwnLngLat(...at) : grid.fromLngLat(...at);
  return place ? ok(place) : fail(`${grid.name} does not reach ${first.trim()}, ${second.trim()}`);
}
