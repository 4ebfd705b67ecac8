import { shapeArea, centroid } from '../../domain/geometry/measure';
import type { XY } from '../../domain/geometry/shape';
import { insideOf, layGrid, layTransects, everySoFar } from '../../domain/layout/grids';
import { groundPlanOf } from '../../domain/layout/ground-plan';
import {
  areaPerPoint,
  randomStart,
  repeatFor,
  type Lattice,
  type Pattern,
  type Repeat,
} from '../../domain/layout/lattice';
import { layPointsEdit } from '../../domain/layout/lay-points';
import {
  blockWords,
  countsWords,
  inGrid,
  layoutProblemWords,
} from '../../domain/layout/layout-words';
import { nameStakes } from '../../domain/layout/name-stakes';
import { readDistances, readPlaces, rounded } from '../../domain/layout/drawing';
import type { WalkingOrder } from '../../domain/layout/numbering';
import { seeded } from '../../domain/layout/seeded';
import { shifted, stakesAt, tally, type Place, type Stake } from '../../domain/layout/stakes';
import { rings, stepOuts } from '../../domain/layout/step-outs';
import { fail, ok, type Result } from '../../domain/result';
import { azimuth, inUnits, type Metres } from '../../domain/units';
import type { OpenSite } from '../open-site.svelte';
import type { MapTool } from './map-tool';

export type Manner = 'grid' | 'transects' | 'step-outs' | 'rings' | 'points';

/** What a person moved or dropped, good for one layout only: another layout starts afresh. */
type Marks = {
  readonly of: string;
  readonly shifted: readonly string[];
  readonly dropped: readonly string[];
};

const NO_MARKS: Marks = { of: '', shifted: [], dropped: [] };

/** A layout being tried over the map. Lengths in the grid's unit. */
export class LayingPlan {
  #site: OpenSite;
  /** Whether it is shown on the map. */
  open = $state(false);
  manner: Manner = $state('grid');

  pattern: Pattern = $state('triangular');
  by: 'spacing' | 'count' = $state('spacing');
  spacing = $state(100);
  count = $state(40);
  /** Rows apart over spacing, of a rectangular grid. */
  ratio = $state(1.5);
  seed = $state(1);
  rows = $state(90);
  alongFlow = $state(false);

  every = $state(50);
  apart = $state(150);
  staggered = $state(true);

  /** The location step-outs and rings start from. */
  from = $state('');
  down = $state('50, 100');
  up = $state('50');
  across = $state('50');
  radii = $state('50, 100');
  each = $state(6);

  /** Single points: typed, or pressed on the map. */
  typed = $state('');

  limit = $state(25);
  names = $state('DP-[number 01]');
  order: WalkingOrder = $state('back and forth');
  purpose = $state('');
  #marks: Marks = $state.raw(NO_MARKS);

  constructor(site: OpenSite) {
    this.#site = site;
    if (site.site.settings.grid.unit === 'm') {
      [this.spacing, this.every, this.apart, this.limit] = [30, 15, 45, 8];
      [this.down, this.up, this.across, this.radii] = ['15, 30', '15', '15', '15, 30'];
    }
  }

  get unit() {
    return this.#site.site.settings.grid.unit;
  }

