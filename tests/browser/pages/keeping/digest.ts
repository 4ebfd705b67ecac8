import type { DataPackage } from '../../../../src/domain/site/data-package';
import type { Block } from '../../../../src/domain/site/table';

const PRIME = 0x01000193;

const ofText = (text: string): number => {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), PRIME);
  return hash;
};

const power = (base: number, times: number): number => {
  let result = 1;
  let square = base;
  for (let left = times; left > 0; left >>>= 1) {
    if (left & 1) result = Math.imul(result, square);
    square = Math.imul(square, square);
  }
  return result;
};

const ROW = 0x9e3779b1;
const known = new WeakMap<Block, number>();

function ofBlock(block: Block): number {
  const before = known.get(block);
  if (before !== undefined) return before;
  const columns = block.columns.map(({ dictionary, codes }) => ({
    texts: dictionary.map(ofText),
    codes,
  }));
  let hash = 0;
  for (let row = 0; row < block.size; row++) {
    let cells = 17;
    for (const { texts, codes } of columns)
      cells = Math.imul(cells, PRIME) + (texts[codes[row] ?? 0] ?? 0);
    hash = (Math.imul(hash, ROW) + cells) | 0;
  }
  known.set(block, hash);
  return hash;
}

/** For each table its name, size, columns, and a number for its cells, however they lie in blocks. */
export const tableDigests = ({ tables }: DataPackage): string[] =>
  Object.entries(tables)
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, { columns, blocks, size }]) => {
      const hash = blocks.reduce(
        (sum, block) => (Math.imul(sum, power(ROW, block.size)) + ofBlock(block)) | 0,
        0,
      );
      return `${name} ${size} ${columns.join()} ${hash >>> 0}`;
    });

/** A number for all cells of a site in their order, and its settings. */
export const digestOf = (site: DataPackage): string =>
  `${ofText(tableDigests(site).join('\n') + JSON.stringify(site.settings)) >>> 0}`;
