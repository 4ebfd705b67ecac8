import { Map as MapLibre, setWorkerUrl, type MapMouseEvent } from 'maplibre-gl';
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url';
import { cameraFor, extentSeen, placeAt, toGrid, type Size, type ToLngLat } from '../camera';
import { mapFaces } from '../look/faces';
import { centreOf, type Extent, type Place } from '../scene/scene';
import { picture } from './images';

setWorkerUrl(workerUrl);

export type MapViewOptions = {
  readonly container: HTMLElement;
  readonly toLngLat: ToLngLat;
  readonly extent: Extent;
  readonly paper: string;
  /** Name of the map for a screen reader. */
  readonly label: string;
  /** Pressed at a place of the grid. */
  readonly onpress: (at: Place) => void;
  /** Over a place of the grid; null when the pointer left. Returns whether there is something to press. */
  readonly onpoint: (at: Place | null) => boolean;
};

/**
 * The map on the screen: MapLibre on blank paper, with no address to fetch
 * from, grid north up. Throws where there is no WebGL.
 */
export class MapView {
  readonly map: MapLibre;
  readonly #toLngLat: ToLngLat;
  readonly #home: Place;

  /** Ready to be drawn on. */
  ready = $state(false);
  /** The context was lost, and nothing is on the screen until it is back. */
  lost = $state(false);
  /** How much patterns are enlarged at the present zoom, 1 to 2, in steps of an eighth of a doubling. */
  enlarged = $state(1);
  /** What the window shows. */
  seen: Extent = $state.raw({ west: 0, south: 0, east: 1, north: 1 });

  constructor({ container, toLngLat, extent, paper, label, onpress, onpoint }: MapViewOptions) {
    this.#toLngLat = toLngLat;
    this.#home = centreOf(extent);
    notDrawn();
    const size: Size = [container.clientWidth, container.clientHeight];
    const { center, zoom, bearing } = cameraFor(extent, size, toLngLat);
    this.map = new MapLibre({
      container,
      style: {
        version: 8,
        sources: {},
        layers: [{ id: 'paper', type: 'background', paint: { 'background-color': paper } }],
        'font-faces': mapFaces(),
      },
      center: [...center],
      zoom,
      bearing,
      minZoom: 4,
      maxZoom: 24,
      attributionControl: false,
      dragRotate: false,
      touchPitch: false,
      pitchWithRotate: false,
      fadeDuration: 0,
      locale: { 'Map.Title': label },
    });
    this.map.touchZoomRotate.disableRotation();
    this.map.keyboard.disableRotation();
    this.#look();
    this.#enlarge();
    this.map.on('style.load', () => (this.ready = true));
    this.map.on('move', () => this.#look());
    this.map.on('zoomend', () => this.#enlarge());
    this.map.on('movestart', notDrawn);
    this.map.on('dataloading', notDrawn);
    this.map.on('idle', drawn);
    this.map.on('styleimagemissing', ({ id }) => {
      const made = picture(id);
      if (made && !this.map.hasImage(id)) this.map.addImage(id, made.data, made.options);
    });
    this.map.on('webglcontextlost', () => {
      this.ready = false;
      this.lost = true;
    });
    this.map.on('webglcontextrestored', () => (this.lost = false));
    this.map.on('click', (event) => onpress(this.#placeOf(event)));
    this.map.on('mousemove', (event) => {
      const something = onpoint(this.#placeOf(event));
      this.map.getCanvas().style.cursor = something ? 'pointer' : '';
    });
    this.map.on('mouseout', () => onpoint(null));
  }

  /** Put an extent into the window; at once where asked, or where less motion is. */
  show(extent: Extent, atOnce: boolean) {
    const { clientWidth, clientHeight } = this.map.getContainer();
    // MapLibre hears of a new size later, and would fly to the middle of the window it had.
    const canvas = this.map.getCanvas();
    if (canvas.clientWidth !== clientWidth || canvas.clientHeight !== clientHeight)
      this.map.resize();
    const { center, zoom, bearing } = cameraFor(
      extent,
      [clientWidth, clientHeight],
      this.#toLngLat,
    );
    const camera = { center: [...center] as [number, number], zoom, bearing };
    if (atOnce) this.map.jumpTo(camera);
    else this.map.flyTo({ ...camera, duration: 900 });
  }

  /** Nearer by steps of a factor of two; negative farther. */
  zoomBy(steps: number) {
    this.map.zoomTo(this.map.getZoom() + steps);
  }

  destroy() {
    notDrawn();
    this.map.remove();
  }

  /** MapLibre draws patterns for whole zooms and stretches them in between. */
  #enlarge() {
    const zoom = this.map.getZoom();
    this.enlarged = 2 ** (Math.round((zoom - Math.floor(zoom)) * 8) / 8);
  }

  #look() {
    const { lng, lat } = this.map.getCenter();
    const centre = toGrid(this.#toLngLat, [lng, lat], this.#home);
    if (centre === null) return;
    const { clientWidth, clientHeight } = this.map.getContainer();
    const size: Size = [clientWidth, clientHeight];
    this.seen = extentSeen(centre, this.map.getZoom(), size, this.#toLngLat);
  }

  #placeOf({ point }: MapMouseEvent): Place {
    const { clientWidth, clientHeight } = this.map.getContainer();
    return placeAt(this.seen, [clientWidth, clientHeight], [point.x, point.y]);
  }
}

/** Says on the page whether the map has drawn all it was given, for whoever waits to take a picture. */
const drawn = () => (document.documentElement.dataset.drawn = 'yes');
export const notDrawn = () => (document.documentElement.dataset.drawn = 'no');
