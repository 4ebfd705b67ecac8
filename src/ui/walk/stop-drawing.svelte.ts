import type { OpenSite } from '../../app/open-site.svelte';
import { laidPictures } from '../../app/places/laid-pictures';
import type { Walk } from '../../app/walk/walk.svelte';
import { metresPerPixel } from '../../map/camera';
import { furnitureRoom } from '../../map/furniture/room';
import type { MapPoint } from '../../map/furniture/point-list';
import { drawnPlaces, locationWords } from '../../map/scene/from-locations';
import { pictureItems } from '../../map/scene/from-pictures';
import { numbersDiffer, rolledWords } from '../../map/scene/rolling-words';
import { inView, type Extent, type Scene } from '../../map/scene/scene';
import { wordsPlaced } from '../../map/scene/svg';
import { readable, stopScene } from '../../map/stop-scene';
import { gliding, isStill } from './glide';
import type { MapWindow } from './map-window.svelte';

/** Numbers roll in so many steps: a map that is handed new words at every frame draws none of them. */
const STEPS = 12;

/** What is drawn of the stop in hand, for a wall. Made where effects may be. */
export class StopDrawing {
  readonly #site: OpenSite;
  readonly #walk: Walk;
  readonly #onMap: MapWindow;
  readonly #magnify: () => number;

  #from: Scene = $state.raw([]);
  #share = $state(1);

  constructor(site: OpenSite, walk: Walk, onMap: MapWindow, magnify: () => number) {
    this.#site = site;
    this.#walk = walk;
    this.#onMap = onMap;
    this.#magnify = magnify;
    let before: Scene = [];
    $effect.pre(() => {
      const [last, now] = [before, this.#full];
      before = now;
      if (isStill() || !numbersDiffer(last, now)) {
        this.#share = 1;
        return undefined;
      }
      this.#from = last;
      this.#share = 0;
      return gliding((share) => (this.#share = Math.floor(share * STEPS) / STEPS));
    });
  }

  readonly #pictures = $derived.by(() => laidPictures(this.#site.package, this.#site.files));

  readonly #full: Scene = $derived.by(() => {
    const { stop, contours } = this.#walk;
    const { site, shown, heads, flow, shownResults } = this.#site;
    if (!stop) return [];
    const pictures = stop.view.pictures ? this.#pictures : [];
    const drawing = { site, shown, heads, flow, results: shownResults, construction: [] };
    return [
      ...pictureItems(pictures, site.settings.grid.unit),
      ...stopScene(drawing, stop, contours),
    ];
  });

  /** Once it rests: nests apart, and words where they can be read. */
  readonly #laid: Scene = $derived.by(() => {
    const { shows: seen, size } = this.#onMap;
    const magnify = this.#magnify();
    const taken = furnitureRoom(size, magnify);
    return readable(this.#full, this.#site.site, { seen, size, magnify, taken });
  });

  /** What the map shows, numbers on their way to another event's included. */
  readonly scene: Scene = $derived.by(() => rolledWords(this.#from, this.#laid, this.#share));

  /** What of it is in the window, for the legend. */
  readonly seen: Scene = $derived.by(() => inView(this.#laid, this.#onMap.shows));

  /** Where its words stand, in the grid. */
  readonly words: readonly Extent[] = $derived.by(() => {
    const { shows: extent, size } = this.#onMap;
    const [width, height] = size;
    const scale = metresPerPixel(extent, size);
    return wordsPlaced(this.#laid, { extent, width, height }, this.#magnify()).map(({ box }) => ({
      west: extent.west + box.left * scale,
      east: extent.west + box.right * scale,
      north: extent.north - box.top * scale,
      south: extent.north - box.bottom * scale,
    }));
  });

  /** Points on it, where they are drawn. */
  readonly points: readonly MapPoint[] = $derived.by(() => {
    const places = drawnPlaces(this.#laid);
    return [...this.#site.site.locations.values()].flatMap((location): MapPoint[] => {
      const at = places.get(location.id);
      if (!at) return [];
      return [{ id: location.id, name: location.id, says: locationWords(location), at }];
    });
  });
}
