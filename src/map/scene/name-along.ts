import { stretches, upright } from './along';
import { azimuthTo } from './plain';
import type { Extent, Place, TextItem } from './scene';
import { clipped } from './underfoot';

/** Shares of a stretch at which the name of a line is tried, the middle first. */
const SHARES = [0.5, 0.35, 0.65, 0.2, 0.8];

/**
 * The places where the name of a line may stand along what of it is seen, its
 * usual one first; the name alone where it is of no line.
 */
export function placesAlong(item: TextItem, seen: Extent): readonly TextItem[] {
  const { along } = item;
  if (!along) return [item];
  const window = { left: seen.west, right: seen.east, top: seen.south, bottom: seen.north };
  const others = stretches(along).flatMap(([from, to]) => {
    const within = clipped({ from, to }, window);
    if (!within) return [];
    const [start, end] = within;
    const turned = upright(azimuthTo(from, to) - 90);
    return SHARES.map((share): TextItem => {
      const at: Place = [
        start[0] + share * (end[0] - start[0]),
        start[1] + share * (end[1] - start[1]),
      ];
      return { ...item, at, turned };
    });
  });
  return [item, ...others];
}
