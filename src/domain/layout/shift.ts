import { azimuthBetween, distanceBetween } from '../geometry/compass';
import { nearestOnPiece } from '../geometry/nearest';
import { piecesOf, type Piece, type XY } from '../geometry/shape';
import { fail, ok, type Result } from '../result';
import type { Azimuth } from '../units';
import { isClear } from './blocks';
import { reachOf, type GroundPlan } from './ground-plan';

/** How a stake was moved off a blocked place, in the grid's unit; the azimuth is the way it went. */
export type Shift = {
  readonly from: XY;
  readonly to: XY;
  readonly distance: number;
  readonly azimuth: Azimuth;
};

export type NoClearPlace = { readonly kind: 'no-clear-place'; readonly limit: number };

/**
 * Kept beyond what is asked, in the grid's unit, so that a stake whose
 * coordinates are rounded to a hundredth (at most 0.0071 off) is still clear.
 */
export const SHIFT_MARGIN = 0.01;

/** Rounding in the reckoning of a place may not make it seem blocked. */
const ROUNDING = 1e-6;

/**
 * The clear place nearest to a blocked one. It lies on the edge of the clear
 * ground, which is made of lines beside the pieces drawn and arcs about their
 * ends: either straight across from the blocked place, or in a corner where two
 * such edges meet. All of these are tried, nearest first, so nothing nearer is
 * missed.
 *
 * @param limit   how far it may be moved, in the grid's unit
 * @param margin  kept beyond what is asked, in the grid's unit, for the error of a stake
 */
export function nearestClear(
  from: XY,
  plan: GroundPlan,
  limit: number,
  margin = 0,
): Result<Shift, NoClearPlace> {
  if (!(limit > 0)) return fail({ kind: 'no-clear-place', limit });
  const beyond = SHIFT_MARGIN + margin;
  // Near first: few pieces are near, and corners are tried pair by pair.
  for (const within of [limit / 16, limit / 4, limit]) {
    const edges = edgesNear(from, plan, within, beyond);
    const candidates = [...edges.flatMap((edge) => across(from, edge)), ...corners(edges)]
      .map((to) => ({ to, distance: distanceBetween(from, to) }))
      .filter(({ distance }) => distance > 0 && distance <= within)
      .sort((a, b) => a.distance - b.distance);
    for (const { to, distance } of candidates) {
      const azimuth = azimuthBetween(from, to);
      if (azimuth !== null && isClear(to, plan, beyond - ROUNDING))
        return ok({ from, to, distance, azimuth });
    }
  }
  return fail({ kind: 'no-clear-place', limit });
}

/** An edge of the clear ground: a whole line through two places, or a circle. More than the true edge is harmless. */
type Edge =
  | { readonly kind: 'line'; readonly through: Piece }
  | { readonly kind: 'circle'; readonly middle: XY; readonly radius: number };

/** The edges around everything drawn whose reach comes within a distance of a place. */
function edgesNear(from: XY, plan: GroundPlan, within: number, beyond: number): Edge[] {
  const edges: Edge[] = [];
  for (const drawn of [...plan.boundaries, ...plan.obstacles]) {
    const reach = reachOf(drawn) + beyond;
    for (const piece of piecesOf(drawn.shape))
      if (nearestOnPiece(from, piece).distance <= within + reach)
        edges.push(...edgesBeside(piece, reach));
  }
  return edges;
}

function edgesBeside(piece: Piece, reach: number): Edge[] {
  const [[ax, ay], [bx, by]] = piece;
  const length = distanceBetween(...piece);
  const start: Edge = { kind: 'circle', middle: [ax, ay], radius: reach };
  if (length === 0) return [start];
  const [east, north] = [((by - ay) / length) * reach, ((ax - bx) / length) * reach];
  const beside = (turn: 1 | -1): Edge => ({
    kind: 'line',
    through: [
      [ax + turn * east, ay + turn * north],
      [bx + turn * east, by + turn * north],
    ],
  });
  return [beside(1), beside(-1), start, { kind: 'circle', middle: [bx, by], radius: reach }];
}

/** The places of an edge nearest to a place: straight across. */
function across(from: XY, edge: Edge): XY[] {
  if (edge.kind === 'line') {
    const [[ax, ay], [bx, by]] = edge.through;
    const [dx, dy] = [bx - ax, by - ay];
    const t = ((from[0] - ax) * dx + (from[1] - ay) * dy) / (dx * dx + dy * dy);
    return [[ax + t * dx, ay + t * dy]];
  }
  const { middle, radius } = edge;
  const away = distanceBetween(middle, from);
  // In the very middle every direction is as near; the four winds stand for them.
  if (away === 0)
    return [
      [middle[0], middle[1] + radius],
      [middle[0] + radius, middle[1]],
      [middle[0], middle[1] - radius],
      [middle[0] - radius, middle[1]],
    ];
  const scale = radius / away;
  return [[middle[0] + (from[0] - middle[0]) * scale, middle[1] + (from[1] - middle[1]) * scale]];
}

/** Where edges meet, pair by pair. */
const corners = (edges: readonly Edge[]): XY[] =>
  edges.flatMap((one, i) => edges.slice(i + 1).flatMap((other) => meets(one, other)));

function meets(one: Edge, other: Edge): XY[] {
  if (one.kind === 'line')
    return other.kind === 'line'
      ? linesMeet(one.through, other.through)
      : lineMeetsCircle(one.through, other);
  return other.kind === 'line' ? lineMeetsCircle(other.through, one) : circlesMeet(one, other);
}

function linesMeet([a, b]: Piece, [c, d]: Piece): XY[] {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = ux * vy - uy * vx;
  if (cross === 0) return [];
  const t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross;
  return [[a[0] + t * ux, a[1] + t * uy]];
}

type Circle = Extract<Edge, { kind: 'circle' }>;

function lineMeetsCircle([a, b]: Piece, { middle: [mx, my], radius }: Circle): XY[] {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const squared = dx * dx + dy * dy;
  const t = ((mx - a[0]) * dx + (my - a[1]) * dy) / squared;
  const [fx, fy] = [a[0] + t * dx, a[1] + t * dy];
  const half = radius * radius - (fx - mx) ** 2 - (fy - my) ** 2;
  if (half < 0) return [];
  const s = Math.sqrt(half / squared);
  return [
    [fx + s * dx, fy + s * dy],
    [fx - s * dx, fy - s * dy],
  ];
}

function circlesMeet(one: Circle, other: Circle): XY[] {
  const [dx, dy] = [other.middle[0] - one.middle[0], other.middle[1] - one.middle[1]];
  const squared = dx * dx + dy * dy;
  if (squared === 0) return [];
  const t = (one.radius ** 2 - other.radius ** 2 + squared) / (2 * squared);
  const half = one.radius ** 2 / squared - t * t;
  if (half < 0) return [];
  const s = Math.sqrt(half);
  const [x, y] = [one.middle[0] + t * dx, one.middle[1] + t * dy];
  return [
    [x - s * dy, y + s * dx],
    [x + s * dy, y - s * dx],
  ];
}
