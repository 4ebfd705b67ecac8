import type { FormName } from './forms';
import type { Coordinates } from './source-table';

/** What is done with a column of a file. */
export type ColumnUse =
  /** It fills a slot; `unit` as its heading names it, null where it does not. */
  | { readonly use: 'slot'; readonly slot: string; readonly unit: string | null }
  /** Kept as a column of its own, under its own heading. */
  | { readonly use: 'keep' }
  | { readonly use: 'leave' }
  /** Results of one analyte, in a table with the analytes across. */
  | { readonly use: 'analyte'; readonly analyte: string; readonly unit: string | null }
  /** Letters beside the results of the column named. */
  | { readonly use: 'letters'; readonly of: number }
  /** Results of one sample, in a table with the samples across. */
  | { readonly use: 'sample'; readonly sample: string };

/** How a file is read into the tables: plain data, corrected by hand, remembered by its header. */
export type Mapping = {
  readonly form: FormName;
  readonly layout: 'rows' | 'analytes across' | 'samples across';
  /** One a column of the file, in its order. */
  readonly columns: readonly ColumnUse[];
  /** Rows of the table, from 0, that belong to the header: units or samples' dates. */
  readonly headRows: readonly HeadRow[];
  readonly coordinates: Coordinates;
  readonly shape: string;
};

/** A row below the header that says something of every column: its unit, its day, its location. */
export type HeadRow = { readonly row: number; readonly slot: string };

/** Why a column was matched so, for a person. */
export type Match = {
  readonly heading: string;
  readonly use: ColumnUse;
  /** 1: as good as certain; below 0.9 only likely. */
  readonly score: number;
  readonly why: string;
};

export type Proposal = {
  readonly mapping: Mapping;
  /** One a column. */
  readonly matches: readonly Match[];
  /** Kinds of file it could be, the likeliest first. */
  readonly forms: readonly { readonly form: FormName; readonly score: number }[];
};
