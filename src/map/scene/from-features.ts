import { centroid } from '../../domain/geometry/measure';
import { moved, type Area, type Line, type Shape } from '../../domain/geometry/shape';
import { readShape } from '../../domain/geometry/wkt';
import type { Feature } from '../../domain/site/schema';
import { metres, type LengthUnit } from '../../domain/units';
import { LINES, SIZES, type Role } from '../look/look';
import { lengthOf, longestStretch, stretches } from './along';
import type { LayerId } from './layers';
import { once } from './once';
import { ringAlong, stripsWithin } from './offset';
import { azimuthTo } from './plain';
import type { AreaItem, Dash, Hatch, Item, LineItem, Place, Side, TextItem } from './scene';
import { sidesAhead } from './sides';

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

/**
 * What is drawn of a feature: its ground plan, its buffer, its name. Nothing
 * where its shape can't be read, which is a problem of the table.
 *
 * @param unit  the shape's own, that of the site's grid
 */
export const featureItems = once((feature: Feature, unit: LengthUnit): readonly Item[] => {
  const read = readShape(feature.shape);
  if (!read.ok) return [];
  const shape = moved(read.value, ([e, n]) => [metres(e, unit), metres(n, unit)]);
  const manner = MANNERS[feature.kind];
  return [
    ...bufferItems(feature, shape),
    ...boundaryBufferItems(feature, shape),
    ...planItems(feature, shape, manner),
    ...nameItems(feature, shape, manner),
  ];
});

const BESIDE: readonly Side[] = ['centre', 'n', 's'];
const AROUND: readonly Side[] = ['e', 'w', 'n', 's', 'se', 'sw', 'ne', 'nw'];

/** Scenes close their rings by their first corner. */
const closed = (area: Area) => area.map((ring) => [...ring, ...ring.slice(0, 1)]);

function planItems(feature: Feature, shape: Shape, manner: Manner): Item[] {
  const { layer, colour, weight, dash } = manner;
  const common = { layer, who: feature.id, means: manner.means } as const;
  const line = (path: Line): LineItem => ({
    ...common,
    kind: 'line',
    path,
    weight,
    colour,
    ...(dash && { dash }),
  });
  switch (shape.kind) {
    case 'points':
      return shape.points.map((at) => ({
        ...common,
        kind: 'symbol',
        at,
        shape: feature.kind === 'receptor' ? 'receptor' : 'source',
        size: feature.kind === 'receptor' ? 36 : 18,
        colour,
      }));
    case 'areas': {
      const areas = shape.areas.map(closed);
      const ground = manner.fill || manner.hatch ? [areaOf(common, manner, areas)] : [];
      return [...ground, ...areas.flat().map(line)];
    }
    case 'lines': {
      const half = (feature.width?.value ?? 0) / 2;
      if (feature.kind !== 'surface water' || half <= 0)
        return shape.lines.flatMap((path) => [
          line(path),
          ...(feature.kind === 'section line' ? endTicks(line, path) : []),
        ]);
      const banks = shape.lines.map((path) => ringAlong(path, half));
      return [
        areaOf(
          common,
          manner,
          banks.map((bank) => [bank]),
        ),
        ...banks.map(line),
      ];
    }
  }
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

/** A section is looked at from its right-hand side: the ends are turned away from there, a fiftieth of its length. */
function endTicks(line: (path: Line) => LineItem, path: Line): LineItem[] {
  const length = stretches(path).reduce((sum, stretch) => sum + lengthOf(stretch), 0);
  const ends = [path.slice(0, 2), path.slice(-2)] as const;
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
  if (feature.kind !== 'utility' || distance <= 0 || shape.kind === 'areas') return [];
  const paths = shape.kind === 'points' ? shape.points.map((at) => [at]) : shape.lines;
  return [
    {
      kind: 'area',
      layer: 'utility-buffers',
      means: 'Buffer of a utility',
      polygons: paths.map((path) => [ringAlong(path, distance)]),
      hatch: { pattern: 'diagonal', colour: 'line' },
    },
  ];
}

/** The strip within a boundary that its buffer asks points to keep out of. */
function boundaryBufferItems(feature: Feature, shape: Shape): Item[] {
  const distance = feature.buffer?.value ?? 0;
  if (feature.kind !== 'boundary' || distance <= 0 || shape.kind !== 'areas') return [];
  return [
    {
      kind: 'area',
      layer: 'utility-buffers',
      means: 'Kept off the boundary',
      polygons: shape.areas.flatMap((area) =>
        area.flatMap((ring, i) => stripsWithin(ring, (i === 0 ? 1 : -1) * distance)),
      ),
      hatch: { pattern: 'diagonal', colour: 'line' },
    },
  ];
}

function nameItems(feature: Feature, shape: Shape, manner: Manner): Item[] {
  const { name, kind } = feature;
  if (name === null) return [];
  // What must not be hit is named whatever else stands there.
  const isUtility = kind === 'utility';
  const words = (at: Place, sides: readonly Side[], turned = 0): TextItem => ({
    ...(isUtility && { always: true, further: [14, 28, 42] }),
    kind: 'text',
    layer: 'feature-labels',
    who: feature.id,
    at,
    text: name,
    sides,
    away: shape.kind === 'points' ? 24 : 0,
    size: SIZES.fine + 1,
    face: manner.colour === 'water' ? 'italic' : 'regular',
    colour: manner.colour === 'water' ? 'water' : 'ink-soft',
    priority: 5,
    turned,
  });
  const inLine = (path: Line) => {
    const along = longestStretch(path);
    if (!along) return [];
    return [{ ...words(along.at, isUtility ? BESIDE : ['centre'], along.turned), along: path }];
  };
  switch (shape.kind) {
    case 'points':
      return shape.points.map((at) => words(at, AROUND));
    case 'lines':
      if (kind === 'section line') return shape.lines.flatMap((path) => sectionLetters(name, path));
      // A receptor drawn along a water has that water's name already.
      return kind === 'receptor' ? [] : shape.lines.slice(0, 1).flatMap(inLine);
    case 'areas':
      return shape.areas.flatMap((area) => {
        if (kind === 'boundary') return closed(area).slice(0, 1).flatMap(inLine);
        const middle = centroid({ kind: 'areas', areas: [area] });
        return middle ? [words(middle, ['centre', 'n', 's'])] : [];
      });
  }
}

/** "A–A′" stands as A at the first end and A′ at the last. */
function sectionLetters(name: string, path: Line): TextItem[] {
  const letters = name.split(/\s*[–—-]\s*/);
  const ends = [
    [path[1], path[0]],
    [path.at(-2), path.at(-1)],
  ] as const;
  return ends.flatMap(([before, at], i): TextItem[] => {
    const text = letters[i];
    if (!before || !at || !text) return [];
    return [
      {
        kind: 'text',
        layer: 'captions',
        at,
        text,
        sides: sidesAhead(azimuthTo(before, at)),
        away: 10,
        size: SIZES.body,
        face: 'semibold',
        colour: 'ink',
        priority: 0,
        always: true,
      },
    ];
  });
}
