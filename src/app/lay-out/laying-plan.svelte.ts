import { shapeArea, centroid } from '../../domain/geometry/measure';
import type { XY } from '../../domain/geometry/shape';
import { insideOf } from '../../domain/layout/grids';
import { groundPlanOf } from '../../domain/layout/ground-plan';
import { areaPerPoint, repeatFor, type Pattern, type Repeat } from '../../domain/layout/lattice';
import { layBy, type LayChoice, type Manner } from '../../domain/layout/lay-by';
import { layPointsEdit } from '../../domain/layout/lay-points';
import { blockWords, countsWords, inGrid } from '../../domain/layout/layout-words';
import { layingName } from '../../domain/layout/layings';
import { besidePoints, easilyTakenFor } from '../../domain/layout/near-planned';
import { remainingPoints } from '../../domain/layout/replan';
import { nameStakes } from '../../domain/layout/name-stakes';
import { rounded } from '../../domain/layout/drawing';
import type { WalkingOrder } from '../../domain/layout/numbering';
import { shifted, tally, type Stake } from '../../domain/layout/stakes';
import { azimuth, inUnits, type Metres } from '../../domain/units';
import type { OpenSite } from '../open-site.svelte';
import type { MapTool } from './map-tool';

/** What a person moved or dropped, good for one layout only: another layout starts afresh. */
type Marks = {
  readonly of: string;
  readonly shifted: readonly string[];
  readonly dropped: readonly string[];
};

/** An angle let go of for so many milliseconds rests; one still held, not moved for so many. */
const REST = 250;
const HELD_STILL = 1500;

/** More is a buffer, and belongs to what is drawn; in the grid's unit. */
export const MOST_MARGIN_TYPED = 2;

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
  /** Being dragged: the map and the count follow at once, the rest once it rests. */
  turning = $state(false);
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
  /** Kept beyond what each buffer asks when a stake is shifted, for the error of staking it. */
  margin = $state(0);
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

  readonly #middle = $derived.by((): XY | null => this.inside && (centroid(this.inside) ?? null));

  /** Where step-outs and rings start. */
  readonly #start = $derived.by((): XY | null => {
    const location = this.#site.site.locations.get(this.from);
    const east = location?.easting ?? location?.planned_easting;
    const north = location?.northing ?? location?.planned_northing;
    return east && north ? [inUnits(east.value, this.unit), inUnits(north.value, this.unit)] : null;
  });

  readonly #choice: LayChoice = $derived.by(() => {
    const { manner, repeat, direction, seed, every, apart, staggered } = this;
    const { down, up, across, radii, each, typed } = this;
    const around = { from: this.#start, down, up, across, radii, each };
    return { manner, repeat, direction, seed, every, apart, staggered, typed, ...around };
  });

  /** As the rule lays it, before anything was moved. */
  readonly laid = $derived.by(() =>
    layBy(this.#choice, {
      plan: this.plan,
      middle: this.#middle,
      flow: this.flow,
      noFlow: this.noFlowWords,
    }),
  );

  get #margin() {
    return this.margin >= 0 && this.margin <= MOST_MARGIN_TYPED ? this.margin : 0;
  }

  /** Another layout has other marks. */
  readonly #signature = $derived.by(() => JSON.stringify(this.#choice));
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
      const made = shifted(stake, this.plan, this.limit, this.#margin);
      return [made.ok ? { ...made.value, at: rounded(made.value.at) } : stake];
    });
  });
  #rested: readonly Stake[] = [];
  /** The stakes as they were when the angle last rested: lists, names and chances follow these. */
  readonly rested = $derived.by(() => {
    if (!this.turning) this.#rested = this.stakes;
    return this.#rested;
  });
  readonly blocked = $derived.by(() => this.rested.filter(({ blocks }) => blocks.length > 0));
  readonly moved = $derived.by(() => this.rested.filter(({ shift }) => shift !== null));
  readonly clear = $derived.by(() => this.rested.filter(({ blocks }) => blocks.length === 0));
  readonly tally = $derived.by(() => tally(this.stakes));

  /** Clear stakes with the names they would have; why none, in words. */
  readonly named = $derived.by(() =>
    nameStakes(this.clear, this.names, this.order, this.#site.site.locations.keys()),
  );
  /** Nearer than this to a point that is there, a stake is said to stand beside it: half a spacing. */
  readonly near = $derived.by(() => {
    if (this.manner === 'grid') return (this.repeat?.spacing ?? 0) / 2;
    return this.manner === 'transects' ? this.every / 2 : this.limit / 2;
  });
  /** Clear stakes beside points that stand or are planned already. */
  readonly beside = $derived.by(() =>
    besidePoints(this.clear, remainingPoints(this.#site.site), this.near),
  );
  /** Names easily taken for one in use. */
  readonly alike = $derived.by(() =>
    this.named.ok ? easilyTakenFor(this.named.value, this.#site.site.locations.keys()) : [],
  );
  readonly words = $derived.by(() => [
    'number',
    ...Object.keys((this.laid.ok && this.laid.value[0]?.counts) || {}),
  ]);

  get noFlowWords(): string {
    return `No direction of flow is resolved, so nothing can be laid along it. ${this.#site.flow?.reason ?? 'No event has three heads.'}`;
  }

  #resting: ReturnType<typeof setTimeout> | undefined;

  /** Rows another way, by hand; `held` until it is let go of. */
  turn(rows: number, held: boolean) {
    this.rows = rows;
    this.turning = true;
    clearTimeout(this.#resting);
    this.#resting = setTimeout(() => (this.turning = false), held ? HELD_STILL : REST);
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

  /** All stakes beside points that are there already. */
  dropBeside() {
    const { of, shifted: moved, dropped } = this.#current;
    const beside = this.beside.map(({ at }) => at);
    const more = this.clear.filter(({ at }) => beside.includes(at)).map(countsWords);
    this.#marks = { of, shifted: moved, dropped: [...dropped, ...more] };
  }

  /** Whether a shift was asked for and no clear place found within the limit. */
  nowhere = (stake: Stake) =>
    stake.blocks.length > 0 && this.#current.shifted.includes(countsWords(stake));

  reasons = (stake: Stake) => stake.blocks.map((block) => blockWords(block, this.unit)).join('; ');

  /** Put the clear stakes into the site as planned points, one step; whether it was done. */
  lay(): boolean {
    const { named, laid } = this;
    if (!named.ok || !laid.ok) return false;
    const how = this.manner === 'grid' ? `grid, ${this.spacingWords}` : this.manner;
    const laying = layingName(this.#site.site, how);
    const edit = layPointsEdit(named.value, this.purpose.trim(), this.unit, laying, laid.value);
    if (!edit) return false;
    const made = this.#site.edit(`Lay ${named.value.length} points`, edit);
    if (made.ok) {
      this.open = false;
      this.#marks = NO_MARKS;
      this.typed = '';
    }
    return made.ok;
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
