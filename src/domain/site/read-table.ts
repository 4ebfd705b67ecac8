import type { Problem } from './problem';
import { expectedOf, readCell, unitOf, type CellValue, type RecordedUnits } from './read-cell';
import { isLengthUnit, isVolumeUnit } from '../units';
import { fieldsOf, TABLES, type Field, type Row, type TableName } from './schema';
import type { Block, Column, Table } from './table';

/** Rows to be read through in order, or one at a time; an array is one. */
export type Rows<T> = Iterable<T> & {
  readonly length: number;
  at(place: number): T | undefined;
};

/** What became of every row of a file: rows = read + refused + blank. */
export type Account = {
  readonly rows: number;
  readonly read: number;
  /** Rows with a problem: kept in the table, not used. */
  readonly refused: number;
  readonly blank: number;
};

export type TableReading<Name extends TableName> = {
  readonly rows: Rows<Row<Name>>;
  readonly account: Account;
  readonly problems: readonly Problem[];
};

/** What a table is read against. */
export type ReadingContext = {
  readonly file: string;
  readonly units: RecordedUnits;
  /** Units the descriptor gives for columns, by column. */
  readonly columnUnits: Readonly<Record<string, string>>;
  /** Names that cells may refer to, by table. */
  readonly names: Readonly<Partial<Record<TableName, Named>>>;
};

/** Names in a table: those read, and those of rows that were refused. */
export type Named = { readonly read: ReadonlySet<string>; readonly refused: ReadonlySet<string> };

const READ = 1;
const REFUSED = 2;

/** No more problems than this are listed of one table; the counts are always whole. */
const MOST_PROBLEMS = 2_000;

type ReadColumn = {
  readonly name: string;
  readonly field: Field;
  readonly unit: string | null;
  readonly at: number;
};

const UNITS_FOR: Readonly<Partial<Record<Field['kind'], string>>> = {
  length: 'm, ft or us-ft',
  distance: 'm, ft or us-ft',
  volume: 'L, gal or mL',
};

function isUnitFor({ kind }: Field, unit: string): boolean {
  if (kind === 'length' || kind === 'distance') return isLengthUnit(unit);
  return kind !== 'volume' || isVolumeUnit(unit);
}

/** A column's dictionary read once: a value, null for blank, or undefined where it can't be read. */
const dictionaryValues = (column: Column, { field, unit }: ReadColumn) =>
  column.dictionary.map((text) => {
    const cell = readCell(text, field, unit);
    return cell.ok ? cell.value : undefined;
  });

type ReadBlock = {
  readonly block: Block;
  readonly start: number;
  readonly values: readonly (readonly (CellValue | null | undefined)[] | null)[];
  readonly state: Uint8Array;
};

