import { distanceBetween } from '../../domain/geometry/compass';
import type { XY } from '../../domain/geometry/shape';
import { hidingPlaces } from '../../domain/layout/as-laid';
import { blocksAt } from '../../domain/layout/blocks';
import { clearancesAt } from '../../domain/layout/clearance';
import { rounded } from '../../domain/layout/drawing';
import { layingsOf, takeBackEdit, type Laying } from '../../domain/layout/layings';
import {
  chanceOf,
  dropPlanned,
  placeIn,
  planElsewhere,
  remainingPoints,
  without,
} from '../../domain/layout/replan';
import { fieldPoints } from '../../domain/record/field-points';
import { gapsOf } from '../../domain/record/gaps';
import { inUnits, type Metres } from '../../domain/units';
import type { OpenSite } from '../open-site.svelte';
import { localSecond } from '../record/clock';
import type { HitQuestion } from './hit-question.svelte';
import type { LayingPlan } from './laying-plan.svelte';
import type { MapTool } from './map-tool';

const SEED = 1;

/** A planned point being moved or dropped after it was laid. Places in the grid's unit. */
export class Replanning {
  #site: OpenSite;
  #laying: LayingPlan;
  #question: HitQuestion;
  /** Points are dragged on the map. */
  onMap = $state(false);
  /** Where the point in hand would go; null while it stays. */
  to: XY | null = $state.raw(null);
  reason = $state('');
  picture = $state(false);
  /** Under the finger: what takes long waits until it is let go. */
  held = $state(false);
  #for: string | null = $state(null);

  constructor(site: OpenSite, laying: LayingPlan, question: HitQuestion) {
    this.#site = site;
    this.#laying = laying;
    this.#question = question;
  }

  get unit() {
    return this.#laying.unit;
  }

  readonly planned = $derived.by(() =>
    [...this.#site.site.locations.values()].filter(({ status }) => status === 'planned'),
  );
  /** The planned point in hand; null where none is chosen. */
  readonly point = $derived.by(
    () => this.planned.find(({ id }) => id === this.#site.selected) ?? null,
  );
  readonly from = $derived.by(() => this.point && placeIn(this.point, this.unit));
  /** Where it would go, of the point in hand and no other. */
  readonly goes = $derived.by(() => (this.point?.id === this.#for ? this.to : null));
  readonly blocks = $derived.by(() => (this.goes ? blocksAt(this.goes, this.#laying.plan) : []));
  readonly nearest = $derived.by(() => {
    const at = this.goes ?? this.from;
    return at ? (clearancesAt(at, this.#laying.plan)[0] ?? null) : null;
  });

  readonly points = $derived.by(() => remainingPoints(this.#site.site));
  readonly gaps = $derived.by(() => gapsOf(fieldPoints(this.#site.site)));
  readonly chance = $derived.by(() => this.#chanceOf(this.points));
  /** With the point where it would go. */
  readonly chanceMoved = $derived.by(() =>
    this.point && this.goes && !this.held
      ? this.#chanceOf(without(this.points, this.point.id, this.goes))
      : null,
  );
  readonly chanceDropped = $derived.by(() =>
    this.point ? this.#chanceOf(without(this.points, this.point.id, null)) : null,
  );
  readonly hiding = $derived.by(() => {
    const { target } = this.#question;
    const { inside } = this.#laying;
    if (!this.picture || this.held || !target || !inside) return null;
    const places = this.point ? without(this.points, this.point.id, this.goes ?? this.from) : null;
    const at = (places ?? this.points).map((point) => point.at);
    return hidingPlaces(at, inside, target, 160);
  });

  #chanceOf(points: ReturnType<typeof remainingPoints>) {
    const { target } = this.#question;
    return target && chanceOf(points, this.#laying.plan, target, SEED);
  }

  /** Where the point in hand is to go, by coordinates or under the finger. */
  send(to: XY) {
    this.to = rounded(to);
    this.#for = this.point?.id ?? null;
  }

  putBack = () => {
    this.to = null;
    this.#for = null;
    this.reason = '';
  };

  #now = () => ({ who: this.#site.initials, when: localSecond() });

  /** One step each; whether it was done. */
  move(): boolean {
    const { point, goes } = this;
    const edit =
      point && goes && planElsewhere(this.#site.site, point, goes, this.reason, this.#now());
    return !!edit && !!point && this.#made(`Move ${point.id}`, edit);
  }

  /** Points laid together that still stand as they were laid. */
  readonly layings = $derived.by(() => layingsOf(this.#site.site));

  /** All of them taken out; one step. */
  takeBack(laying: Laying): boolean {
    const edit = takeBackEdit(this.#site.site, laying);
    return edit !== null && this.#made(`Take back ${laying.points.length} points`, edit);
  }

  drop(): boolean {
    const { point } = this;
    if (!point || this.reason.trim() === '') return false;
    const { who, when } = this.#now();
    return this.#made(`Drop ${point.id}`, dropPlanned(point, this.reason, who, when));
  }

  #made(label: string, edit: Parameters<OpenSite['edit']>[1]): boolean {
    const { ok } = this.#site.edit(label, edit);
    if (ok) this.putBack();
    return ok;
  }

  #toGrid = ([east, north]: XY): XY => [this.#length(east), this.#length(north)];
  #length = (n: number) => inUnits(n as Metres, this.unit);

  /** The planned point within reach of a place, the nearest. */
  #pointAt(place: XY, reach: number): string | null {
    let [id, least]: [string | null, number] = [null, reach];
    for (const location of this.planned) {
      const own = location.id === this.point?.id ? this.goes : null;
      const at = own ?? placeIn(location, this.unit);
      const apart = at ? distanceBetween(at, place) : Infinity;
      if (apart <= least) [id, least] = [location.id, apart];
    }
    return id;
  }

  readonly #mover: MapTool = {
    press: (at, reach) => {
      const id = this.#pointAt(this.#toGrid(at), this.#length(reach));
      if (id !== null) this.#site.select(id);
    },
    point: () => {},
    grab: (at, reach) => {
      const id = this.#pointAt(this.#toGrid(at), this.#length(reach));
      if (id === null) return false;
      this.#site.select(id);
      this.held = true;
      return true;
    },
    drag: (at) => this.send(this.#toGrid(at)),
    drop: () => (this.held = false),
  };

  get tool(): MapTool | null {
    return this.onMap ? this.#mover : null;
  }
}
