import type { DataPackage } from '../../domain/site/data-package';
import type { Edit } from '../../domain/site/edits/apply';
import { isSmall } from '../../io/keeping/entry';
import { changeOf, lineOf, type ImportedFile, type JournalLine } from '../../io/keeping/journal';

/** One thing done to the site, to be kept. */
export type Step = {
  readonly did: JournalLine['did'];
  /** As the menu says it: "Write 8.30 at DP-3". */
  readonly label: string;
  /** What was done; null for undo and redo. */
  readonly edit: Edit | null;
  readonly before: DataPackage;
  readonly after: DataPackage;
  /** Initials, where the person gave them. */
  readonly who?: string | null;
  /** The files an import took its rows from. */
  readonly files?: readonly ImportedFile[];
};

/** The line of a step in the journal, for people. */
export const lineOfStep = ({ did, label, edit, before, who, files }: Step, when: Date): string =>
  lineOf({
    when: when.toISOString(),
    who: who?.trim() || null,
    did,
    label,
    ...(files ? { files } : {}),
    ...(edit ? { change: changeOf(before, edit) } : {}),
  });

/** The edit of a step to be written out, where it is small and follows on what was kept before. */
export const writtenOut = ({ edit, before }: Step, now: DataPackage): Edit | null =>
  edit && before === now && isSmall(edit) ? plain(edit) : null;

/** An edit as plain data, whatever it was put together from. */
const plain = (edit: Edit): Edit => JSON.parse(JSON.stringify(edit)) as Edit;