/** Read every row of a table against its schema; rows with a problem are counted and named, not used. */
export function readTable<Name extends TableName>(
  name: Name,
  table: Table,
  context: ReadingContext,
): TableReading<Name> {
  const problems: Problem[] = [];
  const refuse = (row: number | null, column: string | null, expected: string, found: string) => {
    if (problems.length < MOST_PROBLEMS)
      problems.push({ table: name, file: context.file, row, column, expected, found });
  };

  const columns = fieldsOf(name).map(([column, field]): ReadColumn => {
    const unit = unitOf(field, context.units, context.columnUnits[column]);
    const at = table.columns.indexOf(column);
    if (at >= 0 && unit !== null && !isUnitFor(field, unit)) {
      refuse(1, column, `a unit for this column: ${UNITS_FOR[field.kind]}`, unit);
      return { name: column, field, unit, at: -1 };
    }
    return { name: column, field, unit, at };
  });
  table.columns.forEach((column, at) => {
    if (column !== '' && table.columns.indexOf(column) !== at)
      refuse(1, column, 'each column once', `${column}, twice`);
  });
  const unnamed = table.columns.flatMap((column, at) => (column === '' ? [at] : []));
  for (const { name: column, field, at } of columns)
    if (field.required && at < 0 && table.size > 0)
      refuse(1, column, 'this column', table.columns.join(', '));

  const key = TABLES[name].key as readonly string[];
  const keyColumns = key.map((column) => table.columns.indexOf(column)).filter((at) => at >= 0);
  const seen = new Map<string, number>();
  const account = { rows: table.size, read: 0, refused: 0, blank: 0 };
  const blocks: ReadBlock[] = [];

  let start = 0;
  for (const block of table.blocks) {
    const values = columns.map((c) => {
      const column = block.columns[c.at];
      return column ? dictionaryValues(column, c) : null;
    });
    const state = new Uint8Array(block.size);
    const texts = (at: number, i: number) => {
      const column = block.columns[at];
      return column?.dictionary[column.codes[i] ?? -1] ?? '';
    };

    for (let i = 0; i < block.size; i++) {
      const row = start + i + 2;
      if (block.columns.every((_, at) => texts(at, i).trim() === '')) {
        account.blank++;
        continue;
      }
      let sound = true;
      const doubt = (column: string, expected: string, found: string) => {
        sound = false;
        refuse(row, column, expected, found);
      };

      columns.forEach((c, which) => {
        const code = block.columns[c.at]?.codes[i];
        const value = code === undefined ? null : values[which]?.[code];
        if (value === undefined) doubt(c.name, expectedOf(c.field, c.unit), texts(c.at, i));
        else if (value === null) {
          if (c.field.required) doubt(c.name, expectedOf(c.field, c.unit), '');
        } else if (c.field.refers !== undefined && typeof value === 'string') {
          const target = c.field.refers as TableName;
          const named = context.names[target];
          if (named && !named.read.has(value))
            doubt(
              c.name,
              named.refused.has(value)
                ? `a row of ${target} that could be read`
                : `the id of a row of ${target}`,
              value,
            );
        }
      });

      for (const at of unnamed)
        if (texts(at, i).trim() !== '')
          doubt('after the last column', 'no more cells than the header has', texts(at, i));

      if (keyColumns.length > 0) {
        const named = JSON.stringify(keyColumns.map((at) => texts(at, i).trim()));
        const before = seen.get(named);
        if (before === undefined) seen.set(named, row);
        else
          doubt(
            key.join(' + '),
            `a row not already there (row ${before})`,
            keyColumns.map((at) => texts(at, i).trim()).join(' + '),
          );
      }

      state[i] = sound ? READ : REFUSED;
      if (sound) account.read++;
      else account.refused++;
    }
    blocks.push({ block, start, values, state });
    start += block.size;
  }

  return { rows: rowsOf<Name>(columns, blocks, account.read), account, problems };
}

/** Rows made as they are asked for, so that a million results are not a million objects. */
function rowsOf<Name extends TableName>(
  columns: readonly ReadColumn[],
  blocks: readonly ReadBlock[],
  length: number,
): Rows<Row<Name>> {
  const rowAt = ({ block, start, values }: ReadBlock, i: number): Row<Name> => {
    const row: Record<string, unknown> = { row: start + i + 2 };
    columns.forEach((c, which) => {
      const code = block.columns[c.at]?.codes[i];
      row[c.name] = (code === undefined ? null : values[which]?.[code]) ?? null;
    });
    return row as Row<Name>;
  };
  const counts = blocks.map(({ state }) => state.reduce((n, s) => (s === READ ? n + 1 : n), 0));

  return {
    length,
    *[Symbol.iterator]() {
      for (const block of blocks)
        for (let i = 0; i < block.block.size; i++)
          if (block.state[i] === READ) yield rowAt(block, i);
    },
    at(place) {
      let left = place < 0 ? place + length : place;
      for (const [which, block] of blocks.entries()) {
        const count = counts[which] ?? 0;
        if (left < count) {
          for (let i = 0; i < block.block.size; i++)
            if (block.state[i] === READ && left-- === 0) return rowAt(block, i);
        }
        left -= count;
      }
      return undefined;
    },
  };
}
