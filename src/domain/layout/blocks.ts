import { distanceToOutline, distanceToPrepared, whereInPrepared } from '../geometry/prepared';
import type { XY } from '../geometry/shape';
import type { Feature } from '../site/schema';
import { binAt } from './bins';
import { reachOf, type Drawn, type GroundPlan } from './ground-plan';

/** A drawn thing, by what a person calls it. */
export type Named = { readonly id: string; readonly kind: Feature['kind']; readonly name: string };

/**
 * Why a point cannot stand where it is. Distances in the grid's unit, from the
 * outside edge of what was drawn.
 *
 * The rule for ties: a place exactly on a line is on the wrong side of it. On
 * the boundary is not inside, on the edge of a building or exclusion is in it.
 * A place exactly as far from an outside edge as its buffer asks is clear.
 */
export type Block =
  | { readonly kind: 'outside'; readonly distance: number }
  | { readonly kind: 'on-boundary' }
  | { readonly kind: 'inside'; readonly of: Named }
  | {
      readonly kind: 'within-buffer';
      readonly of: Named;
      readonly distance: number;
      readonly buffer: number;
    };

const named = ({ id, kind, name }: Drawn): Named => ({ id, kind, name });

/** Everything that blocks a place, the boundary first, then in the order drawn; none when it is clear. */
export function blocksAt(at: XY, plan: GroundPlan): readonly Block[] {
  const outside = boundaryBlock(at, plan.boundaries);
  let blocks: Block[] | null = outside ? [outside] : null;
  for (const i of binAt(plan.reaches, at[0], at[1])) {
    const obstacle = plan.obstacles[i];
    const block = obstacle && obstacleBlock(at, obstacle);
    if (block) (blocks ??= []).push(block);
  }
  return blocks ?? CLEAR;
}

/** One for all clear places: a grid has thousands. */
const CLEAR: readonly Block[] = [];

/**
 * Whether a place is clear of everything by `margin` more than is asked, so
 * that a stake set a little off is clear as well.
 *
 * @param margin  in the grid's unit, at most `MOST_MARGIN`
 */
export function isClear(at: XY, plan: GroundPlan, margin = 0): boolean {
  const { boundaries } = plan;
  const within = boundaries.some(
    ({ prepared, buffer }) =>
      whereInPrepared(prepared, at) === 'inside' &&
      distanceToOutline(prepared, at) >= (buffer ?? 0) + margin,
  );
  if (boundaries.length > 0 && !within) return false;
  for (const i of binAt(plan.reaches, at[0], at[1])) {
    const obstacle = plan.obstacles[i];
    if (!obstacle) continue;
    const asked = reachOf(obstacle) + margin;
    if (obstacleBlock(at, obstacle)) return false;
    if (margin > 0 && distanceToPrepared(obstacle.prepared, at, asked) < asked) return false;
  }
  return true;
}

/** Inside any one boundary, by its buffer, is enough; else what the nearest of them says. */
function boundaryBlock(at: XY, boundaries: readonly Drawn[]): Block | null {
  let nearest: { readonly block: Block; readonly away: number } | null = null;
  for (const boundary of boundaries) {
    const where = whereInPrepared(boundary.prepared, at);
    const buffer = boundary.buffer ?? 0;
    if (where === 'inside' && buffer === 0) return null;
    const distance = distanceToOutline(boundary.prepared, at);
    if (where === 'inside' && distance >= buffer) return null;
    const block: Block =
      where === 'inside'
        ? { kind: 'within-buffer', of: named(boundary), distance, buffer }
        : where === 'on'
          ? { kind: 'on-boundary' }
          : { kind: 'outside', distance };
    const away = where === 'inside' ? -distance : distance;
    if (nearest === null || away < nearest.away) nearest = { block, away };
  }
  return nearest?.block ?? null;
}

function obstacleBlock(at: XY, obstacle: Drawn): Block | null {
  const { prepared, halfWidth, buffer } = obstacle;
  const reach = reachOf(obstacle);
  // Asked a little past the reach, so that a place exactly on it has its own distance.
  const limit = reach * (1 + 1e-9) + 1e-9;
  const middle =
    whereInPrepared(prepared, at) === 'outside' ? distanceToOutline(prepared, at, limit) : 0;
  if (middle <= halfWidth) return { kind: 'inside', of: named(obstacle) };
  const distance = middle - halfWidth;
  if (buffer === null || middle >= reach) return null;
  return { kind: 'within-buffer', of: named(obstacle), distance, buffer };
}
