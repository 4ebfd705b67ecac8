import { along, offset } from '../geometry/compass';
import type { XY } from '../geometry/shape';
import { azimuth, type Azimuth } from '../units';
import type { Place } from './stakes';

/**
 * Rings of points around a place, the inner ring first, each clockwise from
 * `first`. Every second ring can be turned half a step, so that it looks
 * through the gaps of the one within. Counts: `ring` and `spoke`, from 1.
 *
 * @param radii  in the grid's unit
 * @param each   points on a ring
 */
export function rings(
  middle: XY,
  radii: readonly number[],
  each: number,
  first: Azimuth,
  staggered = false,
): Place[] {
  return radii.flatMap((radius, i) =>
    Array.from({ length: Math.max(0, Math.floor(each)) }, (_, k): Place => {
      const half = staggered && i % 2 === 1 ? 0.5 : 0;
      const direction = azimuth(first + ((k + half) * 360) / each);
      return {
        at: offset(middle, along(direction), radius),
        counts: { ring: i + 1, spoke: k + 1 },
      };
    }),
  );
}

/** How far to step out from a point each way, in the grid's unit. */
export type StepOuts = {
  readonly downgradient: readonly number[];
  readonly upgradient: readonly number[];
  /** To each side, square to the flow. */
  readonly across: readonly number[];
};

/**
 * Step-outs along and across the flow from a point: down the flow, up it, then
 * to the right and the left as one looks down it. Counts: `arm` (1 down, 2 up,
 * 3 right, 4 left) and `step`, from 1.
 */
export function stepOuts(from: XY, flow: Azimuth, steps: StepOuts): Place[] {
  const arms: readonly (readonly [turn: number, distances: readonly number[]])[] = [
    [0, steps.downgradient],
    [180, steps.upgradient],
    [90, steps.across],
    [270, steps.across],
  ];
  return arms.flatMap(([turn, distances], arm) =>
    distances.map((distance, i): Place => ({
      at: offset(from, along(azimuth(flow + turn)), distance),
      counts: { arm: arm + 1, step: i + 1 },
    })),
  );
}
