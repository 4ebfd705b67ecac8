import { writeShape } from '../../domain/geometry/wkt';
import type { XY } from '../../domain/geometry/shape';
import { worstByScreen } from '../../domain/lab/worst-by-screen';
import { freeId, rounded } from '../../domain/layout/drawing';
import { inUnits, metres, type Metres } from '../../domain/units';
import {
  fittingExaggeration,
  headUnder,
  sectionLines,
  sectionOf,
  type Section,
} from '../../domain/water/section';
import type { OpenSite } from '../open-site.svelte';
import { pressTool } from './press-tool';

/** Lines that are none of the site's features. */
export const BETWEEN = 'between two points';
export const FREE = 'drawn on the map';

/** Which line a section is cut along, how wide its corridor is and how much it is exaggerated. */
export class SectionChoice {
  #site: OpenSite;
  #lineId: string | null = $state(null);
  ends: readonly [string | null, string | null] = $state.raw([null, null]);
  /** In the grid's unit; null: the usual one. */
  corridorTyped: number | null = $state(null);
  exaggerationTyped: number | null = $state(null);
  /** Corners of the line drawn by hand, grid metres. */
  drawn: readonly XY[] = $state.raw([]);
  /** Presses on the map are corners of the line. */
  drawing = $state(false);

  constructor(site: OpenSite) {
    this.#site = site;
  }

  readonly unit = $derived.by(() => this.#site.site.settings.grid.unit);
  readonly lines = $derived.by(() => sectionLines(this.#site.site));
  readonly placed = $derived.by(() =>
    [...this.#site.site.locations.values()].filter(({ easting, northing }) => easting && northing),
  );
  /** Id of a feature, or one of the two words above. */
  readonly chosen = $derived.by(() => this.#lineId ?? this.lines[0]?.feature.id ?? BETWEEN);
  readonly from = $derived.by(() => this.ends[0] ?? this.placed[0]?.id ?? '');
  readonly to = $derived.by(() => this.ends[1] ?? this.placed.at(-1)?.id ?? '');

  /** In grid metres; fewer than two places while there is none. */
  readonly line = $derived.by((): readonly XY[] => {
    if (this.chosen === FREE) return this.drawn;
    const feature = this.lines.find(({ feature: { id } }) => id === this.chosen);
    if (feature) return feature.line;
    return [this.from, this.to].flatMap((id): XY[] => {
      const location = this.#site.site.locations.get(id);
      return location?.easting && location.northing
        ? [[location.easting.value, location.northing.value]]
        : [];
    });
  });
  /** Fifty feet or fifteen metres to either side, to begin with. */
  readonly corridor = $derived.by(() => this.corridorTyped ?? (this.unit === 'm' ? 15 : 50));

  readonly section = $derived.by((): Section | null => {
    const { site, heads, flow, drawnResults } = this.#site;
    return this.line.length < 2
      ? null
      : sectionOf(
          site,
          this.line,
          metres(this.corridor, this.unit),
          heads,
          headUnder(site, flow),
          worstByScreen(drawnResults),
        );
  });

  /** @param share  of its length that the picture may be tall */
  exaggeration(share: number): number {
    return this.exaggerationTyped ?? (this.section ? fittingExaggeration(this.section, share) : 1);
  }

  /** A line that stands on the site or was drawn: worth printing without being asked. */
  readonly isMeant = $derived.by(
    () => this.#lineId !== null || this.ends.some((end) => end !== null) || this.lines.length > 0,
  );

  choose(line: string) {
    this.#lineId = line;
    this.drawing = line === FREE && this.drawn.length < 2;
  }

  begin() {
    this.#lineId = FREE;
    this.drawn = [];
    this.drawing = true;
  }

  /** A press near the last corner ends the line, as a second press there does by habit. */
  readonly tool = pressTool((at, reach) => {
    const last = this.drawn.at(-1);
    const again = last !== undefined && Math.hypot(at[0] - last[0], at[1] - last[1]) <= reach;
    if (!again) this.drawn = [...this.drawn, at];
    else if (this.drawn.length > 1) this.drawing = false;
  });

  takeBack = () => {
    this.drawn = this.drawn.slice(0, -1);
    this.drawing = true;
  };

  /** Put the line drawn by hand on the site, as one step to undo. */
  keep() {
    const inGrid = ([e, n]: XY): XY =>
      rounded([inUnits(e as Metres, this.unit), inUnits(n as Metres, this.unit)]);
    const shape = writeShape({ kind: 'lines', lines: [this.drawn.map(inGrid)] });
    if (shape === null || this.drawn.length < 2) return;
    const id = freeId(
      'S',
      this.#site.site.features.map((feature) => feature.id),
    );
    const made = this.#site.edit(`Draw section line ${id}`, {
      kind: 'add-rows',
      table: 'features',
      rows: [{ id, kind: 'section line', shape }],
    });
    if (!made.ok) return;
    this.drawing = false;
    this.drawn = [];
    this.#lineId = id;
  }
}
