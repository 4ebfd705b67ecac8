/**
 * A table as it was written: columns of text, in blocks of rows. Every cell
 * keeps its words, so a file comes back as it was, rows that could not be read
 * are kept with the rest, and columns we do not know survive.
 *
 * A column of a block is a dictionary of its distinct texts and one code a row.
 * A text is therefore parsed once however often it stands there, an edit copies
 * one column of one block, and a million results are a few typed arrays that
 * undo steps share and a worker can be sent.
 */
export type Column = {
  readonly dictionary: readonly string[];
  /** One a row: the place of its text in the dictionary. */
  readonly codes: Uint16Array;
};

/** Rows in a run, at most `BLOCK_ROWS`; shared between versions of a site, never changed. */
export type Block = {
  readonly size: number;
  /** In the order of the table's columns. */
  readonly columns: readonly Column[];
};

/** A table's columns by name, and its rows in blocks. */
export type Table = {
  readonly columns: readonly string[];
  readonly blocks: readonly Block[];
  readonly size: number;
};

/** Rows a block holds at most: few enough for two-byte codes, many enough to share. */
export const BLOCK_ROWS = 16_384;

/** A cell that is absent reads as blank. */
const BLANK = '';

function columnOf(rows: readonly (readonly string[])[], at: number): Column {
  const places = new Map<string, number>();
  const codes = new Uint16Array(rows.length);
  rows.forEach((row, i) => {
    const text = row[at] ?? BLANK;
    let code = places.get(text);
    if (code === undefined) {
      code = places.size;
      places.set(text, code);
    }
    codes[i] = code;
  });
  return { dictionary: [...places.keys()], codes };
}

const blockOf = (rows: readonly (readonly string[])[], width: number): Block => ({
  size: rows.length,
  columns: Array.from({ length: width }, (_, at) => columnOf(rows, at)),
});

/** Rows of cells, each in the order of the columns, made into a table. */
export function tableOf(columns: readonly string[], rows: readonly (readonly string[])[]): Table {
  const blocks: Block[] = [];
  for (let start = 0; start < rows.length; start += BLOCK_ROWS)
    blocks.push(blockOf(rows.slice(start, start + BLOCK_ROWS), columns.length));
  return { columns, blocks, size: rows.length };
}

/** Where a row lies: its block, and its place in it. Rows count from 0. */
function placeOf(table: Table, row: number): { block: number; at: number } | null {
  let at = row;
  for (const [block, { size }] of table.blocks.entries()) {
    if (at < size) return at < 0 ? null : { block, at };
    at -= size;
  }
  return null;
}

/** The text of a row of a block in one of its columns; blank where there is none. */
export const textAt = (column: Column | undefined, at: number): string =>
  column?.dictionary[column.codes[at] ?? -1] ?? BLANK;

/** The text of one cell; blank where there is no such row or column. */
export function cellText(table: Table, row: number, column: string): string {
  const place = placeOf(table, row);
  const at = table.columns.indexOf(column);
  return place === null || at < 0
    ? BLANK
    : textAt(table.blocks[place.block]?.columns[at], place.at);
}

/** The cells of one row, in the order of the columns. */
export function rowTexts(table: Table, row: number): string[] {
  const place = placeOf(table, row);
  if (place === null) return [];
  return (table.blocks[place.block]?.columns ?? []).map((column) => textAt(column, place.at));
}

/** All rows in order, as cells in the order of the columns. */
export function* eachRow(table: Table): Generator<string[]> {
  for (const { size, columns } of table.blocks)
    for (let at = 0; at < size; at++) yield columns.map((column) => textAt(column, at));
}

const withText = ({ dictionary, codes }: Column, at: number, text: string): Column => {
  const known = dictionary.indexOf(text);
  const changed = codes.slice();
  changed[at] = known < 0 ? dictionary.length : known;
  return { dictionary: known < 0 ? [...dictionary, text] : dictionary, codes: changed };
};

