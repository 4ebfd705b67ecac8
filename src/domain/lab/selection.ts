import type { SiteColumns } from './column-writer';
import type { SiteReading } from './site-results';

/** Results that were asked for, as rows of the columns in their order: none is an object until it is looked at. */
export type Selection = { readonly columns: SiteColumns; readonly rows: Uint32Array };

export const allRows = (columns: SiteColumns): Selection => ({
  columns,
  rows: Uint32Array.from({ length: columns.size }, (_, row) => row),
});

/** A selection with only the rows that are wanted. */
export function onlyRows<Of extends Selection>(of: Of, isWanted: (row: number) => boolean): Of {
  const wanted = new Uint32Array(of.rows.length);
  let count = 0;
  for (const row of of.rows) if (isWanted(row)) wanted[count++] = row;
  return { ...of, rows: wanted.slice(0, count) };
}

/** Of a selection, the results of one analyte by its name as written; all of it for null. */
export function ofAnalyte<Of extends Selection>(of: Of, analyte: string | null): Of {
  if (analyte === null) return of;
  const { columns } = of;
  const wanted = columns.analytes.indexOf(analyte);
  return onlyRows(of, (row) => columns.analyte[row] === wanted);
}

/** Names of the analytes in a selection, in the order of the alphabet. */
export function analytesIn({ columns: { analyte, analytes }, rows }: Selection): readonly string[] {
  const isThere = new Uint8Array(analytes.length);
  for (const row of rows) isThere[analyte[row] ?? 0] = 1;
  return analytes.filter((_, i) => isThere[i] === 1).toSorted((a, b) => a.localeCompare(b));
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
