import { sidesOfRing, type Area, type Ring, type Shape, type XY } from './shape';
import { sideOf } from './side';

/**
 * Where a place is with regard to an area. `on` is exactly on a side or corner
 * of an outer ring or a hole. What being `on` means is for the caller to say;
 * in laying out, a place on a line is on the wrong side of it.
 */
export type Whereabouts = 'inside' | 'on' | 'outside';

/**
 * What one side of a ring tells of a place: that the place is on it, that a ray
 * from the place due east crosses it, or neither. Exact; a side counts its
 * lower end and not its upper, so that a ray through a corner is counted once.
 */
export function rayMeets(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  x: number,
  y: number,
): 'on' | 'crosses' | 'misses' {
  if ((ax < x && bx < x) || (ay < y && by < y) || (ay > y && by > y)) return 'misses';
  if (ay === by) return (ax <= x || bx <= x) && (ax >= x || bx >= x) ? 'on' : 'misses';
  const turned = sideOf(ax, ay, bx, by, x, y);
  if (turned === 0) return 'on';
  const upward = by > ay;
  const spans = ay > y !== by > y;
  return spans && turned > 0 === upward ? 'crosses' : 'misses';
}

/** Where a place is in one area, outer ring and holes together (even-odd). */
export function whereInArea(area: Area, [x, y]: XY): Whereabouts {
  let inside = false;
  for (const ring of area)
    for (const [[ax, ay], [bx, by]] of sidesOfRing(ring)) {
      const meets = rayMeets(ax, ay, bx, by, x, y);
      if (meets === 'on') return 'on';
      if (meets === 'crosses') inside = !inside;
    }
  return inside ? 'inside' : 'outside';
}

/**
 * Where a place is in a shape of one or several areas: inside if inside any of
 * them. Points and lines have no inside.
 */
export function whereIn(shape: Shape, place: XY): Whereabouts {
  if (shape.kind !== 'areas') return 'outside';
  const found = shape.areas.map((area) => whereInArea(area, place));
  return found.includes('inside') ? 'inside' : found.includes('on') ? 'on' : 'outside';
}

/** Twice the area a ring encloses, positive when its corners run counter-clockwise. */
export function twiceSignedArea(ring: Ring): number {
  const [ox, oy] = ring[0] ?? [0, 0];
  let twice = 0;
  for (const [a, b] of sidesOfRing(ring))
    twice += (a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy);
  return twice;
}
