import { hasColumns, readingColumns } from '../../domain/lab/site-columns';
import type { OpenSite } from '../open-site.svelte';
import { takeSteps } from '../open-in-steps';

/** Asking for the results of every event: the first time all of them are read, in steps in which the page answers. */
export class EveryEvent {
  readonly #site: OpenSite;
  /** The share read so far; null while nothing is being read. */
  share = $state<number | null>(null);
  #asking = 0;

  constructor(site: OpenSite) {
    this.#site = site;
  }

  /** Whether they are asked for, or will be once they are read. */
  get isAsked(): boolean {
    return this.#site.asked.allEvents || this.share !== null;
  }

  ask = async (allEvents: boolean) => {
    const asking = ++this.#asking;
    const isWanted = () => asking === this.#asking;
    // Again, should the site change while it is read.
    for (let { site } = this.#site; allEvents && !hasColumns(site); { site } = this.#site) {
      this.share = 0;
      const { length } = site.results;
      const report = (done: number) => (this.share = done / length);
      if (!(await takeSteps(readingColumns(site), report, isWanted))) return;
    }
    this.share = null;
    this.#site.asked = { ...this.#site.asked, allEvents };
  };
}
