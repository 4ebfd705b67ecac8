import { fail, ok, type Result } from '../result';

/**
 * Names by a pattern. In square brackets stands a word and an example: the
 * first value it takes, as it is to be written. The rest is kept as typed.
 *
 *     DP-[number 01]             DP-01, DP-02 … DP-99, DP-100
 *     [row A][column 1]          A1, A2 … B1
 *     T[transect 1]-[station 05] T1-05, T1-06
 *     [location]-[top]-[day]     DP-01-8-20260531
 *
 * An example of digits counts in digits, from there, at least as many of them;
 * a letter counts in letters: A … Z, AA. A word with no example is put in as
 * told.
 */
export type Pattern = readonly Part[];

type Part =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'told'; readonly word: string }
  | { readonly kind: 'counted'; readonly word: string; readonly example: string };

export type PatternProblem = {
  readonly kind: 'unclosed' | 'unknown-word' | 'unreadable-example' | 'empty';
  /** 1 for the first character. */
  readonly at: number;
  readonly found: string;
  /** The words that may stand in brackets here. */
  readonly words: readonly string[];
};

/** @param words  the words this place offers: number, row, column, location … */
export function readPattern(
  text: string,
  words: readonly string[],
): Result<Pattern, PatternProblem> {
  const parts: Part[] = [];
  let at = 0;
  while (at < text.length) {
    const open = text.indexOf('[', at);
    const end = open === -1 ? text.length : open;
    if (end > at) parts.push({ kind: 'text', text: text.slice(at, end) });
    if (open === -1) break;
    const close = text.indexOf(']', open);
    const refuse = (kind: PatternProblem['kind'], found: string) =>
      fail({ kind, at: open + 1, found, words });
    if (close === -1) return refuse('unclosed', text.slice(open));
    const inside = text.slice(open + 1, close).trim();
    const [word = '', example = '', more] = inside.split(/\s+/);
    if (!words.includes(word)) return refuse('unknown-word', word);
    if (more !== undefined || (example !== '' && !/^(?:\d{1,9}|[A-Za-z])$/.test(example)))
      return refuse('unreadable-example', inside);
    parts.push(example === '' ? { kind: 'told', word } : { kind: 'counted', word, example });
    at = close + 1;
  }
  return parts.length > 0 ? ok(parts) : fail({ kind: 'empty', at: 1, found: '', words });
}

/** What the words of a pattern stand for: counts from 1, and texts. */
export type Told = Readonly<Record<string, number | string>>;

/** The name a pattern gives; null where it asks for something not told. */
export function nameBy(pattern: Pattern, told: Told): string | null {
  let name = '';
  for (const part of pattern) {
    if (part.kind === 'text') {
      name += part.text;
      continue;
    }
    const value = Object.hasOwn(told, part.word) ? told[part.word] : undefined;
    if (value === undefined || value === '') return null;
    if (part.kind === 'counted' && typeof value === 'number') name += counted(value, part.example);
    else name += String(value);
  }
  return name;
}

/** The so-manyth value after an example, the example being the first. */
function counted(count: number, example: string): string {
  if (/^\d/.test(example)) return String(Number(example) + count - 1).padStart(example.length, '0');
  const upper = example.toUpperCase();
  const text = letters(upper.charCodeAt(0) - 64 + count - 1);
  return example === upper ? text : text.toLowerCase();
}

/** 1 is A, 26 Z, 27 AA, as columns of a sheet are lettered; digits where there is no letter. */
function letters(n: number): string {
  if (n < 1) return String(n);
  let text = '';
  for (let rest = n; rest > 0; rest = Math.floor((rest - 1) / 26))
    text = String.fromCharCode(65 + ((rest - 1) % 26)) + text;
  return text;
}

/** A point to be named. A pushed point keeps its name whatever the pattern says. */
export type ToName = {
  readonly name: string | null;
  readonly keepsName: boolean;
  readonly counts: Readonly<Record<string, number>>;
};

export type NamingProblem =
  | { readonly kind: 'name-twice'; readonly name: string }
  | { readonly kind: 'not-told'; readonly point: number };

/**
 * Names for points in the order given. Points that keep their names keep them,
 * and no other point gets such a name, nor one that differs only in capitals;
 * `[number]` steps over them. A pattern that gives two points one name is
 * refused.
 *
 * @param taken  names in use elsewhere on the site
 * @returns names in the order of the points
 */
export function namesFor(
  points: readonly ToName[],
  pattern: Pattern,
  taken: Iterable<string> = [],
): Result<readonly string[], NamingProblem> {
  const key = (name: string) => name.toLowerCase();
  const used = new Set([...taken].map(key));
  for (const { name, keepsName } of points) if (keepsName && name !== null) used.add(key(name));
  const numbered = pattern.some((part) => part.kind !== 'text' && part.word === 'number');

  const names: string[] = [];
  let number = 0;
  for (const [i, point] of points.entries()) {
    if (point.keepsName && point.name !== null) {
      names.push(point.name);
      continue;
    }
    let name: string | null;
    do {
      number++;
      name = nameBy(pattern, { ...point.counts, number });
      if (name === null) return fail({ kind: 'not-told', point: i });
    } while (numbered && used.has(key(name)));
    if (used.has(key(name))) return fail({ kind: 'name-twice', name });
    used.add(key(name));
    names.push(name);
  }
  return ok(names);
}

/** In which order a grid's points are numbered. */
export type WalkingOrder = 'row by row' | 'back and forth';

/**
 * Points of a grid in the order they are walked: each row from its first
 * column, or every second row backwards, so that the next point is near.
 */
export function inWalkingOrder<T extends { readonly counts: Readonly<Record<string, number>> }>(
  points: readonly T[],
  order: WalkingOrder,
): T[] {
  const row = ({ counts }: T) => counts.row ?? counts.transect ?? counts.ring ?? counts.arm ?? 0;
  const column = ({ counts }: T) =>
    counts.column ?? counts.station ?? counts.spoke ?? counts.step ?? 0;
  const rows = [...new Set(points.map(row))].sort((a, b) => a - b);
  const backward = new Set(order === 'row by row' ? [] : rows.filter((_, i) => i % 2 === 1));
  return [...points].sort(
    (a, b) =>
      row(a) - row(b) || (backward.has(row(a)) ? column(b) - column(a) : column(a) - column(b)),
  );
}
