import Papa from 'papaparse';
import { asItWas } from '../csv';
import { fail, ok, type Result } from '../../domain/result';
import { BlockBuilder } from './block-builder';
import { DELIMITER_WORDS, findHeader, firstRecords, guessDelimiter, type Delimiter } from './dress';
import { areBareShots, SHOT_HEADINGS } from './survey-shots';
import type { Encoding } from './encoding';
import type { SourceTable, Unreadable } from './source-table';

/** What a person may say of a file's dress where the guess is wrong. */
export type Dressed = {
  readonly delimiter?: Delimiter;
  /** Row of the header as a spreadsheet counts; 0: there is none. */
  readonly headerRow?: number;
  readonly encoding?: Encoding;
};

/** Characters gathered before the dress is told. */
const SAMPLE = 65_536;

/** Characters parsed at a time: what is parsed in vain, where a row is plain again, costs little. */
const SLICE = 16_384;

/** A quoted cell longer than this is a quote that was never closed. */
const LONGEST_CELL = 1_000_000;

/** A table wider than this is none. */
const MOST_COLUMNS = 2_000;

/** After so many quotes that were never closed, quotes are letters like any other. */
const MOST_OPEN_QUOTES = 20;

const CUT_OFF = 'quotes that close (the row is cut at its end, and those after it are read)';

type Parsed = {
  readonly data: string[][];
  readonly errors: readonly {
    readonly type: string;
    readonly code: string;
    readonly row?: number;
  }[];
  readonly meta: { readonly cursor: number };
};

/** Lines above the headings that are told of. */
const MOST_TITLES = 4;

/** What rows further down a text are dressed in, once its headings are read. */
export type RowDress = {
  readonly delimiter: Delimiter;
  readonly newline: '\n' | '\r';
  /** Headings there are. */
  readonly width: number;
};

/** Rows read from a place in the midst of a text on. */
export type RowsRead = Pick<SourceTable, 'table' | 'broken'> & {
  /** Rows that run on beyond the header. */
  readonly longRows: number;
};

/**
 * Reads delimited text as it comes, piece by piece, into columns. Give it text
 * with `push`, and take the table with `end`.
 */
export class DelimitedReader {
  private left = '';
  private heldReturn = '';
  private sampled = false;
  private delimiter: Delimiter = ',';
  private newline: '\n' | '\r' = '\n';
  private parser: Papa.Parser | null = null;
  private headings: readonly string[] = [];
  private headerRow = 0;
  private builder = new BlockBuilder(0);
  private record = 0;
  private readonly broken = new Map<number, string>();
  private tooWide: number | null = null;
  private longRows = 0;
  private readonly titles: string[] = [];
  private openQuotes = 0;
  private plainFrom: number | null = null;

  constructor(
    private readonly name: string,
    private readonly dressed: Dressed = {},
    private readonly said: readonly string[] = [],
  ) {}

  /** One for rows from a place in the midst of a text on, where a row begins. */
  static ofRows({ delimiter, newline, width }: RowDress): DelimitedReader {
    const reader = new DelimitedReader('');
    reader.sampled = true;
    reader.delimiter = delimiter;
    reader.newline = newline;
    reader.parser = new Papa.Parser({ delimiter, newline });
    reader.headings = Array.from({ length: width }, () => '');
    reader.builder = new BlockBuilder(width, asItWas);
    return reader;
  }

  /** Rows read so far. */
  get rows(): number {
    return this.builder.rows;
  }

  /** How the rows to come are dressed; null until the headings are read. */
  get rowDress(): RowDress | null {
    const { delimiter, newline } = this;
    const width = this.headings.length;
    const isKnown = width > 0 && this.record >= this.headerRow && this.tooWide === null;
    return isKnown ? { delimiter, newline, width } : null;
  }

  /**
   * Whether what was given so far ends with a whole row and every quote in it
   * closes: then what comes next is read the same by whoever reads it.
   */
  get endsWhole(): boolean {
    return this.left === '' && this.heldReturn === '' && this.openQuotes === 0;
  }

