import type { DataPackage } from '../../domain/site/data-package';
import { fail, ok, type Result } from '../../domain/result';
import type { Block } from '../../domain/site/table';
import type { Trouble } from '../../io/keeping/database';
import { aboutBytesOf, blocksOf, shellOf, type KeptPackage } from '../../io/keeping/kept-package';
import type { SiteStore } from '../../io/keeping/site-store';

/** Bytes of blocks one transaction writes, about: some milliseconds of the page's time. */
const BYTES_AT_ONCE = 2_000_000;

/** Which blocks of a site are on the disk, and under which numbers. */
export class StoredBlocks {
  #numbers = new WeakMap<Block, number>();
  #there = new Set<number>();
  #next = 1;

  /** Forget what is on the disk: it is another, or was cleared. */
  clear(): void {
    this.#there.clear();
  }

  /** Start from what was read. @param there  the numbers of all blocks on the disk */
  take(blocks: ReadonlyMap<number, Block>, there: readonly number[]): void {
    for (const [number, block] of blocks) this.#numbers.set(block, number);
    this.#there = new Set(there);
    this.#next = there.reduce((most, number) => Math.max(most, number), 0) + 1;
  }

  /** Only these are left. */
  keepOnly(there: ReadonlySet<number>): void {
    this.#there = new Set(there);
  }

  /** A site without its blocks, all of which are on the disk. */
  shellOf(site: DataPackage): KeptPackage {
    return shellOf(site, (block) => this.#numbers.get(block) ?? -1);
  }

  /** Write some of a site's blocks that are not on the disk yet; false when all are. */
  async writeSome(
    store: SiteStore,
    id: string,
    site: DataPackage,
  ): Promise<Result<boolean, Trouble>> {
    const some = new Map<number, Block>();
    let bytes = 0;
    for (const block of blocksOf(site)) {
      if (this.#there.has(this.#numbers.get(block) ?? -1)) continue;
      const number = this.#next++;
      this.#numbers.set(block, number);
      some.set(number, block);
      bytes += aboutBytesOf(block);
      if (bytes > BYTES_AT_ONCE) break;
    }
    if (some.size === 0) return ok(false);
    const made = await store.putBlocks(id, some);
    if (!made.ok) return fail(made.problem);
    for (const number of some.keys()) this.#there.add(number);
    return ok(true);
  }
}
