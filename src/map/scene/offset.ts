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
