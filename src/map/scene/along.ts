import { distanceBetween } from '../../domain/geometry/compass';
import { piecesOfLine, type Piece } from '../../domain/geometry/shape';
import { azimuthTo } from './plain';
import type { Place } from './scene';

/** Words beside or in a line: where, and how far turned from level, so that they are read from below. */
export type Along = { readonly at: Place; readonly turned: number };

/** The straight stretches of a line, in order. */
export const stretches = piecesOfLine;

export const lengthOf = ([from, to]: Piece) => distanceBetween(from, to);

/** The middle of the longest straight stretch of a line; null when it has none. */
export function longestStretch(path: readonly Place[]): Along | null {
  const [longest] = stretches(path).toSorted((a, b) => lengthOf(b) - lengthOf(a));
  if (!longest || lengthOf(longest) === 0) return null;
  const [from, to] = longest;
  return {
    at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
    turned: upright(azimuthTo(from, to) - 90),
  };
}

/** An angle turned half round where words would stand on their head; in (−90, 90]. */
export function upright(degrees: number): number {
  const angle = ((degrees % 180) + 180) % 180;
  return angle > 90 ? angle - 180 : angle;
}
