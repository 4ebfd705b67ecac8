import { stretches } from './along';
import { sizeOf, type PlacedLabel } from './place-labels';
import type { Item, LineItem, Place, Scene, TextItem } from './scene';

/** px left free between a contour and its level. */
const GAP = 4;

/** A contour passes through its level, to within so many px. */
const THROUGH = 1.5;

const isLevel = (item: Item): item is TextItem =>
  item.kind === 'text' && item.layer === 'captions' && item.sides.join() === 'centre';

/**
 * Contours parted where their level stands, so that none shows between its
 * digits, where it is taken for a point. Levels for which there is no room are
 * left off, and their contours whole.
 *
 * @param placed  where words find room, of this scene
 * @param metresInPx  of the words' own px
 */
export function contoursParted(
  scene: Scene,
  placed: readonly PlacedLabel[],
  metresInPx: number,
): Scene {
  const roomy = new Set(placed.map(({ item: { at, text } }) => `${at.join()} ${text}`));
  const hasRoom = ({ at, text }: TextItem) => roomy.has(`${at.join()} ${text}`);
  const levels = scene.filter(isLevel).filter(hasRoom);
  const gaps = levels.map((level) => ({
    at: level.at,
    half: (sizeOf(level)[0] / 2 + GAP) * metresInPx,
  }));
  return scene.flatMap((item): Item[] => {
    if (isLevel(item)) return hasRoom(item) ? [{ ...item, always: true }] : [];
    if (item.kind !== 'line' || item.layer !== 'contours') return [item];
    return parted(item, gaps, THROUGH * metresInPx);
  });
}

function parted(
  item: LineItem,
  gaps: readonly { readonly at: Place; readonly half: number }[],
  through: number,
): LineItem[] {
  const mine = gaps.filter(({ at }) =>
    stretches(item.path).some((piece) => distanceTo(at, piece) <= through),
  );
  if (mine.length === 0) return [item];
  return mine
    .reduce((paths, { at, half }) => paths.flatMap((path) => outside(path, at, half)), [
      item.path,
    ] as readonly (readonly Place[])[])
    .map((path) => ({ ...item, path }));
}

/** How far a place is from a straight stretch. */
export function distanceTo([x, y]: Place, [[x0, y0], [x1, y1]]: readonly [Place, Place]): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const long = dx * dx + dy * dy;
  const t = long === 0 ? 0 : Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / long));
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}

/** The parts of a path outside a circle, in order. */
export function outside(path: readonly Place[], [cx, cy]: Place, radius: number): Place[][] {
  const parts: Place[][] = [];
  const isIn = ([x, y]: Place) => Math.hypot(x - cx, y - cy) < radius;
  let part: Place[] = path[0] && !isIn(path[0]) ? [path[0]] : [];
  for (const [from, to] of stretches(path)) {
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const [fx, fy] = [from[0] - cx, from[1] - cy];
    const a = dx * dx + dy * dy;
    const half = fx * dx + fy * dy;
    const root = Math.sqrt(Math.max(0, half * half - a * (fx * fx + fy * fy - radius * radius)));
    const at = (t: number): Place => [from[0] + t * dx, from[1] + t * dy];
    const [enters, leaves] =
      a === 0 || root === 0 ? [2, 2] : [(-half - root) / a, (-half + root) / a];
    if (enters > 0 && enters < 1 && part.length > 0) {
      parts.push([...part, at(enters)]);
      part = [];
    }
    if (leaves > 0 && leaves < 1) part = [at(leaves)];
    if (!isIn(to)) part.push(to);
  }
  if (part.length > 1) parts.push(part);
  return parts;
}
