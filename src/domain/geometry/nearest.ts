import { whereIn } from './inside';
import { piecesOf, type Piece, type Shape, type XY } from './shape';

/** The place on a shape nearest to another place, and how far it is. */
export type Nearest = { readonly at: XY; readonly distance: number };

/** The nearest place on a piece: its foot, or one of its ends. */
export function nearestOnPiece([x, y]: XY, [[ax, ay], [bx, by]]: Piece): Nearest {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / squared)) : 0;
  const at: XY = t === 1 ? [bx, by] : [ax + t * dx, ay + t * dy];
  return { at, distance: Math.hypot(x - at[0], y - at[1]) };
}

/** The nearest place on a shape's lines, sides or points; null when nothing is drawn. */
export function nearestOnOutline(shape: Shape, place: XY): Nearest | null {
  let best: Nearest | null = null;
  for (const piece of piecesOf(shape)) {
    const near = nearestOnPiece(place, piece);
    if (best === null || near.distance < best.distance) best = near;
  }
  return best;
}

/**
 * Distance from a place to a shape, in the grid's unit: nothing inside an area
 * or on a line. Null when nothing is drawn.
 */
export const distanceTo = (shape: Shape, place: XY): number | null =>
  whereIn(shape, place) === 'inside' ? 0 : (nearestOnOutline(shape, place)?.distance ?? null);
