import Papa from 'papaparse';
import { tableOf, eachRow, type Table } from '../domain/site/table';
import { decimal } from '../domain/site/read-cell';

/** Text a spreadsheet would run: it starts like a formula and is not a number. */
const RUNS = /^'*[=+\-@\t\r]/;
const MADE_HARMLESS = /^'+[=+\-@\t\r]/;

/** A cell as it is written out: what would run as a formula gets an apostrophe before it. */
export const harmless = (text: string) =>
  RUNS.test(text) && decimal(text) === null ? `'${text}` : text;

/** A cell as it was before `harmless`. */
export const asItWas = (text: string) => (MADE_HARMLESS.test(text) ? text.slice(1) : text);

export type Csv = {
  readonly table: Table;
  /** Rows, as a spreadsheet numbers them, whose quotes do not close or that break off. */
  readonly broken: readonly { readonly row: number; readonly why: string }[];
};

/**
 * A comma-separated file as a table: first line the header, every later record
 * a row, blank ones too. Cells beyond the header stand in unnamed columns, so
 * that nothing is lost and the reader can refuse the row.
 */
export function readCsv(text: string): Csv {
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const parsed = Papa.parse<string[]>(body, { delimiter: ',' });
  const records = parsed.data;
  const last = records.at(-1);
  const ended = body === '' || /[\r\n]$/.test(body);
  if (ended && last?.length === 1 && last[0] === '') records.pop();

  const [header = [], ...rows] = records;
  const width = rows.reduce((most, row) => Math.max(most, row.length), header.length);
  const columns = Array.from({ length: width }, (_, i) => (header[i] ?? '').trim().toLowerCase());
  const broken = parsed.errors
    .filter(({ type }) => type === 'Quotes')
    .map(({ row, message }) => ({ row: (row ?? 0) + 1, why: message }));
  return {
    table: tableOf(
      columns,
      rows.map((row) => row.map(asItWas)),
    ),
    broken,
  };
}

/** A table as a comma-separated file, one line feed a row, quotes only where needed. */
export function writeCsv(table: Table): string {
  const rows = Array.from(eachRow(table), (row) => row.map(harmless));
  return `${Papa.unparse([[...table.columns], ...rows], { newline: '\n' })}\n`;
}
