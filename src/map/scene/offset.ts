import type { Piece } from '../../domain/geometry/shape';
import { lengthOf, stretches } from './along';
import { arc, azimuthTo, toward } from './plain';
import type { Place } from './scene';

/**
 * The ring at a distance from both sides and both ends of a line: round at the
 * ends and on the outside of bends, mitred on the inside. For drawing only; a
 * bend sharper than the distance allows leaves a small loop.
 */
export function ringAlong(path: readonly Place[], distance: number): Place[] {
  const there = stretches(path).filter((stretch) => lengthOf(stretch) > 0);
  if (there.length === 0) return path[0] ? arc(path[0], distance, 0, 360) : [];
  const back = there.toReversed().map(([from, to]): Piece => [to, from]);
  const ring = [...side(there, distance), ...side(back, distance)];
  return [...ring, ...ring.slice(0, 1)];
}

/** Left-hand side of a line, and round its far end. */
function side(line: readonly Piece[], distance: number): Place[] {
  return line.flatMap(([from, at], i) => {
    const here = azimuthTo(from, at);
    const after = line[i + 1];
    if (!after) return arc(at, distance, here - 90, here + 90);
    const turn = ((azimuthTo(...after) - here + 540) % 360) - 180;
    if (turn > 0) return arc(at, distance, here - 90, here - 90 + turn);
    // Inside of the bend: the two offset lines meet on the bisector.
    const half = (turn * Math.PI) / 360;
    return [toward(at, here - 90 + turn / 2, distance / Math.cos(half))];
  });
}

/**
 * The strips along the sides of an area, inside it, as rings: mitred where
 * sides meet, so that they tile. For drawing only.
 *
 * @param ring      first corner not repeated, either way round
 * @param distance  negative: outside it, as for a hole
 */
export function stripsWithin(ring: readonly Place[], distance: number): Place[][][] {
  const sides = stretches([...ring, ...ring.slice(0, 1)]).filter((side) => lengthOf(side) > 0);
  const twice = sides.reduce((sum, [[ax, ay], [bx, by]]) => sum + (ax * by - bx * ay), 0);
  // On the left of its sides where it goes round against the clock.
  const by = twice > 0 ? distance : -distance;
  const inner = sides.map(([at, to], i): Place => {
    const [before = at] = sides.at(i - 1) ?? [];
    const here = azimuthTo(at, to);
    const turn = ((here - azimuthTo(before, at) + 540) % 360) - 180;
    const half = Math.max(0.2, Math.cos((turn * Math.PI) / 360));
    return toward(at, here - 90 - turn / 2, by / half);
  });
  return sides.flatMap(([at, to], i) => {
    const [near, far] = [inner[i], inner[(i + 1) % inner.length]];
    return near && far ? [[[at, to, far, near, at]]] : [];
  });
}
