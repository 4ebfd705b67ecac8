import { LAYERS } from './layers';
import type { Extent, Item, Place, Scene } from './scene';
import { SYMBOL_NAMES } from './symbols';

export type LegendEntry = {
  readonly means: string;
  /** How it is drawn, set into `SWATCH`. */
  readonly sample: Scene;
};

/** The window of a sample: a metre of its grid is a px. */
export const SWATCH = { width: 76, height: 24 } as const;

export const SWATCH_EXTENT: Extent = {
  west: 0,
  south: 0,
  east: SWATCH.width,
  north: SWATCH.height,
};

const [WEST, EAST, MIDDLE] = [4, SWATCH.width - 4, SWATCH.height / 2];
const CENTRE: Place = [SWATCH.width / 2, MIDDLE];
const BOX: readonly Place[] = [
  [WEST + 4, 3],
  [EAST - 4, 3],
  [EAST - 4, SWATCH.height - 3],
  [WEST + 4, SWATCH.height - 3],
  [WEST + 4, 3],
];

/**
 * The legend of a drawing, made from what is on it: each meaning once, the top
 * of the drawing first. Things with one meaning drawn by several items, such as
 * an area and its edge, make one sample.
 */
export function legendOf(scene: Scene): LegendEntry[] {
  const entries = new Map<string, Item[]>();
  const areas = new Set(scene.flatMap((i) => (i.kind === 'area' && i.means ? [i.means] : [])));
  const ordered = firstOfEach(scene).toSorted(
    (a, b) => LAYERS.indexOf(b.layer) - LAYERS.indexOf(a.layer) || rank(a) - rank(b),
  );
  for (const item of ordered) {
    if (item.means === undefined) continue;
    const sample = entries.get(item.means) ?? [];
    if (sample.some(({ kind }) => kind === item.kind)) continue;
    entries.set(item.means, [...sample, asSample(item, areas.has(item.means))]);
  }
  return [...entries].map(([means, sample]) => ({ means, sample }));
}

/** Of thousands of alike things one, the first shape of them, in the order of the drawing. */
function firstOfEach(scene: Scene): Item[] {
  const first = new Map<string, { readonly item: Item; readonly at: number }>();
  scene.forEach((item, at) => {
    if (item.means === undefined) return;
    const key = `${item.layer} ${item.kind} ${item.means}`;
    const before = first.get(key);
    if (!before || rank(item) < rank(before.item)) first.set(key, { item, at });
  });
  return [...first.values()].toSorted((a, b) => a.at - b.at).map(({ item }) => item);
}

/** Shapes in the order they are defined in; other things as they come. */
const rank = (item: Item) => (item.kind === 'symbol' ? SYMBOL_NAMES.indexOf(item.shape) : 0);

/** An item as it stands in its swatch; the edge of an area goes round it. */
function asSample(item: Item, isArea: boolean): Item {
  const { who: _, ...plain } = item;
  switch (plain.kind) {
    case 'symbol': {
      const { offset: __, ...symbol } = plain;
      return { ...symbol, at: CENTRE, size: Math.min(symbol.size, 20) };
    }
    case 'bar':
      return { ...plain, at: [CENTRE[0], 4], height: 16 };
    case 'line':
      return {
        ...plain,
        path: isArea
          ? BOX
          : [
              [WEST, MIDDLE],
              [EAST, MIDDLE],
            ],
      };
    case 'area':
      return { ...plain, polygons: [[BOX]] };
    case 'image':
      // The picture itself would be a smudge: a frame stands for it.
      return { kind: 'line', layer: plain.layer, path: BOX, weight: 1, colour: 'line' };
    case 'text':
      return {
        ...plain,
        at: CENTRE,
        text: plain.text.split('\n')[0] ?? '',
        sides: ['centre'],
        always: true,
        turned: 0,
      };
    case 'arrow':
      return { ...plain, tail: [WEST, MIDDLE], head: [EAST - 14, MIDDLE], width: 6 };
    case 'fan':
      return { ...plain, apex: [WEST, MIDDLE], azimuth: 90, halfAngle: 14, radius: EAST - WEST };
  }
}
