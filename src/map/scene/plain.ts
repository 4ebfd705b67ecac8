import type {
  AreaItem,
  BarItem,
  ImageItem,
  Item,
  LineItem,
  Place,
  SymbolItem,
  TextItem,
} from './scene';

/** What a painter must know how to draw; arrows and fans are made of these. */
export type PlainItem = SymbolItem | LineItem | AreaItem | TextItem | BarItem | ImageItem;

/** Side of the box of an arrow's point, in widths of its shaft: the point is 2.9 shafts across. */
const POINT = 4.64;

/** Places on a circle, from one azimuth to another, both included; azimuths clockwise from grid north. */
export function arc(centre: Place, radius: number, from: number, to: number): Place[] {
  const steps = Math.max(2, Math.ceil(Math.abs(to - from) / 3));
  return Array.from({ length: steps + 1 }, (_, i) =>
    toward(centre, from + ((to - from) * i) / steps, radius),
  );
}

/** The place at a distance in a direction, clockwise from grid north. */
export function toward([e, n]: Place, azimuth: number, distance: number): Place {
  const angle = (azimuth * Math.PI) / 180;
  return [e + distance * Math.sin(angle), n + distance * Math.cos(angle)];
}

/** Azimuth from one place to another, degrees clockwise from grid north. */
export const azimuthTo = ([e0, n0]: Place, [e1, n1]: Place) =>
  (Math.atan2(e1 - e0, n1 - n0) * 180) / Math.PI;

const parts = new WeakMap<Item, readonly PlainItem[]>();

/** An item as its parts, bottom first; the same parts each time, items being immutable. */
export function plainly(item: Item): readonly PlainItem[] {
  const before = parts.get(item);
  if (before) return before;
  const made = partsOf(item);
  parts.set(item, made);
  return made;
}

function partsOf(item: Item): readonly PlainItem[] {
  if (item.kind === 'arrow') {
    const { kind: _, tail, head, width, ...rest } = item;
    return [
      { ...rest, kind: 'line', path: [tail, head], weight: width, casing: 2 },
      { kind: 'line', layer: 'keep-clear', path: [tail, head], weight: width, colour: 'paper' },
      {
        ...rest,
        kind: 'symbol',
        at: head,
        shape: 'arrow head',
        size: POINT * width,
        turned: azimuthTo(tail, head),
      },
    ];
  }
  if (item.kind === 'fan') {
    const { kind: _, apex, azimuth, halfAngle, radius, fill, ...rest } = item;
    const edge = arc(apex, radius, azimuth - halfAngle, azimuth + halfAngle);
    const ring = [apex, ...edge, apex];
    return [
      { ...rest, kind: 'area', polygons: [[ring]], fill },
      { ...rest, kind: 'line', path: ring, weight: 1, dash: 'dashed' },
    ];
  }
  return [item];
}

/** An item with its px multiplied. */
export function magnified(item: PlainItem, by: number): PlainItem {
  if (by === 1) return item;
  switch (item.kind) {
    case 'symbol': {
      const [right = 0, down = 0] = item.offset ?? [];
      return { ...item, size: item.size * by, offset: [right * by, down * by] };
    }
    case 'line':
      return { ...item, weight: item.weight * by, casing: (item.casing ?? 0) * by };
    case 'text':
      return {
        ...item,
        size: item.size * by,
        away: item.away * by,
        ...(item.further && { further: item.further.map((more) => more * by) }),
        ...(item.stands && {
          stands: item.stands.map(({ side, further }) => ({ side, further: further * by })),
        }),
      };
    case 'bar':
      return { ...item, height: item.height * by, width: item.width * by };
    case 'area':
    case 'image':
      return item;
  }
}

/** Whether two lists hold the very same items. */
export const sameItems = (one: readonly PlainItem[], other: readonly PlainItem[]) =>
  one.length === other.length && one.every((item, i) => item === other[i]);
