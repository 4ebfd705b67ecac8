import { clipLine } from '../geometry/crossing';
import { along, offset } from '../geometry/compass';
import { shapeArea } from '../geometry/measure';
import { cornersOf, spread, type Line, type Shape, type XY } from '../geometry/shape';
import { fail, ok, type Result } from '../result';
import { azimuth, type Azimuth } from '../units';
import type { GroundPlan } from './ground-plan';
import { areaPerPoint, nodesAround, type Lattice } from './lattice';
import { stakesAt, type Place, type Stake } from './stakes';

export type LayoutProblem =
  | { readonly kind: 'no-boundary' }
  | { readonly kind: 'no-spacing' } // nothing, less than nothing, or no number
  | { readonly kind: 'too-many'; readonly about: number; readonly most: number };

/** More than any site is pushed with; a spacing typed in the wrong unit soon asks for more. */
const MOST_NODES = 100_000;

/** Everything within the boundaries as one shape; null where none is drawn. */
export function insideOf({ boundaries }: GroundPlan): Shape | null {
  const areas = boundaries.flatMap(({ shape }) => (shape.kind === 'areas' ? shape.areas : []));
  return areas.length > 0 ? { kind: 'areas', areas } : null;
}

/**
 * A regular grid laid over the ground within the boundaries. Nodes outside are
 * left out, except those no farther than `fringe` from the boundary: they are
 * kept as blocked, since they can be shifted in.
 *
 * @param fringe  in the grid's unit
 * @returns stakes row by row; `row` and `column` count from 1 within what was laid
 */
export function layGrid(
  lattice: Lattice,
  plan: GroundPlan,
  fringe = 0,
): Result<Stake[], LayoutProblem> {
  const inside = insideOf(plan);
  if (!inside) return fail({ kind: 'no-boundary' });
  if (!(areaPerPoint(lattice) > 0 && lattice.spacing > 0)) return fail({ kind: 'no-spacing' });
  const nodes = nodesAround(lattice, inside, fringe, MOST_NODES * 4);
  const about = Math.round(shapeArea(inside) / areaPerPoint(lattice));
  if (!nodes || about > MOST_NODES) return fail({ kind: 'too-many', about, most: MOST_NODES });
  // Columns of a triangular grid lean; counted like bricks they stand one above the other.
  const leans = lattice.pattern === 'triangular';
  const places = nodes.map(({ at, row, column }): Place => ({
    at,
    counts: { row, column: leans ? column + Math.floor(row / 2) : column },
  }));
  return ok(countedFromOne(kept(stakesAt(places, plan), fringe), ['row', 'column']));
}

/** Stakes without those outside the boundary by more than the fringe. */
const kept = (stakes: readonly Stake[], fringe: number): Stake[] =>
  stakes.filter(({ blocks }) => {
    const block = blocks[0];
    return block?.kind !== 'outside' || block.distance <= fringe;
  });

/** Counts moved so that the first of each is 1. They are changed in place: nobody else has them yet. */
function countedFromOne(stakes: Stake[], names: readonly string[]): Stake[] {
  for (const name of names) {
    let first = Infinity;
    for (const { counts } of stakes) first = Math.min(first, counts[name] ?? 0);
    for (const { counts } of stakes)
      (counts as Record<string, number>)[name] = (counts[name] ?? 0) - first + 1;
  }
  return stakes;
}

/** Lines of points square to the flow. All lengths in the grid's unit. */
export type Transects = {
  /** Where the water is going. */
  readonly flow: Azimuth;
  /** A place on the line stations are counted from, which runs along the flow. */
  readonly through: XY;
  /** How far each transect stands down the flow from `through`; up the flow is negative. */
  readonly downgradient: readonly number[];
  /** From station to station. */
  readonly every: number;
  /** Whether every second transect is set over by half a station, so that gaps do not line up. */
  readonly staggered: boolean;
};

/** A transect as drawn: its parts within the boundary, looking down the flow from left to right. */
export type TransectLine = { readonly transect: number; readonly parts: readonly Line[] };

export type LaidTransects = {
  readonly stakes: readonly Stake[];
  readonly lines: readonly TransectLine[];
};

/**
 * Transects laid within the boundaries, in the order given, each from left to
 * right as one looks down the flow. `transect` counts from 1; `station` from 1
 * at the leftmost station laid on any of them, so that stations of one number
 * stand down the flow from each other.
 */
export function layTransects(
  { flow, through, downgradient, every, staggered }: Transects,
  plan: GroundPlan,
  fringe = 0,
): Result<LaidTransects, LayoutProblem> {
  const inside = insideOf(plan);
  if (!inside) return fail({ kind: 'no-boundary' });
  if (!(every > 0)) return fail({ kind: 'no-spacing' });
  const down = along(flow);
  const right = along(azimuth(flow + 90));
  const reach = reachAlong(inside, through, right);
  const [left, rightmost] = [reach[0] - fringe, reach[1] + fringe];
  const about = Math.ceil((rightmost - left) / every) * downgradient.length;
  if (!(about <= MOST_NODES)) return fail({ kind: 'too-many', about, most: MOST_NODES });

  const places: Place[] = [];
  const lines: TransectLine[] = [];
  downgradient.forEach((distance, i) => {
    const middle = offset(through, down, distance);
    const over = staggered && i % 2 === 1 ? every / 2 : 0;
    const last = Math.floor((rightmost - over) / every);
    for (let station = Math.ceil((left - over) / every); station <= last; station++)
      places.push({
        at: offset(middle, right, station * every + over),
        counts: { transect: i + 1, station },
      });
    const whole = [offset(middle, right, left - every), offset(middle, right, rightmost + every)];
    lines.push({ transect: i + 1, parts: clipLine(whole, inside) });
  });
  const stakes = countedFromOne(kept(stakesAt(places, plan), fringe), ['station']);
  return ok({ stakes, lines });
}

/** Distances for transects every so far, up and down the flow, to cover the ground within the boundaries. */
export function everySoFar(
  { flow, through }: Pick<Transects, 'flow' | 'through'>,
  apart: number,
  plan: GroundPlan,
): number[] {
  const inside = insideOf(plan);
  if (!inside || !(apart > 0)) return [];
  const reach = reachAlong(inside, through, along(flow));
  const [first, last] = [Math.ceil(reach[0] / apart), Math.floor(reach[1] / apart)];
  if (!(last - first < MOST_NODES)) return [];
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * apart);
}

/** How far a shape reaches back and forward from a place along a direction. */
const reachAlong = (shape: Shape, [x, y]: XY, [east, north]: XY): readonly [number, number] =>
  spread(cornersOf(shape).map(([cx, cy]) => (cx - x) * east + (cy - y) * north)) ?? [0, 0];
