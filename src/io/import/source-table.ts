import type { GridDefinition } from '../../domain/site/settings';
import type { Table } from '../../domain/site/table';

/** What the coordinates of a file are in. */
export type Coordinates =
  | { readonly kind: 'site grid' }
  | { readonly kind: 'grid'; readonly grid: GridDefinition }
  /** Longitude and latitude on the datum of the site's grid, or on WGS 84. */
  | { readonly kind: 'lng-lat'; readonly datum: 'own' | 'WGS 84' };

/**
 * A table as a file has it: every row below its header, every cell as it was
 * written. Nothing has been understood yet.
 */
export type SourceTable = {
  /** File, and sheet where it has several: "levels.xlsx, sheet Gauging". */
  readonly name: string;
  /** As written, in the order of the table's columns; blank where there is none. */
  readonly headings: readonly string[];
  /** Row of the header, as a spreadsheet counts; 0 where the file has none. */
  readonly headerRow: number;
  /** One column a heading; one more, at the end, where rows run on beyond the header. */
  readonly table: Table;
  /** Rows of `table`, from 0, whose quotes do not close: why. */
  readonly broken: ReadonlyMap<number, string>;
  /** Lines above the headings, as written; none where there are none, or nothing is known of them. */
  readonly titles?: readonly string[];
  /** What its coordinates are in, where the file itself says. */
  readonly coordinates: Coordinates | null;
  /** What was noticed while reading, in sentences. */
  readonly said: readonly string[];
};

/** The number a spreadsheet gives a row of the table. */
export const rowNumber = ({ headerRow }: SourceTable, row: number) => headerRow + 1 + row;

/** Why a file can't be read at all, for a person. */
export type Unreadable = string;

/** How far a long read has got. */
export type Progress = {
  readonly done: number;
  readonly of: number;
  readonly rows: number;
};
