import { readJournal, type ImportedFile, type JournalLine } from './journal';

/** Files a site's tables were taken from, in the order they were taken; those whose taking was undone are not among them. */
export function takenFiles(lines: readonly string[]): readonly ImportedFile[] {
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
  return done.flatMap(({ files }) => files ?? []);
}
