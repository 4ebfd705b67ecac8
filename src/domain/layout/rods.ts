import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';

/** A string of rods that reaches a tip depth. */
export type RodString = {
  readonly rods: number;
  /** Tool and rods together. */
  readonly length: Metres;
  /** Of the string above ground when the tip is at depth, before retraction. */
  readonly above: Metres;
  /** Of the string above ground once the rods are drawn back. */
  readonly aboveRetracted: Metres;
};

export type RodPlan = {
  readonly tipDepth: Metres;
  /** Of the sampler below the lowest rod, from its tip. */
  readonly toolLength: Metres;
  readonly rodLength: Metres;
  readonly retraction: Metres;
  /** The drive head must stand at least this far above ground. */
  readonly leastAbove: Metres;
};

export type RodProblem = {
  readonly kind: 'no-rod-length' | 'too-many-rods' | 'negative';
};

const MOST_RODS = 1000;

/** Lengths written in feet come back whole within this. */
const ROUNDING = 1e-9;

/** The fewest rods of one length that reach the depth. None where the tool alone does. */
export function rodsFor(plan: RodPlan): Result<RodString, RodProblem> {
  const { tipDepth, toolLength, rodLength, retraction, leastAbove } = plan;
  if (!(rodLength > 0)) return fail({ kind: 'no-rod-length' });
  if (!(tipDepth >= 0 && toolLength >= 0 && retraction >= 0 && leastAbove >= 0))
    return fail({ kind: 'negative' });
  const rods = Math.max(0, Math.ceil((tipDepth + leastAbove - toolLength) / rodLength - ROUNDING));
  if (!(rods <= MOST_RODS)) return fail({ kind: 'too-many-rods' });
  const length = metres(toolLength + rods * rodLength);
  const above = metres(length - tipDepth);
  return ok({ rods, length, above, aboveRetracted: metres(above + retraction) });
}

/**
 * Rods wanted on the rig at once for several points: the longest string of them.
 * Null where no point has one.
 */
export const rodsOnRig = (strings: readonly RodString[]): number | null =>
  strings.reduce<number | null>((most, { rods }) => Math.max(most ?? 0, rods), null);

/** Depth pushed in all, for the cost, and how many points have none yet. */
export function pushedInAll(tipDepths: readonly (Metres | null)[]): {
  readonly depth: Metres;
  readonly points: number;
  readonly unknown: number;
} {
  const known = tipDepths.filter((depth) => depth !== null);
  return {
    depth: metres(known.reduce((sum, depth) => sum + depth, 0)),
    points: known.length,
    unknown: tipDepths.length - known.length,
  };
}
