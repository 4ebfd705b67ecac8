import type { Location } from '../site/schema';
import type { Window } from './stop';

/** Room around the points, as a share of the longer side. */
const ROOM = 0.12;

/** Never nearer than this around one point, metres. */
const LEAST = 20;

/**
 * The rectangle around some points, and other places of the grid, with room about
 * it; null where no point has a place.
 */
export function windowAround(
  locations: Iterable<Location>,
  also: readonly (readonly [east: number, north: number])[] = [],
): Window | null {
  const places = [...locations].flatMap((at) => {
    const east = at.easting ?? at.planned_easting;
    const north = at.northing ?? at.planned_northing;
    return east && north ? [[east.value, north.value] as readonly [number, number]] : [];
  });
  if (places.length === 0) return null;
  places.push(...also);
  const [easts, norths] = [places.map(([east]) => east), places.map(([, north]) => north)];
  const [west, east] = [Math.min(...easts), Math.max(...easts)];
  const [south, north] = [Math.min(...norths), Math.max(...norths)];
  const room = Math.max(ROOM * Math.max(east - west, north - south), LEAST);
  return { west: west - room, south: south - room, east: east + room, north: north + room };
}
