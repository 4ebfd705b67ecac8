import type { Flow } from '../water/flow';
import { surfacePoints } from '../water/surface-words';
import { LEAST_SLOPE, type Slope } from '../water/surface/flow-lines';
import { convexHull, type Hull } from '../water/surface/hull';
import { frameOver, nodeAt, type GridFrame } from '../water/surface/surface-grid';
import { cornersOf, triangleAt, triangleSlope, triangulate, type Tin } from '../water/surface/tin';

/**
 * Which way water moves at the nodes of a grid over the wells' outline: parts
 * of a direction of length 1 in ground metres about the middle of the wells,
 * and 0, 0 where there is none.
 */
export type DirectionField = {
  readonly hull: Hull;
  readonly frame: GridFrame;
  /** Node (column, row) at row·columns + column. */
  readonly east: Float32Array;
  readonly north: Float32Array;
  /** Nodes inside the outline that have a direction. */
  readonly seats: Uint32Array;
  /** Each side of the outline as [a, b, c]: a·x + b·y + c is the distance inside it. */
  readonly sides: Float64Array;
};

/** Nodes along the longer side of the outline. */
const NODES = 121;

/** The directions of a slope, down it. */
export function directionField(slope: Slope, hull: Hull): DirectionField {
  const frame = frameOver(hull, NODES);
  const count = frame.columns * frame.rows;
  const [east, north] = [new Float32Array(count), new Float32Array(count)];
  const sides = sidesAsLines(hull);
  const seats: number[] = [];
  for (let node = 0; node < count; node++) {
    const at = nodeAt(frame, node % frame.columns, Math.floor(node / frame.columns));
    if (!isWithin(sides, at[0], at[1])) continue;
    const rise = slope(at);
    const size = rise ? Math.hypot(...rise) : 0;
    if (!rise || size < LEAST_SLOPE) continue;
    east[node] = -rise[0] / size;
    north[node] = -rise[1] / size;
    seats.push(node);
  }
  return { hull, frame, east, north, seats: Uint32Array.from(seats), sides };
}

function sidesAsLines(hull: Hull): Float64Array {
  const lines = new Float64Array(3 * hull.length);
  hull.forEach(([x0, y0], i) => {
    const [x1, y1] = hull[(i + 1) % hull.length] ?? [x0, y0];
    const long = Math.hypot(x1 - x0, y1 - y0);
    const [a, b] = [(y0 - y1) / long, (x1 - x0) / long];
    lines.set([a, b, -(a * x0 + b * y0)], 3 * i);
  });
  return lines;
}

/** Whether a place lies inside an outline given as lines; a corner's rounding is outside. */
export function isWithin(sides: Float64Array, x: number, y: number): boolean {
  for (let i = 0; i < sides.length; i += 3)
    if ((sides[i] as number) * x + (sides[i + 1] as number) * y + (sides[i + 2] as number) < 0)
      return false;
  return true;
}

/** A drop of less than so many standard errors across a triangle tells no direction. Common practice, no source. */
const TELLING = 2;

/** The slope of a triangulated surface, and none where the errors of its three heads could have made it. */
function resolvedSlope(tin: Tin): Slope {
  const slopes = Array.from({ length: tin.corners.length / 3 }, (_, triangle) => {
    const corners = cornersOf(tin, triangle);
    const heads = corners.map((place) => tin.heads[place] as number);
    const errors = corners.map((place) => tin.places[place]?.sigma ?? 0);
    const error = Math.hypot(...errors) / Math.sqrt(3);
    const drop = Math.max(...heads) - Math.min(...heads);
    return drop > TELLING * error ? triangleSlope(tin, triangle) : null;
  });
  let last = 0;
  return (at) => {
    const triangle = triangleAt(tin, at, last);
    if (triangle === null) return null;
    last = triangle;
    return slopes[triangle] ?? null;
  };
}

/**
 * Where water moves in a zone, for marks that drift over the map: along the
 * plane, or along the triangulated surface where the heads do not lie on one
 * plane or contours of it are shown. Null where the direction is not resolved.
 */
export function movingWater(flow: Flow, alongSurface: boolean): DirectionField | null {
  const { plane, resolved, isPlane } = flow;
  if (!resolved || !plane) return null;
  const points = surfacePoints(flow);
  const hull = convexHull(points.map(({ x, y }) => [x, y]));
  if (!hull) return null;
  if (isPlane !== false && !alongSurface) return directionField(() => [plane.a, plane.b], hull);
  const tin = triangulate(points);
  if (!tin.ok) return null;
  const field = directionField(resolvedSlope(tin.value), hull);
  return field.seats.length > 0 ? field : null;
}
