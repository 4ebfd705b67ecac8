import { nearestOnPiece } from '../geometry/nearest';
import { piecesOf, type Shape, type XY } from '../geometry/shape';
import { metres, type Metres } from '../units';

/** Where a straight flow line comes nearest to something. */
export type Way = {
  /** Grid metres along the line to there. */
  readonly distance: Metres;
  /** Grid metres by which it passes by; 0 where it meets it. */
  readonly miss: Metres;
};

/** Further than any site reaches: 20 km. */
const FAR = 20_000;

/**
 * How a flow line straight down a plane, from a place, meets or passes a shape
 * (in the same coordinates). Null where the shape lies behind it: there the line
 * comes no nearer than where it begins.
 */
export function wayTo(shape: Shape, [x, y]: XY, azimuth: number): Way | null {
  const angle = (azimuth * Math.PI) / 180;
  const [ex, ny] = [Math.sin(angle), Math.cos(angle)];
  const along = ([px, py]: XY) => (px - x) * ex + (py - y) * ny;
  const across = ([px, py]: XY) => (px - x) * ny - (py - y) * ex;
  const line = [[x, y] as XY, [x + FAR * ex, y + FAR * ny] as XY] as const;
  let best: Way | null = null;
  for (const [a, b] of piecesOf(shape)) {
    const [sa, sb] = [across(a), across(b)];
    const candidates: Way[] = [a, b].flatMap((end) => {
      const { at, distance } = nearestOnPiece(end, line);
      const far = along(at);
      return far > 0 ? [{ distance: metres(far), miss: metres(distance) }] : [];
    });
    if (sa * sb < 0) {
      const t = sa / (sa - sb);
      const far = along([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
      if (far > 0) candidates.push({ distance: metres(far), miss: metres(0) });
    }
    for (const way of candidates)
      if (!best || way.miss < best.miss || (way.miss === best.miss && way.distance < best.distance))
        best = way;
  }
  return best;
}
