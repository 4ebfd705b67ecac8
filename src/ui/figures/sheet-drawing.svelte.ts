import type { Figure } from '../../app/walk/figure.svelte';
import { layoutAway } from '../../map/scene/layout-away';
import type { Box } from '../../map/scene/place-labels';
import { inView, type Scene } from '../../map/scene/scene';
import { readable, stopScene } from '../../map/stop-scene';
import {
  boxesAsked,
  boxesPlaced,
  SHEET_SHARE,
  sheetFurniture,
  type BoxesAsked,
  type BoxesPlaced,
} from './sheet-boxes';

const PX = 96 / 25.4;
const NO_BOXES: BoxesPlaced = { boxes: [], without: [] };

/** What is drawn on a map sheet, its boxes of results laid out away from the page. Made where effects may be. */
export class SheetDrawing {
  readonly #figure: Figure;

  /** Boxes where they stand; none while they are being placed. */
  boxed: BoxesPlaced = $state.raw(NO_BOXES);
  /** Whether boxes are being placed: a sheet put out now would be without them. */
  placing = $state(false);
  /** Why boxes could not be placed; blank where nothing went wrong. */
  trouble = $state('');

  constructor(figure: Figure) {
    this.#figure = figure;
    $effect(() => {
      const asked = this.#asked;
      this.boxed = NO_BOXES;
      this.trouble = '';
      this.placing = asked !== null;
      if (!asked) return undefined;
      return layoutAway(
        asked,
        (layout) => {
          this.boxed = boxesPlaced(asked, layout);
          this.placing = false;
        },
        (problem) => {
          this.trouble = `The boxes of results could not be placed: ${problem}`;
          this.placing = false;
        },
      );
    });
  }

  /** Width and height of the map on the sheet, px. */
  readonly #size = $derived.by(() => {
    const { width, height } = this.#figure.areas.map;
    return [width * PX, height * PX] as const;
  });

  readonly #full: Scene = $derived.by(() => {
    const { answers, contours, surface } = this.#figure;
    const drawing = { ...answers, construction: [] };
    const view = { shown: answers.shown, points: 'all', contours, window: null } as const;
    return stopScene(drawing, { made: null, view }, surface);
  });

  /** The map with its words clear of what lies over it, px of the sheet. */
  #clearOf(over: readonly Box[]): Scene {
    const { answers, window: seen } = this.#figure;
    const taken = [...sheetFurniture(this.#size), ...over];
    const reading = { seen, size: this.#size, magnify: SHEET_SHARE, taken };
    return inView(readable(this.#full, answers.site, reading), seen);
  }

  /** As it is before boxes lie over it, which keep clear of the words that matter most. */
  readonly #bare: Scene = $derived.by(() => this.#clearOf([]));

  readonly scene: Scene = $derived.by(() =>
    this.boxed.boxes.length > 0
      ? this.#clearOf(this.boxed.boxes.map(({ box }) => box))
      : this.#bare,
  );

  readonly #asked: BoxesAsked | null = $derived.by(() => {
    const { kind, boxes } = this.#figure.form;
    const { site, shown, results } = this.#figure.answers;
    return kind === 'map' && boxes && shown.verdicts
      ? boxesAsked(site, results, this.#figure.window, this.#size, this.#bare)
      : null;
  });
}
