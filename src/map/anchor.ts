import type { Grid, LngLat } from '../domain/grid';
import { inUnits, type Metres } from '../domain/units';
import type { ToLngLat } from './camera';
import type { Place } from './scene/scene';

/** Metres in a radian at the equator of the sphere Web Mercator is drawn on (EPSG:3857). */
const RADIUS = 6378137;

/**
 * A place on the globe for a grid that is tied to nothing, made up for the map
 * library alone: its centre lies where the equator meets Greenwich, and the
 * grid is laid on the Mercator plane as it is, neither turned nor stretched.
 * Never to be shown or saved as a longitude and latitude.
 */
export function madeUpAnchor([east0, north0]: Place): ToLngLat {
  const degrees = 180 / Math.PI;
  return (east, north) => [
    ((east - east0) / RADIUS) * degrees,
    Math.atan(Math.sinh((north - north0) / RADIUS)) * degrees,
  ];
}

/**
 * From metres in the grid to longitude and latitude for the map. A grid tied to
 * nothing, or one that cannot reach the site's centre, gets a made-up anchor; a
 * place the grid cannot reach is shown where the site's centre would lead to in
 * a straight line, so that one absurd coordinate stops nothing.
 */
export function onGlobe(grid: Grid, centre: Place): ToLngLat {
  const { unit } = grid;
  const at = ([east, north]: Place) =>
    grid.toLngLat(inUnits(east as Metres, unit), inUnits(north as Metres, unit));
  const home = at(centre);
  const [beside, above] = [at([centre[0] + 1, centre[1]]), at([centre[0], centre[1] + 1])];
  if (!home || !beside || !above) return madeUpAnchor(centre);
  const straight = (east: number, north: number): LngLat => {
    const [x, y] = [east - centre[0], north - centre[1]];
    return [
      home[0] + (beside[0] - home[0]) * x + (above[0] - home[0]) * y,
      home[1] + (beside[1] - home[1]) * x + (above[1] - home[1]) * y,
    ];
  };
  return (east, north) => {
    const [lng, lat] = at([east, north]) ?? straight(east, north);
    return [lng, Math.max(-LIMIT, Math.min(LIMIT, lat))];
  };
}

/** Web Mercator goes no farther north or south, degrees. */
const LIMIT = 85;
