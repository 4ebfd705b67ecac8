import { whereIn } from '../../domain/geometry/inside';
import { distanceTo } from '../../domain/geometry/nearest';
import { LAYERS } from './layers';
import { magnified, plainly, type PlainItem } from './plain';
import type { Place, Scene } from './scene';

/** How near a press must come to a shape, px: half a fingertip. */
const NEAR = 11;

/** How near to a line, px. */
const NEAR_LINE = 5;

/**
 * Whom a press at a place means, by the `who` of the items there: the nearest
 * shape within a fingertip, else the uppermost line, else the uppermost area;
 * null where there is nothing.
 *
 * @param scale  metres in a px
 */
export function whoAt(scene: Scene, place: Place, scale: number, magnify = 1): string | null {
  const mine = pressable(scene).map((item) => magnified(item, magnify));
  return nearestShape(mine, place, scale) ?? uppermost(mine, place, scale);
}

const kept = new WeakMap<Scene, readonly PlainItem[]>();

/** What of a scene can be pressed; found once, since a pointer asks at every move. */
function pressable(scene: Scene): readonly PlainItem[] {
  const before = kept.get(scene);
  if (before) return before;
  const items = scene
    .filter(({ who, kind }) => who !== undefined && kind !== 'text')
    .flatMap((item) => [...plainly(item)])
    .filter(({ layer }) => layer !== 'keep-clear');
  kept.set(scene, items);
  return items;
}

function nearestShape(items: readonly PlainItem[], [e, n]: Place, scale: number): string | null {
  let [nearest, who]: [number, string | null] = [NEAR, null];
  for (const item of items) {
    if (item.kind !== 'symbol') continue;
    const [right = 0, down = 0] = item.offset ?? [];
    const apart = Math.hypot((e - item.at[0]) / scale - right, (n - item.at[1]) / scale + down);
    const outside = Math.max(0, apart - item.size / 2);
    // Within several shapes the one whose middle is nearest is meant.
    const distance = outside > 0 ? outside : apart / item.size - 1;
    if (distance < nearest) [nearest, who] = [distance, item.who ?? null];
  }
  return who;
}

function uppermost(items: readonly PlainItem[], place: Place, scale: number): string | null {
  const hits = (item: PlainItem): boolean => {
    if (item.kind === 'area') {
      const shape = { kind: 'areas', areas: item.polygons } as const;
      return whereIn(shape, place) !== 'outside';
    }
    if (item.kind !== 'line') return false;
    const apart = distanceTo({ kind: 'lines', lines: [item.path] }, place);
    return apart !== null && apart / scale <= NEAR_LINE + item.weight / 2;
  };
  const rank = (item: PlainItem) =>
    LAYERS.indexOf(item.layer) + (item.kind === 'line' ? LAYERS.length : 0);
  const [top] = items.filter(hits).toSorted((a, b) => rank(b) - rank(a));
  return top?.who ?? null;
}
