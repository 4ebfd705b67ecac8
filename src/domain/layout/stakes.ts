import type { XY } from '../geometry/shape';
import { blocksAt, type Block } from './blocks';
import type { GroundPlan } from './ground-plan';
import { nearestClear, type NoClearPlace, type Shift } from './shift';
import { ok, type Result } from '../result';

/** A place for a point, and its counts in the layout it is part of: row, column, station … from 1. */
export type Place = { readonly at: XY; readonly counts: Readonly<Record<string, number>> };

/** A planned point: where it would stand, and what stands against it. */
export type Stake = Place & {
  /** None when it is clear. A blocked stake stays in the layout until a person moves or drops it. */
  readonly blocks: readonly Block[];
  /** How it was moved off the place the layout gave it; null where it was not. */
  readonly shift: Shift | null;
};

/** Places judged against what is drawn, in the order given. */
export const stakesAt = (places: readonly Place[], plan: GroundPlan): Stake[] =>
  places.map(({ at, counts }) => ({ at, counts, blocks: blocksAt(at, plan), shift: null }));

/**
 * A blocked stake moved to the nearest clear place within a limit; one that is
 * clear stays where it is. The move is always reckoned from the place the
 * layout first gave it.
 *
 * @param margin  kept beyond what is asked, in the grid's unit
 */
export function shifted(
  stake: Stake,
  plan: GroundPlan,
  limit: number,
  margin = 0,
): Result<Stake, NoClearPlace> {
  if (stake.blocks.length === 0) return ok(stake);
  const found = nearestClear(stake.shift?.from ?? stake.at, plan, limit, margin);
  if (!found.ok) return found;
  return ok({ ...stake, at: found.value.to, blocks: [], shift: found.value });
}

/** How a layout stands, counted. */
export type Tally = {
  readonly clear: number;
  readonly shifted: number;
  readonly outside: number;
  readonly inside: number;
  readonly withinBuffer: number;
};

/** Stakes by how they stand; a blocked one is counted under its first reason. */
export function tally(stakes: readonly Stake[]): Tally {
  const count = (test: (stake: Stake) => boolean) => stakes.filter(test).length;
  const first = (...kinds: Block['kind'][]) =>
    count(({ blocks }) => blocks[0] !== undefined && kinds.includes(blocks[0].kind));
  return {
    clear: count(({ blocks }) => blocks.length === 0),
    shifted: count(({ shift }) => shift !== null),
    outside: first('outside', 'on-boundary'),
    inside: first('inside'),
    withinBuffer: first('within-buffer'),
  };
}
