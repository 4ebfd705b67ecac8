import Papa from 'papaparse';
import { decimal } from '../../domain/site/read-cell';
import { isHeading } from './heading-words';
import { NO_RULES, readWhen } from './days';

/** What parts the cells of a row. */
export type Delimiter = ',' | ';' | '\t' | '|';

export const DELIMITERS: readonly Delimiter[] = [',', ';', '\t', '|'];

export const DELIMITER_WORDS: Readonly<Record<Delimiter, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'vertical bars ( | )',
};

/** Rows looked at to tell the dress of a file and to find its header. */
export const ROWS_LOOKED_AT = 60;

/** A header is looked for in this many rows from the top. */
const HEADER_WITHIN = 40;

const filled = (cells: readonly string[]) => cells.filter((cell) => cell.trim() !== '');

/** The first records of a text, cut with a delimiter. */
export function firstRecords(text: string, delimiter: Delimiter, newline: '\n' | '\r'): string[][] {
  const { data } = Papa.parse<string[]>(text, { delimiter, newline, preview: ROWS_LOOKED_AT + 1 });
  // The last may be cut off by the end of the sample.
  return data.length > 1 ? data.slice(0, -1) : data;
}

/**
 * The delimiter of a file: the one that cuts its first rows into the same
 * number of cells, the more of them the better, and gives headings we know.
 */
export function guessDelimiter(sample: string, newline: '\n' | '\r'): Delimiter {
  let best: { delimiter: Delimiter; score: number } = { delimiter: ',', score: 0 };
  for (const delimiter of DELIMITERS) {
    const records = firstRecords(sample, delimiter, newline).filter(
      (cells) => filled(cells).length,
    );
    const counts = new Map<number, number>();
    for (const { length } of records) counts.set(length, (counts.get(length) ?? 0) + 1);
    const [width, share] = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a), [1, 0]);
    if (width < 2) continue;
    const header = findHeader(records);
    const known = filled(records[header] ?? []).filter(isHeading).length;
    const score = (share / records.length) * Math.log2(width) + 2 * Math.min(known, 6);
    if (score > best.score) best = { delimiter, score };
  }
  return best.delimiter;
}

const isValue = (text: string) => {
  const trimmed = text.trim();
  return (
    decimal(trimmed.replace(',', '.')) !== null ||
    /^[<>]\s*\d/.test(trimmed) ||
    (/\d/.test(trimmed) && !('expected' in readWhen(trimmed, NO_RULES)))
  );
};

/**
 * Where the header is among the first records, from 0: the row with most
 * headings we know, else the first row as wide as those below it that is words
 * and not values. Title lines above it are narrower, or say nothing we know.
 */
export function findHeader(records: readonly (readonly string[])[]): number {
  const widths = records.map((cells) => filled(cells).length);
  let best = { row: widths.findIndex((width) => width > 0), score: -Infinity };
  records.slice(0, HEADER_WITHIN).forEach((cells, row) => {
    const texts = filled(cells);
    if (texts.length === 0 || texts[0]?.trim().startsWith('#')) return;
    const below = widths.slice(row + 1, row + 11).filter((width) => width > 0);
    const usual = below.length > 0 ? Math.max(...below) : texts.length;
    const known = texts.filter(isHeading).length;
    const values = texts.filter(isValue).length;
    const width = Math.min(texts.length, usual) / Math.max(texts.length, usual, 1);
    const score =
      3 * known +
      (texts.length > 1 ? 2 * width : 0) -
      (6 * values) / texts.length -
      (new Set(texts).size < texts.length ? 1 : 0);
    if (score > best.score) best = { row, score };
  });
  return Math.max(0, best.row);
}
