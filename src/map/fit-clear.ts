import { metresPerPixel, widened, type Size } from './camera';
import type { Box } from './scene/place-labels';
import { resized, type Extent, type Place } from './scene/scene';

/** px about a place that its symbol takes. */
const SYMBOL = 14;

/** How much further off the map is looked at to keep its places clear, at most, and by what steps. */
const STEPS = [1, 1.04, 1.08, 1.12, 1.16, 1.2, 1.25] as const;

/** px by which the window is moved in search of a clear view. */
const STRIDE = 12;

/** More places than these cover a window whatever is done. */
const MOST_PLACES = 400;

/**
 * The extent a window shows so that all of the one asked for is seen and none of
 * the places lies under what stands over the map: the nearest to it, moved
 * first, then from further off. As asked for where no such view is found.
 *
 * @param over  px of the window, from its upper left corner
 */
export function fitClear(
  extent: Extent,
  places: readonly Place[],
  size: Size,
  over: readonly Box[],
): Extent {
  if (places.length > MOST_PLACES) return extent;
  const full = widened(extent, size);
  for (const further of STEPS) {
    const window = resized(full, further);
    const scale = metresPerPixel(window, size);
    for (const [dx, dy] of movesWithin(window, extent, scale)) {
      const seen = moved(window, dx * scale, dy * scale);
      if (places.every((place) => isClear(place, seen, scale, over))) return seen;
    }
  }
  return extent;
}

/** px to move a window east and north that keep the extent in it, the least moves first. */
function movesWithin(window: Extent, extent: Extent, scale: number): [number, number][] {
  const steps = (room: number) => {
    const n = Math.floor(room / scale / STRIDE);
    return Array.from({ length: 2 * n + 1 }, (_, i) => (i - n) * STRIDE);
  };
  const east = steps(Math.min(extent.west - window.west, window.east - extent.east));
  const north = steps(Math.min(extent.south - window.south, window.north - extent.north));
  return east
    .flatMap((dx) => north.map((dy): [number, number] => [dx, dy]))
    .toSorted(([a, b], [c, d]) => Math.hypot(a, b) - Math.hypot(c, d));
}

const moved = ({ west, south, east, north }: Extent, dx: number, dy: number): Extent => ({
  west: west + dx,
  east: east + dx,
  south: south + dy,
  north: north + dy,
});

function isClear([e, n]: Place, seen: Extent, scale: number, over: readonly Box[]): boolean {
  const [x, y] = [(e - seen.west) / scale, (seen.north - n) / scale];
  return over.every(
    ({ left, right, top, bottom }) =>
      x + SYMBOL < left || x - SYMBOL > right || y + SYMBOL < top || y - SYMBOL > bottom,
  );
}
