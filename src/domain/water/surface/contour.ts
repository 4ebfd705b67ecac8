import type { Metres } from '../../units';
import { between, clipToHull, type Hull, type XY } from './hull';
import { nodeAt, type SurfaceGrid } from './surface-grid';
import { nextSide, standing, triangleCount, type Tin } from './tin';

/** A line along which the water stands at one level. */
export type ContourLine = {
  readonly level: Metres;
  /** With the higher heads on the left. A closed line ends where it begins. */
  readonly points: readonly XY[];
  readonly closed: boolean;
};

/**
 * The line's course through one mesh, from one of its sides to another. Sides
 * are numbered so that the two meshes that share one call it the same.
 */
type Crossing = { readonly from: number; readonly to: number };

/**
 * Contours of a triangulated surface at one level: straight across each
 * triangle, ending at the outline. A well standing exactly at the level counts
 * as above it, so that the line goes through it and no flat is drawn twice.
 */
export function tinContours(tin: Tin, level: Metres): ContourLine[] {
  const isHigh = (k: number) => (tin.heads[tin.corners[k] as number] as number) >= level;
  const named = (k: number) => {
    const across = tin.across[k] as number;
    return across === -1 ? k : Math.min(k, across);
  };
  const crossings: Crossing[] = [];
  for (let t = 0; t < triangleCount(tin); t++) {
    let [from, to] = [-1, -1];
    for (let k = 3 * t; k < 3 * t + 3; k++) {
      const [high, next] = [isHigh(k), isHigh(nextSide(k))];
      if (high && !next) from = named(k);
      if (!high && next) to = named(k);
    }
    if (from !== -1) crossings.push({ from, to });
  }
  return joined(crossings, level, (k) => {
    const [a, b] = [tin.corners[k] as number, tin.corners[nextSide(k)] as number];
    const t = fraction(tin.heads[a] as number, tin.heads[b] as number, level);
    return between(standing(tin, a), standing(tin, b), t);
  });
}

/** How far from a to b the level is met. */
const fraction = (a: number, b: number, level: number) => (level - a) / (b - a);

/**
 * Contours of a gridded surface at one level by marching squares; meshes with a
 * node that has no head are left out. Where two opposite nodes of a mesh are
 * high and two low, the mean of the four decides which two are joined. (W. E.
 * Lorensen and H. E. Cline, 1987, in two dimensions; value from memory.)
 */
export function gridContours({ frame, heads }: SurfaceGrid, level: Metres): ContourLine[] {
  const { columns, rows } = frame;
  const horizontal = columns * rows; // sides to the east come first, then sides to the north
  const crossings: Crossing[] = [];
  for (let row = 0; row < rows - 1; row++) {
    for (let column = 0; column < columns - 1; column++) {
      const sw = row * columns + column;
      const levels = [
        heads[sw] as number,
        heads[sw + 1] as number,
        heads[sw + 1 + columns] as number,
        heads[sw + columns] as number,
      ] as const;
      // Most meshes lie wholly on one side: they are told without another list.
      const [a, b, c, d] = levels;
      if (a >= level ? b >= level && c >= level && d >= level : !meets(b, c, d, level)) continue;
      const mean = (a + b + c + d) / 4;
      if (Number.isNaN(mean)) continue;
      const sides = [sw, horizontal + sw + 1, sw + columns, horizontal + sw];
      const high = levels.map((head) => head >= level);
      const falls = [0, 1, 2, 3].filter((k) => high[k] && !high[(k + 1) % 4]);
      const rises = [0, 1, 2, 3].filter((k) => !high[k] && high[(k + 1) % 4]);
      for (const k of falls) {
        // Round the low node that follows, or else round the high node before.
        const to = rises.length === 1 ? rises[0] : (k + (mean >= level ? 1 : 3)) % 4;
        crossings.push({ from: sides[k] as number, to: sides[to as number] as number });
      }
    }
  }
  return joined(crossings, level, (named) => {
    const eastward = named < horizontal;
    const a = eastward ? named : named - horizontal;
    const b = eastward ? a + 1 : a + columns;
    const place = (node: number) => nodeAt(frame, node % columns, Math.floor(node / columns));
    return between(place(a), place(b), fraction(heads[a] as number, heads[b] as number, level));
  });
}

/** Whether any of three heads is as high as the level. */
const meets = (b: number, c: number, d: number, level: number): boolean =>
  b >= level || c >= level || d >= level;

/** Crossings joined into lines: the open ones first, each from its free end. */
function joined(
  crossings: readonly Crossing[],
  level: Metres,
  placeOf: (side: number) => XY,
): ContourLine[] {
  const onward = new Map(crossings.map(({ from, to }) => [from, to]));
  const reached = new Set(crossings.map(({ to }) => to));
  const starts = [
    ...crossings.filter(({ from }) => !reached.has(from)),
    ...crossings.filter(({ from }) => reached.has(from)),
  ];
  const lines: ContourLine[] = [];
  for (const { from: start } of starts) {
    if (!onward.has(start)) continue;
    const points = [placeOf(start)];
    let at = start;
    for (let to = onward.get(at); to !== undefined; to = onward.get(at)) {
      onward.delete(at);
      const [last, place] = [points.at(-1), placeOf(to)];
      if (last?.[0] !== place[0] || last[1] !== place[1]) points.push(place);
      at = to;
    }
    if (points.length > 1) lines.push({ level, points, closed: at === start });
  }
  return lines;
}

/** Lines cut off at the outline of the wells; what is left of a closed line is open. */
export const withinHull = (lines: readonly ContourLine[], hull: Hull): ContourLine[] =>
  lines.flatMap((line) => {
    const parts = clipToHull(line.points, hull);
    const [only] = parts;
    if (parts.length === 1 && only?.length === line.points.length)
      return [{ ...line, points: only }];
    return openedAt(parts, line).map((points) => ({ level: line.level, points, closed: false }));
  });

/** The parts of a line that was closed: where it was begun inside, the last and first are one. */
function openedAt(parts: XY[][], { closed, points }: ContourLine): XY[][] {
  const [first, last] = [parts[0], parts.at(-1)];
  if (!closed || !first || !last || first === last) return parts;
  const start = points[0];
  if (first[0] !== start || last.at(-1) !== points.at(-1)) return parts;
  return [[...last, ...first.slice(1)], ...parts.slice(1, -1)];
}

/** Length of a line in metres. */
export const lineLength = (points: readonly XY[]): number =>
  points.slice(1).reduce((sum, [x, y], i) => {
    const [px, py] = points[i] ?? [x, y];
    return sum + Math.hypot(x - px, y - py);
  }, 0);
