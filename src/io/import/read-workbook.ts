import { zipSync } from 'fflate';
import { openBoundedZip, type ZipLimits } from '../formats/bounded-zip';
import { asItWas } from '../csv';
import { fail, ok, type Result } from '../../domain/result';
import { BlockBuilder } from './block-builder';
import { findHeader, ROWS_LOOKED_AT } from './dress';
import type { SourceTable, Unreadable } from './source-table';

/** A workbook opened: its sheets by name, each read when it is asked for. */
export type Workbook = {
  readonly sheets: readonly string[];
  readonly read: (sheet: string, headerRow?: number) => Promise<Result<SourceTable, Unreadable>>;
};

/** What a workbook may open out to. */
const LIMITS: ZipLimits = {
  bytes: 400 * 2 ** 20,
  files: 2_000,
  wanted: (path) => /\.(?:xml|rels)$/.test(path),
};
/** A sheet is laid out as a rectangle up to its last cell. */
const MOST_CELLS = 20_000_000;
const MOST_COLUMNS = 2_000;

type Extent = { readonly rows: number; readonly columns: number; readonly errors: number };

const CELL_NAME = /\br\s*=\s*(["'])([^"']*)\1/g;

/**
 * The rectangle a sheet's cells span, by their names, and how many hold an
 * error. Null for a part that is no sheet; a name that is none spans everything.
 */
function extentOf(part: Uint8Array): Extent | null {
  const text = new TextDecoder().decode(part);
  if (!text.includes('sheetData')) return null;
  let [rows, columns] = [0, 0];
  for (const [, , name = ''] of text.matchAll(CELL_NAME)) {
    const [, letters = '', digits] = /^([A-Za-z]{0,7})(\d{1,12})$/.exec(name) ?? [];
    if (digits === undefined) return { rows: Infinity, columns: Infinity, errors: 0 };
    let column = 0;
    for (const letter of letters.toUpperCase()) column = column * 26 + letter.charCodeAt(0) - 64;
    columns = Math.max(columns, column);
    rows = Math.max(rows, Number(digits));
  }
  return { rows, columns, errors: text.match(/\bt=["']e["']/g)?.length ?? 0 };
}

/**
 * A workbook (.xlsx) of a spreadsheet. Formulas give the value they had when it
 * was saved. Numbers come as they are stored, not as they are shown: 8.30 is
 * stored as 8.3.
 */
export async function openWorkbook(
  name: string,
  bytes: Uint8Array,
): Promise<Result<Workbook, Unreadable>> {
  const parts = openBoundedZip(bytes, LIMITS);
  if (!parts.ok) return fail(`${name} is not opened: ${parts.problem}.`);
  let errors = 0;
  for (const content of parts.value.values()) {
    const extent = extentOf(content);
    if (!extent) continue;
    const { rows, columns } = extent;
    errors += extent.errors;
    if (rows === Infinity)
      return fail(`${name} is not opened: cells of a sheet of it have names that are none.`);
    if (rows * columns > MOST_CELLS || columns > MOST_COLUMNS)
      return fail(
        `${name} is not opened: a sheet of it spans ${rows} rows and ${columns} columns. Take out the stray cells at its end, or save the table as CSV.`,
      );
  }
  // Parts are handed on uncompressed: the library would start workers of its own for large ones.
  const stored = zipSync(Object.fromEntries(parts.value), { level: 0 }).slice().buffer;
  try {
    // Only loaded where there is a workbook.
    const library = await import('read-excel-file/universal');
    const sheets = await library.default(stored, { parseNumber: numberAsStored, trim: false });
    return ok({
      sheets: sheets.map(({ sheet }) => sheet),
      read: (sheet, headerRow) => {
        const found = sheets.find((each) => each.sheet === sheet);
        const cells: unknown = found?.data;
        return Promise.resolve(
          found && Array.isArray(cells)
            ? tableOf(name, found.sheet, sheets.length > 1, found.data, errors, headerRow)
            : fail(`${name} has no sheet “${sheet}”.`),
        );
      },
    });
  } catch (error) {
    const why = error instanceof Error ? error.message : '';
    return fail(`${name} can’t be read as a workbook${why ? ` (${why.slice(0, 120)})` : ''}.`);
  }
}

/** Doubles are stored with up to 17 digits and shown with at most 15. */
function numberAsStored(text: string): string {
  const digits = text.replace(/[-+.]|[eE].*$/g, '').replace(/^0+/, '');
  const value = Number(text);
  if (!Number.isFinite(value)) return text;
  return digits.length < 16 && !/e/i.test(text) ? text : plain(Number(value.toPrecision(15)));
}

/** Without powers of ten where the number can do without. */
function plain(value: number): string {
  const text = String(value);
  if (!text.includes('e')) return text;
  const [mantissa = '', power = '0'] = text.split('e');
  const decimals = (mantissa.split('.')[1]?.length ?? 0) - Number(power);
  return decimals > 0 && decimals <= 20 ? value.toFixed(decimals) : text;
}

/** A cell as text: days as 2025-03-31, times of day alone as 14:05. */
function textOf(cell: unknown): string {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'string') return asItWas(cell);
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  if (cell instanceof Date) {
    if (Number.isNaN(cell.valueOf())) return '';
    // To the minute: a fraction of a day does not hold the second it was written with.
    const iso = new Date(Math.round(cell.valueOf() / 60_000) * 60_000).toISOString();
    if (cell.getUTCFullYear() < 1901) return iso.slice(11, 16);
    return iso.slice(11, 16) === '00:00' ? iso.slice(0, 10) : iso.slice(0, 16);
  }
  return typeof cell === 'number' ? String(cell) : '';
}

function tableOf(
  file: string,
  sheet: string,
  isOneOfSeveral: boolean,
  given: readonly (readonly unknown[])[],
  errors: number,
  asked?: number,
): Result<SourceTable, Unreadable> {
  const name = isOneOfSeveral ? `${file}, sheet ${sheet}` : file;
  const first = given.slice(0, ROWS_LOOKED_AT).map((cells) => cells.map(textOf));
  if (given.length === 0) return fail(`${name} is empty.`);
  const headerRow = asked ?? findHeader(first) + 1;
  const header = headerRow === 0 ? [] : (given[headerRow - 1] ?? []).map(textOf);
  let width = headerRow === 0 ? Math.max(...first.map((cells) => cells.length)) : header.length;
  while (headerRow > 0 && width > 1 && (header[width - 1] ?? '').trim() === '') width--;
  const headings = Array.from({ length: width }, (_, at) =>
    headerRow === 0 ? `column ${at + 1}` : (header[at] ?? '').trim(),
  );
  const builder = new BlockBuilder(width);
  for (const cells of given.slice(headerRow)) {
    const texts = cells.map(textOf);
    const rest = texts.slice(width).filter((text) => text.trim() !== '');
    builder.add(
      rest.length > 0 ? [...texts.slice(0, width), rest.join(' ')] : texts.slice(0, width),
    );
  }
  return ok({
    name,
    headings,
    headerRow,
    table: builder.table(headings),
    broken: new Map(),
    coordinates: null,
    said: [
      headerRow === 0
        ? 'The sheet is read as having no header.'
        : `Row ${headerRow} of the sheet is taken as the header${headerRow > 1 ? '; the rows above it as titles' : ''}.`,
      'Numbers are as the spreadsheet stores them: zeros at their end are not kept there.',
      ...(errors > 0
        ? [`The workbook has ${errors} cells with an error such as #N/A; they read as blank.`]
        : []),
    ],
  });
}