/** The table with a column added at its end, blank in every row; itself if it has the column. */
export function withColumn(table: Table, column: string): Table {
  if (table.columns.includes(column)) return table;
  const blocks = table.blocks.map(({ size, columns }) => ({
    size,
    columns: [...columns, { dictionary: [BLANK], codes: new Uint16Array(size) }],
  }));
  return { ...table, columns: [...table.columns, column], blocks };
}

/** The table with one cell written anew. A column it lacks is added. Rows count from 0. */
export function withCell(given: Table, row: number, column: string, text: string): Table {
  const table = withColumn(given, column);
  const place = placeOf(table, row);
  const block = place && table.blocks[place.block];
  if (!place || !block) return given;
  const at = table.columns.indexOf(column);
  const columns = block.columns.map((c, i) =>
    i === at ? compact(withText(c, place.at, text), block.size) : c,
  );
  return { ...table, blocks: table.blocks.with(place.block, { ...block, columns }) };
}

/** A cell to be written: its row from 0, its column by name, its new text. */
export type CellToWrite = { readonly row: number; readonly column: string; readonly text: string };

/** The table with many cells written anew, each column of a block copied once. */
export function withCells(given: Table, cells: readonly CellToWrite[]): Table {
  let table = given;
  const byPlace = new Map<string, { block: number; column: string; texts: Map<number, string> }>();
  for (const { row, column, text } of cells) {
    const place = placeOf(table, row);
    if (!place) continue;
    const key = `${place.block} ${column}`;
    const known = byPlace.get(key) ?? { block: place.block, column, texts: new Map() };
    known.texts.set(place.at, text);
    byPlace.set(key, known);
  }
  for (const { block: number, column, texts } of byPlace.values()) {
    table = withColumn(table, column);
    const block = table.blocks[number];
    const at = table.columns.indexOf(column);
    const before = block?.columns[at];
    if (!block || !before) continue;
    const rows = Array.from({ length: block.size }, (_, i) => [texts.get(i) ?? textAt(before, i)]);
    const columns = block.columns.with(at, columnOf(rows, 0));
    table = { ...table, blocks: table.blocks.with(number, { ...block, columns }) };
  }
  return table;
}

/** Drop texts nobody uses any more, once there are more of them than rows. */
function compact(column: Column, size: number): Column {
  if (column.dictionary.length <= size + 64) return column;
  const rows = Array.from({ length: size }, (_, at) => [textAt(column, at)]);
  return columnOf(rows, 0);
}

/** The table with rows added at its end; each row is a record of column to text. */
export function withRows(given: Table, added: readonly Readonly<Record<string, string>>[]): Table {
  const names = new Set(added.flatMap((row) => Object.keys(row)));
  let table = given;
  for (const name of names) table = withColumn(table, name);
  const rows = added.map((row) => table.columns.map((column) => row[column] ?? BLANK));

  const last = table.blocks.at(-1);
  const open = last !== undefined && last.size + rows.length <= BLOCK_ROWS;
  const kept = open ? table.blocks.slice(0, -1) : table.blocks;
  const first = open ? Array.from({ length: last.size }, (_, at) => textsAt(last, at)) : [];
  const tail = tableOf(table.columns, [...first, ...rows]).blocks;
  return { ...table, blocks: [...kept, ...tail], size: table.size + rows.length };
}

const textsAt = (block: Block, at: number) => block.columns.map((column) => textAt(column, at));

/** The table without some rows; rows count from 0. Blocks without any of them are shared. */
export function withoutRows(table: Table, rows: ReadonlySet<number>): Table {
  const blocks: Block[] = [];
  let start = 0;
  for (const block of table.blocks) {
    const kept: string[][] = [];
    for (let at = 0; at < block.size; at++)
      if (!rows.has(start + at)) kept.push(textsAt(block, at));
    if (kept.length === block.size) blocks.push(block);
    else if (kept.length > 0) blocks.push(blockOf(kept, table.columns.length));
    start += block.size;
  }
  return { ...table, blocks, size: blocks.reduce((sum, { size }) => sum + size, 0) };
}
