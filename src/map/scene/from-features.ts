import type { Feature } from '../../domain/site/schema';
import { LINES, SIZES, type Role } from '../look/look';
import { centroid, lengthOf, longestStretch, stretches } from './along';
import type { LayerId } from './layers';
import { ringAlong } from './offset';
import { azimuthTo } from './plain';
import type { AreaItem, Dash, Hatch, Item, LineItem, Place, Side, TextItem } from './scene';

/** The ground plan of a feature, in metres of the site's grid; rings closed. */
export type Shape =
  | { readonly kind: 'point'; readonly at: Place }
  | { readonly kind: 'line'; readonly path: readonly Place[] }
  | { readonly kind: 'polygons'; readonly polygons: readonly (readonly (readonly Place[])[])[] };

type Manner = {
  readonly layer: LayerId;
  readonly colour: Role;
  readonly weight: number;
  readonly dash?: Dash;
  readonly fill?: Role;
  readonly hatch?: Hatch;
  readonly means: string;
};

const MANNERS: Readonly<Record<Feature['kind'], Manner>> = {
  boundary: {
    layer: 'boundary',
    colour: 'ink',
    weight: LINES.medium,
    dash: 'dash-dot',
    means: 'Site boundary',
  },
  building: {
    layer: 'buildings',
    colour: 'ink-soft',
    weight: LINES.thin,
    fill: 'wash',
    means: 'Building',
  },
  utility: {
    layer: 'utilities',
    colour: 'ink-soft',
    weight: LINES.thin,
    dash: 'long',
    means: 'Utility, as drawn',
  },
  exclusion: {
    layer: 'exclusions',
    colour: 'ink-soft',
    weight: LINES.thin,
    dash: 'dashed',
    hatch: 'crossed',
    means: 'No pushing here',
  },
  'source area': {
    layer: 'source-areas',
    colour: 'ink',
    weight: LINES.thin,
    dash: 'dotted',
    hatch: 'dots',
    means: 'Source area',
  },
  receptor: {
    layer: 'receptors',
    colour: 'ink',
    weight: LINES.medium,
    dash: 'dotted',
    means: 'Receptor',
  },
  'section line': {
    layer: 'section-lines',
    colour: 'ink',
    weight: LINES.thin,
    means: 'Line of section',
  },
  'surface water': {
    layer: 'surface-water',
    colour: 'water',
    weight: LINES.thin,
    fill: 'water-wash',
    means: 'Surface water',
  },
  'no-flow line': {
    layer: 'no-flow-lines',
    colour: 'water',
    weight: LINES.medium,
    dash: 'dash-dot',
    means: 'No-flow line',
  },
};

/** What is drawn of a feature: its ground plan, its buffer, its name. */
export function featureItems(feature: Feature, shape: Shape): Item[] {
  const manner = MANNERS[feature.kind];
  return [
    ...bufferItems(feature, shape),
    ...planItems(feature, shape, manner),
    ...nameItems(feature, shape, manner),
  ];
}

function planItems(feature: Feature, shape: Shape, manner: Manner): Item[] {
  const { layer, colour, weight, dash, means } = manner;
  const common = {
    layer,
    who: feature.id,
    means: feature.kind === 'receptor' && shape.kind === 'line' ? 'Receptor along a line' : means,
  } as const;
  if (shape.kind === 'point')
    return [
      {
        ...common,
        kind: 'symbol',
        at: shape.at,
        shape: feature.kind === 'receptor' ? 'receptor' : 'source',
        size: feature.kind === 'receptor' ? 36 : 18,
        colour,
      },
    ];
  const line = (path: readonly Place[]): LineItem => ({
    ...common,
    kind: 'line',
    path,
    weight,
    colour,
    ...(dash && { dash }),
  });
  if (shape.kind === 'polygons')
    return [areaOf(common, manner, shape.polygons), ...shape.polygons.flat().map(line)];
  const half = (feature.width?.value ?? 0) / 2;
  if (feature.kind === 'surface water' && half > 0) {
    const ring = ringAlong(shape.path, half);
    return [areaOf(common, manner, [[ring]]), line(ring)];
  }
  return [line(shape.path), ...(feature.kind === 'section line' ? endTicks(line, shape.path) : [])];
}

