import { isDay } from '../../domain/site/read-cell';
import type { Ask } from './ask';

/** What was settled about the dates of a file; null: not answered. */
export type DayRules = {
  readonly order: 'day first' | 'month first' | null;
  /** Years of two digits: 2000 and on, 1900 and on, or 1950 to 2049. */
  readonly century: '2000' | '1900' | 'nearest' | null;
  /** A spreadsheet's day numbers: counted from 1900, from 1904, or none. */
  readonly serial: '1900' | '1904' | 'no' | null;
  /** Times marked as UTC: taken as local to the site, or not. */
  readonly zone: 'local' | 'no' | null;
  /** Every time of the file is midnight: there are only days. */
  readonly daysAlone: boolean;
};

export const NO_RULES: DayRules = {
  order: null,
  century: null,
  serial: null,
  zone: null,
  daysAlone: false,
};

export type When =
  /** "2025-03-31" or "2025-03-31T14:05" */
  | { readonly text: string }
  | { readonly needs: 'order' | 'century' | 'serial' | 'zone' }
  | { readonly expected: string };

const MONTHS = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');
const FULL =
  'january february march april may june july august september october november december'.split(
    ' ',
  );

/** 1 to 12 for "Mar", "March", "Sept."; null for what is no month. */
function monthNamed(word: string): number | null {
  const small = word.toLowerCase().replace('.', '');
  const at =
    small === 'sept' ? 8 : MONTHS.indexOf(small) >= 0 ? MONTHS.indexOf(small) : FULL.indexOf(small);
  return at < 0 ? null : at + 1;
}

const DATE_AND_CLOCK =
  /^(.+?)(?:(?:T|[\s,]+)(\d{1,2}:\d{2}(?::\d{2}(?:\.\d{1,9})?)?(?:\s*[AaPp]\.?[Mm]\.?)?)\s*(Z|[A-Za-z]{3,4}|(?:UTC|GMT)?[-+]\d{2}:?\d{2})?)?$/;
const YEAR_FIRST = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/;
const RUN_TOGETHER = /^((?:19|20)\d{2})(\d{2})(\d{2})$/;
const NUMBERS = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})$/;
const DAY_MONTH = /^(\d{1,2})(?:st|nd|rd|th)?[-/.\s]*([A-Za-z]{3,9}\.?)[-/.,\s]*(\d{4}|\d{2})$/;
const MONTH_DAY = /^([A-Za-z]{3,9}\.?)[-/.\s]*(\d{1,2})(?:st|nd|rd|th)?[-/.,\s]+(\d{4}|\d{2})$/;
const YEAR_NAME = /^(\d{4})[-/.\s]([A-Za-z]{3,9})[-/.\s](\d{1,2})$/;
const SERIAL = /^\d{5}(?:\.\d{1,12})?$/;

/** Day numbers of 1954 to 2064: others are some other number. */
const SERIALS = { least: 20_000, most: 60_000 } as const;

export const A_DAY = 'a date such as 2025-03-31, 31 Mar 2025 or 3/31/2025';
export const A_CLOCK = 'a time of day such as 14:05 or 2:05 PM';

type Parts = { readonly year: string; readonly month: number; readonly day: number };

/** The parts of a date; two where day and month can be exchanged; none where it is no date. */
function partsOf(text: string): readonly Parts[] {
  const one = (year?: string, month?: number | null, day?: string): readonly Parts[] =>
    year === undefined || month === null || month === undefined || day === undefined
      ? []
      : [{ year, month, day: Number(day) }];
  const [, year, month, day] = YEAR_FIRST.exec(text) ?? RUN_TOGETHER.exec(text) ?? [];
  if (year !== undefined) return one(year, Number(month), day);
  const numbers = NUMBERS.exec(text);
  if (numbers) {
    const [, first = '', , second = '', last = ''] = numbers;
    const [a, b] = [Number(first), Number(second)];
    const dayFirst = { year: last, month: b, day: a };
    const monthFirst = { year: last, month: a, day: b };
    return a === b ? [dayFirst] : [dayFirst, monthFirst];
  }
  const named = DAY_MONTH.exec(text);
  if (named) return one(named[3], monthNamed(named[2] ?? ''), named[1]);
  const american = MONTH_DAY.exec(text);
  if (american) return one(american[3], monthNamed(american[1] ?? ''), american[2]);
  const sorted = YEAR_NAME.exec(text);
  return sorted ? one(sorted[1], monthNamed(sorted[2] ?? ''), sorted[3]) : [];
}

