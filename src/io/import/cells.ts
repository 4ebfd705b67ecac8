import type { Block, Column } from '../../domain/site/table';
import { isRefusal, type Cell } from './ask';

/** A column of a block, made from one or more of a file's: a dictionary and one code a row. */
export type Cells = {
  readonly dictionary: readonly Cell[];
  readonly codes: Uint16Array;
};

/** How a column of a table is made from columns of a file. */
export type Made = {
  readonly column: string;
  /** Columns of the file, by place; none: the same in every row. */
  readonly from: readonly number[];
  /** Texts in the order of `from`, trimmed. Called once for each different set of them in a block. */
  readonly make: (texts: readonly string[]) => Cell;
  /** Written, but never compared with what the site has. */
  readonly uncompared?: true;
};

const trimmed = ({ dictionary }: Column) => dictionary.map((text) => text.trim());

/** A column made for every row of a block, its maker asked once a distinct text. */
export function cellsOf(block: Block, { from, make }: Made): Cells {
  const columns = from.map((at) => block.columns[at]).filter((column) => column !== undefined);
  const [first, second] = columns;
  if (first === undefined) return { dictionary: [make([])], codes: new Uint16Array(block.size) };
  if (second === undefined) return ofOne(first, make);
  return ofSeveral(columns, block.size, make);
}

function ofOne(column: Column, make: Made['make']): Cells {
  const made: Cell[] = [];
  const text: string[] = [''];
  let same = true;
  for (const written of column.dictionary) {
    text[0] = written.trim();
    const cell = make(text);
    if (cell !== written) same = false;
    made.push(cell);
  }
  // What was distinct and has not changed is distinct still: the codes stand as they are.
  if (same) return { dictionary: column.dictionary, codes: column.codes };
  return distinct(made, column.codes);
}

/** The same cells with every text once in the dictionary. */
function distinct(made: readonly Cell[], codes: Uint16Array): Cells {
  const places = new Map<string, number>();
  const dictionary: Cell[] = [];
  const codeOf = new Uint16Array(made.length);
  made.forEach((cell, code) => {
    const place = isRefusal(cell) ? undefined : places.get(cell);
    if (place !== undefined) {
      codeOf[code] = place;
      return;
    }
    codeOf[code] = dictionary.length;
    if (!isRefusal(cell)) places.set(cell, dictionary.length);
    dictionary.push(cell);
  });
  return dictionary.length === made.length
    ? { dictionary, codes }
    : { dictionary, codes: codes.map((code) => codeOf[code] ?? 0) };
}

/** Sets of codes are numbered as they come; neighbouring rows mostly have the same. */
function ofSeveral(columns: readonly Column[], size: number, make: Made['make']): Cells {
  const texts = columns.map(trimmed);
  const codes = new Uint16Array(size);
  const made: Cell[] = [];
  const sets = codeSets(columns);
  const seen = new Map<number | string, number>();
  for (let i = 0; i < size; i++) {
    if (i > 0 && sets.sameAsBefore(i)) {
      codes[i] = codes[i - 1] ?? 0;
      continue;
    }
    const set = sets.at(i);
    let code = seen.get(set);
    if (code === undefined) {
      code = made.length;
      seen.set(set, code);
      made.push(make(columns.map((column, k) => texts[k]?.[column.codes[i] ?? 0] ?? '')));
    }
    codes[i] = code;
  }
  return distinct(made, codes);
}

/** What names the set of codes several columns have in a row. */
export function codeSets(given: readonly Column[]) {
  // A column that says one thing throughout tells no row from another.
  const columns = given.filter(({ dictionary }) => dictionary.length > 1);
  const sizes = columns.map(({ dictionary }) => dictionary.length);
  const fits = sizes.reduce((product, size) => product * size, 1) < Number.MAX_SAFE_INTEGER;
  return {
    sameAsBefore: (i: number) => {
      for (const { codes } of columns) if (codes[i] !== codes[i - 1]) return false;
      return true;
    },
    at: (i: number): number | string => {
      if (!fits) return columns.map(({ codes }) => codes[i] ?? 0).join(' ');
      let set = 0;
      for (let k = 0; k < columns.length; k++)
        set = set * (sizes[k] ?? 1) + (columns[k]?.codes[i] ?? 0);
      return set;
    },
  };
}

/** The rows of a made column that are kept, with only the texts they use. */
export function keptColumn({ dictionary, codes }: Cells, keep: Uint8Array, count: number): Column {
  if (count === keep.length && isAllText(dictionary)) return { dictionary, codes };
  const places = new Map<number, number>();
  const texts: string[] = [];
  const kept = new Uint16Array(count);
  let row = 0;
  for (let i = 0; i < keep.length; i++) {
    if (keep[i] === 0) continue;
    const code = codes[i] ?? 0;
    let place = places.get(code);
    if (place === undefined) {
      place = texts.length;
      places.set(code, place);
      const cell = dictionary[code] ?? '';
      texts.push(isRefusal(cell) ? '' : cell);
    }
    kept[row++] = place;
  }
  return { dictionary: texts.length > 0 ? texts : [''], codes: kept };
}

const isAllText = (dictionary: readonly Cell[]): dictionary is readonly string[] =>
  !dictionary.some(isRefusal);

/** The text of a row of a made column; blank where its cell can't be taken. */
export function textIn(cells: Cells | undefined, i: number): string {
  const cell = cells?.dictionary[cells.codes[i] ?? 0] ?? '';
  return isRefusal(cell) ? '' : cell;
}
