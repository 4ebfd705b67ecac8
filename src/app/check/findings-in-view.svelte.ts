import type { ReviewedFinding } from '../../domain/findings/finding';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';

/** Rows of a table from which checking an event would hold the page for more than a frame. */
const LARGE = 20_000;

/**
 * The findings of the event as a page shows them. On a large site they are
 * worked out once the event itself is on the page; until then those before stand.
 */
export class FindingsInView {
  readonly #site: OpenSite;
  /** What is to be checked, anew with each edit and each event. */
  readonly #asked = $derived.by(() => [this.#site.site, this.#site.shown.event]);
  #answered = $state.raw<unknown>(null);
  readonly #isLarge = $derived.by(() =>
    Object.values(this.#site.package.tables).some(({ size }) => size > LARGE),
  );
  #last: readonly ReviewedFinding[] = [];
  /** How often somebody asked to be shown them. */
  revealed = $state(0);

  readonly isChecking = $derived.by(() => this.#isLarge && this.#answered !== this.#asked);

  readonly all: readonly ReviewedFinding[] = $derived.by(() =>
    this.isChecking ? this.#last : (this.#last = this.#site.findings),
  );

  constructor(site: OpenSite) {
    this.#site = site;
    $effect(() => {
      const now = this.#asked;
      const timer = setTimeout(() => (this.#answered = now));
      return () => clearTimeout(timer);
    });
  }

  /** Bring the list of findings into view. */
  reveal = () => {
    this.revealed += 1;
  };
}

/** The findings of a site in view; the same one each time it is asked for. */
export const findingsInView = onePerSite((site) => new FindingsInView(site));
