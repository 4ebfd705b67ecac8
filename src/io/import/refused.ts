import Papa from 'papaparse';
import { harmless } from '../csv';
import { rowTexts } from '../../domain/site/table';
import type { Preview } from './preview';
import type { SourceTable } from './source-table';

/** The column of a file of refused rows that says why; left out when the file comes back. */
export const WHY_REFUSED = 'why_refused';

/**
 * The refused rows as a comma-separated file under the file's own headings, with
 * the reason in a last column. Mended, it can be dropped in again.
 */
export function refusedCsv(source: SourceTable, { refused, mapping }: Preview): string {
  const before = source.headings.indexOf(WHY_REFUSED);
  const own = source.headings.map((_, at) => at).filter((at) => at !== before);
  const line = (row: number, last: string) => {
    const cells = rowTexts(source.table, row);
    const beyond = (cells[source.headings.length] ?? '').trim();
    // What ran on beyond the header has no column here: it is named in the reason.
    return [...own.map((at) => cells[at] ?? ''), beyond ? `${last} [${beyond}]` : last];
  };
  const header = [...own.map((at) => source.headings[at] ?? ''), WHY_REFUSED];
  const head = mapping.headRows.map(({ row }) => line(row, ''));
  const rows = refused.map(({ at, row, why }) => line(at, `Row ${row}: ${why}`));
  const cells = [header, ...head, ...rows].map((texts) => texts.map(harmless));
  return `${Papa.unparse(cells, { newline: '\n' })}\n`;
}
