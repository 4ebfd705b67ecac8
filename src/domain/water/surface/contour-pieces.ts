import { degrees, metres, type Degrees, type Metres } from '../../units';
import { lineLength, type ContourLine } from './contour';
import { between, type XY } from './hull';
import type { SurfacePoint } from './surface-point';

/** Part of a contour that is known alike along its length: solid, or dashed where inferred. */
export type ContourPiece = {
  readonly level: Metres;
  readonly points: readonly XY[];
  readonly inferred: boolean;
};

/** Whether a contour is a guess at a place. */
export type Inferred = (place: XY) => boolean;

/** Inferred beyond a distance from the nearest well. */
export function farFromWells(points: readonly SurfacePoint[], beyond: Metres): Inferred {
  return ([x, y]) => points.every((p) => Math.hypot(p.x - x, p.y - y) > beyond);
}

/** Inferred where a head is not known to so much, such as by its kriging error. */
export const unsure =
  (sigmaAt: (place: XY) => number, beyond: Metres): Inferred =>
  (place) =>
    sigmaAt(place) > beyond;

/**
 * Distance beyond which a contour is inferred, to begin with: the median
 * distance from a well to its nearest neighbour. (Common practice has a
 * distance but no one number; this one is ours, and the page shows it.)
 */
export function usualReach(points: readonly SurfacePoint[]): Metres | null {
  const nearest = points
    .map((p) =>
      Math.min(
        ...points.map((q) => Math.hypot(p.x - q.x, p.y - q.y)).filter((distance) => distance > 0),
      ),
    )
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  const middle = nearest[Math.floor(nearest.length / 2)];
  return middle === undefined ? null : metres(middle);
}

/** Halvings that find where a line turns from solid to dashed: a millionth of a step. */
const HALVINGS = 20;

/**
 * A contour cut where it turns from known to inferred or back. The line is
 * looked at every `every` metres, so that a known stretch shorter than that may
 * be passed over.
 */
export function piecesOf(line: ContourLine, inferred: Inferred, every: Metres): ContourPiece[] {
  const [start] = line.points;
  if (!start) return [];
  const pieces: ContourPiece[] = [];
  let state = inferred(start);
  let points: XY[] = [start];
  const turnAt = (place: XY) => {
    points.push(place);
    if (lineLength(points) > 0) pieces.push({ level: line.level, points, inferred: state });
    points = [place];
    state = !state;
  };
  line.points.slice(1).forEach((b, i) => {
    const a = line.points[i] ?? b;
    const steps = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / every));
    for (let k = 1; k <= steps; k++) {
      if (inferred(between(a, b, k / steps)) === state) continue;
      let [same, other] = [(k - 1) / steps, k / steps];
      for (let halving = 0; halving < HALVINGS; halving++) {
        const middle = (same + other) / 2;
        if (inferred(between(a, b, middle)) === state) same = middle;
        else other = middle;
      }
      turnAt(between(a, b, other));
    }
    points.push(b);
  });
  if (lineLength(points) > 0) pieces.push({ level: line.level, points, inferred: state });
  return pieces;
}

/** Where a contour's level is written. */
export type LabelPlace = {
  readonly at: XY;
  /** Turn of the text, counter-clockwise from east, between −90° and 90° so that it reads upright. */
  readonly turned: Degrees;
  readonly level: Metres;
};

/**
 * Places for the level along a line: one in the middle, and further ones every
 * so many metres either side of it. A line shorter than the text gets none.
 */
export function labelPlaces(line: ContourLine, every: Metres, textLength: Metres): LabelPlace[] {
  const length = lineLength(line.points);
  if (length < textLength) return [];
  const eachWay = Math.floor((length / 2 - textLength / 2) / every);
  return Array.from({ length: 2 * eachWay + 1 }, (_, i) => {
    const along = length / 2 + (i - eachWay) * every;
    const [from, to] = [along - textLength / 2, along + textLength / 2];
    const [a, b] = [placeAlong(line.points, from), placeAlong(line.points, to)];
    const angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
    const upright = angle > 90 ? angle - 180 : angle <= -90 ? angle + 180 : angle;
    return { at: placeAlong(line.points, along), turned: degrees(upright), level: line.level };
  });
}

/** The place so many metres along a line; its ends beyond them. */
export function placeAlong(points: readonly XY[], distance: number): XY {
  let left = distance;
  let last: XY = points[0] ?? [0, 0];
  for (const place of points) {
    const step = Math.hypot(place[0] - last[0], place[1] - last[1]);
    if (step > 0 && step >= left) return between(last, place, Math.max(0, left / step));
    left -= step;
    last = place;
  }
  return last;
}
