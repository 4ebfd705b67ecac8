import { whereIn } from './inside';
import { piecesOf, piecesOfLine, type Line, type Piece, type Shape, type XY } from './shape';
import { side } from './side';

/**
 * Where two pieces meet: nowhere, at one place, or along a stretch they share.
 * Whether they meet is exact; the place of a crossing is rounded.
 */
export type Meeting =
  | { readonly kind: 'apart' }
  | { readonly kind: 'at'; readonly place: XY }
  | { readonly kind: 'along'; readonly stretch: Piece };

export function meeting([a, b]: Piece, [c, d]: Piece): Meeting {
  const [ca, cb] = [side(c, d, a), side(c, d, b)];
  const [ac, ad] = [side(a, b, c), side(a, b, d)];
  if (ca === 0 && cb === 0 && ac === 0 && ad === 0) return shared([a, b], [c, d]);
  if (ca * cb > 0 || ac * ad > 0) return { kind: 'apart' };
  // An end that lies on the other piece is the place itself, unrounded.
  if (ca === 0) return { kind: 'at', place: a };
  if (cb === 0) return { kind: 'at', place: b };
  if (ac === 0) return { kind: 'at', place: c };
  if (ad === 0) return { kind: 'at', place: d };
  const t = ca / (ca - cb);
  return { kind: 'at', place: [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])] };
}

/** What two pieces in one line have in common. */
function shared(one: Piece, other: Piece): Meeting {
  const before = (p: XY, q: XY) => p[0] - q[0] || p[1] - q[1];
  const [a = one[0], b = one[1]] = [...one].sort(before);
  const [c = other[0], d = other[1]] = [...other].sort(before);
  const from = before(a, c) > 0 ? a : c;
  const to = before(b, d) < 0 ? b : d;
  const length = before(to, from);
  if (length < 0) return { kind: 'apart' };
  return length === 0 ? { kind: 'at', place: from } : { kind: 'along', stretch: [from, to] };
}

/**
 * The parts of a line that lie inside areas, in order along it. A stretch that
 * runs exactly along a side is not inside. Where the line only touches a side
 * from within it is not cut.
 */
export function clipLine(line: Line, areas: Shape): Line[] {
  const sides = piecesOf(areas);
  const parts: XY[][] = [];
  let part: XY[] = [];
  const close = () => {
    if (part.length > 1) parts.push(part);
    part = [];
  };
  for (const piece of piecesOfLine(line)) {
    for (const [from, to] of stretchesOf(piece, sides)) {
      if (whereIn(areas, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]) !== 'inside') close();
      else if (part.length > 0) part.push(to);
      else part = [from, to];
    }
  }
  close();
  return parts.map(withoutStops);
}

/** A piece cut wherever it meets a side, in order along it; none when it has no length. */
function stretchesOf(piece: Piece, sides: readonly Piece[]): Piece[] {
  const [a, b] = piece;
  const fraction = ([x, y]: XY) => {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    return Math.abs(dx) > Math.abs(dy) ? (x - a[0]) / dx : (y - a[1]) / dy;
  };
  if (a[0] === b[0] && a[1] === b[1]) return [];
  const cuts: { readonly at: XY; readonly t: number }[] = [
    { at: a, t: 0 },
    { at: b, t: 1 },
  ];
  for (const one of sides) {
    const met = meeting(piece, one);
    if (met.kind === 'at') cuts.push({ at: met.place, t: fraction(met.place) });
    if (met.kind === 'along') cuts.push(...met.stretch.map((at) => ({ at, t: fraction(at) })));
  }
  cuts.sort((p, q) => p.t - q.t);
  return cuts
    .slice(1)
    .map((cut, i): Piece => [cuts[i]?.at ?? cut.at, cut.at])
    .filter(([p, q]) => p[0] !== q[0] || p[1] !== q[1]);
}

/** A line without the places in the middle of a straight run that cutting left behind. */
const withoutStops = (line: Line): Line =>
  line.filter((place, i) => {
    const [before, after] = [line[i - 1], line[i + 1]];
    return (
      !before || !after || side(before, after, place) !== 0 || isTurningBack(before, place, after)
    );
  });

const isTurningBack = (before: XY, at: XY, after: XY) =>
  (at[0] - before[0]) * (after[0] - at[0]) + (at[1] - before[1]) * (after[1] - at[1]) < 0;

/**
 * Where the outline of an area crosses or touches itself, so that its ground
 * cannot be trusted; null where it does not. Neighbouring sides may share a
 * corner, and rings may touch at a corner.
 */
export function selfCrossing(areas: Shape): XY | null {
  if (areas.kind !== 'areas') return null;
  const sides = piecesOf(areas);
  for (const [i, one] of sides.entries())
    for (const other of sides.slice(i + 1)) {
      if (!boxesMeet(one, other)) continue;
      const met = meeting(one, other);
      if (met.kind === 'along') return met.stretch[0];
      if (met.kind === 'at' && !isEndOf(met.place, one) && !isEndOf(met.place, other))
        return met.place;
    }
  return null;
}

const isEndOf = ([x, y]: XY, piece: Piece) => piece.some((end) => end[0] === x && end[1] === y);

const boxesMeet = ([[ax, ay], [bx, by]]: Piece, [[cx, cy], [dx, dy]]: Piece) =>
  Math.max(ax, bx) >= Math.min(cx, dx) &&
  Math.max(cx, dx) >= Math.min(ax, bx) &&
  Math.max(ay, by) >= Math.min(cy, dy) &&
  Math.max(cy, dy) >= Math.min(ay, by);
