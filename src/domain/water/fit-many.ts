import { azimuth, type Azimuth } from '../units';
import { planeWorkspace, roundingOf, solvePlane, THINNEST_SPREAD } from './plane-solver';

/** Sets of wells one after another in the same columns. */
export type WellSets = {
  /** Set k is rows starts[k] to starts[k + 1] − 1; one more entry than there are sets. */
  readonly starts: Uint32Array;
  /** Ground metres east and north, in any frame parallel to the grid. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Metres. */
  readonly head: Float64Array;
  /** Weights, in proportion to 1/σ²; null: all alike. */
  readonly weight: Float64Array | null;
};

/** What came of a set. */
export type SetOutcome = 'plane' | 'level' | 'in-a-line' | 'too-few';

const OUTCOMES: readonly SetOutcome[] = ['plane', 'level', 'in-a-line', 'too-few'];

/**
 * Planes in the order of the sets. Only where the outcome is `plane` or `level`
 * do the other columns mean anything; read them through `outcomeOf` and
 * `azimuthOf`.
 */
export type FittedSets = {
  /** Index into the outcomes. */
  readonly outcome: Uint8Array;
  /** Slope of the head toward east and north; 0 and 0 for a level set. */
  readonly a: Float64Array;
  readonly b: Float64Array;
  /** Σ w·r², metres². */
  readonly sumOfSquares: Float64Array;
  /** Spread of the wells across their line over the spread along it. */
  readonly spreadRatio: Float64Array;
};

export const outcomeOf = (sets: FittedSets, k: number): SetOutcome =>
  OUTCOMES[sets.outcome[k] ?? 3] ?? 'too-few';

/** Direction of flow of set k, clockwise from grid north; null without one. */
export const azimuthOf = (sets: FittedSets, k: number): Azimuth | null => {
  const [a, b] = [sets.a[k], sets.b[k]];
  if (outcomeOf(sets, k) !== 'plane' || a === undefined || b === undefined) return null;
  return azimuth((Math.atan2(-a, -b) * 180) / Math.PI);
};

/** Steepness of set k; null without a plane, 0 where it is level. */
export const gradientOf = (sets: FittedSets, k: number): number | null => {
  const [a, b, outcome] = [sets.a[k], sets.b[k], outcomeOf(sets, k)];
  if (a === undefined || b === undefined) return null;
  return outcome === 'plane' || outcome === 'level' ? Math.hypot(a, b) : null;
};

/** Best-fit planes of many sets of wells, by the same arithmetic as `fitPlane`. */
export function fitMany(sets: WellSets): FittedSets {
  const count = Math.max(0, sets.starts.length - 1);
  const rows = sets.starts[count] ?? 0;
  const roots = sets.weight ? sets.weight.map(Math.sqrt) : new Float64Array(rows).fill(1);
  const fitted = {
    outcome: new Uint8Array(count),
    a: new Float64Array(count),
    b: new Float64Array(count),
    sumOfSquares: new Float64Array(count),
    spreadRatio: new Float64Array(count),
  };
  let longest = 0;
  for (let k = 0; k < count; k++)
    longest = Math.max(longest, (sets.starts[k + 1] as number) - (sets.starts[k] as number));
  const solved = planeWorkspace(longest);

  for (let k = 0; k < count; k++) {
    const from = sets.starts[k] as number;
    const to = sets.starts[k + 1] as number;
    if (to - from < 3) {
      fitted.outcome[k] = 3;
      continue;
    }
    solvePlane(sets.x, sets.y, sets.head, roots, from, to, solved);
    fitted.spreadRatio[k] = solved.ratio;
    fitted.sumOfSquares[k] = solved.left;
    if (!(solved.ratio >= THINNEST_SPREAD)) {
      fitted.outcome[k] = 2;
      continue;
    }
    let largest = 0;
    for (let i = from; i < to; i++) largest = Math.max(largest, Math.abs(sets.head[i] as number));
    const rounding = roundingOf(largest);
    if (solved.explained <= solved.weight * rounding * rounding) {
      fitted.outcome[k] = 1;
      continue;
    }
    fitted.a[k] = solved.a;
    fitted.b[k] = solved.b;
  }
  return fitted;
}
