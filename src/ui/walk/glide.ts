import type { Extent } from '../../map/scene/scene';

/** From one stop to the next, milliseconds. */
export const DURATION = 900;

/** Whether less motion is asked for. */
export const isStill = () => matchMedia('(prefers-reduced-motion: reduce)').matches;

/**
 * Tells at each frame what share of a glide has gone by, until all has.
 *
 * @returns what ends it before
 */
export function gliding(tell: (share: number) => void): () => void {
  let began: number | null = null;
  let frame = requestAnimationFrame(function step(now) {
    began ??= now;
    const share = Math.min(1, (now - began) / DURATION);
    tell(share);
    if (share < 1) frame = requestAnimationFrame(step);
  });
  return () => cancelAnimationFrame(frame);
}

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
