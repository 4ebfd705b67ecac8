import type { FolderProblem } from '../../io/keeping/folder';
import type { Trouble } from '../../io/keeping/database';
import type { MissingRows } from '../../io/keeping/kept-package';

const edits = (count: number) => (count === 1 ? '1 edit is' : `${count} edits are`);
const SAVE_A_COPY = 'Save the site to a file before closing this window.';

/** Why edits are not kept, and what to do. @param unsaved  edits that are only in memory */
export function troubleWords(trouble: Trouble, unsaved: number): string {
  const only = unsaved > 0 ? ` ${edits(unsaved)} only in memory.` : '';
  switch (trouble.kind) {
    case 'full':
      return `Not saved: this browser’s room on the disk is full.${only} Make room, or save the site to a file; saving is tried again by itself.`;
    case 'refused':
      return `Not saved: this browser keeps nothing for this page, as in a private window.${only} ${SAVE_A_COPY}`;
    case 'newer':
      return `Not saved: a newer version of this app has opened the sites kept here.${only} Save the site to a file, then reload the page.`;
    case 'gone':
      return `Not saved: the site is no longer in this browser.${only} ${SAVE_A_COPY}`;
    case 'changed-elsewhere':
      return `Not saved: the site was changed in another window.${only} Keep this one as a copy, or reload to see the other.`;
    case 'failed':
      return `Not saved: the browser could not write (${trouble.said}).${only} Saving is tried again by itself; save the site to a file to be sure.`;
  }
}

/** Why a kept site does not open. */
export function openingWords(trouble: Trouble): string {
  switch (trouble.kind) {
    case 'newer':
      return 'This site was kept by a newer version of this app. Reload the page to get it.';
    case 'gone':
      return 'This site is no longer in this browser.';
    case 'refused':
      return 'This browser keeps nothing for this page, as in a private window.';
    case 'full':
    case 'changed-elsewhere':
    case 'failed':
      return `This site could not be read${trouble.kind === 'failed' ? ` (${trouble.said})` : ''}. Reload the page and try again.`;
  }
}

export const READ_ONLY =
  'This site is open in another window and can only be read here. When that window is closed, it can be edited here.';

export const OPEN_ELSEWHERE = 'This site is open in a window. Close it there first.';

/** What was lost on the way in, for a list of problems. */
export function lossWords(missing: readonly MissingRows[], unplayed: number): string[] {
  const rows = missing.map(
    ({ table, from, to }) =>
      `${table}, rows ${from + 2} to ${to + 2}: the browser no longer has them; they stand blank.`,
  );
  const entries =
    unplayed === 0
      ? []
      : [
          `The last ${unplayed === 1 ? 'edit' : `${unplayed} edits`} could not be made again; what was typed stands in the journal.`,
        ];
  return [...rows, ...entries];
}

/** Why a folder was not saved to. */
export function folderWords(problem: FolderProblem): string {
  if (problem.kind === 'not-written')
    return `The folder was not written: ${problem.said || 'the browser refused'}. The site is still kept in this browser.`;
  const [first = '', ...more] = problem.paths;
  const files = more.length === 0 ? first : `${first} and ${more.length} more`;
  return `Nothing was written: ${files} changed in the folder since this site was opened or saved there.`;
}
