import { distanceToOutline, whereInPrepared } from '../geometry/prepared';
import type { XY } from '../geometry/shape';
import { boxDistance, reachOf, type Drawn, type GroundPlan } from './ground-plan';
import type { Named } from './blocks';

/** How far a place is from one drawn thing, against what is asked. Lengths in the grid's unit. */
export type Clearance = {
  readonly of: Named;
  /** From its outside edge; 0 in it. */
  readonly distance: number;
  /** To keep from its outside edge; null where nobody gave one. */
  readonly buffer: number | null;
  /** `no buffer`: the distance is known, what it should be is not. `outside`: of every boundary. */
  readonly verdict: 'inside' | 'within buffer' | 'clear' | 'no buffer' | 'outside';
  /** How much nearer it is than its buffer asks; 0 where it is far enough or none was given. */
  readonly short: number;
};

/**
 * Distances from a place to drawn lines, buildings, exclusions and the boundary
 * it stands in, the nearest first. A list with nothing in it only says that nothing was drawn near.
 *
 * @param within  leave out what is this far away or farther
 */
export function clearancesAt(at: XY, plan: GroundPlan, within = Infinity): Clearance[] {
  const found: Clearance[] = [];
  plan.obstacles.forEach((obstacle, i) => {
    if (boxDistance(plan, i, ...at) - obstacle.halfWidth >= within) return;
    const distance = edgeDistance(at, obstacle, within);
    if (distance < within) found.push(clearance(obstacle, distance));
  });
  const boundary = boundaryClearance(at, plan.boundaries);
  if (boundary && boundary.distance < within) found.push(boundary);
  return found.sort((a, b) => a.distance - b.distance);
}

/** From the line of the boundary a place stands in: of several, the one it is farthest in; outside all, of the nearest. */
function boundaryClearance(at: XY, boundaries: readonly Drawn[]): Clearance | null {
  let best: { readonly boundary: Drawn; readonly inside: number } | null = null;
  for (const boundary of boundaries) {
    const distance = distanceToOutline(boundary.prepared, at);
    const inside = whereInPrepared(boundary.prepared, at) === 'inside' ? distance : -distance;
    if (best === null || inside > best.inside) best = { boundary, inside };
  }
  if (best === null) return null;
  const { boundary, inside } = best;
  return inside > 0
    ? clearance(boundary, inside)
    : { ...clearance(boundary, -inside), verdict: 'outside' };
}

/** From the outside edge, if less than `limit`; else `limit` or more. */
function edgeDistance(at: XY, { prepared, halfWidth }: Drawn, limit: number): number {
  if (whereInPrepared(prepared, at) !== 'outside') return 0;
  return Math.max(0, distanceToOutline(prepared, at, limit + halfWidth) - halfWidth);
}

function clearance(obstacle: Drawn, distance: number): Clearance {
  const { id, kind, name, buffer } = obstacle;
  const of = { id, kind, name };
  // Compared as in laying out: from the middle line, where equal numbers are equal.
  const isShort = buffer !== null && distance + obstacle.halfWidth < reachOf(obstacle);
  const short = isShort && buffer !== null ? buffer - distance : 0;
  const verdict =
    distance === 0 ? 'inside' : isShort ? 'within buffer' : buffer === null ? 'no buffer' : 'clear';
  return { of, distance, buffer, verdict, short };
}
