import type { AddLayerObject, ExpressionSpecification, FilterSpecification } from 'maplibre-gl';
import { LAYERS, type LayerId } from '../scene/layers';
import { DASHES } from '../scene/scene';
import { MOST_LINES, PARTS, type Lists, type PartName } from './features';

export type SublayerId = `${LayerId}/${PartName}`;

/** Every layer the map may hold, bottom first. */
export const SUBLAYERS: readonly SublayerId[] = LAYERS.flatMap((layer) =>
  PARTS.map((part): SublayerId => `${layer}/${part}`),
);

/** The lowest layer now on the map that belongs above this one. */
export function sublayerAbove(id: SublayerId, onMap: (id: SublayerId) => boolean) {
  return SUBLAYERS.slice(SUBLAYERS.indexOf(id) + 1).find(onMap);
}

const get = (name: string): ExpressionSpecification => ['get', name];

const DASH: ExpressionSpecification = [
  'match',
  get('dash'),
  ...Object.entries(DASHES).flatMap(([name, lengths]) => [name, ['literal', lengths]]),
  ['literal', [4, 3]],
] as unknown as ExpressionSpecification;

const FONT: ExpressionSpecification = [
  'match',
  get('face'),
  'semibold',
  ['literal', ['semibold']],
  'italic',
  ['literal', ['italic']],
  ['literal', ['regular']],
];

/** Words with their mark before each of so many lines. */
const marked = (lines: number) => [
  'format',
  ...Array.from({ length: lines }, (_, i) => [
    ...(i > 0 ? ['\n', {}] : []),
    ['image', get('picture')],
    { 'vertical-align': 'bottom' },
    ' ',
    {},
    get(`line${i}`),
    {},
  ]).flat(),
];

const WORDS = [
  'case',
  ['has', 'picture'],
  [
    'match',
    get('lines'),
    ...Array.from({ length: MOST_LINES - 1 }, (_, i) => [i + 1, marked(i + 1)]).flat(),
    marked(MOST_LINES),
  ],
  get('text'),
] as unknown as ExpressionSpecification;

const choice = (name: string, lists: ReadonlyMap<string, readonly unknown[]>, other: unknown[]) =>
  (lists.size === 0
    ? ['literal', other]
    : [
        'match',
        get(name),
        ...[...lists].flatMap(([key, list]) => [key, ['literal', list]]),
        ['literal', other],
      ]) as unknown as ExpressionSpecification;

/** The two properties that read lists, for as many lists as there are now. */
export const offsets = ({ offset }: Lists) => choice('offset', offset, [0, 0]);
export const stands = (lists: Lists) => choice('stands', lists.stands, ['center', [0, 0]]);

/** How each part is drawn; every feature carries its own look. */
export function sublayer(layer: LayerId, part: PartName, lists: Lists): AddLayerObject {
  const base = {
    id: `${layer}/${part}`,
    source: layer,
    filter: ['==', get('part'), part] as FilterSpecification,
  };
  switch (part) {
    case 'fill':
      return { ...base, type: 'fill', paint: { 'fill-color': get('colour') } };
    case 'hatch':
      return { ...base, type: 'fill', paint: { 'fill-pattern': get('picture') } };
    case 'line':
    case 'dash':
      return {
        ...base,
        type: 'line',
        layout: { 'line-join': 'round', 'line-cap': 'butt' },
        paint: {
          'line-color': get('colour'),
          'line-width': get('weight'),
          ...(part === 'dash' && { 'line-dasharray': DASH }),
        },
      };
    case 'clear':
      return {
        ...base,
        type: 'symbol',
        layout: {
          'symbol-placement': 'line',
          'symbol-spacing': 8,
          'icon-image': get('picture'),
          'icon-padding': 0,
          'icon-allow-overlap': true,
        },
      };
    case 'icon':
      return {
        ...base,
        type: 'symbol',
        layout: {
          'icon-image': get('picture'),
          'icon-offset': offsets(lists),
          'icon-rotate': get('turned'),
          // Grid north is up, so the screen's directions are the grid's.
          'icon-rotation-alignment': 'viewport',
          'icon-padding': 0,
          'icon-allow-overlap': true,
          'symbol-z-order': 'source',
          'icon-ignore-placement': layer === 'selection',
        },
      };
    case 'words':
    case 'words-always':
      return {
        ...base,
        type: 'symbol',
        layout: {
          'text-field': WORDS,
          'text-font': FONT,
          'text-size': get('size'),
          'text-variable-anchor-offset': stands(lists),
          'text-justify': 'auto',
          'text-rotate': get('turned'),
          'text-rotation-alignment': 'viewport',
          'text-line-height': 1.2,
          'text-max-width': 100,
          'text-padding': 1,
          'symbol-sort-key': get('priority'),
          'text-allow-overlap': part === 'words-always',
        },
        paint: {
          'text-color': get('colour'),
          'text-halo-color': get('ground'),
          'text-halo-width': get('halo'),
        },
      };
  }
}
