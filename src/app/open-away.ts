import { wrap, type Remote } from 'comlink';
import { ok, type Result } from '../domain/result';
import type { Problem } from '../domain/site/problem';
import type { Block } from '../domain/site/table';
import { packageOf } from '../io/keeping/kept-package';
import type { Digests } from '../io/keeping/folder';
import type { WholeSite } from '../io/keeping/whole-site';
import { readInSteps, type RowsRead } from './open-in-steps';
import { Opening } from './opening';
import { OpenSite } from './open-site.svelte';
import { pickedFiles } from './picked-files';

export type OpenedAway = {
  readonly site: WholeSite;
  readonly problems: readonly Problem[];
  readonly digests: Digests;
};

type Room = Opening | Remote<Opening>;
type Tell = (rows: RowsRead) => void;

/** A site from files picked or dropped; a sentence where there is none in them. */
export async function openAway(
  picked: readonly File[],
  tell?: Tell,
): Promise<Result<OpenedAway, string>> {
  const ask = await asking(picked);
  return ask.ok ? inWorker(ask.value, tell) : ask;
}

/** The site in a folder of this device; a sentence where there is none. */
export const openFolderAway = (
  folder: FileSystemDirectoryHandle,
  tell?: Tell,
): Promise<Result<OpenedAway, string>> => inWorker((room) => room.folder(folder), tell);

/**
 * A site ready for use: unpacked and taken apart in a worker, brought over and
 * read block by block while the page answers.
 */
async function inWorker(
  ask: Ask,
  tell: Tell = () => undefined,
): Promise<Result<OpenedAway, string>> {
  if (typeof Worker === 'undefined') return broughtOver(new Opening(), ask, tell);
  const worker = new Worker(new URL('./open-worker.ts', import.meta.url), { type: 'module' });
  const failed = new Promise<never>((_, reject) => {
    worker.onerror = ({ message }) => reject(new Error(message || 'the browser ended its worker'));
  });
  try {
    return await Promise.race([broughtOver(wrap<Opening>(worker), ask, tell), failed]);
  } catch {
    // Better a page that stands still for a moment than a site that can't be opened.
    return await broughtOver(new Opening(), ask, tell);
  } finally {
    worker.terminate();
  }
}

type Opened = ReturnType<Opening['files']>;
type Ask = (room: Room) => Opened | Promise<Opened>;

async function asking(picked: readonly File[]): Promise<Result<Ask, string>> {
  const [only, ...more] = picked;
  if (only && more.length === 0 && /\.zip$/i.test(only.name)) {
    const bytes = new Uint8Array(await only.arrayBuffer());
    return ok((room) => room.zip(bytes));
  }
  // Its files' paths are lost on their way into a worker: they are read here.
  const files = await pickedFiles(picked);
  return files.ok ? ok((room) => room.files(files.value)) : files;
}

async function broughtOver(
  room: Room,
  ask: Ask,
  report: Tell,
): Promise<Result<OpenedAway, string>> {
  const opened = await ask(room);
  if (!opened.ok) return opened;
  const { kept, sizes, carried, problems, digests } = opened.value;
  const rows = sizes.reduce((sum, size) => sum + size, 0);
  const blocks = new Map<number, Block>();
  let done = 0;
  // Bringing over and reading are about as long: each is half of what is told.
  const tell = (now: number) => report({ done: Math.round(now / 2), of: rows });
  for (const [number, size] of sizes.entries()) {
    blocks.set(number, await room.block(number));
    tell((done += size));
  }
  const { package: given } = packageOf(kept, blocks, null);
  await readInSteps(given, ({ done: read }) => tell(rows + read));
  await new OpenSite({ package: given, problems }).workOut();
  return ok({ site: { package: given, carried, lines: [] }, problems, digests });
}
