import { addProtocol, type AddLayerObject, type SourceSpecification } from 'maplibre-gl';
import type { Backdrop, TileArchive } from '../../app/places/backdrop.svelte';
import { PALETTES, type Role, type Theme } from '../look/look';

/** The one source of the backdrop, and the beginning of its layers' names. */
export const BACKDROP = 'backdrop';

const SCHEME = 'local-tiles';
let isAdded = false;
let inHand: TileArchive | null = null;

/**
 * An address at which MapLibre finds the tiles of a local archive: a scheme of
 * our own, answered from the file.
 */
function addressOf(archive: TileArchive): string {
  inHand = archive;
  if (!isAdded)
    addProtocol(SCHEME, async ({ url }) => {
      const [z, x, y] = url.split('/').slice(-3).map(Number);
      const tile = await inHand?.tile(z ?? 0, x ?? 0, y ?? 0);
      // No bytes: nothing there, and nothing wrong.
      return { data: tile ?? new ArrayBuffer(0) };
    });
  isAdded = true;
  return `${SCHEME}://${encodeURIComponent(archive.name)}/{z}/{x}/{y}`;
}

export function sourceOf(backdrop: Backdrop): SourceSpecification {
  if (backdrop.kind === 'address')
    return { type: 'raster', tiles: [backdrop.template], tileSize: 256, maxzoom: 19 };
  const { archive } = backdrop;
  return {
    type: archive.kind === 'shapes' ? 'vector' : 'raster',
    tiles: [addressOf(archive)],
    minzoom: archive.least,
    maxzoom: archive.most,
    bounds: [...archive.bounds],
    ...(archive.kind === 'pictures' && { tileSize: 256 }),
  };
}

/** What the name of a layer of shapes says of it, and how it is drawn: quietly, so that the site stands out. */
const LOOKS: readonly (readonly [RegExp, { readonly fill: Role | null; readonly line: Role }])[] = [
  [/water|ocean|sea|lake|river|stream|hydro/i, { fill: 'water-wash', line: 'water-wash' }],
  [/build/i, { fill: 'wash', line: 'hairline' }],
  [/place|poi|label|name|address/i, { fill: null, line: 'hairline' }],
  [/road|transport|street|rail|highway/i, { fill: 'wash', line: 'line' }],
  [/bound|admin|parcel/i, { fill: null, line: 'line' }],
];
const OTHERWISE = { fill: 'panel', line: 'hairline' } as const;

const lookOf = (layer: string) => LOOKS.find(([is]) => is.test(layer))?.[1] ?? OTHERWISE;

/** Layers of a backdrop, bottom first. */
export function layersOf(backdrop: Backdrop, theme: Theme, opacity: number): AddLayerObject[] {
  if (backdrop.kind === 'address' || backdrop.archive.kind === 'pictures')
    return [
      {
        id: `${BACKDROP} pictures`,
        type: 'raster',
        source: BACKDROP,
        paint: { 'raster-opacity': opacity, 'raster-saturation': -0.4, 'raster-fade-duration': 0 },
      },
    ];
  const palette = PALETTES[theme];
  const { layers } = backdrop.archive;
  return [
    ...layers.flatMap((layer): AddLayerObject[] => {
      const { fill } = lookOf(layer);
      return fill === null
        ? []
        : [
            {
              id: `${BACKDROP} fill ${layer}`,
              type: 'fill',
              source: BACKDROP,
              'source-layer': layer,
              filter: ['==', ['geometry-type'], 'Polygon'],
              paint: { 'fill-color': palette[fill], 'fill-opacity': opacity },
            },
          ];
    }),
    ...layers.map((layer): AddLayerObject => ({
      id: `${BACKDROP} line ${layer}`,
      type: 'line',
      source: BACKDROP,
      'source-layer': layer,
      filter: ['!=', ['geometry-type'], 'Point'],
      paint: {
        'line-color': palette[lookOf(layer).line],
        'line-width': 1,
        'line-opacity': opacity,
      },
    })),
  ];
}
