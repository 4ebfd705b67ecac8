import type { LengthUnit, Metres } from '../units';
import type { Dimension, Source, Term, Worked } from '../work';
import type { TableName, Written } from './schema';

/** The cell a row's column stands in. */
export const cell = (table: TableName, row: { readonly row: number }, column: string): Source => ({
  kind: 'cell',
  table,
  row: row.row,
  column,
});

/** A recorded length as a term of a formula, printed as it was written. */
export const recorded = (
  symbol: string,
  name: string,
  written: Written<Metres, LengthUnit>,
  from: Source,
  dimension: Dimension = 'length',
): Term => ({
  symbol,
  name,
  value: written.value,
  dimension,
  from,
  text: written.text,
  recordedUnit: written.unit,
});

/** A calculated number as a term of the next formula. */
export const worked = (symbol: string, name: string, of: Worked<number>): Term => ({
  symbol,
  name,
  value: of.value,
  dimension: of.work.answer.dimension,
  from: { kind: 'work', work: of.work },
});
