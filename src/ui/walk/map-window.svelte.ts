import { isNear, widened, windowSize, type Size } from '../../map/camera';
import type { Extent } from '../../map/scene/scene';

/** The map may glide on for a moment; then where it rests is where somebody moved it. */
const REST = 250;

/** What the window of a stop's map shows: what the stop asks for, until somebody moves it. */
export class MapWindow {
  readonly #asked: () => Extent;
  readonly #magnify: () => number;
  #moved: Extent | null = $state.raw(null);
  #resting: ReturnType<typeof setTimeout> | undefined;

  /** px of the map with the band of its coordinates. */
  width = $state(0);
  height = $state(0);
  /** What the map shows now, on its way or at rest; not followed. */
  seen: Extent | null = null;

  constructor(asked: () => Extent, magnify: () => number) {
    this.#asked = asked;
    this.#magnify = magnify;
  }

  readonly size: Size = $derived.by(() => windowSize(this.width, this.height, this.#magnify()));
  readonly #fitted = $derived.by(() => widened(this.#asked(), this.size));

  /** What it shows once it rests. */
  readonly shows: Extent = $derived.by(() => this.#moved ?? this.#fitted);

  look = (to: Extent) => {
    this.seen = to;
    this.leave();
    this.#resting = setTimeout(() => (this.#moved = isNear(to, this.#fitted) ? null : to), REST);
  };

  /** A stop asks for something else. */
  anew() {
    this.#moved = null;
  }

  leave = () => clearTimeout(this.#resting);
}
