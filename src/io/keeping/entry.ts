import type { DataPackage } from '../../domain/site/data-package';
import { apply, type Edit } from '../../domain/site/edits/apply';
import type { Block } from '../../domain/site/table';
import { packageOf, type KeptPackage, type MissingRows } from './kept-package';

/**
 * What happened to a site, as the write-ahead journal keeps it to be played
 * again on the snapshot:
 * - an edit, small enough to be written out;
 * - a step back or forth to the state after an earlier entry (undo, redo);
 * - a state by its blocks, which are written before the entry: an import, or a
 *   step back to before the snapshot.
 */
export type Ahead =
  | { readonly kind: 'edit'; readonly edit: Edit }
  | { readonly kind: 'state'; readonly after: number }
  | { readonly kind: 'blocks'; readonly kept: KeptPackage };

/** Entries are numbered from 1 for as long as a site is kept; 0 is the site as it came. */
export type Numbered = { readonly n: number; readonly ahead: Ahead };

export type Replayed = {
  readonly package: DataPackage;
  /** The last entry played. */
  readonly n: number;
  /** Whether every entry was played; the site is as before the first that was not. */
  readonly whole: boolean;
  readonly missing: readonly MissingRows[];
};

/** Play the entries, in order, on the state after entry `from`. */
export function replay(
  start: DataPackage,
  from: number,
  entries: readonly Numbered[],
  blocks: ReadonlyMap<number, Block>,
): Replayed {
  const states = new Map([[from, start]]);
  const missing: MissingRows[] = [];
  let now = start;
  let last = from;
  const after = (ahead: Ahead): DataPackage | null => {
    switch (ahead.kind) {
      case 'edit': {
        const made = apply(now, ahead.edit);
        return made.ok ? made.value : null;
      }
      case 'state':
        return states.get(ahead.after) ?? null;
      case 'blocks': {
        const made = packageOf(ahead.kept, blocks, now);
        missing.push(...made.missing);
        return made.package;
      }
    }
  };
  for (const { n, ahead } of entries) {
    const next = n === last + 1 ? after(ahead) : null;
    if (!next) return { package: now, n: last, whole: false, missing };
    states.set(n, next);
    now = next;
    last = n;
  }
  return { package: now, n: last, whole: true, missing };
}

/** An edit larger than this is kept by its blocks. Characters of all its words and texts. */
const MOST_WRITTEN_OUT = 50_000;

/** Whether an edit is small enough to be written out in the journal. */
export function isSmall(edit: Edit): boolean {
  let left = MOST_WRITTEN_OUT;
  const take = (value: unknown): void => {
    if (left < 0) return;
    if (typeof value === 'string') left -= value.length + 4;
    else if (typeof value === 'object' && value !== null) {
      for (const [key, inner] of Object.entries(value)) {
        left -= key.length + 4;
        if (left < 0) return;
        take(inner);
      }
    } else left -= 8;
  };
  // Looked at before the walk: listing the keys of a million rows takes long.
  const rows = 'rows' in edit ? edit.rows.length : 'cells' in edit ? edit.cells.length : 0;
  if (rows * 16 > MOST_WRITTEN_OUT) return false;
  if (edit.kind === 'together') {
    if (!edit.edits.every(isSmall)) return false;
  }
  take(edit);
  return left >= 0;
}
