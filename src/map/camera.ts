import { centreOf, type Extent, type Place } from './scene/scene';

/** From the site's grid, in metres, to longitude and latitude in degrees. */
export type ToLngLat = (east: number, north: number) => readonly [lng: number, lat: number];

/** Width and height in px. */
export type Size = readonly [width: number, height: number];

export type Camera = {
  readonly center: readonly [lng: number, lat: number];
  readonly zoom: number;
  /** The compass direction that is up, degrees clockwise from true north. */
  readonly bearing: number;
};

/** Side of the whole world in px at zoom 0, in MapLibre. */
const WORLD = 512;

/** Web Mercator as MapLibre has it: the world is 1 by 1, x to the east, y to the south. */
export function mercator([lng, lat]: readonly [lng: number, lat: number]): readonly [
  x: number,
  y: number,
] {
  const phi = (lat * Math.PI) / 180;
  return [lng / 360 + 0.5, 0.5 - Math.log(Math.tan(Math.PI / 4 + phi / 2)) / (2 * Math.PI)];
}

/**
 * How the web's Mercator lies to the grid at a place. It takes latitudes of the
 * ellipsoid for those of a sphere, so that it is not quite conformal: at 40° a
 * metre to the east comes out 0.4 % shorter than one to the north, and a
 * direction is off by some thousandths of a degree.
 */
type Lie = {
  /** Compass direction, in that Mercator, of grid north: degrees clockwise, the convergence but for the above. */
  readonly bearing: number;
  /** Lengths in the Mercator world of a metre to the grid's east and to its north. */
  readonly eastward: number;
  readonly northward: number;
};

/** Metres to either side over which the lie is measured. */
const REACH = 50;

export function lieOf(toLngLat: ToLngLat, [east, north]: Place): Lie {
  const [x0, y0] = mercator(toLngLat(east, north - REACH));
  const [x1, y1] = mercator(toLngLat(east, north + REACH));
  const [x2, y2] = mercator(toLngLat(east - REACH, north));
  const [x3, y3] = mercator(toLngLat(east + REACH, north));
  return {
    bearing: (Math.atan2(x1 - x0, y0 - y1) * 180) / Math.PI,
    eastward: Math.hypot(x3 - x2, y3 - y2) / (2 * REACH),
    northward: Math.hypot(x1 - x0, y1 - y0) / (2 * REACH),
  };
}

/** Metres in a px, so that all of an extent is seen in a window. */
export const metresPerPixel = ({ west, south, east, north }: Extent, [width, height]: Size) =>
  Math.max((east - west) / width, (north - south) / height);

/** Where the map's camera stands to see all of an extent, grid north up. */
export function cameraFor(extent: Extent, size: Size, toLngLat: ToLngLat): Camera {
  const centre = centreOf(extent);
  const { bearing, eastward, northward } = lieOf(toLngLat, centre);
  const { west, south, east, north } = extent;
  const longest = Math.max(
    ((east - west) * eastward) / size[0],
    ((north - south) * northward) / size[1],
  );
  return { center: toLngLat(...centre), bearing, zoom: -Math.log2(longest * WORLD) };
}

/** What a window shows around a place at a zoom of the map. */
export function extentSeen(
  centre: Place,
  zoom: number,
  [width, height]: Size,
  toLngLat: ToLngLat,
): Extent {
  const { eastward, northward } = lieOf(toLngLat, centre);
  const world = WORLD * 2 ** zoom;
  const [w, h] = [width / (2 * eastward * world), height / (2 * northward * world)];
  const [e, n] = centre;
  return { west: e - w, south: n - h, east: e + w, north: n + h };
}

/** The extent a window shows: the least one asked for, widened to the window's shape. */
export function widened(extent: Extent, size: Size): Extent {
  const [e, n] = centreOf(extent);
  const scale = metresPerPixel(extent, size);
  const [w, h] = [(size[0] * scale) / 2, (size[1] * scale) / 2];
  return { west: e - w, south: n - h, east: e + w, north: n + h };
}

/** px of the window of a map of some size, beside the band its coordinates stand in. */
export const windowSize = (width: number, height: number, magnify: number): Size => {
  const band = bandOf(magnify);
  return [Math.max(1, width - band), Math.max(1, height - band)];
};

/** Breadth of the band the coordinates of a map stand in, px. */
export const bandOf = (magnify: number) => Math.round(22 * magnify);

/** Whether two windows show the same, to a hundredth of their width. */
export const isNear = (one: Extent, other: Extent) => {
  const near = (other.east - other.west) / 100;
  return (['west', 'south', 'east', 'north'] as const).every(
    (side) => Math.abs(one[side] - other[side]) < near,
  );
};

/** The place of the grid under a px of a window that shows an extent from edge to edge. */
export const placeAt = (
  { west, south, east, north }: Extent,
  [width, height]: Size,
  [x, y]: readonly [x: number, y: number],
): Place => [west + (x / width) * (east - west), north - (y / height) * (north - south)];

/**
 * From longitude and latitude back to the grid, by Newton's method from a place
 * near by; null when it does not settle within a millimetre.
 */
export function toGrid(
  toLngLat: ToLngLat,
  lngLat: readonly [lng: number, lat: number],
  near: Place,
): Place | null {
  const [x, y] = mercator(lngLat);
  let [e, n] = near;
  for (let turn = 0; turn < 12; turn++) {
    const here = mercator(toLngLat(e, n));
    const east = mercator(toLngLat(e + 1, n));
    const north = mercator(toLngLat(e, n + 1));
    const [a, b] = [east[0] - here[0], north[0] - here[0]];
    const [c, d] = [east[1] - here[1], north[1] - here[1]];
    const determinant = a * d - b * c;
    if (!Number.isFinite(determinant) || determinant === 0) return null;
    const [dx, dy] = [x - here[0], y - here[1]];
    const [stepE, stepN] = [(d * dx - b * dy) / determinant, (a * dy - c * dx) / determinant];
    e += stepE;
    n += stepN;
    if (Math.hypot(stepE, stepN) < 1e-3) return [e, n];
  }
  return null;
}
