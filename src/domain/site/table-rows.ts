import type { CellValue } from './read-cell';
import type { Block } from './table';

/** Rows to be read through in order, or one at a time; an array is one. */
export type Rows<T> = Iterable<T> & {
  readonly length: number;
  at(place: number): T | undefined;
  /** A row for each different set of values in some columns; the same may come more than once. */
  different?(columns: readonly string[]): Iterable<T>;
  /** The rows in runs as they are kept, each cell a code; a plain list has none. */
  coded?(): readonly CodedRows<T>[];
};

/** A column of a run of rows: the code of each row, and the value each code stands for. */
export type CodedColumn = {
  readonly codes: Uint16Array | Uint32Array;
  readonly dictionary: readonly (CellValue | null | undefined)[];
};

/** A run of rows as codes, for what looks at very many rows and makes few of them. */
export type CodedRows<T> = {
  readonly size: number;
  /** One a row: `READ` where there is one to be made. */
  readonly state: Uint8Array;
  readonly column: (name: keyof T & string) => CodedColumn;
  readonly make: (i: number) => T;
};

export const READ = 1;
export const REFUSED = 2;

/** A block as it was read. */
export type ReadBlock = {
  readonly block: Block;
  /** Rows of the table before it. */
  readonly start: number;
  /** For each column of the schema the value of each text of its dictionary; null where the table lacks it. */
  readonly values: readonly (readonly (CellValue | null | undefined)[] | null)[];
  /** One a row: `READ`, `REFUSED`, or 0 for a blank one. */
  readonly state: Uint8Array;
};

/**
 * Rows made as they are asked for, so that a million results are not a million objects.
 * @param names  columns of the schema
 * @param places  where each stands in the table; −1 for nowhere
 */
export function tableRows<T>(
  names: readonly string[],
  places: readonly number[],
  blocks: readonly ReadBlock[],
  length: number,
): Rows<T> {
  const makerOf = ({ block, start, values }: ReadBlock) => {
    const codes = places.map((at) => block.columns[at]?.codes);
    return (i: number): T => {
      const row: Record<string, unknown> = { row: start + i + 2 };
      for (let which = 0; which < names.length; which++) {
        const code = codes[which]?.[i];
        row[names[which] ?? ''] = (code === undefined ? null : values[which]?.[code]) ?? null;
      }
      return row as T;
    };
  };
  const counts = blocks.map(({ state }) => {
    let count = 0;
    for (const each of state) if (each === READ) count++;
    return count;
  });

  return {
    length,
    *[Symbol.iterator]() {
      for (const block of blocks) {
        const make = makerOf(block);
        for (let i = 0; i < block.block.size; i++) if (block.state[i] === READ) yield make(i);
      }
    },
    *different(columns) {
      for (const block of blocks) {
        const coded = columns.flatMap(
          (column) => block.block.columns[places[names.indexOf(column)] ?? -1] ?? [],
        );
        const make = makerOf(block);
        const seen = new Set<string | number>();
        const setAt = codeSets(coded);
        for (let i = 0; i < block.block.size; i++) {
          if (block.state[i] !== READ) continue;
          const set = setAt(i);
          if (seen.has(set)) continue;
          seen.add(set);
          yield make(i);
        }
      }
    },
    coded: () =>
      blocks.map((block) => ({
        size: block.block.size,
        state: block.state,
        column: (name) => {
          const which = names.indexOf(name);
          const codes = block.block.columns[places[which] ?? -1]?.codes;
          return codes
            ? { codes, dictionary: block.values[which] ?? [] }
            : { codes: new Uint16Array(block.block.size), dictionary: [null] };
        },
        make: makerOf(block),
      })),
    at(place) {
      let left = place < 0 ? place + length : place;
      for (const [which, block] of blocks.entries()) {
        const count = counts[which] ?? 0;
        if (left < count) {
          for (let i = 0; i < block.block.size; i++)
            if (block.state[i] === READ && left-- === 0) return makerOf(block)(i);
        }
        left -= count;
      }
      return undefined;
    },
  };
}

/** What names the set of codes several columns have in a row. */
export function codeSets(
  given: readonly { readonly dictionary: ArrayLike<unknown>; readonly codes: ArrayLike<number> }[],
): (i: number) => number | string {
  const columns = given.filter(({ dictionary }) => dictionary.length > 1);
  const sizes = columns.map(({ dictionary }) => dictionary.length);
  if (sizes.reduce((product, size) => product * size, 1) >= Number.MAX_SAFE_INTEGER)
    return (i) => columns.map(({ codes }) => codes[i] ?? 0).join(' ');
  return (i) => {
    let set = 0;
    for (let k = 0; k < columns.length; k++)
      set = set * (sizes[k] ?? 1) + (columns[k]?.codes[i] ?? 0);
    return set;
  };
}

/** A row for each different set of values in some columns, of a table or of a list; the same may come more than once. */
export const rowsDifferingIn = <T extends object>(
  rows: Rows<T>,
  columns: readonly (keyof T & string)[],
): Iterable<T> => rows.different?.(columns) ?? rows;

/** Rows in runs of codes, of a table or of a list. */
export const rowsCoded = <T extends object>(rows: Rows<T>): readonly CodedRows<T>[] =>
  rows.coded?.() ?? [codedList([...rows])];

const codedList = <T extends object>(rows: readonly T[]): CodedRows<T> => ({
  size: rows.length,
  state: new Uint8Array(rows.length).fill(READ),
  column: (name) => {
    const places = new Map<CellValue | null, number>();
    const codes = Uint32Array.from(rows, (row) => {
      const value = row[name] as CellValue | null;
      const code = places.get(value) ?? places.size;
      places.set(value, code);
      return code;
    });
    return { codes, dictionary: [...places.keys()] };
  },
  make: (i) => {
    const row = rows[i];
    if (!row) throw new RangeError(`no row ${i} of ${rows.length}`);
    return row;
  },
});
