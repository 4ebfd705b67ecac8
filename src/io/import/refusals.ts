import { refusalSentence, type Refusal } from './ask';
import { rowNumber, type SourceTable } from './source-table';

/** A row that is not taken, and why. */
export type RefusedRow = {
  /** As a spreadsheet numbers it. */
  readonly row: number;
  /** Row of the file's table, from 0. */
  readonly at: number;
  readonly why: string;
  /** Nothing is wrong with it: it waits for answers alone. */
  readonly waits: boolean;
};

/**
 * Why rows of a file are refused. A question nobody has answered yet refuses a
 * million rows for a handful of reasons: those are kept once, and of a row only
 * which of them are its own.
 */
export class Refusals {
  /** Which reasons a row has, by their place in the list and 1; 0 for a row that is not refused. */
  private readonly which: Uint32Array;
  private readonly reasons: (readonly Refusal[])[] = [];

  constructor(rows: number) {
    this.which = new Uint32Array(rows);
  }

  /** Refuse a row, counted from 0. Rows after one another that share a list of reasons share its place. */
  add(row: number, reasons: readonly Refusal[]): void {
    if (this.reasons.at(-1) !== reasons) this.reasons.push(reasons);
    this.which[row] = this.reasons.length;
  }

  /** The refused rows in order, each with the number of its reasons: `reasonsAt` gives them. */
  *rows(): Generator<readonly [row: number, which: number]> {
    for (let row = 0; row < this.which.length; row++) {
      const which = this.which[row] ?? 0;
      if (which > 0) yield [row, which - 1];
    }
  }

  reasonsAt(which: number): readonly Refusal[] {
    return this.reasons[which] ?? [];
  }
}

/**
 * Rows refused, in the order of the file, each once with all its reasons.
 * @param rowOf  the row of the file each refused row came from: several results may stand in one
 * @param waits  whether reasons, by their number, are open questions alone
 */
export function refusedRows(
  source: SourceTable,
  refusals: Refusals,
  rowOf: Uint32Array,
  waits: (which: number) => boolean,
): RefusedRow[] {
  // Of each row of the file the number of its first reasons and 1; of few rows there are more.
  const first = new Uint32Array(source.table.size);
  const more = new Map<number, number[]>();
  for (const [i, which] of refusals.rows()) {
    const at = rowOf[i] ?? i;
    if (first[at] === 0) first[at] = which + 1;
    else more.set(at, [...(more.get(at) ?? []), which]);
  }
  const sentencesOf = (all: readonly number[]) =>
    [...new Set(all.flatMap((which) => refusals.reasonsAt(which)).map(refusalSentence))].join(' ');
  const alone = new Map<number, string>();
  const rows: RefusedRow[] = [];
  for (let at = 0; at < first.length; at++) {
    if (first[at] === 0) continue;
    const which = (first[at] ?? 0) - 1;
    const others = more.get(at);
    const why = others
      ? sentencesOf([which, ...others])
      : (alone.get(which) ?? sentencesOf([which]));
    if (!others) alone.set(which, why);
    rows.push({
      at,
      row: rowNumber(source, at),
      why,
      waits: [which, ...(others ?? [])].every(waits),
    });
  }
  return rows;
}
