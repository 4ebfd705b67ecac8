import { amountIn, compareAmounts, type Amount } from './concentration-units';
import type { Order } from './decimal';
import type { Digits, Reading } from './reading';

/** Which limit decides a non-detect; each set of levels says. */
export type DecidingLimit = 'reporting limit' | 'detection limit';

/** A limit a non-detect is judged by. */
export type Limit = Amount & {
  /** In the unit its dimension is worked in. */
  readonly amount: number;
  /** Column of `results` it stands in; `value` where it is the number beside < or U. */
  readonly column: 'value' | 'detection_limit' | 'reporting_limit';
};

/**
 * The number a non-detect is judged by, in its own unit. The column that decides
 * stands, unless the result was reported below another number than the two
 * columns give (a diluted run, a value the validator turned into a non-detect):
 * then the larger of the two. Without that column: the number reported, else the
 * other column. Null where none was given, or the one that decides cannot be read.
 */
export function decidingNumber(reading: Reading, decides: DecidingLimit): Digits | null {
  const byReporting = decides === 'reporting limit';
  const chosen = byReporting ? reading.reportingLimit : reading.detectionLimit;
  const other = byReporting ? reading.detectionLimit : reading.reportingLimit;
  const written = reading.written !== null && reading.written.number > 0 ? reading.written : null;

  if (chosen === null) return null;
  if (chosen === undefined) return written ?? other ?? null;
  if (written === null || written.text === chosen.text) return chosen;
  if (!reading.raised && other && order(reading, written, other) === 0) return chosen;
  return order(reading, written, chosen) > 0 ? written : chosen;
}

function order({ unit }: Reading, a: Digits, b: Digits): Order {
  if (a.text === b.text || unit === null) return 0;
  return compareAmounts({ text: a.text, unit }, { text: b.text, unit });
}

/** The limit a non-detect is judged by, and where it stands; null as `decidingNumber`, or without a unit. */
export function limitOf(reading: Reading, decides: DecidingLimit): Limit | null {
  const { unit } = reading;
  if (reading.state !== 'not detected' || unit === null) return null;
  const digits = decidingNumber(reading, decides);
  if (digits === null) return null;
  const column = COLUMNS[decides].find((name) => cellOf(reading, name) === digits) ?? 'value';
  return { text: digits.text, unit, amount: amountIn(digits.number, unit), column };
}

/** Columns of `results` with a limit, the one that decides first. */
const COLUMNS: Readonly<Record<DecidingLimit, readonly Limit['column'][]>> = {
  'reporting limit': ['reporting_limit', 'detection_limit'],
  'detection limit': ['detection_limit', 'reporting_limit'],
};

const cellOf = ({ detectionLimit, reportingLimit }: Reading, column: Limit['column']) =>
  column === 'detection_limit' ? detectionLimit : reportingLimit;

/** The reporting limit beside a result, whatever its state; null where none can be read. */
export const reportingLimitOf = ({ reportingLimit, unit }: Reading): Amount | null =>
  !reportingLimit || unit === null ? null : { text: reportingLimit.text, unit };