  readonly #read = $derived.by(() => groundPlanOf(this.#site.site.features, this.unit));
  readonly plan = $derived(this.#read.plan);
  /** Features that could not be read and so protect nothing. */
  readonly unread = $derived(this.#read.problems);
  readonly inside = $derived.by(() => insideOf(this.plan));
  readonly ground = $derived.by(() => (this.inside ? shapeArea(this.inside) : 0));

  /** The last event's direction where it is resolved; null where it is not. */
  readonly flow = $derived.by(() => this.#site.flow?.azimuthGrid?.value ?? null);
  readonly direction = $derived.by(() =>
    this.alongFlow && this.flow !== null ? this.flow : azimuth(this.rows),
  );

  readonly repeat: Repeat | null = $derived.by(() => {
    const { pattern, spacing, ratio } = this;
    if (this.by === 'count') return repeatFor(pattern, this.ground, this.count, ratio);
    if (!(spacing > 0)) return null;
    return pattern === 'rectangular'
      ? { pattern, spacing, between: spacing * ratio }
      : { pattern, spacing };
  });
  readonly areaPerPoint = $derived.by(() => (this.repeat ? areaPerPoint(this.repeat) : null));

  readonly #middle = $derived.by((): XY => (this.inside && centroid(this.inside)) ?? [0, 0]);

  /** As the rule lays it, before anything was moved. */
  readonly laid: Result<readonly Stake[], string> = $derived.by(() => {
    switch (this.manner) {
      case 'grid': {
        if (!this.repeat)
          return fail(this.ground > 0 ? 'Give a spacing or a number above zero.' : NO_BOUNDARY);
        const turned = { ...this.repeat, rows: this.direction };
        const start = randomStart(turned, this.#middle, seeded(this.seed));
        const lattice: Lattice = { ...turned, start };
        return inWords(layGrid(lattice, this.plan));
      }
      case 'transects': {
        const { flow } = this;
        if (flow === null) return fail(this.noFlowWords);
        const through = this.#middle;
        const downgradient = everySoFar({ flow, through }, this.apart, this.plan);
        const { every, staggered } = this;
        const made = layTransects({ flow, through, downgradient, every, staggered }, this.plan);
        return made.ok ? ok(made.value.stakes) : inWords(made);
      }
      case 'points': {
        const places = readPlaces(this.typed);
        if (!places.ok)
          return fail(
            `Line ${places.problem.line} is no easting and northing: “${places.problem.found}”.`,
          );
        return ok(
          stakesAt(
            places.value.map((at, i) => ({ at, counts: { point: i + 1 } })),
            this.plan,
          ),
        );
      }
      default: {
        const made = this.#around();
        return made.ok ? ok(stakesAt(made.value, this.plan)) : made;
      }
    }
  });

  /** Shapes already drawn by hand are told by their counts: another layout has other marks. */
  readonly #signature = $derived.by(() =>
    JSON.stringify([
      this.manner,
      this.repeat,
      this.direction,
      this.seed,
      this.every,
      this.apart,
      this.staggered,
      this.from,
      this.down,
      this.up,
      this.across,
      this.radii,
      this.each,
      this.manner === 'points' ? this.typed : '',
    ]),
  );
  readonly #current = $derived.by(() =>
    this.#marks.of === this.#signature ? this.#marks : { ...NO_MARKS, of: this.#signature },
  );

  /** What is on the map: shifted where asked, without what was dropped. */
  readonly stakes: readonly Stake[] = $derived.by(() => {
    if (!this.laid.ok) return [];
    const { shifted: moved, dropped } = this.#current;
    return this.laid.value.flatMap((stake) => {
      const key = countsWords(stake);
      if (dropped.includes(key)) return [];
      if (!moved.includes(key)) return [stake];
      const made = shifted(stake, this.plan, this.limit);
      return [made.ok ? { ...made.value, at: rounded(made.value.at) } : stake];
    });
  });
  readonly blocked = $derived.by(() => this.stakes.filter(({ blocks }) => blocks.length > 0));
  readonly moved = $derived.by(() => this.stakes.filter(({ shift }) => shift !== null));
  readonly clear = $derived.by(() => this.stakes.filter(({ blocks }) => blocks.length === 0));
  readonly tally = $derived.by(() => tally(this.stakes));

  /** Clear stakes with the names they would have; why none, in words. */
  readonly named = $derived.by(() =>
    nameStakes(this.clear, this.names, this.order, this.#site.site.locations.keys()),
  );
  readonly words = $derived.by(() => [
    'number',
    ...Object.keys((this.laid.ok && this.laid.value[0]?.counts) || {}),
  ]);

  get noFlowWords(): string {
    return `No direction of flow is resolved, so nothing can be laid along it. ${this.#site.flow?.reason ?? 'No event has three heads.'}`;
  }

  /** A stake's shift or drop, by its counts. */
  shift(stake: Stake) {
    const { of, shifted: before, dropped } = this.#current;
    this.#marks = { of, dropped, shifted: [...before, countsWords(stake)] };
  }

  shiftAll() {
    const { of, shifted: before, dropped } = this.#current;
    const all = this.blocked.map(countsWords);
    this.#marks = { of, dropped, shifted: [...before, ...all] };
  }

  drop(stake: Stake) {
    const { of, shifted: moved, dropped } = this.#current;
    this.#marks = { of, shifted: moved, dropped: [...dropped, countsWords(stake)] };
  }

  /** Whether a shift was asked for and no clear place found within the limit. */
  nowhere = (stake: Stake) =>
    stake.blocks.length > 0 && this.#current.shifted.includes(countsWords(stake));

  reasons = (stake: Stake) => stake.blocks.map((block) => blockWords(block, this.unit)).join('; ');

  /** Put the clear stakes into the site as planned points, one step; whether it was done. */
  lay(): boolean {
    const { named, laid } = this;
    if (!named.ok || !laid.ok) return false;
    const edit = layPointsEdit(named.value, this.purpose.trim(), this.unit, laid.value);
    if (!edit) return false;
    const made = this.#site.edit(`Lay ${named.value.length} points`, edit);
    if (made.ok) {
      this.open = false;
      this.#marks = NO_MARKS;
      this.typed = '';
    }
    return made.ok;
  }

  #around(): Result<readonly Place[], string> {
    const location = this.#site.site.locations.get(this.from);
    const east = location?.easting ?? location?.planned_easting;
    const north = location?.northing ?? location?.planned_northing;
    if (!east || !north) return fail('Choose the point to start from.');
    const at: XY = [inUnits(east.value, this.unit), inUnits(north.value, this.unit)];
    if (this.manner === 'rings') {
      const radii = readDistances(this.radii);
      if (!radii) return fail('Give radii above zero, parted by commas.');
      return ok(rings(at, radii, this.each, this.flow ?? azimuth(0), true));
    }
    const { flow } = this;
    if (flow === null) return fail(this.noFlowWords);
    const [down, up, across] = [this.down, this.up, this.across].map(readDistances);
    if (!down || !up || !across) return fail('Give distances above zero, parted by commas.');
    return ok(stepOuts(at, flow, { downgradient: down, upgradient: up, across }));
  }

  /** Presses set single points; null while another layout is tried. */
  readonly #pointTool: MapTool = {
    press: ([east, north]) => {
      const at = [east, north].map((n) => inUnits(n as Metres, this.unit).toFixed(2)).join(', ');
      this.typed = this.typed.trim() === '' ? at : `${this.typed.trim()}\n${at}`;
    },
    point: () => {},
    grab: () => false,
    drag: () => {},
    drop: () => {},
  };

  get tool(): MapTool | null {
    return this.open && this.manner === 'points' ? this.#pointTool : null;
  }

  get spacingWords(): string {
    return this.repeat ? inGrid(this.repeat.spacing, this.unit) : 'no spacing';
  }
}

const NO_BOUNDARY = layoutProblemWords({ kind: 'no-boundary' });

const inWords = (
  made:
    | ReturnType<typeof layGrid>
    | { readonly ok: false; readonly problem: Parameters<typeof layoutProblemWords>[0] },
): Result<readonly Stake[], string> =>
  made.ok ? ok(made.value) : fail(layoutProblemWords(made.problem));