  /** The rows alone; null where a quote was never closed, which rows before them have a say in. */
  endRows(): RowsRead | null {
    this.take('', true);
    const { broken, longRows } = this;
    return this.openQuotes > 0 ? null : { table: this.builder.table([]), broken, longRows };
  }

  /** Take the rows that come next as another has read them. Nothing may be given after them. */
  join({ table, broken, longRows }: RowsRead): void {
    for (const [row, why] of broken) this.broken.set(this.rows + row, why);
    this.builder.addBlocks(table);
    this.record += table.size;
    this.longRows += longRows;
  }

  push(text: string): void {
    this.take(text, false);
  }

  end(): Result<SourceTable, Unreadable> {
    this.take('', true);
    if (this.tooWide !== null)
      return fail(
        `${this.name} has a header of ${this.tooWide} columns; a table has at most ${MOST_COLUMNS}.`,
      );
    if (this.record === 0) return fail(`${this.name} is empty.`);
    const said = [...this.said, ...this.noticed()];
    return ok({
      name: this.name,
      headings: this.headings,
      headerRow: this.headerRow,
      table: this.builder.table(this.headings),
      broken: this.broken,
      coordinates: null,
      titles: this.titles,
      said,
    });
  }

  private noticed(): readonly string[] {
    const at =
      this.headerRow === 0
        ? 'The file is read as having no header.'
        : `Row ${this.headerRow} is taken as the header${this.titles.length > 0 ? `. Above it: ${this.titles.map((title) => `“${title}”`).join('; ')}` : ''}.`;
    const long =
      this.longRows === 0
        ? []
        : [`${this.longRows} rows run on beyond the header; they are refused with what is there.`];
    const plain =
      this.plainFrom === null
        ? []
        : [`Too many quotes never close: from row ${this.plainFrom} on they are read as letters.`];
    return [`Cells are separated by ${DELIMITER_WORDS[this.delimiter]}.`, at, ...long, ...plain];
  }

  private take(piece: string, last: boolean): void {
    if (this.tooWide !== null) return;
    let text = this.heldReturn + piece;
    this.heldReturn = '';
    if (!last && text.endsWith('\r')) {
      this.heldReturn = '\r';
      text = text.slice(0, -1);
    }
    // One line end for the parser, which knows one at a time; pieces never part CR from LF.
    if (text.includes('\r\n')) text = text.replaceAll('\r\n', '\n');
    this.left += text;
    if (!this.sampled) {
      if (this.left.length < SAMPLE && !last) return;
      this.tellDress();
    }
    this.parse(last);
  }

  private tellDress(): void {
    this.sampled = true;
    if (this.left.startsWith('\uFEFF')) this.left = this.left.slice(1);
    const sample = this.left.slice(0, SAMPLE);
    this.newline = sample.includes('\n') || !sample.includes('\r') ? '\n' : '\r';
    this.delimiter = this.dressed.delimiter ?? guessDelimiter(sample, this.newline);
    const records = firstRecords(sample, this.delimiter, this.newline);
    const isBare = areBareShots(records);
    this.headerRow = this.dressed.headerRow ?? (isBare ? 0 : findHeader(records) + 1);
    this.parser = new Papa.Parser({ delimiter: this.delimiter, newline: this.newline });
    if (this.headerRow === 0) {
      const width = Math.max(1, ...records.map(({ length }) => length));
      this.head(isBare ? SHOT_HEADINGS : Array.from({ length: width }, (_, at) => `column ${at + 1}`)); // prettier-ignore
    }
  }

  private head(cells: readonly string[]): void {
    let width = cells.length;
    while (width > 1 && (cells[width - 1] ?? '').trim() === '') width--;
    if (width > MOST_COLUMNS) this.tooWide = width;
    else {
      this.headings = cells.slice(0, width).map((cell) => asItWas(cell).trim());
      // What our own files carry to keep a spreadsheet from running it is taken off.
      this.builder = new BlockBuilder(width, asItWas);
    }
  }

