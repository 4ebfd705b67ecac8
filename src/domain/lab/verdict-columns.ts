import { amountIn, type Amount, type ConcentrationUnit } from './concentration-units';
import { apartAsDoubles, type Order } from './decimal';
import type { Level } from './level';
import { decidingNumber } from './limit';
import {
  exactOrder,
  incomparable,
  misfitOutcome,
  orderAsDoubles,
  outcomeByOrder,
  outcomeWithoutNumber,
} from './outcome';
import type { Digits, Reading } from './reading';
import type { LevelSet } from './screening';
import { OUTCOME, REASONS, VERDICTS, type Outcome } from './verdict';
import type { VerdictCounts } from './worst';

/**
 * Results as columns of numbers, for tables of a million: read once, then
 * judged against one set of levels after another in a few hundredths of a
 * second. The answers are those of `outcomeOf`, row by row.
 */
export type ResultColumns = {
  readonly size: number;
  /** One result of each kind: what a level's fitness depends on is the same for all of a kind. */
  readonly kinds: readonly Reading[];
  /** One a row: its place in `kinds`. */
  readonly kind: Uint32Array;
  /** One a row: 0 detected, 1 not detected, 2 more than, 3 tentative; from 4 on, 4 + the reason it has no number. */
  readonly state: Uint8Array;
  readonly flags: Uint16Array;
  /** One a row: the value, or for a non-detect the limit if the reporting limit decides, by its place in `numbers`. */
  readonly number: Uint32Array;
  /** The same for a non-detect if the detection limit decides. */
  readonly byDetection: Uint32Array;
  /** The numbers as written; the first stands for none. */
  readonly numbers: readonly (Amount | null)[];
  /** Each of `numbers` in the unit its dimension is worked in. */
  readonly amounts: Float64Array;
};

const STATES = ['detected', 'not detected', 'more than', 'tentative'] as const;
const NOT_DETECTED = 1;
const TENTATIVE = 3;
const NO_NUMBER = 0;

const CODE = new Map(REASONS.map((reason, code) => [reason, code]));
const codeOf = ({ reason }: Outcome) => CODE.get(reason) ?? 0;

const CODES = {
  noLevel: codeOf(OUTCOME['no level']),
  tentative: codeOf(OUTCOME['identity not confirmed']),
  noLimit: codeOf(OUTCOME['limit not given']),
};

/** The outcome a code stands for. */
export const outcomeWithCode = (code: number): Outcome => OUTCOME[REASONS[code] ?? 'no level'];

/** For each code, the place of its verdict in `VERDICTS`. */
export const VERDICT_PLACE = Uint8Array.from(REASONS, (reason) =>
  VERDICTS.indexOf(OUTCOME[reason].verdict),
);

/** What a result comes to beside its kind, one of each of the columns. */
export type ReportedFacts = {
  readonly state: number;
  readonly flags: number;
  readonly number: number;
  readonly byDetection: number;
};

/** Writes the columns of results, a row at a time. */
export type ColumnWriter = {
  /** The place of a reading among the kinds. */
  readonly kindOf: (reading: Reading) => number;
  readonly factsOf: (reading: Reading) => ReportedFacts;
  readonly put: (row: number, kind: number, facts: ReportedFacts) => void;
  /** @param size  how many rows were put */
  readonly columns: (size: number) => ResultColumns;
};

/** @param room  how many rows there will be, at most */
export function columnWriter(room: number): ColumnWriter {
  const kinds = kindTable();
  const numbers = numberTable();
  const kind = new Uint32Array(room);
  const state = new Uint8Array(room);
  const flags = new Uint16Array(room);
  const number = new Uint32Array(room);
  const byDetection = new Uint32Array(room);
  return {
    kindOf: kinds.place,
    factsOf: (reading) => {
      const without = outcomeWithoutNumber(reading);
      const notDetected = reading.state === 'not detected';
      const place = (digits: Digits | null) => numbers.place(digits, reading.unit);
      return {
        state:
          without === null
            ? STATES.indexOf(reading.state as (typeof STATES)[number])
            : STATES.length + codeOf(without),
        flags: reading.flags,
        number: place(notDetected ? decidingNumber(reading, 'reporting limit') : reading.written),
        byDetection: notDetected ? place(decidingNumber(reading, 'detection limit')) : NO_NUMBER,
      };
    },
    put: (row, itsKind, facts) => {
      kind[row] = itsKind;
      state[row] = facts.state;
      flags[row] = facts.flags;
      number[row] = facts.number;
      byDetection[row] = facts.byDetection;
    },
    columns: (size) => ({
      size,
      kinds: kinds.all,
      kind,
      state,
      flags,
      number,
      byDetection,
      numbers: numbers.all,
      amounts: Float64Array.from(numbers.amounts),
    }),
  };
}

/** @param size  how many there are, at most */
export function resultColumns(readings: Iterable<Reading>, size: number): ResultColumns {
  const writer = columnWriter(size);
  let row = 0;
  for (const reading of readings) {
    if (row === size) break;
    writer.put(row++, writer.kindOf(reading), writer.factsOf(reading));
  }
  return writer.columns(row);
}

/**
 * The distinct numbers met, each in its unit. A reader hands out one object for
 * each text it remembers, so they are told apart as objects; a number it has
 * forgotten may stand here twice, which does no harm.
 */
