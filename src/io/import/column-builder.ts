import { BLOCK_ROWS, type Column } from '../../domain/site/table';

/** Up to so many different texts are looked through; more are looked up. */
const FEW = 12;

const QUOTE = 34;

/** The cell is not whole yet, or is not dressed plainly: it is to be read by other means. */
export const NOT_PLAIN = -1;

/**
 * A text of its own, not a view into the piece of the file it was cut from:
 * otherwise a few names would keep a whole file in memory.
 */
const detached = (text: string) => (text.length < 13 ? text : ` ${text}`.slice(1));

/** A column in the making: texts get codes in the order they come. */
export class ColumnBuilder {
  private readonly dictionary: string[] = [];
  /** By the text as it came, before it was cleaned. */
  private readonly places = new Map<string, number>();
  private readonly written: string[] = [];
  /** Each text as it stood in the file, with its quotes; null where that is not known. */
  private readonly dressed: (string | null)[] = [];
  /** For each code, the one that followed it last: files often go round the same list. */
  private readonly next: number[] = [];
  private codes = new Uint16Array(64);
  private last = 0;

  /** @param before  rows of the block that came before the column, all blank in it */
  constructor(
    private readonly clean: (text: string) => string,
    before: number,
  ) {
    if (before > 0) {
      this.codeOf('', '');
      this.grow(before);
    }
  }

  private grow(needed: number) {
    const size = Math.min(BLOCK_ROWS, Math.max(needed, this.codes.length * 2));
    const codes = new Uint16Array(size);
    codes.set(this.codes.subarray(0, Math.min(this.codes.length, size)));
    this.codes = codes;
  }

  add(row: number, text: string) {
    const { written, last } = this;
    if (row >= this.codes.length) this.grow(row + 1);
    // Neighbouring rows often say the same, or the next of a list.
    if (text !== written[last]) {
      const guess = this.next[last] ?? 0;
      const code = text === written[guess] ? guess : this.codeOf(text, null);
      this.next[last] = code;
      this.last = code;
    }
    this.codes[row] = this.last;
  }

  /**
   * Add the cell that begins at a place of a text, cut out only where it is not
   * what it was guessed to be. Gives the place of the delimiter or line end after
   * it; `NOT_PLAIN` where there is none yet, or its quotes are not plainly closed.
   */
  take(row: number, text: string, at: number, delimiter: number, newline: number): number {
    const { dressed, last } = this;
    const isHere = (guess: string | null | undefined) => {
      if (guess === undefined || guess === null || !text.startsWith(guess, at)) return false;
      const after = text.charCodeAt(at + guess.length);
      return after === delimiter || after === newline;
    };
    let code = last;
    if (!isHere(dressed[last])) {
      code = this.next[last] ?? 0;
      if (!isHere(dressed[code])) {
        const end =
          text.charCodeAt(at) === QUOTE
            ? quotedEnd(text, at, delimiter, newline)
            : plainEnd(text, at, delimiter, newline);
        if (end === NOT_PLAIN) return NOT_PLAIN;
        const stands = text.slice(at, end);
        code = this.codeOf(unquoted(stands), stands);
      }
      this.next[last] = code;
      this.last = code;
    }
    if (row >= this.codes.length) this.grow(row + 1);
    this.codes[row] = code;
    return at + (dressed[code] ?? '').length;
  }

  private codeOf(text: string, dressed: string | null): number {
    const { written, places } = this;
    const known = written.length <= FEW ? written.indexOf(text) : (places.get(text) ?? -1);
    if (known >= 0) {
      // As it stands here: the same text may stand with and without quotes.
      if (dressed !== null && this.dressed[known] !== dressed)
        this.dressed[known] = detached(dressed);
      return known;
    }
    const own = detached(text);
    const code = written.length;
    written.push(own);
    this.dressed.push(dressed === null ? null : dressed === text ? own : detached(dressed));
    places.set(own, code);
    this.next.push(code);
    this.dictionary.push(this.clean(own));
    return code;
  }

  column(size: number): Column {
    return {
      dictionary: this.dictionary.length > 0 ? this.dictionary : [''],
      codes: this.codes.slice(0, size),
    };
  }
}

function plainEnd(text: string, at: number, delimiter: number, newline: number): number {
  for (let end = at; end < text.length; end++) {
    const code = text.charCodeAt(end);
    if (code === delimiter || code === newline) return end;
  }
  return NOT_PLAIN;
}

/** The end of a cell in quotes, those within it doubled, and nothing between them and what parts cells. */
function quotedEnd(text: string, at: number, delimiter: number, newline: number): number {
  for (let end = text.indexOf('"', at + 1); end >= 0; end = text.indexOf('"', end + 2)) {
    const after = text.charCodeAt(end + 1);
    if (after === delimiter || after === newline) return end + 1;
    if (after !== QUOTE) return NOT_PLAIN;
  }
  return NOT_PLAIN;
}

const unquoted = (stands: string): string =>
  stands.charCodeAt(0) === QUOTE ? stands.slice(1, -1).replaceAll('""', '"') : stands;
