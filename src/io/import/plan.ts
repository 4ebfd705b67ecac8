import type { TableName } from '../../domain/site/schema';
import type { Made } from './cells';

/** What the rows of a file become in one table of the site. */
export type Part = {
  readonly table: TableName;
  /**
   * Columns that name a row, as the table's schema has them. In `once` a row of
   * the file that leaves all of them blank says nothing of the part.
   */
  readonly key: readonly string[];
  readonly columns: readonly Made[];
};

/**
 * How the rows of a file become rows of tables: `rows` gets one a row of the
 * file; each part in `once` one for all rows of the file with its key, such as
 * the sample of sixty results. Without `rows`, several rows of the file make up
 * what they speak of: the shots of one well.
 */
export type Plan = {
  readonly rows: Part | null;
  readonly once: readonly Part[];
};
