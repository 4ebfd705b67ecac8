import { chanceAsLaid, hidingPlaces } from '../../domain/layout/as-laid';
import { hitChance, spacingForChance, type Target } from '../../domain/layout/hit-chance';
import { seeded } from '../../domain/layout/seeded';
import type { LayingPlan } from './laying-plan.svelte';

const TRIALS = 20_000;

/** What a layout being tried is asked: would it hit something of this size? Lengths in the grid's unit. */
export class HitQuestion {
  #laying: LayingPlan;
  radius = $state(50);
  shape = $state(1);
  lies: 'any' | 'flow' | 'rows' = $state('any');
  /** Percent. */
  wanted = $state(90);
  picture = $state(false);

  constructor(laying: LayingPlan) {
    this.#laying = laying;
    if (laying.unit === 'm') this.radius = 15;
  }

  readonly target: Target | null = $derived.by(() => {
    const { radius, shape } = this;
    if (!(radius > 0 && shape >= 0.05 && shape <= 1)) return null;
    const { flow, direction } = this.#laying;
    const lies = this.lies === 'any' ? null : this.lies === 'flow' ? flow : direction;
    return { radius, shape, lies };
  });
  readonly exact = $derived.by(() => {
    const { repeat, direction } = this.#laying;
    return repeat && this.target ? hitChance(repeat, direction, this.target) : null;
  });
  readonly spacing = $derived.by(() => {
    const { pattern, direction, ratio } = this.#laying;
    return (
      this.target && spacingForChance(pattern, direction, this.target, this.wanted / 100, ratio)
    );
  });
  readonly #points = $derived.by(() => this.#laying.clear.map(({ at }) => at));
  readonly tried = $derived.by(() => {
    const { inside, seed } = this.#laying;
    if (!inside || !this.target) return null;
    return chanceAsLaid(this.#points, inside, this.target, TRIALS, seeded(seed));
  });
  readonly hiding = $derived.by(() => {
    const { inside } = this.#laying;
    if (!this.picture || !inside || !this.target) return null;
    return hidingPlaces(this.#points, inside, this.target, 160);
  });
}
