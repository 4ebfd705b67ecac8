import type { Block } from '../domain/site/table';
import { sentenceOf, type Problem } from '../domain/site/problem';
import { ok, fail, type Result } from '../domain/result';
import { blocksOf, shellOf, type KeptPackage } from '../io/keeping/kept-package';
import { readFolder, type Digests } from '../io/keeping/folder';
import { openWhole } from '../io/keeping/whole-site';
import { openZip, type Files } from '../io/package/files';

/** A site as its files have it, without its blocks: they are asked for by number. */
export type OpenedShell = {
  readonly kept: KeptPackage;
  /** Rows of each block. */
  readonly sizes: readonly number[];
  readonly carried: Files;
  readonly problems: readonly Problem[];
  /** Of each file of a folder of this device, to tell later what somebody else changed; none for other files. */
  readonly digests: Digests;
};

/** The files of a site opened away from the page; its blocks stay here until they are asked for. */
export class Opening {
  #blocks: Block[] = [];

  zip(bytes: Uint8Array): Result<OpenedShell, string> {
    const files = openZip(bytes);
    return files.ok ? this.files(files.value) : files;
  }

  /** A folder of this device, read where it is opened. */
  async folder(folder: FileSystemDirectoryHandle): Promise<Result<OpenedShell, string>> {
    const read = await readFolder(folder);
    return read.ok ? this.files(read.value.files, read.value.digests) : read;
  }

  files(files: Files, digests: Digests = {}): Result<OpenedShell, string> {
    const opened = openWhole(files);
    if (!opened.ok) return fail(sentenceOf(opened.problem));
    const { site, problems } = opened.value;
    this.#blocks = blocksOf(site.package);
    const numbers = new Map(this.#blocks.map((block, number) => [block, number]));
    const kept = shellOf(site.package, (block) => numbers.get(block) ?? -1);
    const sizes = this.#blocks.map(({ size }) => size);
    return ok({ kept, sizes, carried: site.carried, problems, digests });
  }

  block(number: number): Block {
    const block = this.#blocks[number];
    if (!block) throw new Error('There is no such block.');
    return block;
  }
}
