import type { DataPackage } from '../../domain/site/data-package';
import type { StoredBlocks } from './stored-blocks';
import type { Surroundings } from './surroundings';

/** The site after an entry. */
export type State = { readonly n: number; readonly package: DataPackage };

/** So many times the usual entries, and a snapshot no longer waits for a pause in the edits. */
const OVERDUE = 4;

/** Which site a snapshot is written of, and by whom. */
export type Of = {
  readonly id: string;
  readonly by: string;
  readonly bytesOf: (site: DataPackage) => number;
};

/** Writes the state whole now and then, piece by piece between edits, so that a site opens as fast however much was done to it. */
export class Snapshots {
  readonly #around: Surroundings;
  readonly #blocks: StoredBlocks;
  #base = 0;
  #floor = 0;
  #isWanted = false;
  #current: State | null = null;

  constructor(around: Surroundings, blocks: StoredBlocks) {
    this.#around = around;
    this.#blocks = blocks;
  }

  /** States after this entry are found again by number. */
  get floor(): number {
    return this.#floor;
  }

  /** Start from what was read. */
  take(base: number, last: number): void {
    this.#base = base;
    // The states in between are not in memory, and can't be stepped back to.
    this.#floor = last;
    this.#isWanted = base < last;
  }

  /** The site is about to be written whole as it stands after an entry. */
  begin(n: number): void {
    this.#floor = n;
    this.#current = null;
  }

  /** It was. */
  wasWritten(n: number): void {
    this.#base = n;
  }

  isDue(durable: State): boolean {
    const isDue = durable.n - this.#base >= this.#around.snapshotEvery || this.#isWanted;
    return this.#current !== null || isDue;
  }

  isOverdue(durable: State): boolean {
    return durable.n - this.#base > OVERDUE * this.#around.snapshotEvery;
  }

  /** One piece of a snapshot, between edits. */
  async on(durable: State, { id, by, bytesOf }: Of): Promise<void> {
    this.#isWanted = false;
    this.#current ??= { ...durable };
    const { n, package: site } = this.#current;
    // From now on entries may not lean on states before it.
    this.#floor = Math.max(this.#floor, n);
    const { store, locks } = this.#around;
    const some = await this.#blocks.writeSome(store, id, site);
    if (!some.ok) return this.#giveUp(durable);
    if (some.value) return;
    const snapshot = { n, kept: this.#blocks.shellOf(site) };
    const made = await store.putSnapshot(id, snapshot, bytesOf(site), locks ? null : by);
    if (!made.ok) return this.#giveUp(durable);
    this.#blocks.keepOnly(made.value);
    this.#base = n;
    this.#current = null;
  }

  /** The journal has it all: the next snapshot is due after as many entries again. */
  #giveUp(durable: State): void {
    this.#base = durable.n;
    this.#current = null;
  }
}
