import type { SourceTable } from './source-table';

/** Rows looked at to tell what a column holds. */
const LOOKED_AT = 200;

/** Some distinct texts of a column that are not blank, from its first rows. */
export function someTexts({ table }: SourceTable, at: number): readonly string[] {
  const [block] = table.blocks;
  const column = block?.columns[at];
  if (!column) return [];
  const codes = new Set(column.codes.subarray(0, LOOKED_AT));
  return [...codes].map((code) => (column.dictionary[code] ?? '').trim()).filter(Boolean);
}

/** Whether four in five of some texts are of a kind, and there are any. */
export const most = (texts: readonly string[], is: (text: string) => boolean) =>
  texts.length > 0 && texts.filter(is).length >= 0.8 * texts.length;

/** The cells of a row, from 0. */
export function firstCells({ table }: SourceTable, row: number): readonly string[] {
  const block = table.blocks[0];
  if (!block || row >= block.size) return [];
  return block.columns.map(({ dictionary, codes }) => (dictionary[codes[row] ?? -1] ?? '').trim());
}
