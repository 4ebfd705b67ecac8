import type { Block } from '../../domain/site/table';
import { packageOf, type KeptPackage } from '../../io/keeping/kept-package';
import { filesOf, type WholeSite } from '../../io/keeping/whole-site';
import { zipOf, type Files } from '../../io/package/files';

/** A site put together from its parts, which come one by one: blocks by number, then the rest. */
export class Packing {
  #blocks = new Map<number, Block>();

  addBlock(number: number, block: Block): void {
    this.#blocks.set(number, block);
  }

  files(kept: KeptPackage, rest: Omit<WholeSite, 'package'>): Files {
    const { package: given } = packageOf(kept, this.#blocks, null);
    return filesOf({ package: given, ...rest });
  }

  zip(kept: KeptPackage, rest: Omit<WholeSite, 'package'>): Uint8Array {
    return zipOf(this.files(kept, rest));
  }
}
