import { fileBefore } from '../../io/import/taking-order';
import type { ListedTable, PreviewShown } from './importing';

/** Why no row of a file can be taken yet, and the file that may have to come first. */
export type NoneTaken = { readonly says: string; readonly first: ListedTable | null };

/** Rows that stand by themselves, in a site that is still empty too. */
const NEEDS_NO_LOCATION = new Set<string>(['locations', 'features', 'screening_levels']);

/**
 * Null where rows can be taken, or there is nothing to take.
 *
 * @param waiting  the other files
 * @param locations  how many the site has
 */
export function noneTaken(
  { account, mapping, asks }: PreviewShown,
  answered: (id: string) => boolean,
  waiting: readonly ListedTable[],
  locations: number,
): NoneTaken | null {
  if (account.taken > 0 || account.refused === 0) return null;
  const open = asks.filter(({ id, needed }) => needed && !answered(id)).length;
  const first = fileBefore(mapping.form, waiting);
  const says = [
    `None of the ${account.refused} rows can be taken yet.`,
    open > 0 ? 'The questions below are open.' : '',
    NEEDS_NO_LOCATION.has(mapping.form)
      ? ''
      : locations === 0
        ? 'The site has no locations yet: take a file of locations first, such as the survey.'
        : first
          ? `It may name what is in ${first.name}.`
          : '',
  ];
  return { says: says.filter(Boolean).join(' '), first };
}
