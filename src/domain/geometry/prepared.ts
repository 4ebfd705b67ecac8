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
  let on = false;
  if (filled)
    for (const course of courses) {
      const where = whereInCourse(course, x, y);
      if (where === 'inside') return 'inside';
      on ||= where === 'on';
    }
  return on ? 'on' : 'outside';
}

function whereInCourse({ pieces, levels }: Course, x: number, y: number): Whereabouts {
  let inside = false;
  let on = false;
  const open = (level: number, index: number): void => {
    const boxes = levels[level];
    const i = index * 4;
    if (!boxes || on) return;
    const [south = 0, east = 0, north = 0] = [boxes[i + 1], boxes[i + 2], boxes[i + 3]];
    if (east < x || south > y || north < y) return;
    if (level === 0) {
      const [ax = 0, ay = 0, bx = 0, by = 0] = [
        pieces[i],
        pieces[i + 1],
        pieces[i + 2],
        pieces[i + 3],
      ];
      const meets = rayMeets(ax, ay, bx, by, x, y);
      if (meets === 'on') on = true;
      if (meets === 'crosses') inside = !inside;
      return;
    }
    const last = Math.min((index + 1) * FAN, (levels[level - 1]?.length ?? 0) / 4);
    for (let child = index * FAN; child < last; child++) open(level - 1, child);
  };
  open(levels.length - 1, 0);
  return on ? 'on' : inside ? 'inside' : 'outside';
}

/**
 * Distance from a place to the lines, sides or points of a shape, if it is
 * within `limit`; else a number of at least `limit`. Inside is not asked here.
 */
export function distanceToOutline({ courses }: Prepared, [x, y]: XY, limit = Infinity): number {
  let best = limit * limit;
  for (const { pieces, levels } of courses) {
    const open = (level: number, index: number): void => {
      const boxes = levels[level];
      const i = index * 4;
      if (!boxes) return;
      const [west = 0, south = 0, east = 0, north = 0] = [
        boxes[i],
        boxes[i + 1],
        boxes[i + 2],
        boxes[i + 3],
      ];
      const away = Math.max(west - x, 0, x - east) ** 2 + Math.max(south - y, 0, y - north) ** 2;
      if (away >= best) return;
      if (level === 0) {
        const [ax = 0, ay = 0, bx = 0, by = 0] = [
          pieces[i],
          pieces[i + 1],
          pieces[i + 2],
          pieces[i + 3],
        ];
        best = Math.min(best, squaredDistance(x, y, ax, ay, bx, by));
        return;
      }
      const last = Math.min((index + 1) * FAN, (levels[level - 1]?.length ?? 0) / 4);
      for (let child = index * FAN; child < last; child++) open(level - 1, child);
    };
    open(levels.length - 1, 0);
  }
  return Math.sqrt(best);
}

function squaredDistance(x: number, y: number, ax: number, ay: number, bx: number, by: number) {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / squared)) : 0;
  const [east, north] = t === 1 ? [x - bx, y - by] : [x - ax - t * dx, y - ay - t * dy];
  return east * east + north * north;
}

/** As `distanceTo`: nothing inside an area; at least `limit` where it is that far or farther. */
export const distanceToPrepared = (prepared: Prepared, place: XY, limit = Infinity): number =>
  whereInPrepared(prepared, place) === 'inside' ? 0 : distanceToOutline(prepared, place, limit);
