import { plainDigits } from '../../domain/lab/reported';
import type { Cell, Refusal } from './ask';
import type { Context } from './context';
import { A_DAY, type When } from './days';

/** A text to a cell, under one heading. */
export type Reader = (text: string) => Cell;

/** Cells repeat from block to block: past this many different ones they are no longer remembered. */
const MOST_KEPT = 100_000;

/** Reads each different text once. */
export function remembering(read: Reader): Reader {
  const kept = new Map<string, Cell>();
  return (text) => {
    const before = kept.get(text);
    if (before !== undefined) return before;
    const cell = read(text);
    if (kept.size < MOST_KEPT) kept.set(text, cell);
    return cell;
  };
}

export const refuse = (column: string, expected: string, found: string): Refusal => ({
  column,
  expected,
  found,
});

const DECIMALS_EXPECTED = {
  point: 'a number such as 0.5 or 1,200',
  comma: 'a number such as 0,5 or 1.200',
} as const;

/** No length or volume is this large, and in another unit it would be past any number. */
const BEYOND = 1e300;

/** Digits with a decimal point; null where the text is no number, or its comma is not settled. */
export function digitsOf(text: string, { decimals }: Context): string | null {
  if (decimals === null && text.includes(',')) return null;
  const digits = plainDigits(text, { decimalComma: decimals === 'comma' });
  return digits !== null && Math.abs(Number(digits)) < BEYOND ? digits : null;
}

/** What a number should have looked like. */
export const numberExpected = ({ decimals }: Context, text: string, otherwise: string): string =>
  decimals === null && text.includes(',')
    ? 'an answer to which sign parts the decimals'
    : text.includes(',')
      ? DECIMALS_EXPECTED[decimals ?? 'point']
      : otherwise;

const NEEDS = {
  order: 'an answer to whether day or month comes first',
  century: 'an answer to which century the years are in',
  serial: 'an answer to whether these are day numbers',
  zone: 'an answer to whether times are local',
} as const;

/** What a date should have looked like, or which question is open. */
export const whenExpected = (when: When): string =>
  'needs' in when ? NEEDS[when.needs] : 'expected' in when ? when.expected : A_DAY;
