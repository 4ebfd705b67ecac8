import type { Extent } from '../../map/scene/scene';

/** From one stop to the next, milliseconds. */
export const DURATION = 900;

/** What is seen a share of the way from one extent to another, slow at both ends. */
export function between(from: Extent, to: Extent, share: number): Extent {
  const eased = share * share * (3 - 2 * share);
  const mix = (a: number, b: number) => (share >= 1 ? b : a + (b - a) * eased);
  return {
    west: mix(from.west, to.west),
    south: mix(from.south, to.south),
    east: mix(from.east, to.east),
    north: mix(from.north, to.north),
  };
}
