import type { Edit } from './edits/apply';
import { fieldsOf, type TableName } from './schema';
import { eachRow, rowTexts, type Table } from './table';

/** A cell of a table as it is drawn: row and column counted from 0. */
export type At = { readonly row: number; readonly column: number };

/** A block of cells, its last row and column included. */
export type CellBlock = {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
};

/** The block between two cells, whichever of them is further up or left. */
export const blockBetween = (a: At, b: At): CellBlock => ({
  top: Math.min(a.row, b.row),
  left: Math.min(a.column, b.column),
  bottom: Math.max(a.row, b.row),
  right: Math.max(a.column, b.column),
});

/** Columns a table is drawn with: its own in their order, then those of the schema it lacks. */
export function columnsDrawn(name: TableName, table: Table | undefined): readonly string[] {
  const own = table?.columns ?? [];
  const lacking = fieldsOf(name).flatMap(([column]) => (own.includes(column) ? [] : [column]));
  return [...own, ...lacking];
}

/** Texts of a row in the order of the columns drawn; blank beyond the table's end. */
export function textsDrawn(table: Table | undefined, row: number, columns: readonly string[]) {
  const texts = table ? rowTexts(table, row) : [];
  return columns.map((_, at) => texts[at] ?? '');
}

/** What a spreadsheet puts on the clipboard: tabs between cells, quotes where a cell holds one. */
export function readClipboard(text: string): string[][] {
  const rows: string[][] = [[]];
  const cell = /(?:"((?:[^"]|"")*)"(?=[\t\r\n]|$)|([^\t\r\n]*))(\t|\r\n|\r|\n|$)/y;
  while (cell.lastIndex < text.length) {
    const [, quoted, plain = '', end = ''] = cell.exec(text) ?? [];
    rows.at(-1)?.push(quoted?.replaceAll('""', '"') ?? plain);
    if (end === '') return rows;
    if (end !== '\t') rows.push([]);
    else if (cell.lastIndex === text.length) rows.at(-1)?.push('');
  }
  // A last line break ends the last row and begins none.
  if (rows.at(-1)?.length === 0) rows.pop();
  return rows;
}

const forClipboard = (text: string) =>
  /[\t\r\n"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;

/** A block for the clipboard, as a spreadsheet takes it. */
export function clipboardText(
  table: Table | undefined,
  columns: readonly string[],
  { top, left, bottom, right }: CellBlock,
): string {
  const rows = Array.from({ length: bottom - top + 1 }, (_, i) =>
    textsDrawn(table, top + i, columns).slice(left, right + 1),
  );
  return rows.map((texts) => texts.map(forClipboard).join('\t')).join('\n');
}

/**
 * Texts written from a cell on, rightwards and down. Rows beyond the end are
 * added, and what would fall right of the last column is left out. Null where
 * nothing would change.
 */
export function writeBlock(
  name: TableName,
  table: Table | undefined,
  from: At,
  texts: readonly (readonly string[])[],
): Edit | null {
  const columns = columnsDrawn(name, table);
  const size = table?.size ?? 0;
  const cells: { row: number; column: string; text: string }[] = [];
  const rows: Record<string, string>[] = [];
  texts.forEach((line, down) => {
    const row = from.row + down;
    const before = row < size ? textsDrawn(table, row, columns) : [];
    const added: Record<string, string> = {};
    line.forEach((text, across) => {
      const at = from.column + across;
      const column = columns[at];
      if (column === undefined) return;
      if (row >= size) added[column] = text;
      else if (before[at] !== text) cells.push({ row, column, text });
    });
    if (row >= size && Object.values(added).some((text) => text !== '')) rows.push(added);
  });
  const edits: Edit[] = [
    ...(cells.length > 0 ? [{ kind: 'write-cells', table: name, cells } as const] : []),
    ...(rows.length > 0 ? [{ kind: 'add-rows', table: name, rows } as const] : []),
  ];
  const [only] = edits;
  return edits.length > 1 ? { kind: 'together', edits } : (only ?? null);
}

/** What is pasted over a block: one cell fills all of it, a smaller block is repeated where it fits. */
export function pastedOver(
  { top, left, bottom, right }: CellBlock,
  given: readonly (readonly string[])[],
): readonly (readonly string[])[] {
  const height = bottom - top + 1;
  const width = right - left + 1;
  const across = Math.max(0, ...given.map(({ length }) => length));
  if (given.length === 0 || across === 0) return [];
  const repeats = height % given.length === 0 && width % across === 0;
  if (!repeats) return given;
  return Array.from({ length: height }, (_, i) => {
    const line = given[i % given.length] ?? [];
    return Array.from({ length: width }, (__, j) => line[j % across] ?? '');
  });
}

/** The first row of a block written into its other rows; of a single row, the row above into it. */
export function fillDown(name: TableName, table: Table | undefined, block: CellBlock): Edit | null {
  const { top, left, bottom, right } = block;
  const from = top === bottom ? top - 1 : top;
  if (from < 0) return null;
  const line = textsDrawn(table, from, columnsDrawn(name, table)).slice(left, right + 1);
  const texts = Array.from({ length: bottom - from }, () => line);
  return writeBlock(name, table, { row: from + 1, column: left }, texts);
}

/** The cells of a block made blank. */
export function clearBlock(
  name: TableName,
  table: Table | undefined,
  { top, left, bottom, right }: CellBlock,
): Edit | null {
  const last = Math.min(bottom, (table?.size ?? 0) - 1);
  const line = Array.from({ length: right - left + 1 }, () => '');
  const texts = Array.from({ length: Math.max(0, last - top + 1) }, () => line);
  return writeBlock(name, table, { row: top, column: left }, texts);
}

/** Rows of a block that are in the table, for taking them out. */
export function rowsIn({ top, bottom }: CellBlock, table: Table | undefined): readonly number[] {
  const last = Math.min(bottom, (table?.size ?? 0) - 1);
  return Array.from({ length: Math.max(0, last - top + 1) }, (_, i) => top + i);
}

/** The next cell after one, row by row and round the end, that holds a text; capitals do not matter. */
export function nextWith(table: Table | undefined, after: At, sought: string): At | null {
  const wanted = sought.trim().toLowerCase();
  if (!table || wanted === '') return null;
  let first: At | null = null;
  let row = -1;
  for (const texts of eachRow(table)) {
    row++;
    for (const [column, text] of texts.entries()) {
      if (!text.toLowerCase().includes(wanted)) continue;
      first ??= { row, column };
      if (row > after.row || (row === after.row && column > after.column)) return { row, column };
    }
  }
  return first;
}

const NARROWEST = 7;
const WIDEST = 36;

/**
 * Width of each column in letters, by its heading and its first rows.
 * @param headings  as they are written above the columns, with units
 */
export function widthsDrawn(
  table: Table | undefined,
  columns: readonly string[],
  headings: readonly string[],
): number[] {
  const widths = headings.map((heading) => heading.length + 2);
  for (let row = 0; row < Math.min(table?.size ?? 0, 200); row++)
    textsDrawn(table, row, columns).forEach((text, at) => {
      widths[at] = Math.max(widths[at] ?? 0, text.length);
    });
  return widths.map((width) => Math.min(WIDEST, Math.max(NARROWEST, width)));
}