const two = (n: number) => String(n).padStart(2, '0');

function fullYear(year: string, century: DayRules['century']): string | null {
  if (year.length === 4) return year;
  if (century === null) return null;
  if (century === 'nearest') return (Number(year) < 50 ? '20' : '19') + year;
  return century.slice(0, 2) + year;
}

/** A time of day as 14:05 or 14:05:33; null for what is none. */
export function readClock(text: string): string | null {
  const [, hour, minute, second, half] =
    /^(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d{1,9})?)?(?:\s*([AaPp])\.?[Mm]\.?)?$/.exec(text.trim()) ??
    /^(\d{1,2})(\d{2})$/.exec(text.trim()) ??
    [];
  if (hour === undefined || minute === undefined) return null;
  let hours = Number(hour);
  if (half !== undefined) {
    if (hours < 1 || hours > 12) return null;
    hours = (hours % 12) + (/p/i.test(half) ? 12 : 0);
  }
  if (hours > 23 || Number(minute) > 59 || Number(second ?? 0) > 59) return null;
  const seconds = second === undefined || second === '00' ? '' : `:${second}`;
  return `${two(hours)}:${minute}${seconds}`;
}

/** A spreadsheet's day number as a date, with its time where it has one. */
export function serialDay(serial: number, from: '1900' | '1904'): string {
  // Day 1 is 1900-01-01, and 1900 is taken for a leap year; from 1904 day 0 is 1904-01-01.
  const days = from === '1904' ? serial + 1462 : serial;
  const minutes = Math.round((days - 25_569) * 1440);
  const iso = new Date(minutes * 60_000).toISOString();
  return minutes % 1440 === 0 ? iso.slice(0, 10) : iso.slice(0, 16);
}

/** Dates repeat: past this many different ones they are no longer remembered. */
const MOST_KEPT = 50_000;

/** `readWhen` by rules, remembering the texts it has read. */
export function whenReader(rules: DayRules): (written: string) => When {
  const kept = new Map<string, When>();
  return (written) => {
    const before = kept.get(written);
    if (before) return before;
    const when = readWhen(written, rules);
    if (kept.size < MOST_KEPT) kept.set(written, when);
    return when;
  };
}

/**
 * A date as people write it, with or without a time of day. Never guessed: a
 * date that can be read two ways says which question has to be answered first.
 */
export function readWhen(written: string, rules: DayRules): When {
  const text = written.trim().replace(/\s+/g, ' ');
  if (SERIAL.test(text)) {
    const serial = Number(text);
    if (serial < SERIALS.least || serial > SERIALS.most || rules.serial === 'no')
      return { expected: A_DAY };
    return rules.serial === null ? { needs: 'serial' } : { text: serialDay(serial, rules.serial) };
  }
  const [, date = '', clockText, zone] = DATE_AND_CLOCK.exec(text) ?? [];
  const readings = partsOf(date.trim()).filter(({ year, month, day }) =>
    isDay(`${year.padStart(4, '20')}-${two(month)}-${two(day)}`),
  );
  const [dayFirst, monthFirst] = readings;
  if (dayFirst === undefined) return { expected: A_DAY };
  const swappable = monthFirst !== undefined;
  if (swappable && rules.order === null) return { needs: 'order' };
  const parts = swappable && rules.order === 'month first' ? monthFirst : dayFirst;
  if (!swappable && isAgainst(date.trim(), parts, rules.order))
    return { expected: `a date with the ${rules.order === 'day first' ? 'day' : 'month'} first` };
  const year = fullYear(parts.year, rules.century);
  if (year === null) return { needs: 'century' };
  const day = `${year}-${two(parts.month)}-${two(parts.day)}`;
  if (!isDay(day)) return { expected: A_DAY };
  if (clockText === undefined || rules.daysAlone) return { text: day };
  if (zone !== undefined && rules.zone === null) return { needs: 'zone' };
  if (zone !== undefined && rules.zone === 'no')
    return { expected: 'a time local to the site, without a zone' };
  const clock = readClock(clockText);
  return clock === null ? { expected: A_CLOCK } : { text: `${day}T${clock}` };
}

/** Whether a date of numbers was readable only in the order the file was said not to have. */
function isAgainst(date: string, { month, day }: Parts, order: DayRules['order']): boolean {
  const numbers = NUMBERS.exec(date);
  if (!numbers || order === null || month === day) return false;
  const isDayFirst = Number(numbers[1]) === day;
  return isDayFirst !== (order === 'day first');
}

/** The day of a time. */
export const dayOf = (time: string) => time.slice(0, 10);