const areaOf = (
  common: Pick<AreaItem, 'layer' | 'who' | 'means'>,
  { fill, hatch, colour }: Manner,
  polygons: AreaItem['polygons'],
): AreaItem => ({
  ...common,
  kind: 'area',
  polygons,
  ...(fill && { fill }),
  ...(hatch && { hatch: { pattern: hatch, colour } }),
});

/** A section is looked at from its right-hand side: the ends are turned that way, a fiftieth of its length. */
function endTicks(line: (path: readonly Place[]) => LineItem, path: readonly Place[]): LineItem[] {
  const ends = [path.slice(0, 2), path.slice(-2)] as const;
  const length = stretches(path).reduce((sum, stretch) => sum + lengthOf(stretch), 0);
  return ends.flatMap(([from, to], i) => {
    if (!from || !to) return [];
    const at = i === 0 ? from : to;
    const left = ((azimuthTo(from, to) - 90) * Math.PI) / 180;
    const tick: Place = [
      at[0] + (length / 50) * Math.sin(left),
      at[1] + (length / 50) * Math.cos(left),
    ];
    return [{ ...line([at, tick]), weight: LINES.medium }];
  });
}

/** The strip to keep clear of along a utility: half its width and its buffer, to both sides. */
function bufferItems(feature: Feature, shape: Shape): Item[] {
  const distance = (feature.width?.value ?? 0) / 2 + (feature.buffer?.value ?? 0);
  if (feature.kind !== 'utility' || distance <= 0 || shape.kind === 'polygons') return [];
  const ring = ringAlong(shape.kind === 'point' ? [shape.at] : shape.path, distance);
  return [
    {
      kind: 'area',
      layer: 'utility-buffers',
      means: 'Buffer of a utility',
      polygons: [[ring]],
      hatch: { pattern: 'diagonal', colour: 'line' },
    },
  ];
}

function nameItems(feature: Feature, shape: Shape, manner: Manner): Item[] {
  const { name, kind } = feature;
  if (name === null) return [];
  if (kind === 'section line') return shape.kind === 'line' ? sectionLetters(name, shape.path) : [];
  const words = (at: Place, sides: readonly Side[], turned = 0): TextItem => ({
    kind: 'text',
    layer: 'feature-labels',
    who: feature.id,
    at,
    text: name,
    sides,
    away: shape.kind === 'point' ? 21 : 0,
    size: SIZES.fine + 1,
    face: manner.colour === 'water' ? 'italic' : 'regular',
    colour: manner.colour === 'water' ? 'water' : 'ink-soft',
    priority: 5,
    turned,
  });
  if (shape.kind === 'point') return [words(shape.at, ['e', 'w', 'n', 's'])];
  // A receptor drawn along a water has that water's name already.
  if (kind === 'receptor' && shape.kind === 'line') return [];
  if (shape.kind === 'line' || kind === 'boundary') {
    const path = shape.kind === 'line' ? shape.path : (shape.polygons[0]?.[0] ?? []);
    const along = longestStretch(path);
    return along ? [words(along.at, ['centre'], along.turned)] : [];
  }
  return shape.polygons.flatMap(([outer]) =>
    outer ? [words(centroid(outer), ['centre', 'n', 's'])] : [],
  );
}

/** "A–A′" stands as A at the first end and A′ at the last. */
function sectionLetters(name: string, path: readonly Place[]): TextItem[] {
  const letters = name.split(/\s*[–—-]\s*/);
  const ends = [path[0], path.at(-1)];
  return ends.flatMap((at, i) =>
    at && letters[i]
      ? [
          {
            kind: 'text',
            layer: 'captions',
            at,
            text: letters[i],
            sides: i === 0 ? ['w', 'nw', 'n', 's'] : ['e', 'se', 's', 'n'],
            away: 8,
            size: SIZES.body,
            face: 'semibold',
            colour: 'ink',
            priority: 0,
            always: true,
          } satisfies TextItem,
        ]
      : [],
  );
}
