import { tableText, type SheetTable } from '../../domain/layout/sheet-tables';
import { CUSTODY_COLUMNS, custodyRows } from '../../domain/record/sampling';
import type { Sample } from '../../domain/site/schema';
import { tableOf } from '../../domain/site/table';
import { writeCsv } from '../../io/csv';

/** The draft custody list as a comma-separated file. */
export const custodyCsv = (samples: readonly Sample[]): string =>
  writeCsv(tableOf(CUSTODY_COLUMNS, custodyRows(samples)));

/** A sheet as a comma-separated file, each heading with its unit. */
export function sheetCsv(table: SheetTable): string {
  const { columns, rows } = tableText(table);
  return writeCsv(tableOf(columns, rows));
}
