import { readShape } from '../../domain/geometry/wkt';
import type { Shape, XY } from '../../domain/geometry/shape';
import { moved } from '../../domain/geometry/shape';
import type { Site } from '../../domain/site/site';
import { inUnits, metres, type Metres } from '../../domain/units';
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

  /** Index of a row; null: nothing chosen, or typed. */
  conductivityRow: number | null = $state(null);
  conductivityTyped: Typed | null = $state.raw(null);
  porosityRow: number | null = $state(null);
  porosityTyped: Typed | null = $state.raw(null);
  receptor: string | null = $state(null);

  constructor(site: () => Site, flow: () => Flow | null, from: () => string | null) {
    this.#site = site;
    this.#flow = flow;
    this.#from = from;
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

  readonly answer = $derived.by(() => {
    const { conductivity: k, porosity: n, gradient } = this;
    if (!k || !n || !gradient) return null;
    const setting = (typed: unknown, row: { source: { text: string } } | undefined) =>
      ({ kind: 'setting', name: typed || !row ? 'typed here' : row.source.text }) as const;
    return seepage(
      {
        conductivity: {
          low: metresPerDay(k.low, this.unit),
          high: metresPerDay(k.high, this.unit),
          from: setting(this.conductivityTyped, CONDUCTIVITY_ROWS[this.conductivityRow ?? -1]),
        },
        gradient,
        porosity: {
          ...n,
          from: setting(this.porosityTyped, POROSITY_ROWS[this.porosityRow ?? -1]),
        },
      },
      this.unit,
    );
  });

  /** What water could travel to. */
  readonly receptors = $derived.by(() =>
    this.#site().features.filter(({ kind }) => kind === 'receptor' || kind === 'surface water'),
  );

  /** Along the flow line of the plane from the point in hand: ground metres; null without one. */
  readonly way: { readonly distance: Metres; readonly miss: Metres } | null = $derived.by(() => {
    const site = this.#site();
    const azimuth = this.#flow()?.azimuthGrid?.value;
    const location = site.locations.get(this.#from() ?? '');
    const to = this.receptors.find(({ id }) => id === this.receptor) ?? this.receptors[0];
    const read = to ? readShape(to.shape) : null;
    if (azimuth === undefined || !location?.easting || !location.northing || !read?.ok) return null;
    const { unit } = site.settings.grid;
    const shape: Shape = moved(read.value, ([e, n]): XY => [metres(e, unit), metres(n, unit)]);
    const way = wayTo(shape, [location.easting.value, location.northing.value], azimuth);
    const factor = site.grid.combinedFactor ?? 1;
    return way && { distance: metres(way.distance / factor), miss: metres(way.miss / factor) };
  });

  readonly time = $derived.by(() => {
    const { way, answer } = this;
    if (!way || !answer?.ok) return null;
    return travelTime(
      {
        low: way.distance,
        high: way.distance,
        from: { kind: 'setting', name: 'flow line of the plane' },
      },
      answer.value,
      this.unit,
    );
  });

  /** The distance in the grid's unit, for the page. */
  inGrid = (distance: Metres) => inUnits(distance, this.#site().settings.grid.unit);
}
