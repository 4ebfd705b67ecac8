import type { ResultRow } from '../site/schema';
import { analyteKey } from './analytes';
import { basisOf } from './basis';
import {
  amountOf,
  compareAmounts,
  unitOf,
  type Amount,
  type ConcentrationUnit,
} from './concentration-units';
import { combined, FLAG, legendsFrom, type Legend } from './qualifiers';
import { DECIMAL_POINT, plainDigits, readReported, type Dress, type Reported } from './reported';

/**
 * A result as reported: the columns of the table `results` that a verdict
 * needs, under the names they have there, so that a row of the table is one.
 */
export type ResultInput = Pick<
  ResultRow,
  | 'sample'
  | 'cas'
  | 'analyte'
  | 'fraction'
  | 'method'
  | 'run'
  | 'value'
  | 'detected'
  | 'lab_qualifier'
  | 'validation_qualifier'
  | 'detection_limit'
  | 'reporting_limit'
> & {
  readonly unit: string | null;
  /** Row of the table, for citing its cells. */
  readonly row?: number;
  /** Matrix of the sample; blank counts as water. */
  readonly matrix?: string | null;
};

/** What a result says once its letters are understood. */
export type ReadingState =
  | 'detected'
  | 'not detected'
  | 'more than' // "> x", or over the calibration range: at least this
  | 'rejected'
  | 'tentative' // not confirmed to be the named compound
  | 'none' // there is no result
  | 'unreadable';

/** A limit a non-detect is judged by. */
export type Limit = Amount & {
  readonly amount: number;
  /** Column of `results` it stands in; `value` where it is the number beside < or U. */
  readonly column: 'value' | 'detection_limit' | 'reporting_limit';
};

export type DecidingLimit = 'reporting limit' | 'detection limit';

export type Reading = {
  readonly result: ResultInput;
  readonly state: ReadingState;
  /** For states without a number: why. */
  readonly why: ReadingReason | null;
  /** Bits of `FLAG`. */
  readonly flags: number;
  /** What the laboratory and the validator wrote that no legend explains. */
  readonly unknownLetters: readonly string[];
  /** The analyte for matching: its CAS number, or its name. */
  readonly key: string;
  readonly unit: ConcentrationUnit | null;
  /** "N" or "NO3" where unit or name says; `CONFLICT` where they disagree. */
  readonly basis: string | null;
  /** The number reported, with its unit; for `detected` and `more than`. */
  readonly value: Amount | null;
  /** `value` in the unit its dimension is worked in; 0 where there is none. */
  readonly amount: number;
  /** For `not detected`: the limit that decides, by either rule; null where none was given. */
  readonly limit: Readonly<Record<DecidingLimit, Limit | null>>;
};

export type ReadingReason =
  | { readonly kind: 'blank' }
  | { readonly kind: 'detected without a value' }
  /** 0 with neither a detection nor a limit is not a concentration anybody measured. */
  | { readonly kind: 'zero' }
  | { readonly kind: 'unreadable'; readonly expected: string; readonly found: string };

const NO_LIMIT = { 'reporting limit': null, 'detection limit': null } as const;
const BLANK: ReadingReason = { kind: 'blank' };
const WITHOUT_VALUE: ReadingReason = { kind: 'detected without a value' };
const ZERO: ReadingReason = { kind: 'zero' };

const JUST_LETTERS = 'a result such as 5.2, <0.5, ND, 0.5 U or >200';

/** Soil is told from water, because a ppb is another thing there. */
const isSolid = (matrix: string | null | undefined) =>
  /\b(soil|sediment|solid|sludge)/i.test(matrix ?? '');

/** Cells repeat; past this many distinct ones they are no longer kept. */
const MOST_KEPT = 20_000;

function kept<Value>(make: (text: string) => Value): (text: string) => Value {
  const before = new Map<string, Value>();
  return (text) => {
    const found = before.get(text);
    if (found !== undefined) return found;
    const value = make(text);
    if (before.size < MOST_KEPT) before.set(text, value);
    return value;
  };
}

export type ReadingRules = {
  readonly dress: Dress;
  readonly laboratory: Legend;
  readonly validation: Legend;
};

const DEFAULT_LEGENDS = legendsFrom([])(null);

/**
 * Reads results under one laboratory's legend. Make one reader for many
 * results: it remembers the cells it has met.
 */
export function resultReader(
  rules: ReadingRules = { dress: DECIMAL_POINT, ...DEFAULT_LEGENDS },
): (result: ResultInput) => Reading {
  const reported = kept((text) => readReported(text, rules.dress));
  const digits = kept((text) => plainDigits(text, rules.dress));
  const unit = kept((text) => unitOf(text));
  const solidUnit = kept((text) => unitOf(text, true));

  return (result) => {
    const says = reported(result.value?.trim() ?? '');
    const inUnit = (isSolid(result.matrix) ? solidUnit : unit)(result.unit?.trim() ?? '');
    const cell = rules.laboratory(says.letters);
    const lab = rules.laboratory(result.lab_qualifier ?? '');
    const validator = rules.validation(result.validation_qualifier ?? '');
    const labFlags = cell.flags | lab.flags;
    const flags = combined(labFlags, validator.flags);

    const written = { text: says.number ?? '', unit: inUnit };
    const found = stateOf(says, result, flags, labFlags, inUnit);
    const value =
      found.state === 'detected' || found.state === 'more than' ? amountFrom(written) : null;
    return {
      result,
      state: found.state,
      why: found.why,
      flags,
      unknownLetters:
        (flags & FLAG.unknown) === 0
          ? NOTHING
          : [...cell.unknown, ...lab.unknown, ...validator.unknown],
      key: analyteKey(result.cas, result.analyte),
      unit: inUnit,
      basis: basisOf(inUnit?.basis ?? null, result.analyte),
      value,
      amount: value === null ? 0 : amountOf(value),
      limit:
        found.state === 'not detected' && inUnit !== null
          ? limitsOf(result, says.number, inUnit, digits, !labSaysNot(says, result, labFlags))
          : NO_LIMIT,
    };
  };
}

