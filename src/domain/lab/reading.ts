import type { ResultRow } from '../site/schema';
import { analyteFacts } from './analytes';
import { basisOf } from './basis';
import { amountIn, unitOf, type Amount, type ConcentrationUnit } from './concentration-units';
import { combined, FLAG, legendsFrom, type Legend } from './qualifiers';
import {
  A_RESULT,
  DECIMAL_POINT,
  plainDigits,
  readReported,
  type Dress,
  type Reported,
} from './reported';

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

/** A number read from a cell: its text with a decimal point, and the nearest double. */
export type Digits = { readonly text: string; readonly number: number };

/**
 * A result read. It holds no objects of its own, so that a million of them are
 * a million small things; `valueOf` and `limitOf` make the rest when asked.
 */
export type Reading = {
  readonly result: ResultInput;
  readonly state: ReadingState;
  /** For `none` and `unreadable`: why. */
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
  /** The value in the unit its dimension is worked in, for `detected` and `more than`; else 0. */
  readonly amount: number;
  /** The number in the value's cell. */
  readonly written: Digits | null;
  /** The limits' cells: null where one cannot be read, undefined where it is blank. */
  readonly detectionLimit: Digits | null | undefined;
  readonly reportingLimit: Digits | null | undefined;
  /** Not detected only in the validator's eyes: the value became the limit. */
  readonly raised: boolean;
};

export type ReadingReason =
  | { readonly kind: 'blank' }
  | { readonly kind: 'detected without a value' }
  /** 0 with neither a detection nor a limit is not a concentration anybody measured. */
  | { readonly kind: 'zero' }
  | { readonly kind: 'unreadable'; readonly expected: string; readonly found: string };

const BLANK: ReadingReason = { kind: 'blank' };
const WITHOUT_VALUE: ReadingReason = { kind: 'detected without a value' };
const ZERO: ReadingReason = { kind: 'zero' };

/** Soil is told from water, because a ppb is another thing there. */
const isSolid = (matrix: string) => /\b(soil|sediment|solid|sludge)/i.test(matrix);

/** Cells repeat; past this many distinct ones they are no longer kept. */
const MOST_KEPT = 200_000;

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

const digitsOf = (text: string | null): Digits | null =>
  text === null ? null : { text, number: Number(text) };

const NOTHING: readonly string[] = [];

/**
 * Reads results under one laboratory's legend. Make one reader for many
 * results: it remembers the cells it has met.
 */
export function resultReader(
  rules: ReadingRules = { dress: DECIMAL_POINT, ...DEFAULT_LEGENDS },
): (result: ResultInput) => Reading {
  const valueCell = kept((text) => {
    const says = readReported(text, rules.dress);
    return { says, written: digitsOf(says.number), letters: rules.laboratory(says.letters) };
  });
  const limitCell = kept((text) =>
    text.trim() === '' ? BLANK_LIMIT : { limit: positive(plainDigits(text.trim(), rules.dress)) },
  );
  const units = { water: kept((text) => unitOf(text)), solid: kept((text) => unitOf(text, true)) };
  const solid = kept(isSolid);
  const limitIn = (text: string | null) =>
    text === null || text === '' ? undefined : limitCell(text).limit;

  return (result) => {
    const { says, written, letters } = valueCell(result.value ?? '');
    const isWater = !result.matrix || !solid(result.matrix);
    const unit = (isWater ? units.water : units.solid)(result.unit ?? '');
    const lab = rules.laboratory(result.lab_qualifier ?? '');
    const validator = rules.validation(result.validation_qualifier ?? '');
    const labFlags = letters.flags | lab.flags;
    const flags = combined(labFlags, validator.flags);
    const { state, why } = stateOf(says, written, result, flags, labFlags, unit);
    const facts = analyteFacts(result.cas, result.analyte);
    const measured = state === 'detected' || state === 'more than';
    return {
      result,
      state,
      why,
      flags,
      unknownLetters:
        (flags & FLAG.unknown) === 0
          ? NOTHING
          : [...letters.unknown, ...lab.unknown, ...validator.unknown],
      key: facts.key,
      unit,
      basis: unit === null ? null : basisOf(unit.basis, facts.basisInName),
      amount: measured && unit !== null && written !== null ? amountIn(written.number, unit) : 0,
      written,
      detectionLimit: limitIn(result.detection_limit),
      reportingLimit: limitIn(result.reporting_limit),
      raised: state === 'not detected' && !labSaysNot(says, result, labFlags),
    };
  };
}

const BLANK_LIMIT: { readonly limit: Digits | null | undefined } = { limit: undefined };

/** A limit of zero, or one that cannot be read, is none. */
function positive(text: string | null): Digits | null {
  const digits = digitsOf(text);
  return digits !== null && digits.number > 0 ? digits : null;
}

type Found = { readonly state: ReadingState; readonly why: ReadingReason | null };

const found = (state: ReadingState, why: ReadingReason | null = null): Found => ({ state, why });

const DETECTED = found('detected');
const NOT_DETECTED = found('not detected');
const MORE_THAN = found('more than');
const REJECTED = found('rejected');
const TENTATIVE = found('tentative');

/** Whether the laboratory itself reported a non-detect: in words, by letter or in the column. */
const labSaysNot = (says: Reported, result: ResultInput, labFlags: number) =>
  says.kind === 'less than' ||
  says.kind === 'not detected' ||
  (labFlags & FLAG.notDetected) !== 0 ||
  result.detected === false;

function stateOf(
  says: Reported,
  written: Digits | null,
  result: ResultInput,
  flags: number,
  labFlags: number,
  unit: ConcentrationUnit | null,
): Found {
  const unreadable = (expected: string) =>
    found('unreadable', { kind: 'unreadable', expected, found: (result.value ?? '').trim() });

  if (flags & FLAG.rejected) return REJECTED;
  if (says.kind === 'unreadable') return unreadable(says.expected ?? A_RESULT);

  const labNot = labSaysNot(says, result, labFlags);
  if (result.detected === true && labNot)
    return unreadable('a detection, as the column “detected” says');
  if (labNot || flags & FLAG.notDetected)
    return says.kind === 'more than'
      ? unreadable('a non-detect, as the letter or the column “detected” says')
      : NOT_DETECTED;

  if (says.kind === 'blank') return found('none', result.detected === true ? WITHOUT_VALUE : BLANK);
  if (written === null) return unreadable(A_RESULT);
  // Counting radioactivity subtracts a background, and may end at zero or below it.
  if (unit?.dimension !== 'activity per volume') {
    if (written.number < 0) return unreadable('a concentration above zero');
    if (written.number === 0) return found('none', ZERO);
  }
  if (flags & FLAG.tentative) return TENTATIVE;
  return says.kind === 'more than' || flags & FLAG.overRange ? MORE_THAN : DETECTED;
}

/** The number reported, with its unit; null where there is none to compare. */
export const valueOf = ({ state, unit, written }: Reading): Amount | null =>
  (state === 'detected' || state === 'more than') && unit !== null && written !== null
    ? { text: written.text, unit }
    : null;
