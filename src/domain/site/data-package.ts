import type { TableName } from './schema';
import type { Settings } from './settings';
import type { Table } from './table';

/**
 * A site as it is kept: the settings and its tables as text. This is what is
 * edited, undone and saved; `readSite` makes of it what the calculations use.
 */
export type DataPackage = {
  readonly settings: Settings;
  /** Tables present; an absent one reads as empty. */
  readonly tables: Readonly<Partial<Record<TableName, Table>>>;
  /** Where each table's file lies in the folder, for those present. */
  readonly paths: Readonly<Partial<Record<TableName, string>>>;
  /** Units a column is recorded in where the descriptor gives one: table, column, unit. */
  readonly columnUnits: Readonly<Partial<Record<TableName, Readonly<Record<string, string>>>>>;
  /** What else the descriptor said, kept as it was for the next save. */
  readonly descriptor: Readonly<Record<string, unknown>>;
};
