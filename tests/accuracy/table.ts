/** The accuracy table: every case of this folder, and its words in the README. */
import type { AccuracyCase } from './case';
import { lab } from './lab';
import { laying } from './laying';
import { layout } from './layout';
import { places } from './places';
import { surface } from './surface';
import { survey } from './survey';
import { water } from './water';

export const allCases = (): AccuracyCase[] => [
  ...water(),
  ...surface(),
  ...lab(),
  ...laying(),
  ...layout(),
  ...survey(),
  ...places(),
];

export const agrees = ({ difference, tolerance }: AccuracyCase): boolean => difference <= tolerance;

/**
 * A difference to two figures. A tiny one is rounding, and its digits differ
 * between engines: it is printed as the next power of ten above, and nothing
 * smaller than 1e-12 is told from 0.
 */
export function differenceWords(difference: number): string {
  if (difference === 0) return '0';
  if (!Number.isFinite(difference)) return 'no answer';
  if (difference >= 1e-9) return plain(difference);
  return `≤ 1e${Math.max(-12, Math.ceil(Math.log10(difference)))}`;
}

const plain = (n: number): string =>
  n < 0.001 ? n.toExponential(1).replace('.0e', 'e') : String(Number(n.toPrecision(2)));

const toleranceWords = (tolerance: number): string =>
  tolerance === 0 ? 'exact' : plain(tolerance);

const HEADER = '| quantity | source | known as | theirs | ours | difference | tolerance |';

const row = (one: AccuracyCase): string =>
  `| ${[
    one.quantity,
    one.source,
    one.known,
    one.theirs,
    one.ours,
    differenceWords(one.difference),
    `${toleranceWords(one.tolerance)}${one.unit === 'relative' ? ' relative' : ''}`,
  ].join(' | ')} |`;

export const tableOf = (cases: readonly AccuracyCase[]): string =>
  [HEADER, '|---|---|---|---|---|---|---|', ...cases.map(row)].join('\n');

const START = '<!-- accuracy: written by `npm run accuracy` -->';
const END = '<!-- end of accuracy -->';

/** The page with the table put between its two marks; null where the marks are missing. */
export function withTable(page: string, table: string): string | null {
  const [start, end] = [page.indexOf(START), page.indexOf(END)];
  if (start < 0 || end < start) return null;
  return `${page.slice(0, start + START.length)}\n\n${table}\n\n${page.slice(end)}`;
}
