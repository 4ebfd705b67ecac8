import {
  STEPS,
  fieldPoints,
  nextPoint,
  progressOf,
  type Step,
} from '../../domain/record/field-points';
import {
  fieldRulesOf,
  ratesOf,
  staticRuleOf,
  type FieldRules,
} from '../../domain/record/field-rules';
import { gaugePoints } from '../../domain/record/gauging';
import { gapsOf } from '../../domain/record/gaps';
import { newRoundName, roundOf } from '../../domain/record/rounds';
import type { Typed } from '../../domain/record/typed';
import type { Edit } from '../../domain/site/edits/apply';
import { today } from './clock';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';

/** Lists of what there is to do, as their keys name them. */
export const LISTS = ['Push points', 'Wells', 'Samples', 'Field sheet'] as const;

/**
 * Recording in the field: which step is in hand, what is typed and not yet
 * confirmed, and the round the readings belong to. What is typed stays while a
 * person looks at another point; only what is confirmed is kept with the site.
 */
export class Recording {
  readonly #site: OpenSite;
  readonly points = $derived.by(() => fieldPoints(this.#site.site));
  readonly gaps = $derived.by(() => gapsOf(this.points));
  readonly progress = $derived(progressOf(this.points));
  readonly #drafts: Record<string, { typed: Record<string, string>; begin: () => Typed }> = {};
  /** What was typed for the last confirmation, for taking it back. */
  #last: { readonly draft: string; readonly typed: Typed; readonly step: Step } | null = null;
  #asked: { readonly point: string; readonly step: Step } | null = $state.raw(null);
  #round: string | null = $state(null);
  /** The last thing confirmed, said until the next step is begun. */
  confirmed: string | null = $state(null);
  /** Why the last confirmation was not taken. */
  refused: string | null = $state(null);
  /** The list looked at while no point is in hand. */
  list: (typeof LISTS)[number] = $state('Push points');
  isPrintingCustody = $state(false);
  /** What the crew goes by here, kept with the site. */
  readonly rules = $derived.by(() => fieldRulesOf(this.#site.site.settings));
  readonly staticRule = $derived.by(() => staticRuleOf(this.rules));
  readonly rates = $derived.by(() => ratesOf(this.rules));
  readonly gauges = $derived.by(() => gaugePoints(this.#site.site));

  constructor(site: OpenSite) {
    this.#site = site;
  }

  /** Whether what was confirmed is on the disk: only then is it said to be. */
  get kept(): 'kept' | 'on its way' | 'not kept' {
    const state = this.#site.keeper?.state ?? 'not-kept';
    return state === 'saved' ? 'kept' : state === 'saving' ? 'on its way' : 'not kept';
  }

  /** The point in hand; null while the list is looked at. */
  get point() {
    return this.points.find(({ location }) => location.id === this.#site.selected) ?? null;
  }

  /** The well or gauge in hand; null for a push point. */
  get gauge() {
    return this.gauges.find(({ location }) => location.id === this.#site.selected) ?? null;
  }

  /** Go by something else from now on. */
  setRule(label: string, change: Partial<FieldRules>) {
    const fieldRules = { ...this.rules, ...change };
    return this.#site.edit(label, { kind: 'change-settings', settings: { fieldRules } });
  }

  /** The step in hand: the one asked for, else the first not done, else the last. */
  get step(): Step {
    const { point } = this;
    if (point && this.#asked?.point === point.location.id) return this.#asked.step;
    return point?.next ?? 'close';
  }

  go = (step: Step) => {
    const { point } = this;
    if (point) this.#asked = { point: point.location.id, step };
  };

  openPoint = (id: string, step: Step | null = null, isSaidStill = false) => {
    if (!isSaidStill) this.confirmed = this.refused = null;
    this.#asked = step && { point: id, step };
    this.#site.select(id);
  };

  /** The next point with something to do; null when there is none. */
  get following() {
    return nextPoint(this.points, this.#site.selected);
  }

  /** The round readings are put in: as chosen, else the one under way today, else a new one. */
  get round(): string {
    const day = today();
    return this.#round ?? roundOf(this.#site.site, day)?.id ?? newRoundName(this.#site.site, day);
  }

  set round(id: string) {
    this.#round = id;
  }

  /** What is typed in a form, by a name of its own. Begun with what is usual, and again once confirmed. */
  draft<Column extends string>(
    name: string,
    begin: () => Readonly<Record<Column, string>>,
  ): Record<Column, string> {
    const before = this.#drafts[name];
    if (before) {
      before.begin = begin;
      return before.typed;
    }
    const typed: Record<Column, string> = $state({ ...begin() });
    this.#drafts[name] = { typed, begin };
    return typed;
  }

  /** Confirm what is typed: one step to undo, kept at once. Its form begins anew. */
  confirm(label: string, edit: Edit, draft: string, then: Step | null = null): boolean {
    const { step } = this;
    const made = this.#site.edit(label, edit);
    if (!made.ok) {
      this.refused =
        made.problem === 'read-only'
          ? 'Not taken: another window is writing to this site.'
          : 'Not taken: the site has changed meanwhile. Look again and confirm.';
      return false;
    }
    this.refused = null;
    this.confirmed = label;
    const form = this.#drafts[draft];
    this.#last = { draft, typed: { ...form?.typed }, step };
    if (form) Object.assign(form.typed, form.begin());
    this.go(then ?? step);
    return true;
  }

  /** Whether the last thing done to the site is what was last confirmed here. */
  get canTakeBack(): boolean {
    return this.confirmed !== null && this.#site.undoLabel === this.confirmed;
  }

  /** Undo the last confirmation: what was typed for it stands in its form again. */
  takeBack = () => {
    const last = this.#last;
    if (!this.canTakeBack || !last) return;
    this.#site.undo();
    this.confirmed = null;
    const form = this.#drafts[last.draft];
    if (form) Object.assign(form.typed, last.typed);
    this.go(last.step);
  };

  /** The step after another that this point needs; the same where there is none. */
  after(step: Step): Step {
    const { point } = this;
    const later = STEPS.slice(STEPS.indexOf(step) + 1);
    return later.find((one) => point?.steps[one] !== 'not needed') ?? step;
  }
}

/** The recording of an open site, one for as long as it is open. */
export const recordingOf = onePerSite((site) => new Recording(site));
