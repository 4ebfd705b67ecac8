import { readJournal, type ImportedFile, type JournalLine } from './journal';

/** A file taken in, and when: time in UTC by the machine's clock. */
export type TakenFile = ImportedFile & { readonly when: string };

/** Files a site's tables were taken from, in the order they were taken; those whose taking was undone are not among them. */
export function takenFiles(lines: readonly string[]): readonly TakenFile[] {
  if (!lines.some((line) => line.includes('"files"'))) return [];
  const done: JournalLine[] = [];
  const undone: JournalLine[] = [];
  for (const line of lines.flatMap(readJournal)) {
    if (line?.did === 'edit') {
      done.push(line);
      undone.length = 0;
    } else if (line?.did === 'undo') undone.push(...done.splice(-1));
    else if (line?.did === 'redo') done.push(...undone.splice(-1));
  }
  return done.flatMap(({ files, when }) => (files ?? []).map((file) => ({ ...file, when })));
}
