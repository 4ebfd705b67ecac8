import type { DataPackage } from '../../domain/site/data-package';
import { fail, ok, type Result } from '../../domain/result';
import type { Block } from '../../domain/site/table';
import { migrated, type Steps } from '../package/migrate';
import { KEPT_FORMAT, type KeptSite, type Trouble } from './database';
import { replay, type Numbered } from './entry';
import { blockIdsOf, packageOf, type KeptPackage, type MissingRows } from './kept-package';
import type { SiteStore } from './site-store';

/** A site as it stands after the last entry of its journal. */
export type ReadSite = {
  readonly site: KeptSite;
  readonly package: DataPackage;
  /** The entry the snapshot holds: states after it can be stepped back to by number. */
  readonly base: number;
  /** Blocks by the number they are kept under. */
  readonly blocks: ReadonlyMap<number, Block>;
  /** Rows that could not be read, and stand blank. */
  readonly missing: readonly MissingRows[];
  /** How many entries could not be played again; what they did stands in the journal. */
  readonly unplayed: number;
};

/** Steps of a kept site from older layouts, once it is played up to its last entry. */
const KEPT_STEPS: Steps<DataPackage> = new Map();

/** Blocks read in one go: about 4 MB, a few milliseconds of the page's time. */
const BLOCKS_AT_ONCE = 4;

/** A snapshot can be replaced, by the window that writes, while another reads its blocks. */
const MOST_TRIES = 5;

const named = (kept: KeptPackage, ahead: readonly Numbered[]) => [
  ...new Set([
    ...blockIdsOf(kept),
    ...ahead.flatMap((entry) =>
      entry.ahead.kind === 'blocks' ? blockIdsOf(entry.ahead.kept) : [],
    ),
  ]),
];

/** Read a kept site: its snapshot, and what came after played on it. */
export async function readKept(
  store: SiteStore,
  id: string,
  steps: Steps<DataPackage> = KEPT_STEPS,
): Promise<Result<ReadSite, Trouble>> {
  const known = new Map<number, Block>();
  for (let attempt = 1; ; attempt++) {
    const head = await store.head(id);
    if (!head.ok) return head;
    const { site, snapshot, ahead } = head.value;
    if (site.format > KEPT_FORMAT) return fail({ kind: 'newer' });
    const blocks = await readBlocks(store, id, named(snapshot.kept, ahead), known);
    if (!blocks.ok) return blocks;
    const start = packageOf(snapshot.kept, blocks.value, null);
    const end = replay(start.package, snapshot.n, ahead, blocks.value);
    const missing = [...start.missing, ...end.missing];
    if (missing.length > 0 && attempt < MOST_TRIES) continue;
    const now = migrated(end.package, site.format, KEPT_FORMAT, steps);
    if (!now) return fail({ kind: 'failed', said: `it is in format ${site.format}` });
    return ok({
      site,
      package: now,
      base: snapshot.n,
      blocks: blocks.value,
      missing,
      unplayed: site.last - end.n,
    });
  }
}

async function readBlocks(
  store: SiteStore,
  id: string,
  numbers: readonly number[],
  known: Map<number, Block>,
): Promise<Result<ReadonlyMap<number, Block>, Trouble>> {
  const wanted = numbers.filter((number) => !known.has(number));
  for (let at = 0; at < wanted.length; at += BLOCKS_AT_ONCE) {
    const some = await store.blocks(id, wanted.slice(at, at + BLOCKS_AT_ONCE));
    if (!some.ok) return some;
    for (const [number, block] of some.value) known.set(number, block);
  }
  return ok(known);
}

/** What another window added to a state, played on it; null where it must be read anew. */
export async function readOn(
  store: SiteStore,
  id: string,
  from: { readonly package: DataPackage; readonly n: number },
): Promise<Result<{ readonly package: DataPackage; readonly site: KeptSite } | null, Trouble>> {
  const since = await store.since(id, from.n);
  if (!since.ok) return since;
  const { site, ahead } = since.value;
  const numbers = ahead.flatMap((entry) =>
    entry.ahead.kind === 'blocks' ? blockIdsOf(entry.ahead.kept) : [],
  );
  if (numbers.length > 0) return ok(null); // its blocks are not all here
  const end = replay(from.package, from.n, ahead, new Map());
  return ok(end.whole && end.n === site.last ? { package: end.package, site } : null);
}
