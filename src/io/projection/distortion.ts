import type { Plane } from './plane';

/** How a projection stretches and turns the ground at one place. */
export type Distortion = {
  /** True azimuth of grid north, degrees, in (−180, 180]: true azimuth = grid azimuth + convergence. */
  readonly convergence: number;
  /** Grid distance over distance on the ellipsoid, where it is greatest and least by direction. */
  readonly greatest: number;
  readonly least: number;
};

const RADIAN = Math.PI / 180;

/** Half of the distance of the differences, degrees: 600 m, where their own error is under 1e-8. */
const STEP = 0.0055;

/**
 * Convergence and scale by central differences of the forward projection on its
 * own ellipsoid, along the meridian and along the parallel; the greatest and
 * least scale are the semi-axes of Tissot's indicatrix (J. P. Snyder, 1987, Map
 * Projections: A Working Manual, USGS Professional Paper 1395, ch. 4). Null
 * where the projection does not reach.
 */
export function distortionAt(plane: Plane, longitude: number, latitude: number): Distortion | null {
  const north = plane.forward(longitude, latitude + STEP);
  const south = plane.forward(longitude, latitude - STEP);
  const east = plane.forward(longitude + STEP, latitude);
  const west = plane.forward(longitude - STEP, latitude);
  if (!north || !south || !east || !west) return null;

  const sin = Math.sin(latitude * RADIAN);
  const w = Math.sqrt(1 - plane.es * sin * sin);
  const normal = plane.a / w;
  const meridional = (plane.a * (1 - plane.es)) / w ** 3;
  const arc = 2 * STEP * RADIAN;
  const northward = arc * meridional;
  const eastward = arc * normal * Math.cos(latitude * RADIAN);

  const ne = (north[0] - south[0]) / northward;
  const nn = (north[1] - south[1]) / northward;
  const ee = (east[0] - west[0]) / eastward;
  const en = (east[1] - west[1]) / eastward;

  const sum = Math.hypot(ee + nn, en - ne);
  const difference = Math.hypot(ee - nn, en + ne);
  const distortion = {
    convergence: -Math.atan2(ne, nn) / RADIAN,
    greatest: (sum + difference) / 2,
    least: Math.abs(sum - difference) / 2,
  };
  return Object.values(distortion).every(Number.isFinite) ? distortion : null;
}
