import type { SiteColumns } from './column-writer';
import type { SiteReading } from './site-results';

/** Results that were asked for, as rows of the columns in their order: none is an object until it is looked at. */
export type Selection = { readonly columns: SiteColumns; readonly rows: Uint32Array };

export function allRows(columns: SiteColumns): Selection {
  const rows = new Uint32Array(columns.size);
  for (let row = 0; row < rows.length; row++) rows[row] = row;
  return { columns, rows };
}

/** A selection with only the rows that are wanted. */
export function onlyRows<Of extends Selection>(of: Of, isWanted: (row: number) => boolean): Of {
  const wanted = new Uint32Array(of.rows.length);
  let count = 0;
  for (const row of of.rows) if (isWanted(row)) wanted[count++] = row;
  return { ...of, rows: wanted.slice(0, count) };
}

const byAnalyteBefore = new WeakMap<Uint32Array, readonly Uint32Array[]>();

/** The rows of each analyte of the columns, worked out once for a selection. */
function rowsByAnalyte({
  columns: { analyte, analytes },
  rows,
}: Selection): readonly Uint32Array[] {
  const before = byAnalyteBefore.get(rows);
  if (before) return before;
  const counts = new Uint32Array(analytes.length);
  for (const row of rows) counts[analyte[row] ?? 0] = (counts[analyte[row] ?? 0] ?? 0) + 1;
  const made = Array.from(counts, (count) => new Uint32Array(count));
  const filled = new Uint32Array(analytes.length);
  for (const row of rows) {
    const which = analyte[row] ?? 0;
    const at = filled[which] ?? 0;
    const of = made[which];
    if (of) of[at] = row;
    filled[which] = at + 1;
  }
  byAnalyteBefore.set(rows, made);
  return made;
}

const NO_ROWS = new Uint32Array();

/** Of a selection, the results of one analyte by its name as written; all of it for null. */
export function ofAnalyte(of: Selection, analyte: string | null): Selection {
  if (analyte === null) return of;
  const { columns } = of;
  return { columns, rows: rowsByAnalyte(of)[columns.analytes.indexOf(analyte)] ?? NO_ROWS };
}

/** Names of the analytes in a selection, in the order of the alphabet. */
export function analytesIn(of: Selection): readonly string[] {
  const rows = rowsByAnalyte(of);
  const names = of.columns.analytes.filter((_, which) => (rows[which]?.length ?? 0) > 0);
  return names.toSorted((a, b) => a.localeCompare(b));
}

/** How many events the samples of a selection are of. */
export function countEvents({ columns: { sample, samples }, rows }: Selection): number {
  const isThere = new Uint8Array(samples.length);
  for (const row of rows) isThere[sample[row] ?? 0] = 1;
  return new Set(samples.flatMap((one, i) => (isThere[i] === 1 ? one.sample.event : []))).size;
}

/** The results of a selection as objects: for few. */
export const listed = ({ columns, rows }: Selection): SiteReading[] =>
  Array.from(rows, columns.resultAt);
