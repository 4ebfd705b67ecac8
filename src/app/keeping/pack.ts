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

/**
 * A worker that says nothing for so long is taken for dead, in ms: the browser
 * ends workers without a word when memory is short. Blocks are taken at once;
 * putting a million rows together takes seconds.
 */
const SILENT = { block: 20_000, whole: 120_000 };

async function packed<T>(
  { package: given, ...rest }: WholeSite,
  finish: (packing: Packer, kept: KeptPackage, rest: Rest) => T | Promise<T>,
): Promise<T> {
  const numbers = new Map<Block, number>();
  for (const block of blocksOf(given)) numbers.set(block, numbers.size);
  const kept = shellOf(given, (block) => numbers.get(block) ?? -1);
  const here = () => {
    const packing = new Packing();
    for (const [block, number] of numbers) packing.addBlock(number, block);
    return finish(packing, kept, rest);
  };
  if (typeof Worker === 'undefined') return here();
  const worker = new Worker(new URL('./pack-worker.ts', import.meta.url), { type: 'module' });
  const failed = new Promise<never>((_, reject) => {
    worker.onerror = ({ message }) => reject(new Error(message));
  });
  try {
    const packing = wrap<Packing>(worker);
    // One by one: the page is never held up by the copying of more than one.
    for (const [block, number] of numbers)
      await Promise.race([packing.addBlock(number, block), failed, silence(SILENT.block)]);
    return await Promise.race([finish(packing, kept, rest), failed, silence(SILENT.whole)]);
  } catch {
    // Better a page that stands still for a moment than a site that can't be saved.
    return await here();
  } finally {
    worker.terminate();
  }
}

const silence = (ms: number) =>
  new Promise<never>((_, reject) => setTimeout(() => reject(new Error('no answer')), ms));
