import { readCsv } from '../../io/csv';
import { cellText } from '../../domain/site/table';
import type { Edit } from '../../domain/site/edits/apply';

const FILES = import.meta.glob<string>('/src/io/levels/*.csv', {
  query: '?raw',
  import: 'default',
});

/** A set of levels that comes with the app, its rows as they are added to a site. */
export type BundledLevels = {
  readonly set: string;
  readonly rows: readonly Readonly<Record<string, string>>[];
};

/** The sets that come with the app, read when asked for. */
export async function bundledLevels(): Promise<BundledLevels[]> {
  const texts = await Promise.all(Object.values(FILES).map((load) => load()));
  return texts.map((text) => {
    const { table } = readCsv(text);
    const rows = Array.from({ length: table.size }, (_, row) =>
      Object.fromEntries(table.columns.map((column) => [column, cellText(table, row, column)])),
    );
    return { set: rows[0]?.set ?? '', rows };
  });
}

/** The edit that adds a set, with who chose it. */
export const addLevels = ({ rows }: BundledLevels, chosenBy: string): Edit => ({
  kind: 'add-rows',
  table: 'screening_levels',
  rows: rows.map((row) => ({ ...row, chosen_by: chosenBy || row.chosen_by || '' })),
});
