import type { OpenSite } from '../open-site.svelte';
import { pressTool } from './press-tool';

/** The construction on paper: triangle, head between, contour, way down. */
export const LAST_STEP = 4;

/** Any three wells of the plane picked on the map, and how far their construction is drawn. */
export class ThreePicking {
  #site: OpenSite;
  /** Screens picked so far; null while nobody picks. */
  picked: readonly string[] | null = $state.raw(null);
  step = $state(LAST_STEP);

  constructor(site: OpenSite) {
    this.#site = site;
  }

  begin = () => {
    this.#site.show({ construction: [] });
    this.picked = [];
  };

  stop = () => {
    this.picked = null;
  };

  /** One well more; picked again it is let go. With the third the drawing begins at its first step. */
  pick(screen: string) {
    if (this.picked === null) return;
    this.picked = this.picked.includes(screen)
      ? this.picked.filter((id) => id !== screen)
      : [...this.picked, screen];
    if (this.picked.length < 3) return;
    this.#site.show({ construction: this.picked });
    this.step = 1;
    this.picked = null;
  }

  /** The well of the plane nearest to the press, if it is near enough. */
  readonly tool = pressTool((at, reach) => {
    const near = (this.#site.flow?.fitted ?? []).flatMap(({ gauged: { location, screen } }) => {
      const { easting, northing } = location;
      const apart =
        easting && northing ? Math.hypot(easting.value - at[0], northing.value - at[1]) : Infinity;
      return apart <= reach ? [{ id: screen.id, apart }] : [];
    });
    const [nearest] = near.toSorted((a, b) => a.apart - b.apart);
    if (nearest) this.pick(nearest.id);
  });
}
