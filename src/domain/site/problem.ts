import type { TableName } from './schema';

/** One thing wrong with one cell or file, in the parts a sentence is made from. */
export type Problem = {
  readonly table: TableName | 'datapackage' | 'file';
  /** The file as opened: "water_levels.csv". */
  readonly file: string;
  /** As a spreadsheet numbers it: the header is row 1. Null: the whole file. */
  readonly row: number | null;
  readonly column: string | null;
  readonly expected: string;
  readonly found: string;
};

const quoted = (found: string) => {
  const text = found.length > 80 ? `${found.slice(0, 77)}…` : found;
  return text === '' ? 'a blank' : `“${text}”`;
};

/** "water_levels.csv, row 12, depth_to_water: expected a depth in ft, found “dry”." */
export function sentenceOf({ file, row, column, expected, found }: Problem): string {
  const where = [file, row === null ? null : `row ${row}`, column].filter(Boolean).join(', ');
  return `${where}: expected ${expected}, found ${quoted(found)}.`;
}
