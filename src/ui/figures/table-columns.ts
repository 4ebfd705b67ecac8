import { TABLE_HEAD, TABLE_ROW, type Area } from '../../domain/walk/figure';
import type { ReportTable } from '../../domain/walk/report-tables';
import { wrapped } from '../../map/figure-layout';
import { textWidth } from '../../map/scene/text-width';

export type SetColumn = {
  readonly name: string;
  /** Where its words begin; where they end, for numbers. */
  readonly x: number;
  readonly number: boolean;
  /** A cell in lines no wider than its room; a word that is wider ends in …. */
  readonly lines: (text: string) => readonly string[];
};

/** A row as it is set: the lines of each cell, and px it is high. */
export type SetRow = { readonly cells: readonly (readonly string[])[]; readonly high: number };

export type SetTable = {
  /** px */
  readonly size: number;
  readonly columns: readonly SetColumn[];
  /** Rows page by page; one page of none where there are none. */
  readonly pages: readonly (readonly SetRow[])[];
};

const PX = 96 / 25.4;
/** px free to either side of a table on its sheet. */
export const TABLE_PAD = 10;
/** From a line of a cell to the next, in their size. */
export const CELL_LEADING = 1.2;
/** Millimetres free under a table. */
const FOOT = 4;

/** A table set on sheets: as many pages as its rows take, the columns alike on all of them. */
export function tableOnSheets(table: ReportTable, area: Pick<Area, 'width' | 'height'>): SetTable {
  const { size, columns } = columnsThatFit(table, table.rows, area.width * PX - 2 * TABLE_PAD);
  const room = (area.height - TABLE_HEAD - FOOT) * PX;
  const pages: SetRow[][] = [[]];
  let left = room;
  for (const row of table.rows) {
    const cells = columns.map(({ lines }, c) => lines(row[c] ?? ''));
    const most = Math.max(1, ...cells.map(({ length }) => length));
    const high = TABLE_ROW * PX + (most - 1) * size * CELL_LEADING;
    if (high > left && pages.at(-1)?.length) {
      pages.push([]);
      left = room;
    }
    pages.at(-1)?.push({ cells, high });
    left -= high;
  }
  return { size, columns, pages };
}

const GAP = 12;
const LARGEST = 10.5;
/** 6 pt: under that nobody reads a sheet. */
const SMALLEST = 8;

/** "14.14 ft": a number with its unit stands under the last one as a bare number does. */
const AMOUNT = /^[-−]?[\d.,]+ \S+$/;

const areAmounts = (cells: readonly string[]) =>
  cells.some((cell) => cell !== '') && cells.every((cell) => cell === '' || AMOUNT.test(cell));

/**
 * Columns as wide as their widest cell, in the largest letters at which all of
 * them stand side by side; where none does, the cells of the widest are wrapped.
 */
export function columnsThatFit(
  { columns }: Pick<ReportTable, 'columns'>,
  rows: readonly (readonly string[])[],
  width: number,
): Pick<SetTable, 'size' | 'columns'> {
  const atSize = (size: number) =>
    columns.map(({ name }, c) =>
      Math.max(
        textWidth(name, size, 'semibold'),
        ...rows.map((row) => textWidth(row[c] ?? '', size, 'regular')),
      ),
    );
  const total = (widths: readonly number[]) =>
    widths.reduce((sum, one) => sum + one, 0) + GAP * (columns.length - 1);
  let size = LARGEST;
  while (size > SMALLEST && total(atSize(size)) > width) size -= 0.5;
  const wanted = atSize(size);
  const most = widest(wanted, width - GAP * (columns.length - 1));
  const widths = wanted.map((one) => Math.min(one, most));
  let x = 0;
  const set = columns.map(({ name, number: isNumber }, c): SetColumn => {
    const number = isNumber === true || areAmounts(rows.map((row) => row[c] ?? ''));
    const wide = widths[c] ?? 0;
    const from = x;
    x += wide + GAP;
    return {
      name: cutTo(name, wide, size, 'semibold'),
      x: number ? from + wide : from,
      number,
      lines: (text) =>
        wrapped(text, wide + 0.5, size, 'regular').map((line) =>
          cutTo(line, wide, size, 'regular'),
        ),
    };
  });
  return { size, columns: set };
}

/** The width no column may pass, so that all of them have room. */
function widest(wanted: readonly number[], room: number): number {
  const sorted = wanted.toSorted((a, b) => a - b);
  let left = room;
  for (const [i, one] of sorted.entries()) {
    const share = left / (sorted.length - i);
    if (one > share) return share;
    left -= one;
  }
  return Infinity;
}

function cutTo(text: string, width: number, size: number, face: 'regular' | 'semibold'): string {
  if (textWidth(text, size, face) <= width + 0.5) return text;
  let kept = text;
  while (kept.length > 1 && textWidth(`${kept}…`, size, face) > width) kept = kept.slice(0, -1);
  return `${kept.trimEnd()}…`;
}
