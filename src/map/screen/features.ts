import type { Feature, FeatureCollection, Geometry } from 'geojson';
import type { ToLngLat } from '../camera';
import { PALETTES, type Theme } from '../look/look';
import { haloOf } from '../scene/halo';
import { MARK, stand } from '../scene/place-labels';
import { magnified, type PlainItem } from '../scene/plain';
import type { Place, Side, TextItem } from '../scene/scene';
import { pictureName, type PictureName } from './images';

/** How a layer of the scene is split for MapLibre, bottom first. */
export const PARTS = [
  'fill',
  'hatch',
  'line',
  'dash',
  'clear',
  'icon',
  'words',
  'words-always',
] as const;
export type PartName = (typeof PARTS)[number];

export type PartProperties = {
  readonly part: PartName;
  readonly who: string | null;
  readonly [name: string]: unknown;
};

/**
 * Lists that features name by a word: MapLibre turns a list held by a feature
 * into text when it is asked what it has drawn, and then cannot read it.
 */
export type Lists = {
  /** px right and down, of shapes. */
  readonly offset: ReadonlyMap<string, Pair>;
  /** Sides that words may stand on, as MapLibre has them. */
  readonly stands: ReadonlyMap<string, readonly unknown[]>;
};

export type Painted = {
  readonly lists: Lists;
  readonly features: FeatureCollection<Geometry, PartProperties>;
  /** Pictures the features name, each once. */
  readonly pictures: readonly PictureName[];
  readonly parts: ReadonlySet<PartName>;
};

export type PaintOptions = {
  readonly toLngLat: ToLngLat;
  readonly theme: Theme;
  /** Multiplies shapes, lines, hatching and words, not distances. */
  readonly magnify: number;
  /** How much the map enlarges patterns at its present zoom, which they are drawn smaller for. */
  readonly enlarged: number;
};

/** The items of one layer as features that carry their own look. */
export function painted(items: readonly PlainItem[], options: PaintOptions): Painted {
  const pictures = new Set<PictureName>();
  const lists = { offset: new Map(), stands: new Map() } satisfies Lists;
  const features = items.flatMap((item) =>
    featuresOf(magnified(item, options.magnify), options, { pictures, lists }),
  );
  return {
    features: { type: 'FeatureCollection', features },
    pictures: [...pictures],
    lists,
    parts: new Set(features.map(({ properties }) => properties.part)),
  };
}

type Pair = readonly [number, number];

type Properties = Omit<PartProperties, 'part' | 'who'>;

/** What features only name. */
type Named = {
  readonly pictures: Set<PictureName>;
  readonly lists: {
    readonly offset: Map<string, Pair>;
    readonly stands: Map<string, readonly unknown[]>;
  };
};

