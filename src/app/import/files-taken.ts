import { takenFiles, type TakenFile } from '../../io/keeping/taken-files';
import type { OpenSite } from '../open-site.svelte';

const JOURNAL = 'journal.jsonl';

export type { TakenFile };

/** Files a site's tables were taken from, the last first: by the journal it came with and what was done here since. */
export function filesTaken({ keeper, files }: Pick<OpenSite, 'keeper' | 'files'>): TakenFile[] {
  const before = files.get(JOURNAL);
  const lines = [
    ...(before ? [new TextDecoder().decode(before)] : []),
    ...(keeper?.whole.lines ?? []),
  ];
  return [...takenFiles(lines)].reverse();
}

/** "16 of 16 rows taken", with what was refused or blank. */
export function accountSaid({ rows, taken, refused, blank }: TakenFile): string {
  const others = [refused > 0 ? `${refused} refused` : '', blank > 0 ? `${blank} blank` : ''];
  return [`${taken} of ${rows} ${rows === 1 ? 'row' : 'rows'} taken`, ...others]
    .filter(Boolean)
    .join(', ');
}