function numberTable() {
  const all: (Amount | null)[] = [null];
  const amounts: number[] = [0];
  const byUnit = new Map<ConcentrationUnit, Map<Digits, number>>();
  const place = (digits: Digits | null, unit: ConcentrationUnit | null): number => {
    if (digits === null || unit === null) return NO_NUMBER;
    let byDigits = byUnit.get(unit);
    if (byDigits === undefined) byUnit.set(unit, (byDigits = new Map<Digits, number>()));
    const before = byDigits.get(digits);
    if (before !== undefined) return before;
    byDigits.set(digits, all.length);
    amounts.push(amountIn(digits.number, unit));
    return all.push({ text: digits.text, unit }) - 1;
  };
  return { all, amounts, place };
}

/** The kinds met, by analyte. Few of one analyte differ in unit, basis, fraction or matrix. */
function kindTable() {
  const all: Reading[] = [];
  const byKey = new Map<string, number[]>();
  const place = (reading: Reading): number => {
    let places = byKey.get(reading.key);
    if (places === undefined) byKey.set(reading.key, (places = []));
    const before = places.find((at) => alike(all[at], reading));
    if (before !== undefined) return before;
    places.push(all.length);
    return all.push(reading) - 1;
  };
  return { all, place };
}

const alike = (a: Reading | undefined, b: Reading) =>
  a?.unit?.dimension === b.unit?.dimension &&
  a?.basis === b.basis &&
  a.result.fraction === b.result.fraction &&
  (a.result.matrix ?? '') === (b.result.matrix ?? '');

/** What a set says of a kind: an outcome whatever the number, or the level to compare with. */
type Plan = {
  readonly level: Level | null;
  readonly misfit: number;
  readonly apart: number;
  /** Orders worked out as decimals, by the number's place. */
  readonly orders: Map<number, Order>;
};

const NONE = -1;

function planOf(kind: Reading, set: LevelSet, orders: Plan['orders']): Plan {
  const match = set.levelFor(kind);
  if (match.level === null) return { level: null, misfit: NONE, apart: NONE, orders };
  const misfit = misfitOutcome(match);
  const apart = incomparable(kind, match.level);
  return {
    level: match.level,
    misfit: misfit === null ? NONE : codeOf(misfit),
    apart: apart === null ? NONE : codeOf(apart),
    orders,
  };
}

/** The outcome of every row against a set, as codes for `outcomeWithCode`. */
export function outcomeCodes(columns: ResultColumns, set: LevelSet): Uint8Array {
  const { size, kind, state, flags, number, byDetection, amounts } = columns;
  const plans = columns.kinds.map((one) => planOf(one, set, new Map()));
  const codes = new Uint8Array(size);
  for (let row = 0; row < size; row++) {
    const plan = plans[kind[row] ?? 0];
    const level = plan?.level ?? null;
    const is = state[row] ?? 0;
    if (plan === undefined || level === null) codes[row] = CODES.noLevel;
    else if (is >= STATES.length) codes[row] = is - STATES.length;
    else if (plan.misfit !== NONE) codes[row] = plan.misfit;
    else if (is === TENTATIVE) codes[row] = CODES.tentative;
    else if (plan.apart !== NONE) codes[row] = plan.apart;
    else {
      const notDetected = is === NOT_DETECTED;
      const column = notDetected && level.decides === 'detection limit' ? byDetection : number;
      const place = column[row] ?? NO_NUMBER;
      if (place === NO_NUMBER) codes[row] = CODES.noLimit;
      else {
        const amount = amounts[place] ?? 0;
        const rounds = level.rules.roundToLevel && !notDetected;
        const against =
          !rounds && apartAsDoubles(amount, level.amount)
            ? orderAsDoubles(amount, level.amount)
            : keptOrder(plan, level, place, columns.numbers, rounds);
        codes[row] = codeOf(
          outcomeByOrder(STATES[is] ?? 'detected', flags[row] ?? 0, against, level),
        );
      }
    }
  }
  return codes;
}

function keptOrder(
  { orders }: Plan,
  level: Level,
  place: number,
  numbers: ResultColumns['numbers'],
  rounds: boolean,
): Order {
  const key = rounds ? -place : place;
  const before = orders.get(key);
  if (before !== undefined) return before;
  const amount = numbers[place];
  if (!amount || level.value === null) throw new Error('a number without its text');
  const order = exactOrder(amount, level.value, rounds ? level.place : null);
  orders.set(key, order);
  return order;
}

/** The number of a row over its level; 0 where it has none. A non-detect's is the limit that decides. */
export function ratioAt(columns: ResultColumns, row: number, level: Level): number {
  const { state, number, byDetection, amounts } = columns;
  const byLimit = state[row] === NOT_DETECTED && level.decides === 'detection limit';
  const place = (byLimit ? byDetection : number)[row] ?? NO_NUMBER;
  return place === NO_NUMBER || level.value === null ? 0 : (amounts[place] ?? 0) / level.amount;
}

/**
 * How many rows came to each verdict.
 * @param rows  which are counted; all if not given
 */
export function countCodes(codes: Uint8Array, rows?: Uint32Array): VerdictCounts {
  const byCode = new Uint32Array(REASONS.length);
  const add = (code: number) => (byCode[code] = (byCode[code] ?? 0) + 1);
  if (rows) for (const row of rows) add(codes[row] ?? 0);
  else for (const code of codes) add(code);
  const counts = VERDICTS.map((verdict, place) => {
    const ofVerdict = byCode.filter((_, code) => VERDICT_PLACE[code] === place);
    return [verdict, ofVerdict.reduce((sum, count) => sum + count, 0)] as const;
  });
  return Object.fromEntries(counts) as VerdictCounts;
}
