import { azimuth, type Azimuth } from '../units';
import type { XY } from './shape';

const RADIAN = Math.PI / 180;

/**
 * One unit along an azimuth, as (east, north). Exact on the four winds, so that
 * a grid laid along them has its nodes on round coordinates.
 */
export function along(direction: Azimuth): XY {
  const turned = azimuth(direction);
  if (turned % 90 === 0)
    return (
      [
        [0, 1],
        [1, 0],
        [0, -1],
        [-1, 0],
      ] as const
    )[turned / 90] as XY;
  return [Math.sin(turned * RADIAN), Math.cos(turned * RADIAN)];
}

/** Straight across the grid, in its unit. */
export const distanceBetween = (a: XY, b: XY) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Direction from one place to another, clockwise from grid north; null where they are one. */
export const azimuthBetween = (from: XY, to: XY): Azimuth | null =>
  from[0] === to[0] && from[1] === to[1]
    ? null
    : azimuth(Math.atan2(to[0] - from[0], to[1] - from[1]) / RADIAN);

/** The place so far from another along a direction given as (east, north). */
export const offset = (from: XY, [east, north]: XY, distance: number): XY => [
  from[0] + east * distance,
  from[1] + north * distance,
];
