/**
 * The tables of a site, in one place: the row types, the reader, the saved
 * Table Schemas and the documentation all follow from this list.
 */
import type { LengthUnit, Litres, Metres, VolumeUnit } from '../units';
import { FIELD_TABLES } from './schema-field';
import { LAB_TABLES } from './schema-lab';
import { RECORD_TABLES } from './schema-record';

/** What a cell holds, which decides how it is read. */
export type Kind =
  | 'text'
  | 'number' // plain decimal, no unit of ours: pH, accuracy ratio
  | 'length' // vertical: the site's vertical unit
  | 'distance' // horizontal: the grid's unit
  | 'volume'
  | 'day' // 2026-05-31
  | 'time' // 2026-05-31T14:05, local to the site
  | 'yes-no'
  | 'choice'
  | 'order'; // whole number, zero or more

/** A column of a table. */
export type Field = {
  readonly kind: Kind;
  /** What it is to a person, with its sign or reference. */
  readonly says: string;
  readonly required?: true;
  readonly choices?: readonly string[];
  /** Table whose `id` this cell must name. */
  readonly refers?: string;
  /** Smallest value allowed, in the recorded unit. */
  readonly least?: number;
  /** Fixed unit, for numbers whose unit is not the site's to choose. */
  readonly unit?: string;
};

/** A table: what it holds, how its rows are known, and its columns. */
export type TableSchema = {
  readonly title: string;
  readonly says: string;
  /** Columns that together name a row; the first holds its name on screen. Empty: rows have no name. */
  readonly key: readonly string[];
  readonly fields: Readonly<Record<string, Field>>;
};

/** Every table a site can have; files, types, checks and TABLES.md follow from these. */
export const TABLES = { ...FIELD_TABLES, ...RECORD_TABLES, ...LAB_TABLES } as const;

export type TableName = keyof typeof TABLES;

export const TABLE_NAMES = Object.keys(TABLES) as readonly TableName[];

export const isTableName = (name: string): name is TableName => Object.hasOwn(TABLES, name);

/** The fields of a table, in the order its columns are written. */
export const fieldsOf = (name: TableName): readonly (readonly [string, Field])[] =>
  Object.entries(TABLES[name].fields);

/** A column by its name; undefined for one of the site's own. */
export const fieldOf = (name: TableName, column: string): Field | undefined =>
  Object.hasOwn(TABLES[name].fields, column)
    ? (TABLES[name].fields as Readonly<Record<string, Field>>)[column]
    : undefined;

/** A number somebody wrote: its value in inside units, and the words it was written in. */
export type Written<Value extends number = number, Unit extends string = string> = {
  readonly value: Value;
  readonly text: string;
  readonly unit: Unit;
};

type Cell<F> = F extends { kind: 'length' | 'distance' }
  ? Written<Metres, LengthUnit>
  : F extends { kind: 'volume' }
    ? Written<Litres, VolumeUnit>
    : F extends { kind: 'number' }
      ? Written
      : F extends { kind: 'order' }
        ? number
        : F extends { kind: 'yes-no' }
          ? boolean
          : F extends { kind: 'choice'; choices: readonly (infer Choice)[] }
            ? Choice
            : string;

/**
 * A row as read: one property a column, `null` where the cell is blank, and
 * `row`, its number as a spreadsheet counts it (the header is row 1).
 */
export type Row<Name extends TableName> = {
  readonly row: number;
} & {
  readonly [
    Column in keyof (typeof TABLES)[Name]['fields']
  ]: (typeof TABLES)[Name]['fields'][Column] extends {
    required: true;
  }
    ? Cell<(typeof TABLES)[Name]['fields'][Column]>
    : Cell<(typeof TABLES)[Name]['fields'][Column]> | null;
};

/** Rows by what a person calls them. */
export type Location = Row<'locations'>;
export type Screen = Row<'screens'>;
export type MeasuringPoint = Row<'measuring_points'>;
export type Attempt = Row<'attempts'>;
export type Event = Row<'events'>;
export type WaterLevel = Row<'water_levels'>;
export type Sample = Row<'samples'>;
export type ResultRow = Row<'results'>;
export type ScreeningLevel = Row<'screening_levels'>;
export type Stratum = Row<'strata'>;
export type Feature = Row<'features'>;
export type Decision = Row<'decisions'>;
