import { orient2d } from 'robust-predicates';
import type { XY } from './shape';

/**
 * Which side of the line from a to b the place c lies on: positive on the left,
 * negative on the right, zero exactly on it. The sign is exact whatever the
 * coordinates (J. R. Shewchuk, 1997, Adaptive precision floating-point
 * arithmetic and fast robust geometric predicates).
 */
export const side = (a: XY, b: XY, c: XY): number => sideOf(a[0], a[1], b[0], b[1], c[0], c[1]);

/** The same from bare coordinates. */
export const sideOf = (
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
): number => 0 - orient2d(ax, ay, bx, by, cx, cy);
