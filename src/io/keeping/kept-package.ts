import type { DataPackage } from '../../domain/site/data-package';
import { isTableName, type TableName } from '../../domain/site/schema';
import type { Settings } from '../../domain/site/settings';
import type { Block, Table } from '../../domain/site/table';

/** A table with its blocks named by number, so that steps of a site can share them. */
export type KeptTable = {
  readonly columns: readonly string[];
  readonly blocks: readonly { readonly id: number; readonly size: number }[];
};

/** A site without its blocks. */
export type KeptPackage = {
  readonly settings: Settings;
  /** As JSON, which keeps its words and their order; null: as in the state before. */
  readonly descriptor: string | null;
  readonly paths: DataPackage['paths'];
  readonly columnUnits: DataPackage['columnUnits'];
  readonly tables: Readonly<Partial<Record<TableName, KeptTable>>>;
};

/** Rows whose block is not there any more, from 0, the last included. */
export type MissingRows = {
  readonly table: TableName;
  readonly from: number;
  readonly to: number;
};

type TableEntry = readonly [TableName, Table];

const tablesOf = (given: DataPackage): TableEntry[] =>
  Object.entries(given.tables).flatMap(([name, table]) =>
    isTableName(name) ? [[name, table] as const] : [],
  );

/** Every block of a site. */
export const blocksOf = (given: DataPackage): Block[] =>
  tablesOf(given).flatMap(([, { blocks }]) => blocks);

/** Every number of a block a kept site names. */
export const blockIdsOf = (kept: KeptPackage): number[] =>
  Object.values(kept.tables).flatMap(({ blocks }) => blocks.map(({ id }) => id));

/** About how many bytes a block takes, without reading through it. */
export const aboutBytesOf = ({ columns }: Block): number =>
  columns.reduce((sum, { codes, dictionary }) => {
    const longest = dictionary[dictionary.length >> 1]?.length ?? 0;
    return sum + codes.byteLength + dictionary.length * (8 + longest);
  }, 0);

/** A site without its blocks. @param idOf  the number a block is kept under */
export function shellOf(given: DataPackage, idOf: (block: Block) => number): KeptPackage {
  const tables: Partial<Record<TableName, KeptTable>> = {};
  for (const [name, { columns, blocks }] of tablesOf(given))
    tables[name] = { columns, blocks: blocks.map((b) => ({ id: idOf(b), size: b.size })) };
  return {
    settings: given.settings,
    descriptor: JSON.stringify(given.descriptor),
    paths: given.paths,
    columnUnits: given.columnUnits,
    tables,
  };
}

const BLANK_COLUMN = (size: number) => ({ dictionary: [''], codes: new Uint16Array(size) });

/**
 * A site from its shell and its blocks. A block that is not there reads as
 * blank rows, so that the rest can be read, and its rows are listed.
 */
export function packageOf(
  kept: KeptPackage,
  blocks: ReadonlyMap<number, Block>,
  before: DataPackage | null,
): { readonly package: DataPackage; readonly missing: readonly MissingRows[] } {
  const missing: MissingRows[] = [];
  const tables: Partial<Record<TableName, Table>> = {};
  for (const [name, table] of Object.entries(kept.tables)) {
    if (!isTableName(name)) continue;
    let size = 0;
    const found = table.blocks.map(({ id, size: rows }): Block => {
      const block = blocks.get(id);
      if (!block) missing.push({ table: name, from: size, to: size + rows - 1 });
      size += rows;
      return block ?? { size: rows, columns: table.columns.map(() => BLANK_COLUMN(rows)) };
    });
    tables[name] = { columns: table.columns, blocks: found, size };
  }
  const descriptor =
    kept.descriptor === null
      ? (before?.descriptor ?? {})
      : (JSON.parse(kept.descriptor) as DataPackage['descriptor']);
  const { settings, paths, columnUnits } = kept;
  return { package: { settings, tables, paths, columnUnits, descriptor }, missing };
}
