import { boxAt, withBoxAt, type BoxOffset } from '../../domain/lab/lab-settings';
import type { OpenSite } from '../open-site.svelte';

/** ms after the last press of an arrow key until the move is one edit. */
const PAUSE = 400;
/** A pointer that moved less than this has pressed, not dragged; px. */
const LEAST = 3;

/**
 * Boxes of results moved by hand. A drag, or a run of arrow keys, is one edit of
 * the site: it is kept with it and can be undone.
 */
export class BoxMoves {
  readonly #site: OpenSite;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #drag = $state.raw<{ who: string; from: BoxOffset; start: BoxOffset; by: BoxOffset } | null>(
    null,
  );
  #nudged = $state.raw<{ who: string; at: BoxOffset } | null>(null);

  constructor(site: OpenSite) {
    this.#site = site;
  }

  /** Where a box was put, px from its point; undefined where it finds its own place. */
  held(who: string): BoxOffset | undefined {
    if (this.#nudged?.who === who) return this.#nudged.at;
    return boxAt(this.#site.site.settings, who) ?? undefined;
  }

  /** How far a box is being dragged just now, px. */
  draggedBy = (who: string): BoxOffset => (this.#drag?.who === who ? this.#drag.by : [0, 0]);

  /** By an arrow key, from where it stands. */
  nudge(who: string, stands: BoxOffset, by: BoxOffset) {
    if (this.#nudged && this.#nudged.who !== who) this.settle();
    this.#nudged = { who, at: [stands[0] + by[0], stands[1] + by[1]] };
    clearTimeout(this.#timer);
    this.#timer = setTimeout(this.settle, PAUSE);
  }

  /** Let a box find its own place again. */
  release(who: string) {
    clearTimeout(this.#timer);
    this.#nudged = null;
    if (this.held(who)) this.#write(who, null);
  }

  take(who: string, from: BoxOffset, stands: BoxOffset) {
    this.#drag = { who, from, start: stands, by: [0, 0] };
  }

  dragTo(to: BoxOffset) {
    const drag = this.#drag;
    if (drag) this.#drag = { ...drag, by: [to[0] - drag.from[0], to[1] - drag.from[1]] };
  }

  drop() {
    const drag = this.#drag;
    this.#drag = null;
    if (drag && Math.hypot(...drag.by) > LEAST)
      this.#write(drag.who, [drag.start[0] + drag.by[0], drag.start[1] + drag.by[1]]);
  }

  giveUp = () => {
    this.#drag = null;
  };

  /** Make an edit of what the arrow keys have moved. */
  settle = () => {
    clearTimeout(this.#timer);
    const nudged = this.#nudged;
    if (nudged) this.#write(nudged.who, nudged.at);
    this.#nudged = null;
  };

  #write(who: string, at: BoxOffset | null) {
    const label = at ? `Move the box of ${who}` : `Let the box of ${who} find its place`;
    const settings = withBoxAt(this.#site.site.settings, who, at);
    this.#site.edit(label, { kind: 'change-settings', settings });
  }
}
