import { rayMeets, type Whereabouts } from './inside';
import { piecesOf, type Piece, type Shape, type XY } from './shape';

/**
 * A shape made ready to be asked about many places. Pieces stand in the order
 * drawn, which keeps neighbours together; over every eight of them stands a box,
 * over every eight boxes another, up to one over all. A question only opens the
 * boxes it must.
 */
export type Prepared = {
  /** One for each area, so that areas that overlap are both inside; one for all lines or points. */
  readonly courses: readonly Course[];
  readonly filled: boolean;
};

type Course = {
  /** Four numbers a piece: where it starts and ends, east and north. */
  readonly pieces: Float64Array;
  /** Four numbers a box (west, south, east, north), the boxes over pieces first, the one over all last. */
  readonly levels: readonly Float64Array[];
};

const FAN = 8;

export function prepare(shape: Shape): Prepared {
  const courses =
    shape.kind === 'areas'
      ? shape.areas.map((area) => courseOf(piecesOf({ kind: 'areas', areas: [area] })))
      : [courseOf(piecesOf(shape))];
  return {
    courses: courses.filter(({ pieces }) => pieces.length > 0),
    filled: shape.kind === 'areas',
  };
}

function courseOf(pieces: readonly Piece[]): Course {
  const flat = Float64Array.from(pieces.flatMap(([a, b]) => [...a, ...b]));
  const boxes = new Float64Array(flat.length);
  for (let i = 0; i < flat.length; i += 4) {
    const [ax = 0, ay = 0, bx = 0, by = 0] = flat.subarray(i, i + 4);
    boxes.set([Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by)], i);
  }
  const levels: Float64Array[] = [boxes];
  for (let below: Float64Array = boxes; below.length > 4;) {
    below = boxesOver(below);
    levels.push(below);
  }
  return { pieces: flat, levels };
}

function boxesOver(below: Float64Array): Float64Array {
  const count = Math.ceil(below.length / 4 / FAN);
  const boxes = new Float64Array(count * 4);
  for (let i = 0; i < count; i++) {
    const under = below.subarray(i * FAN * 4, (i + 1) * FAN * 4);
    let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
    for (let j = 0; j < under.length; j += 4) {
      west = Math.min(west, under[j] ?? west);
      south = Math.min(south, under[j + 1] ?? south);
      east = Math.max(east, under[j + 2] ?? east);
      north = Math.max(north, under[j + 3] ?? north);
    }
    boxes.set([west, south, east, north], i * 4);
  }
  return boxes;
}

/** As `whereIn`, exactly. */
export function whereInPrepared({ courses, filled }: Prepared, [x, y]: XY): Whereabouts {
  if (!filled) return 'outside';
  let on = false;
  for (const course of courses) {
    const crossed = crossings(course, course.levels.length - 1, 0, x, y);
    if (crossed % 2 === 1) return 'inside';
    on ||= crossed === ON;
  }
  return on ? 'on' : 'outside';
}

const ON = -2;

/** How many sides under a box a ray due east crosses; `ON` where the place is on one of them. */
function crossings(course: Course, level: number, index: number, x: number, y: number): number {
  const boxes = course.levels[level];
  if (!boxes) return 0;
  const i = index * 4;
  if (at(boxes, i + 2) < x || at(boxes, i + 1) > y || at(boxes, i + 3) < y) return 0;
  if (level === 0) {
    const { pieces } = course;
    const meets = rayMeets(
      at(pieces, i),
      at(pieces, i + 1),
      at(pieces, i + 2),
      at(pieces, i + 3),
      x,
      y,
    );
    return meets === 'on' ? ON : meets === 'crosses' ? 1 : 0;
  }
  let sum = 0;
  const last = lastUnder(course, level, index);
  for (let child = index * FAN; child < last; child++) {
    const crossed = crossings(course, level - 1, child, x, y);
    if (crossed === ON) return ON;
    sum += crossed;
  }
  return sum;
}

/**
 * Distance from a place to the lines, sides or points of a shape, if it is
 * within `limit`; else `limit`. Inside is not asked here.
 */
export function distanceToOutline({ courses }: Prepared, [x, y]: XY, limit = Infinity): number {
  let best = limit * limit;
  for (const course of courses)
    best = nearestSquared(course, course.levels.length - 1, 0, x, y, best);
  return best === limit * limit ? limit : Math.sqrt(best);
}

/** The square of the distance to the nearest piece under a box; `best` where none is nearer. */
function nearestSquared(
  course: Course,
  level: number,
  index: number,
  x: number,
  y: number,
  best: number,
): number {
  const boxes = course.levels[level];
  if (!boxes) return best;
  const i = index * 4;
  const east = Math.max(at(boxes, i) - x, 0, x - at(boxes, i + 2));
  const north = Math.max(at(boxes, i + 1) - y, 0, y - at(boxes, i + 3));
  if (east * east + north * north >= best) return best;
  if (level === 0) {
    const { pieces } = course;
    const squared = squaredDistance(
      x - at(pieces, i),
      y - at(pieces, i + 1),
      at(pieces, i + 2) - at(pieces, i),
      at(pieces, i + 3) - at(pieces, i + 1),
    );
    return Math.min(best, squared);
  }
  const last = lastUnder(course, level, index);
  let nearest = best;
  for (let child = index * FAN; child < last; child++)
    nearest = nearestSquared(course, level - 1, child, x, y, nearest);
  return nearest;
}

/** From a place to a piece, both seen from the piece's start. */
function squaredDistance(px: number, py: number, dx: number, dy: number): number {
  const squared = dx * dx + dy * dy;
  const t = squared > 0 ? Math.min(1, Math.max(0, (px * dx + py * dy) / squared)) : 0;
  const [east, north] = [px - t * dx, py - t * dy];
  return east * east + north * north;
}

const at = (numbers: Float64Array, i: number): number => numbers[i] ?? NaN;

const lastUnder = ({ levels }: Course, level: number, index: number): number =>
  Math.min((index + 1) * FAN, (levels[level - 1]?.length ?? 0) / 4);

/** As `distanceTo`: nothing inside an area; `limit` where it is that far or farther. */
export const distanceToPrepared = (prepared: Prepared, place: XY, limit = Infinity): number =>
  whereInPrepared(prepared, place) === 'inside' ? 0 : distanceToOutline(prepared, place, limit);
