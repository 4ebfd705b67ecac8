import type { ReportTable } from '../../domain/walk/report-tables';
import { textWidth } from '../../map/scene/text-width';

export type SetColumn = {
  readonly name: string;
  /** Where its words begin; where they end, for numbers. */
  readonly x: number;
  readonly number: boolean;
  /** A cell cut to the room it has, with … where something is left off. */
  readonly fits: (text: string) => string;
};

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
 * them stand side by side; where none does, the widest columns are cut.
 */
export function columnsThatFit(
  { columns }: Pick<ReportTable, 'columns'>,
  rows: readonly (readonly string[])[],
  width: number,
): { readonly size: number; readonly columns: readonly SetColumn[]; readonly cut: boolean } {
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
      fits: (text) => cutTo(text, wide, size, 'regular'),
    };
  });
  return { size, columns: set, cut: wanted.some((one, c) => one > (widths[c] ?? 0) + 0.5) };
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