function featuresOf(
  item: PlainItem,
  { toLngLat, theme, magnify, enlarged }: PaintOptions,
  { pictures, lists }: Named,
): Feature<Geometry, PartProperties>[] {
  const palette = PALETTES[theme];
  const lngLat = ([e, n]: Place) => [...toLngLat(e, n)];
  const feature = (part: PartName, geometry: Geometry, properties: Properties) => ({
    type: 'Feature' as const,
    geometry,
    properties: { part, who: item.who ?? null, ...properties },
  });
  const named = (...picture: Parameters<typeof pictureName>) => {
    const name = pictureName(...picture);
    pictures.add(name);
    return name;
  };
  switch (item.kind) {
    case 'image':
      return []; // not a feature: see PictureLayers
    case 'area': {
      const geometry: Geometry = {
        type: 'MultiPolygon',
        coordinates: item.polygons.map((rings) => rings.map((ring) => ring.map(lngLat))),
      };
      const { fill, hatch } = item;
      return [
        ...(fill ? [feature('fill', geometry, { colour: palette[fill] })] : []),
        ...(hatch
          ? [
              feature('hatch', geometry, {
                picture: named(
                  { kind: 'hatch', pattern: hatch.pattern, enlarged: enlarged / magnify },
                  hatch.colour,
                  theme,
                ),
              }),
            ]
          : []),
      ];
    }
    case 'line': {
      const geometry: Geometry = { type: 'LineString', coordinates: item.path.map(lngLat) };
      if (item.layer === 'keep-clear')
        return [
          feature('clear', geometry, { picture: named({ kind: 'nothing' }, 'paper', theme) }),
        ];
      const ink = { colour: palette[item.colour], weight: item.weight, dash: item.dash ?? 'solid' };
      const line = feature(ink.dash === 'solid' ? 'line' : 'dash', geometry, ink);
      if (!item.casing) return [line];
      const weight = item.weight + 2 * item.casing;
      return [feature('line', geometry, { colour: palette.paper, weight }), line];
    }
    case 'symbol': {
      const { shape, size } = item;
      return [
        feature('icon', point(lngLat(item.at)), {
          picture: named({ kind: 'symbol', shape, size }, item.colour, theme),
          offset: listed(
            lists.offset,
            `${item.offset?.join() ?? '0,0'}`,
            (): Pair => item.offset ?? [0, 0],
          ),
          turned: item.turned ?? 0,
        }),
      ];
    }
    case 'bar': {
      const [height, width] = [Math.round(Math.abs(item.height)), item.width];
      if (height === 0) return [];
      return [
        feature('icon', point(lngLat(item.at)), {
          picture: named({ kind: 'bar', width, height }, item.colour, theme),
          offset: listed(lists.offset, `bar ${item.height}`, (): Pair => [
            0,
            (-Math.sign(item.height) * height) / 2,
          ]),
          turned: 0,
        }),
      ];
    }
    case 'text':
      return [
        feature(item.always ? 'words-always' : 'words', point(lngLat(item.at)), {
          text: item.text,
          ...linesOf(item.text),
          size: item.size,
          face: item.face,
          colour: palette[item.colour],
          ground: palette.paper,
          halo: haloOf(item),
          priority: item.priority,
          turned: item.turned ?? 0,
          stands: listed(
            lists.stands,
            `${item.sides.join()} ${item.away} ${item.further?.join() ?? ''} ${item.size}`,
            () => standsOf(item),
          ),
          ...(item.mark && {
            picture: named(
              { kind: 'symbol', shape: item.mark, size: item.size * MARK },
              item.colour,
              theme,
            ),
          }),
        }),
      ];
  }
}

/** A list's name, under which it is kept. */
function listed<List>(lists: Map<string, List>, name: string, list: () => NoInfer<List>): string {
  if (!lists.has(name)) lists.set(name, list());
  return name;
}

const point = (coordinates: number[]): Geometry => ({ type: 'Point', coordinates });

/** The corner or edge of the words that holds to their place, for words on each side of it. */
const HELD_BY: Readonly<Record<Side, string>> = {
  centre: 'center',
  n: 'bottom',
  ne: 'bottom-left',
  e: 'left',
  se: 'top-left',
  s: 'top',
  sw: 'top-right',
  w: 'right',
  nw: 'bottom-right',
};

/** How much lower MapLibre sets words than their box, in their size, by where they stand from their place; measured on its pictures. */
const LOWER = { over: 0.28, beside: 0.1, under: 0.16 };

/** Sides to try as MapLibre has them: what holds the words, and how far off in sizes, in turn. */
const standsOf = ({ sides, away, further = [], size }: TextItem) =>
  [0, ...further].flatMap((more) =>
    sides.flatMap((side) => {
      const [right, down] = stand(side, away + more);
      const lower = LOWER[down > 0 ? 'under' : down < 0 ? 'over' : 'beside'];
      return [HELD_BY[side], [right / size, down / size - (side === 'centre' ? 0 : lower)]];
    }),
  );

/** Most lines of words that can each have a mark. */
export const MOST_LINES = 8;

/** The lines of words one by one, since MapLibre sets a mark before one at a time. */
const linesOf = (text: string) => {
  const lines = text.split('\n');
  return {
    lines: Math.min(lines.length, MOST_LINES),
    ...Object.fromEntries(lines.map((line, i) => [`line${i}`, line] as const)),
  };
};
