import { fail, ok, type Result } from '../result';
import type { Edit } from '../site/edits/apply';
import { cellText } from '../site/table';
import type { DataPackage } from '../site/data-package';
import { fieldsOf, TABLE_NAMES, type Location } from '../site/schema';
import { namingProblemWords, patternProblemWords } from './layout-words';
import { namesFor, readPattern } from './numbering';

/** A point's old and new name. */
export type Renaming = { readonly from: string; readonly to: string };

/**
 * New names for planned points in the order given; everything pushed, refused or
 * installed keeps its name, and `[number]` steps over those.
 */
export function renaming(
  locations: readonly Location[],
  text: string,
): Result<readonly Renaming[], string> {
  const pattern = readPattern(text, ['number']);
  if (!pattern.ok) return fail(patternProblemWords(pattern.problem));
  const names = namesFor(
    locations.map(({ id, status }) => ({ name: id, keepsName: status !== 'planned', counts: {} })),
    pattern.value,
  );
  if (!names.ok) return fail(namingProblemWords(names.problem));
  return ok(
    locations.flatMap(({ id }, i) => {
      const to = names.value[i];
      return to === undefined || to === id ? [] : [{ from: id, to }];
    }),
  );
}

/**
 * The renaming as one step, in every table that names a location, decisions on a
 * point among them. Null where nothing is renamed.
 */
export function renameEdit(site: DataPackage, renamings: readonly Renaming[]): Edit | null {
  const to = new Map(renamings.map((one) => [one.from, one.to]));
  const edits = TABLE_NAMES.flatMap((table): Edit[] => {
    const rows = site.tables[table];
    if (!rows) return [];
    const columns = fieldsOf(table).flatMap(([column, field]) =>
      (table === 'locations' && column === 'id') ||
      field.refers === 'locations' ||
      (table === 'decisions' && column === 'on')
        ? [column]
        : [],
    );
    const cells = columns.flatMap((column) =>
      Array.from({ length: rows.size }, (_, row) => row).flatMap((row) => {
        const text = to.get(cellText(rows, row, column));
        return text === undefined ? [] : [{ row, column, text }];
      }),
    );
    return cells.length > 0 ? [{ kind: 'write-cells', table, cells }] : [];
  });
  return edits.length > 0 ? { kind: 'together', edits } : null;
}