  private parse(last: boolean): void {
    while (this.left !== '' && this.parser && this.tooWide === null) {
      this.left = this.left.slice(this.takeWholeRows(this.parser));
      if (!last && this.left.length < LONGEST_CELL) return;
      if (!this.finishRow(last)) return;
    }
  }

  /**
   * Take the rows that are whole: plain ones as they stand, and a few thousand
   * characters at a time through the parser where one is not. Gives the place
   * where the first row begins that is not whole.
   */
  private takeWholeRows(parser: Papa.Parser): number {
    const text = this.left;
    let at = 0;
    let slice = SLICE;
    while (at < text.length && this.tooWide === null) {
      at = this.takePlainRows(text, at);
      if (at === text.length) return at;
      const piece = text.slice(at, at + slice);
      const { data, errors, meta } = parser.parse(piece, 0, true) as Parsed;
      this.addAll(data, errors);
      at += meta.cursor;
      if (meta.cursor > 0) slice = SLICE;
      else if (slice < text.length - at) slice *= 4;
      else return at;
    }
    return at;
  }

  private takePlainRows(text: string, at: number): number {
    const width = this.headings.length;
    if (width === 0 || this.record < this.headerRow || this.plainFrom !== null) return at;
    const before = this.builder.rows;
    const [delimiter, newline] = [this.delimiter.charCodeAt(0), this.newline.charCodeAt(0)];
    const end = this.builder.addPlain(text, at, width, delimiter, newline);
    this.record += this.builder.rows - before;
    return end;
  }

  /** The last row of the text, or one whose quote was never closed. Whether there may be more. */
  private finishRow(last: boolean): boolean {
    if (this.left === '' || !this.parser) return false;
    const { data, errors } = this.parser.parse(this.left, 0, false) as Parsed;
    const open = errors.some(({ code }) => code === 'MissingQuotes');
    if (!open && last) {
      this.addAll(data, errors);
      this.left = '';
      return false;
    }
    if (!open && this.left.length < LONGEST_CELL * 4) return false;
    // Cut at the end of its first line, so that the rows it swallowed are read after all.
    const end = this.left.indexOf(this.newline);
    const line = end < 0 ? this.left : this.left.slice(0, end);
    this.left = end < 0 ? '' : this.left.slice(end + 1);
    this.add(line.split(this.delimiter), CUT_OFF);
    if (++this.openQuotes === MOST_OPEN_QUOTES) {
      this.plainFrom = this.record + 1;
      this.parser = new Papa.Parser({
        delimiter: this.delimiter,
        newline: this.newline,
        fastMode: true,
      });
    }
    return true;
  }

  private addAll(data: readonly string[][], errors: Parsed['errors']): void {
    const bad = new Set<number>();
    for (const { type, row } of errors) if (type === 'Quotes' && row !== undefined) bad.add(row);
    for (let i = 0; i < data.length; i++)
      this.add(data[i] ?? [], bad.has(i) ? 'quotes that close before the next delimiter' : null);
  }

  /** Note what stands above the headings: a survey names its grid there. */
  private title(cells: readonly string[]): void {
    const text = cells.map((cell) => cell.trim()).filter(Boolean).join(' '); // prettier-ignore
    if (text !== '' && this.titles.length < MOST_TITLES) this.titles.push(text.slice(0, 120));
  }

  private add(cells: string[], broken: string | null): void {
    this.record++;
    if (this.record < this.headerRow) return this.title(cells);
    if (this.record === this.headerRow) return this.head(cells);
    if (broken !== null) this.broken.set(this.builder.rows, broken);
    const width = this.headings.length;
    if (cells.length > width) {
      const rest = cells.slice(width);
      if (rest.some((cell) => cell.trim() !== '')) {
        this.longRows++;
        cells = [...cells.slice(0, width), rest.join(this.delimiter)];
      } else cells = cells.slice(0, width);
    }
    this.builder.add(cells);
  }
}
