import type { TableName } from './site/schema';
import type { LengthUnit } from './units';

/**
 * Showing the work. A calculation returns its answer together with the line of
 * arithmetic that gave it, so the explanation on screen is the computation and
 * not a second account of it. Values in a Work are in the inside units (metres,
 * degrees, µg/L); `print-work.ts` puts them into the site's units.
 */

/** What kind of quantity a number is: decides the unit it is printed in. */
export type Dimension =
  | 'length' // vertical: depth, elevation, head. Metres inside, the site's vertical unit on paper
  | 'distance' // horizontal: metres inside, the grid's unit on paper
  | 'area' // product of two lengths, along the ground or of heads: m² inside, the vertical unit squared on paper
  | 'slope' // length per distance: no unit
  | 'angle' // degrees
  | 'concentration' // µg/L
  | 'number'; // no unit: a ratio, a count, a factor

/** A number and what kind of quantity it is. */
export type Quantified = { readonly value: number; readonly dimension: Dimension };

/** Where a number came from: a cell somebody typed, a setting, a publication, or more work. */
export type Source =
  | {
      readonly kind: 'cell';
      readonly table: TableName;
      readonly row: number;
      readonly column: string;
    }
  | { readonly kind: 'setting'; readonly name: string }
  | { readonly kind: 'citation'; readonly text: string }
  | { readonly kind: 'work'; readonly work: Work };

/**
 * One number in a formula. `text` is how it was written where somebody wrote
 * it, with its unit, and is absent for a number we calculated.
 */
export type Term = Quantified & {
  readonly symbol: string;
  readonly name: string;
  readonly from: Source;
  readonly text?: string;
  /** The unit `text` was recorded in, where it is a length. */
  readonly recordedUnit?: LengthUnit;
};

/** The arithmetic that gave one number. */
export type Work = {
  readonly title: string;
  /** The symbol the answer has in the formulas that use it. */
  readonly symbol: string;
  /**
   * Plain arithmetic over the symbols in `terms`: + - * / ^ ( ) and the
   * functions of `arithmetic.ts`. The tests evaluate it.
   */
  readonly formula: string;
  readonly terms: readonly Term[];
  readonly answer: Quantified;
  /** Decimals to print the answer with, in the printed unit. */
  readonly decimals: number;
  /** Method and publication, or a plain remark; absent when the formula says it all. */
  readonly note?: string;
  /** Numbers that come as a table, such as the wells of a plane. */
  readonly table?: WorkTable;
};

/** Rows in the order of the wells used; a column's dimension decides its printed unit. */
export type WorkTable = {
  readonly columns: readonly { readonly name: string; readonly dimension: Dimension | 'text' }[];
  readonly rows: readonly (readonly (number | string | null)[])[];
  /** The work behind the numbers of each row, in the order of the rows. */
  readonly works?: readonly (readonly Work[])[];
};

/** An answer with its arithmetic. */
export type Worked<T> = { readonly value: T; readonly work: Work };
