import type { Map as MapLibre } from 'maplibre-gl';
import type { ToLngLat } from '../../../../src/map/camera';
import type { MapPoint } from '../../../../src/map/furniture/point-list';
import { luminance } from '../../../../src/map/look/contrast';
import type { Extent } from '../../../../src/map/scene/scene';
import { SYMBOL_NAMES } from '../../../../src/map/scene/symbols';
import { textWidth } from '../../../../src/map/scene/text-width';
import { symbolPicture } from '../../../../src/map/screen/images';

/** What the tests ask of the page. */
export const forTests = {
  map: null as MapLibre | null,
  toLngLat: (() => [0, 0]) as ToLngLat,
  points: [] as readonly MapPoint[],
  seen: null as Extent | null,
  clear: () => {},
  look: (_room: number) => {},
  symbolNames: SYMBOL_NAMES,
  symbolPicture,
  luminance,
  textWidth,
};

declare global {
  interface Window {
    forTests: typeof forTests;
  }
}

window.forTests = forTests;