/** What the dates of a file say of how they are written. */
export class DayEvidence {
  private dayFirst: string | null = null;
  private monthFirst: string | null = null;
  private swappable: string | null = null;
  private short: string | null = null;
  private serial: string | null = null;
  private zoned: string | null = null;
  private clocks = 0;
  private midnights = 0;

  private readonly seen = new Set<string>();

  see(written: string) {
    if (this.seen.has(written)) return;
    if (this.seen.size < MOST_KEPT) this.seen.add(written);
    const text = written.trim().replace(/\s+/g, ' ');
    if (text === '') return;
    const serial = SERIAL.test(text) ? Number(text) : NaN;
    if (serial >= SERIALS.least && serial <= SERIALS.most) this.serial ??= text;
    const [, date = '', clock, zone] = DATE_AND_CLOCK.exec(text) ?? [];
    const readings = partsOf(date.trim()).filter(({ year, month, day }) =>
      isDay(`${year.padStart(4, '20')}-${two(month)}-${two(day)}`),
    );
    const [first, second] = readings;
    if (first === undefined) return;
    if (second !== undefined) this.swappable ??= text;
    else if (NUMBERS.test(date.trim()) && first.month !== first.day) {
      if (Number(NUMBERS.exec(date.trim())?.[1]) === first.day) this.dayFirst ??= text;
      else this.monthFirst ??= text;
    }
    if (first.year.length === 2) this.short ??= text;
    if (clock !== undefined) {
      this.clocks++;
      if (/^(?:0?0:00(?::00(?:\.0+)?)?|12:00(?::00)? ?a\.?m\.?)$/i.test(clock)) this.midnights++;
      if (zone !== undefined) this.zoned ??= text;
    }
  }

  get daysAlone(): boolean {
    return this.clocks > 0 && this.clocks === this.midnights;
  }

  get asks(): Ask[] {
    const asks: Ask[] = [];
    if (this.swappable !== null || (this.dayFirst !== null && this.monthFirst !== null))
      asks.push(this.orderAsk());
    if (this.short !== null)
      asks.push({
        id: 'century',
        question: 'Which years are the years of two digits?',
        why: `“${this.short}” does not give its century.`,
        choices: [
          { value: '2000', says: '2000 to 2099' },
          { value: '1900', says: '1900 to 1999' },
          { value: 'nearest', says: '1950 to 2049' },
        ],
        proposed: null,
        needed: true,
      });
    if (this.serial !== null)
      asks.push({
        id: 'serial',
        question: 'Are these a spreadsheet’s day numbers?',
        why: `“${this.serial}” would be ${serialDay(Number(this.serial), '1900')} counted from 1900, or ${serialDay(Number(this.serial), '1904')} counted from 1904.`,
        choices: [
          { value: '1900', says: 'Yes, counted from 1900 (usual)' },
          { value: '1904', says: 'Yes, counted from 1904' },
          { value: 'no', says: 'No' },
        ],
        proposed: null,
        needed: true,
      });
    if (this.zoned !== null && !this.daysAlone)
      asks.push({
        id: 'zone',
        question: 'Are the times local to the site, whatever their zone says?',
        why: `“${this.zoned}” names a zone. Times here are local to the site and are never turned from one zone into another.`,
        choices: [
          { value: 'local', says: 'Yes, take them as they stand' },
          { value: 'no', says: 'No, refuse them' },
        ],
        proposed: null,
        needed: true,
      });
    return asks;
  }

  private orderAsk(): Ask {
    const { dayFirst, monthFirst } = this;
    const both = dayFirst !== null && monthFirst !== null;
    const evidence = both
      ? `But “${dayFirst}” can only have its day first and “${monthFirst}” only its month: the file may have been through two spreadsheets.`
      : dayFirst !== null
        ? `“${dayFirst}” can only have its day first.`
        : monthFirst !== null
          ? `“${monthFirst}” can only have its month first.`
          : 'No date in the file tells.';
    return {
      id: 'day order',
      question: 'Does the day or the month come first in the dates of this file?',
      why:
        this.swappable === null
          ? evidence
          : `“${this.swappable}” can be read either way. ${evidence}`,
      choices: [
        { value: 'day first', says: 'Day first: 3/4/2025 is the third of April' },
        { value: 'month first', says: 'Month first: 3/4/2025 is the fourth of March' },
      ],
      proposed: both
        ? null
        : dayFirst !== null
          ? 'day first'
          : monthFirst !== null
            ? 'month first'
            : null,
      needed: true,
    };
  }
}
