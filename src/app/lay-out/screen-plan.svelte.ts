import { chosen } from '../../domain/layout/given';
import { conditionsAt, layerNames } from '../../domain/layout/field-plan';
import { pushedInAll } from '../../domain/layout/rods';
import {
  depthsBy,
  isChanged,
  isMove,
  setAll,
  setScreensEdit,
  type ExpectedWater,
  type ScreenRules,
  type TypedRule,
} from '../../domain/layout/set-screens';
import { length } from '../../domain/show';
import { metres } from '../../domain/units';
import type { OpenSite } from '../open-site.svelte';
import type { FieldSheets } from './field-sheets.svelte';
import type { LayingPlan } from './laying-plan.svelte';

/** Reckoned live for so many points at most. */
const MOST_TRIED = 1000;

/** Rules for the screens of the planned points, begun from those they were last set by. Typed in the site's vertical unit. */
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
    const before = site.site.settings.screenRules;
    if (before) {
      this.rules = [...before.rules];
      ({ leastGap: this.leastGap, toolOffset: this.toolOffset } = before);
      this.boringDepth = before.boringDepth;
    } else {
      if (this.unit === 'm') this.leastGap = 0.6;
      this.add();
    }
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

  /** Where water is expected on the whole site, as typed. */
  readonly water: ExpectedWater = $derived.by(
    () => this.#site.site.settings.expectedWater ?? { depth: null, error: null },
  );

  /** Something of it typed; one step to undo. */
  expect(change: Partial<ExpectedWater>) {
    const expectedWater = { ...this.water, ...change };
    const edit = { kind: 'change-settings', settings: { expectedWater } } as const;
    return this.#site.edit('Water expected below ground', edit);
  }

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
  readonly #toSet = $derived.by(() =>
    this.set.filter((point) => isChanged(point, this.#common.toolOffset)),
  );
  /** Points whose screens these rules would write anew. */
  readonly settable = $derived.by(() => this.#toSet.length);
  /** Points with screens planned, by these rules or others. */
  readonly planned = $derived.by(
    () => this.set.filter(({ point }) => point.screens.length > 0).length,
  );
  /** How deep the planned screens are driven: ", tips from 9.50 ft to 11.30 ft below ground"; blank where none is. */
  readonly span = $derived.by(() => {
    const tips = this.set.flatMap(({ point }) =>
      point.screens.flatMap(({ planned_tip_depth: tip }) => (tip ? [tip.value] : [])),
    );
    if (tips.length === 0) return '';
    const [high, low] = [Math.min(...tips), Math.max(...tips)].map((tip) =>
      length(metres(tip), this.unit),
    );
    return high === low
      ? `, tips at ${low} below ground`
      : `, tips from ${high} to ${low} below ground`;
  });
  readonly moved = $derived.by(() => this.set.filter(({ moves }) => moves.some(isMove)).length);

  /** Write the screens that change into the site, and the rules they are set by; one step; whether it was done. */
  keep(): boolean {
    const { settable } = this;
    const screens = setScreensEdit(this.#toSet, this.#site.site, this.unit, this.toolOffset);
    if (screens === null) return false;
    const screenRules: ScreenRules = {
      rules: $state.snapshot(this.rules),
      leastGap: this.leastGap,
      toolOffset: this.toolOffset,
      boringDepth: this.boringDepth,
    };
    const rules = { kind: 'change-settings', settings: { screenRules } } as const;
    const together = { kind: 'together', edits: [screens, rules] } as const;
    return this.#site.edit(`Set screens at ${settable} points`, together).ok;
  }
}
