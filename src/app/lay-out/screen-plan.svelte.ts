import { chosen } from '../../domain/layout/given';
import { conditionsAt, layerNames } from '../../domain/layout/field-plan';
import { pushedInAll } from '../../domain/layout/rods';
import {
  depthsBy,
  isMove,
  setAll,
  setScreensEdit,
  type TypedRule,
} from '../../domain/layout/set-screens';
import { metres } from '../../domain/units';
import type { OpenSite } from '../open-site.svelte';
import type { FieldSheets } from './field-sheets.svelte';
import type { LayingPlan } from './laying-plan.svelte';

/** Reckoned live for so many points at most. */
const MOST_TRIED = 1000;

/** Rules for the screens of the planned points. Typed in the site's vertical unit. */
export class ScreenPlan {
  #site: OpenSite;
  #sheets: FieldSheets;
  #laying: LayingPlan;
  rules: TypedRule[] = $state([]);
  leastGap = $state(2);
  toolOffset: number | null = $state(null);
  boringDepth: number | null = $state(null);

  constructor(site: OpenSite, sheets: FieldSheets, laying: LayingPlan) {
    this.#site = site;
    this.#sheets = sheets;
    this.#laying = laying;
    if (this.unit === 'm') this.leastGap = 0.6;
    this.add();
  }

  get unit() {
    return this.#site.site.settings.verticalUnit;
  }

  add() {
    const [exposed, amount] = this.unit === 'm' ? [1.2, 0.6] : [4, 2];
    const kind = this.rules.length === 0 ? 'straddle' : 'below water';
    this.rules.push({ kind, exposed, amount, part: 'mid', at: 'top', layer: '' });
  }

  remove(rule: number) {
    this.rules.splice(rule, 1);
  }

  /** Names of layers logged on the site. */
  readonly layers = $derived.by(() => layerNames(this.#site.site));

  readonly #common = $derived.by(() => {
    const given = (value: number | null, name: string) =>
      value === null || !Number.isFinite(value) ? null : chosen(value, this.unit, name);
    return {
      toolOffset: given(this.toolOffset, 'tip to screen base'),
      boringDepth: given(this.boringDepth, 'depth of the boring'),
      leastGap: metres(this.leastGap, this.unit),
      unit: this.unit,
    };
  });
  readonly set = $derived.by(() => setAll(this.#sheets.points, this.rules, this.#common));

  /** What the layout being tried would be pushed in all, by these rules; null over so many points. */
  readonly tried = $derived.by(() => {
    const { clear, open } = this.#laying;
    if (!open || clear.length > MOST_TRIED) return null;
    const conditions = conditionsAt(this.#site.site, this.#site.flow);
    const places = clear.map(({ at }) => conditions(at));
    return pushedInAll(depthsBy(places, this.rules, this.#common));
  });
  readonly settable = $derived.by(
    () => this.set.filter(({ made }) => made.settings.some(({ ok }) => ok)).length,
  );
  readonly moved = $derived.by(() => this.set.filter(({ moves }) => moves.some(isMove)).length);

  /** Write the screens into the site, one step; whether it was done. */
  keep(): boolean {
    const edit = setScreensEdit(this.set, this.#site.site, this.unit, this.toolOffset);
    return edit !== null && this.#site.edit(`Set screens at ${this.settable} points`, edit).ok;
  }
}
