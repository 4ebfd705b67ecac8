import { isLengthUnit, isVolumeUnit } from '../units';
import type { Problem } from './problem';
import { expectedOf, readCell, unitOf, type RecordedUnits } from './read-cell';
import { Keys } from './row-keys';
import { fieldsOf, type Field, type Row, type TableName } from './schema';
import { textAt, type Block, type Column, type Table } from './table';
import { READ, REFUSED, tableRows, type ReadBlock, type Rows } from './table-rows';

export type { Rows };

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

const valuesOf = new WeakMap<Column['dictionary'], Map<string, ReadBlock['values'][number]>>();

/** A column's dictionary read once: a value, null for blank, or undefined where it can't be read. */
function dictionaryValues({ dictionary }: Column, by: string, { field, unit }: ReadColumn) {
  let kept = valuesOf.get(dictionary);
  if (!kept) valuesOf.set(dictionary, (kept = new Map<string, ReadBlock['values'][number]>()));
  const before = kept.get(by);
  if (before) return before;
  const values = dictionary.map((text) => {
    const cell = readCell(text, field, unit);
    return cell.ok ? cell.value : undefined;
  });
  kept.set(by, values);
  return values;
}

/** What steps come to, taken one after the other without a rest. */
export function allOf<Made>(steps: Generator<number, Made>): Made {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** Read every row of a table against its schema; rows with a problem are counted and named, not used. */
export const readTable = <Name extends TableName>(
  name: Name,
  table: Table,
  context: ReadingContext,
): TableReading<Name> => allOf(readingTable(name, table, context));

/** `readTable` a block at a time; each step says how many rows it read. */
export function* readingTable<Name extends TableName>(
  name: Name,
  table: Table,
  context: ReadingContext,
): Generator<number, TableReading<Name>> {
  const problems: Problem[] = [];
  const refuse: Refuse = (row, column, expected, found) => {
    if (problems.length < MOST_PROBLEMS)
      problems.push({ table: name, file: context.file, row, column, expected, found });
  };
  const columns = columnsOf(name, table, context, refuse);
  const unnamed = table.columns.flatMap((column, at) => (column === '' ? [at] : []));
  const keys = new Keys(name, table);
  const account = { rows: table.size, read: 0, refused: 0, blank: 0 };
  const blocks: ReadBlock[] = [];

  let start = 0;
  for (const block of table.blocks) {
    const facts = factsOf(name, block, columns, unnamed, context);
    const { isBlank, odd, values } = facts;
    const state = new Uint8Array(block.size);
    const key = keys.of(block, start);
    for (let i = 0; i < block.size; i++) {
      if (isBlank?.(i)) {
        account.blank++;
        continue;
      }
      let sound = true;
      const row = start + i + 2;
      if (odd[i] !== 0)
        for (const { column, expected, found } of facts.doubts(i)) {
          sound = false;
          refuse(row, column, expected, found);
        }
      const before = key?.before(i) ?? -1;
      if (before >= 0) {
        sound = false;
        refuse(
          row,
          keys.title,
          `a row not already there (row ${before + 2})`,
          keys.words(block, i),
        );
      }
      state[i] = sound ? READ : REFUSED;
      if (sound) account.read++;
      else account.refused++;
    }
    blocks.push({ block, start, values, state });
    start += block.size;
    yield block.size;
  }

  const names = columns.map((column) => column.name);
  const places = columns.map(({ at }) => at);
  return { rows: tableRows<Row<Name>>(names, places, blocks, account.read), account, problems };
}

type Refuse = (row: number | null, column: string | null, expected: string, found: string) => void;

/** The columns of the schema as the table has them; what is wrong with its header is said. */
function columnsOf(
  name: TableName,
  table: Table,
  context: ReadingContext,
  refuse: Refuse,
): readonly ReadColumn[] {
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
  for (const { name: column, field, at } of columns)
    if (field.required && at < 0 && table.size > 0)
      refuse(1, column, 'this column', table.columns.join(', '));
  return columns;
}

type Doubt = { readonly column: string; readonly expected: string; readonly found: string };

/** What the cells of a block are, and which of its rows have one that cannot be used. */
function factsOf(
  name: TableName,
  block: Block,
  columns: readonly ReadColumn[],
  unnamed: readonly number[],
  { names }: ReadingContext,
) {
  const values = columns.map((c) => {
    const column = block.columns[c.at];
    return column ? dictionaryValues(column, `${name} ${c.name} ${c.unit ?? ''}`, c) : null;
  });
  const doubtOf = (which: number, code: number): ((found: string) => Doubt) | null => {
    const c = columns[which];
    if (!c) return null;
    const { field, unit } = c;
    const value = values[which]?.[code];
    const doubt = (expected: string) => (found: string) => ({ column: c.name, expected, found });
    if (values[which] && value === undefined) return doubt(expectedOf(field, unit));
    if (value === undefined || value === null)
      return field.required ? () => doubt(expectedOf(field, unit))('') : null;
    const target = field.refers as TableName | undefined;
    const named = target && names[target];
    if (!named || typeof value !== 'string' || named.read.has(value)) return null;
    return doubt(
      named.refused.has(value)
        ? `a row of ${target} that could be read`
        : `the id of a row of ${target}`,
    );
  };
  // Nearly every text is sound: each is looked at once, and rows only where one is not.
  const doubted = columns.map(({ at }, which) => {
    const dictionary = block.columns[at]?.dictionary;
    return dictionary ? dictionary.map((_, code) => doubtOf(which, code)) : [doubtOf(which, 0)];
  });
  const odd = new Uint8Array(block.size);
  const mark = (column: Column | undefined, isOdd: (code: number) => boolean) => {
    const codes = column?.codes;
    for (let i = 0; i < odd.length; i++) if (isOdd(codes?.[i] ?? 0)) odd[i] = 1;
  };
  doubted.forEach((doubts, which) => {
    if (doubts.some((doubt) => doubt !== null))
      mark(block.columns[columns[which]?.at ?? -1], (code) => (doubts[code] ?? null) !== null);
  });
  for (const at of unnamed) {
    const column = block.columns[at];
    if (column?.dictionary.some((text) => text.trim() !== ''))
      mark(column, (code) => (column.dictionary[code] ?? '').trim() !== '');
  }

  function* doubts(i: number): Generator<Doubt> {
    for (let which = 0; which < columns.length; which++) {
      const column = block.columns[columns[which]?.at ?? -1];
      const doubt = doubted[which]?.[column?.codes[i] ?? 0] ?? null;
      if (doubt) yield doubt(textAt(column, i));
    }
    for (const at of unnamed) {
      const found = textAt(block.columns[at], i);
      if (found.trim() !== '')
        yield {
          column: 'after the last column',
          expected: 'no more cells than the header has',
          found,
        };
    }
  }

  return { values, odd, doubts, isBlank: blankRows(block) };
}

/** Whether a row of a block is blank all through; null where none can be. */
function blankRows({ columns }: Block): ((i: number) => boolean) | null {
  const blank = columns.map(({ dictionary }) => dictionary.map((text) => text.trim() === ''));
  if (!blank.every((texts) => texts.includes(true))) return null;
  return (i) => columns.every(({ codes }, at) => blank[at]?.[codes[i] ?? -1] ?? true);
}
