import { areaOf } from '../geometry/measure';
import { prepare, whereInPrepared } from '../geometry/prepared';
import { boundsOf, cornersOf, type Shape, type XY } from '../geometry/shape';
import { along } from '../geometry/compass';
import { azimuth } from '../units';
import { binAt, binsOf } from './bins';
import type { Target } from './hit-chance';
import type { Random } from './seeded';

/** A chance found by trying, and how sure it is. */
export type TriedChance = {
  readonly chance: number;
  /**
   * One standard error of the chance, √(p(1 − p)/n). Two hits and two misses are
   * added first, so that "always" and "never" are not said with no error at all.
   * (A. Agresti and B. A. Coull, 1998, The American Statistician 52:119–126.)
   */
  readonly standardError: number;
  readonly hits: number;
  readonly trials: number;
};

/**
 * Chance that a layout as it is, clipped and shifted, hits a target whose middle
 * is anywhere within the boundary, under buildings too, with equal chance.
 *
 * @returns null where no ground is within the boundary or nothing is tried
 */
export function chanceAsLaid(
  points: readonly XY[],
  within: Shape,
  target: Target,
  trials: number,
  random: Random,
): TriedChance | null {
  const middleOf = placeWithin(within, random);
  if (!middleOf || !(target.radius > 0 && target.shape > 0 && target.shape <= 1)) return null;
  if (!(trials >= 1)) return null;
  const { radius } = target;
  const bins = binsOf(
    points.map(([x, y]) => ({
      west: x - radius,
      south: y - radius,
      east: x + radius,
      north: y + radius,
    })),
  );
  let hits = 0;
  for (let trial = 0; trial < Math.floor(trials); trial++) {
    const middle = middleOf();
    if (!middle) return null;
    const axis = along(target.lies ?? azimuth(180 * random()));
    const near = binAt(bins, ...middle);
    if (near.some((i) => isIn(points[i] ?? [NaN, NaN], middle, axis, target))) hits++;
  }
  const n = Math.floor(trials);
  const eased = (hits + 2) / (n + 4);
  return {
    chance: hits / n,
    standardError: Math.sqrt((eased * (1 - eased)) / (n + 4)),
    hits,
    trials: n,
  };
}

/** Whether a point is in a target, its edge included. */
function isIn(
  [x, y]: XY,
  [mx, my]: XY,
  [east, north]: XY,
  { radius, shape }: Pick<Target, 'radius' | 'shape'>,
): boolean {
  const [dx, dy] = [x - mx, y - my];
  const lengthways = dx * east + dy * north;
  const across = (dx * north - dy * east) / shape;
  return lengthways * lengthways + across * across <= radius * radius;
}

/** Tries for one place: a site is never so thin in its rectangle that this many all miss it. */
const MOST_TRIES = 100_000;

/** Draws places evenly over areas, null where none is found; null at once where they hold no ground. */
function placeWithin(within: Shape, random: Random): (() => XY | null) | null {
  const box = boundsOf(cornersOf(within));
  const ground =
    within.kind === 'areas' ? within.areas.reduce((sum, area) => sum + areaOf(area), 0) : 0;
  if (!box || !(ground > 0)) return null;
  const ready = prepare(within);
  const [wide, high] = [box.east - box.west, box.north - box.south];
  return () => {
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      const place: XY = [box.west + wide * random(), box.south + high * random()];
      if (whereInPrepared(ready, place) === 'inside') return place;
    }
    return null;
  };
}

/** A picture of where a target could hide, as squares over the ground. */
export type HidingPlaces = {
  /** South-west corner of the first square, and the side of a square, in the grid's unit. */
  readonly corner: XY;
  readonly side: number;
  readonly columns: number;
  readonly rows: number;
  /**
   * One a square, row by row from the south-west: 0 where the middle of the
   * square is not within the boundary, 1 where a target centred there is hit, 2
   * where it could hide.
   */
  readonly squares: Uint8Array;
  /** Share of the ground within the boundary where a target's middle could hide. */
  readonly share: number;
};

export const HIT = 1;
export const COULD_HIDE = 2;

/**
 * Where a target's middle could be with no point in it. For a target that may
 * lie any way, a place counts as hit only if a point is within half the short
 * axis, which hits it however it lies; so it errs towards hiding.
 *
 * @param across  about how many squares along the longer side of the site
 * @returns null where no ground is within the boundary
 */
export function hidingPlaces(
  points: readonly XY[],
  within: Shape,
  target: Target,
  across = 200,
): HidingPlaces | null {
  const box = boundsOf(cornersOf(within));
  if (!box || within.kind !== 'areas') return null;
  const side = Math.max(box.east - box.west, box.north - box.south) / Math.max(1, across);
  if (!(side > 0)) return null;
  const columns = Math.max(1, Math.ceil((box.east - box.west) / side));
  const rows = Math.max(1, Math.ceil((box.north - box.south) / side));
  const corner: XY = [box.west, box.south];
  const middle = (column: number, row: number): XY => [
    corner[0] + (column + 0.5) * side,
    corner[1] + (row + 0.5) * side,
  ];

  const squares = new Uint8Array(columns * rows);
  const ready = prepare(within);
  let ground = 0;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++)
      if (whereInPrepared(ready, middle(column, row)) !== 'outside') {
        squares[row * columns + column] = COULD_HIDE;
        ground++;
      }
  if (ground === 0) return null;

  const sure =
    target.lies === null
      ? { radius: target.radius * target.shape, shape: 1, axis: along(azimuth(0)) }
      : { radius: target.radius, shape: target.shape, axis: along(target.lies) };
  let hit = 0;
  for (const point of points) {
    const [first, last] = [point[0] - sure.radius, point[0] + sure.radius].map((x) =>
      Math.floor((x - corner[0]) / side),
    );
    const [low, high] = [point[1] - sure.radius, point[1] + sure.radius].map((y) =>
      Math.floor((y - corner[1]) / side),
    );
    for (let row = Math.max(0, low ?? 0); row <= Math.min(rows - 1, high ?? -1); row++)
      for (
        let column = Math.max(0, first ?? 0);
        column <= Math.min(columns - 1, last ?? -1);
        column++
      ) {
        const i = row * columns + column;
        if (squares[i] !== COULD_HIDE || !isIn(point, middle(column, row), sure.axis, sure))
          continue;
        squares[i] = HIT;
        hit++;
      }
  }
  return { corner, side, columns, rows, squares, share: (ground - hit) / ground };
}
