import { toGround } from '../grid';
import type { Site } from '../site/site';
import { metres, type Metres } from '../units';
import type { GaugedScreen } from './event-heads';
import type { Flow } from './flow';
import { flowPoints } from './flow-points';
import { fitPlane, type HeadPoint, type Plane } from './plane';

/** How far a head is from where a plane it is no part of puts it. */
export type OffPlane = {
  /** Measured less the head of the plane at its place: up positive. */
  readonly off: Metres;
  /** One standard error of that. */
  readonly error: Metres;
  /** Heads the plane rests on. */
  readonly others: number;
};

/**
 * A head against a plane it is not part of. The error is that of a new
 * observation about a fitted plane (N. R. Draper and H. Smith, 1998, Applied
 * regression analysis, 3rd ed., value from memory), by the stated errors, or by
 * the scatter where that shows them to be too small.
 */
export function against(plane: Plane, { x, y, head, sigma }: Omit<HeadPoint, 'id'>): OffPlane {
  const [east, north] = [x - plane.centre.x, y - plane.centre.y];
  const off = head - (plane.c + plane.a * east + plane.b * north);
  const { aa, ab, bb } = plane.stated.covariance;
  const slope = east * east * aa + 2 * east * north * ab + north * north * bb;
  const others = plane.ids.length;
  const stated = Math.sqrt(sigma ** 2 * (1 + 1 / others) + slope);
  const wider =
    plane.lackOfFit === null ? 1 : Math.max(1, Math.sqrt(plane.lackOfFit / plane.degreesOfFreedom));
  return { off: metres(off), error: metres(stated * wider), others };
}

/**
 * A head against the plane of the others of its zone, whether it counts itself
 * or not. Null where it has no head or no coordinates, or the others make no plane.
 *
 * @param but  screens that are no part of that plane either, by id
 */
export function offTheOthers(
  site: Site,
  { gauged, centre, plane }: Flow,
  one: GaugedScreen,
  but: readonly string[] = [],
): OffPlane | null {
  const { head, sigma, location, leftOut } = one;
  const { easting, northing } = location;
  if (!head || !easting || !northing || !centre || !plane) return null;
  const point = {
    x: toGround(metres(easting.value - centre.easting), site.grid),
    y: toGround(metres(northing.value - centre.northing), site.grid),
    head: head.value,
    sigma,
  };
  if (leftOut !== null && but.length === 0) return against(plane, point);
  const others = flowPoints(site, gauged).points.filter(
    ({ id, gauged }) => gauged !== one && !but.includes(id),
  );
  const fit = fitPlane(others, { weighted: true });
  return fit.ok ? against(fit.value, point) : null;
}