const NOTHING: readonly string[] = [];

type Found = { readonly state: ReadingState; readonly why: ReadingReason | null };
type Written = { readonly text: string; readonly unit: ConcentrationUnit | null };

const amountFrom = ({ text, unit }: Written): Amount | null =>
  unit === null ? null : { text, unit };

const STATE: Readonly<
  Record<'detected' | 'not detected' | 'more than' | 'rejected' | 'tentative', Found>
> = {
  detected: { state: 'detected', why: null },
  'not detected': { state: 'not detected', why: null },
  'more than': { state: 'more than', why: null },
  rejected: { state: 'rejected', why: null },
  tentative: { state: 'tentative', why: null },
};

const none = (why: ReadingReason): Found => ({ state: 'none', why });

/** Whether the laboratory itself reported a non-detect: in words, by letter or in the column. */
const labSaysNot = (says: Reported, result: ResultInput, labFlags: number) =>
  says.kind === 'less than' ||
  says.kind === 'not detected' ||
  (labFlags & FLAG.notDetected) !== 0 ||
  result.detected === false;

function stateOf(
  says: Reported,
  result: ResultInput,
  flags: number,
  labFlags: number,
  unit: ConcentrationUnit | null,
): Found {
  const unreadable = (expected: string): Found => ({
    state: 'unreadable',
    why: { kind: 'unreadable', expected, found: (result.value ?? '').trim() },
  });

  if (flags & FLAG.rejected) return STATE.rejected;
  if (says.kind === 'unreadable') return unreadable(says.expected ?? JUST_LETTERS);

  const labNot = labSaysNot(says, result, labFlags);
  if (result.detected === true && labNot)
    return unreadable('a detection, as the column “detected” says');
  if (labNot || flags & FLAG.notDetected)
    return says.kind === 'more than'
      ? unreadable('a non-detect, as the letter or the column “detected” says')
      : STATE['not detected'];

  if (says.kind === 'blank') return none(result.detected === true ? WITHOUT_VALUE : BLANK);
  if (says.kind === 'letters') return unreadable(JUST_LETTERS);
  const value = Number(says.number);
  // Counting radioactivity subtracts a background, and may end at zero or below it.
  if (unit?.dimension !== 'activity per volume') {
    if (value < 0) return unreadable('a concentration above zero');
    if (value === 0) return none(ZERO);
  }
  if (flags & FLAG.tentative) return STATE.tentative;
  return says.kind === 'more than' || flags & FLAG.overRange ? STATE['more than'] : STATE.detected;
}

/**
 * The limit of a non-detect by either rule. The column that decides stands,
 * unless the result was reported below another number than the two columns give
 * (a diluted run, a value the validator turned into a non-detect): then the
 * larger of the two. Without that column: the number reported, else the other
 * column. A limit of zero, or one that cannot be read, is none.
 *
 * @param raised  the laboratory saw it and the validator did not accept that
 */
function limitsOf(
  result: ResultInput,
  number: string | null,
  unit: ConcentrationUnit,
  digits: (text: string) => string | null,
  raised: boolean,
): Reading['limit'] {
  const limit = (text: string | null, column: Limit['column']): Limit | null => {
    if (text === null || !(Number(text) > 0)) return null;
    const amount = { text, unit };
    return { ...amount, column, amount: amountOf(amount) };
  };
  const column = (name: 'detection_limit' | 'reporting_limit') => {
    const text = result[name]?.trim() ?? '';
    return text === '' ? undefined : limit(digits(text), name);
  };
  const value = limit(number, 'value');
  const detection = column('detection_limit');
  const reporting = column('reporting_limit');

  const deciding = (chosen: Limit | null | undefined, other: Limit | null | undefined) => {
    if (chosen === null) return null;
    if (chosen === undefined) return value ?? other ?? null;
    if (value === null) return chosen;
    const isOther = !raised && !!other && compareAmounts(value, other) === 0;
    return isOther || compareAmounts(value, chosen) <= 0 ? chosen : value;
  };
  return {
    'reporting limit': deciding(reporting, detection),
    'detection limit': deciding(detection, reporting),
  };
}

/** The reporting limit beside a result, whatever its state; null where none can be read. */
export function reportingLimitOf({ result, unit }: Reading, dress = DECIMAL_POINT): Amount | null {
  const text = plainDigits(result.reporting_limit?.trim() ?? '', dress);
  return text !== null && unit !== null && Number(text) > 0 ? { text, unit } : null;
}
