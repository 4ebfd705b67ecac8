import type { Progress } from '../../io/import/source-table';
import type { OpenSite } from '../open-site.svelte';
import type { ImportingAway } from './importing-away';

/**
 * Bring the edit of the last look over from the worker and make it: one step.
 *
 * @param isWanted  whether the site and the file are still those it was made for
 * @param tell  what is being done, and how far it has got
 */
export async function bringOver(
  away: ImportingAway,
  site: OpenSite,
  label: string,
  isWanted: () => boolean,
  tell: (doing: string, progress: Progress) => void,
) {
  const brought = await away.edit((progress) => tell('brought over', progress));
  const imported = await away.ask((room) => room.imported());
  return site.editInSteps(label, brought, imported ? [imported] : [], isWanted, ({ done, of }) =>
    tell('taken in', { done, of, rows: done }),
  );
}
