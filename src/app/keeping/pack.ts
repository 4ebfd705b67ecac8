import { wrap, type Remote } from 'comlink';
import type { Block } from '../../domain/site/table';
import { blocksOf, shellOf, type KeptPackage } from '../../io/keeping/kept-package';
import type { WholeSite } from '../../io/keeping/whole-site';
import type { Files } from '../../io/package/files';
import { Packing } from './pack-files';

/** The zip of a site's folder, made in a worker while the page goes on. */
export const zipped = (site: WholeSite): Promise<Uint8Array> =>
  packed(site, (packing, kept, rest) => packing.zip(kept, rest));

/** The files of a site's folder, made in a worker while the page goes on. */
export const unzipped = (site: WholeSite): Promise<Files> =>
  packed(site, (packing, kept, rest) => packing.files(kept, rest));

type Rest = Omit<WholeSite, 'package'>;
type Packer = Packing | Remote<Packing>;

async function packed<T>(
  { package: given, ...rest }: WholeSite,
  finish: (packing: Packer, kept: KeptPackage, rest: Rest) => T | Promise<T>,
): Promise<T> {
  const numbers = new Map<Block, number>();
  for (const block of blocksOf(given)) numbers.set(block, numbers.size);
  const kept = shellOf(given, (block) => numbers.get(block) ?? -1);
  if (typeof Worker === 'undefined') {
    const packing = new Packing();
    for (const [block, number] of numbers) packing.addBlock(number, block);
    return finish(packing, kept, rest);
  }
  const worker = new Worker(new URL('./pack-worker.ts', import.meta.url), { type: 'module' });
  const failed = new Promise<never>((_, reject) => {
    worker.onerror = ({ message }) => reject(new Error(message));
  });
  try {
    const packing = wrap<Packing>(worker);
    const made = async () => {
      // One by one: the page is never held up by the copying of more than one.
      for (const [block, number] of numbers) await packing.addBlock(number, block);
      return finish(packing, kept, rest);
    };
    return await Promise.race([made(), failed]);
  } finally {
    worker.terminate();
  }
}
