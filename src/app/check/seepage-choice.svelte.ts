import { readShape } from '../../domain/geometry/wkt';
import type { Shape, XY } from '../../domain/geometry/shape';
import { moved } from '../../domain/geometry/shape';
import type { Site } from '../../domain/site/site';
import type { Source } from '../../domain/work';
import type { Result } from '../../domain/result';
import { surfacePath, type PathSurface, type SurfacePath } from '../../domain/water/surface-path';
import { metres, type Metres } from '../../domain/units';
import type { Flow } from '../../domain/water/flow';
import { CONDUCTIVITIES, POROSITIES } from '../../domain/water/ground-tables';
import { wayTo } from '../../domain/water/way-to-receptor';
import {
  inVelocityUnits,
  metresPerDay,
  seepage,
  travelTime,
  type Chosen,
  type PrintedIn,
  type TravelTime,
} from '../../domain/water/seepage';

type Typed = { readonly low: number; readonly high: number };

/** Rows to choose from, each with its publication. */
export const CONDUCTIVITY_ROWS = CONDUCTIVITIES.flatMap(({ source, rows }) =>
  rows.map((row) => ({ ...row, source })),
);
export const POROSITY_ROWS = POROSITIES.flatMap(({ source, rows }) =>
  rows.filter(({ low }) => low > 0).map((row) => ({ ...row, source })),
);

/** What a person takes the ground to be, for how fast the water may move. */
export class SeepageChoice {
  #site: () => Site;
  #flow: () => Flow | null;
  #from: () => string | null;
  #surface: () => PathSurface;

  /** Index of a row; null: nothing chosen, or typed. */
  conductivityRow: number | null = $state(null);
  conductivityTyped: Typed | null = $state.raw(null);
  porosityRow: number | null = $state(null);
  porosityTyped: Typed | null = $state.raw(null);
  receptor: string | null = $state(null);
  /** Straight down the plane, or down the surface as it is drawn. */
  along: 'plane' | 'surface' = $state('plane');

  constructor(
    site: () => Site,
    flow: () => Flow | null,
    from: () => string | null,
    surface: () => PathSurface,
  ) {
    this.#site = site;
    this.#flow = flow;
    this.#from = from;
    this.#surface = surface;
  }

  readonly unit: PrintedIn = $derived.by(() =>
    this.#site().settings.verticalUnit === 'm' ? 'm/d' : 'ft/d',
  );

  /** In the printed unit. */
  readonly conductivity: Typed | null = $derived.by(() => {
    if (this.conductivityTyped) return this.conductivityTyped;
    const row = CONDUCTIVITY_ROWS[this.conductivityRow ?? -1];
    return row
      ? { low: inVelocityUnits(row.low, this.unit), high: inVelocityUnits(row.high, this.unit) }
      : null;
  });
  readonly porosity: Typed | null = $derived.by(() => {
    const row = POROSITY_ROWS[this.porosityRow ?? -1];
    return this.porosityTyped ?? (row ? { low: row.low, high: row.high } : null);
  });

  /** The gradient with its ±, never below zero; null without a direction. */
  readonly gradient: Chosen | null = $derived.by(() => {
    const flow = this.#flow();
    if (!flow?.resolved || !flow.gradient) return null;
    const half = flow.gradientHalfWidth ?? 0;
    const { value, work } = flow.gradient;
    return { low: Math.max(0, value - half), high: value + half, from: { kind: 'work', work } };
  });

  readonly answer = $derived.by(() => this.#seepageAt(this.gradient));

  #seepageAt(gradient: Chosen | null) {
    const { conductivity: k, porosity: n } = this;
    if (!k || !n || !gradient) return null;
    const sourceOf = (typed: unknown, row: { source: { text: string } } | undefined): Source => ({
      kind: 'citation',
      text: typed || !row ? 'typed by whoever prepared this' : row.source.text,
    });
    return seepage(
      {
        conductivity: {
          low: metresPerDay(k.low, this.unit),
          high: metresPerDay(k.high, this.unit),
          from: sourceOf(this.conductivityTyped, CONDUCTIVITY_ROWS[this.conductivityRow ?? -1]),
        },
        gradient,
        porosity: {
          ...n,
          from: sourceOf(this.porosityTyped, POROSITY_ROWS[this.porosityRow ?? -1]),
        },
      },
      this.unit,
    );
  }

  /** What water could travel to. */
  readonly receptors = $derived.by(() =>
    this.#site().features.filter(({ kind }) => kind === 'receptor' || kind === 'surface water'),
  );

  /** The receptor in hand, in grid metres; null where none is drawn. */
  readonly #target = $derived.by((): Shape | null => {
    const to = this.receptors.find(({ id }) => id === this.receptor) ?? this.receptors[0];
    const read = to ? readShape(to.shape) : null;
    const { unit } = this.#site().settings.grid;
    return read?.ok ? moved(read.value, ([e, n]): XY => [metres(e, unit), metres(n, unit)]) : null;
  });

  readonly #start = $derived.by((): XY | null => {
    const location = this.#site().locations.get(this.#from() ?? '');
    return location?.easting && location.northing
      ? [location.easting.value, location.northing.value]
      : null;
  });

  /** Along the flow line of the plane from the point in hand: ground metres; null without one. */
  readonly way: { readonly distance: Metres; readonly miss: Metres } | null = $derived.by(() => {
    const azimuth = this.#flow()?.azimuthGrid?.value;
    const [target, start] = [this.#target, this.#start];
    if (azimuth === undefined || !target || !start) return null;
    const way = wayTo(target, start, azimuth);
    const factor = this.#site().grid.combinedFactor ?? 1;
    return way && { distance: metres(way.distance / factor), miss: metres(way.miss / factor) };
  });

  /** Down the surface from the point in hand; null without a point, heads or a wish for it. */
  readonly path: Result<SurfacePath, string> | null = $derived.by(() => {
    const [start, centre] = [this.#start, this.#flow()?.centre];
    if (this.along !== 'surface' || !start || !centre) return null;
    const factor = this.#site().grid.combinedFactor ?? 1;
    const ground = ([e, n]: XY): XY => [
      (e - centre.easting) / factor,
      (n - centre.northing) / factor,
    ];
    const target = this.#target;
    return surfacePath(this.#surface(), ground(start), target && moved(target, ground));
  });

  /** Velocity along the path: its own gradient, as unsure as that of the plane. */
  readonly pathAnswer = $derived.by(() => {
    const gradient = this.path?.ok ? this.path.value.gradient : null;
    const flow = this.#flow();
    if (gradient === null || !flow?.gradient) return null;
    const part = (flow.gradientHalfWidth ?? 0) / flow.gradient.value;
    return this.#seepageAt({
      low: Math.max(0, gradient * (1 - part)),
      high: gradient * (1 + part),
      from: {
        kind: 'citation',
        text: 'harmonic mean along the line, ± in the part the plane’s is',
      },
    });
  });

  readonly time: TravelTime | null = $derived.by(() => {
    const down = this.along === 'surface';
    const answer = down ? this.pathAnswer : this.answer;
    const distance = down ? this.path?.ok && this.path.value.length : this.way?.distance;
    if (!distance || !answer?.ok) return null;
    const text = `measured along the flow line of the ${this.along}`;
    const from = { kind: 'citation', text } as const;
    return travelTime({ low: distance, high: distance, from }, answer.value, this.unit);
  });
}
