/** What one result says of one level. The codes are kept in files and never change. */
export const VERDICTS = [
  'exceeds',
  'exceeds-estimated',
  'does-not-exceed',
  'not-detected',
  'cannot-tell',
  'rejected',
  'not-comparable',
  'no-level',
  'no-result',
] as const;

export type Verdict = (typeof VERDICTS)[number];

/** As they are read on the page, on sheets and in the terminal. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  exceeds: 'exceeds',
  'exceeds-estimated': 'exceeds, estimated',
  'does-not-exceed': 'does not exceed',
  'not-detected': 'not detected, limit at or below the level',
  'cannot-tell': 'limit exceeds level (cannot tell)',
  rejected: 'rejected',
  'not-comparable': 'not comparable',
  'no-level': 'no level',
  'no-result': 'no result',
};

/** Whether a verdict is that the level is exceeded, by a number estimated or not. */
export const isOver = (verdict: Verdict) =>
  verdict === 'exceeds' || verdict === 'exceeds-estimated';

/** Each reason belongs to one verdict. */
const VERDICT_OF = {
  'value above level': 'exceeds',
  'equal counts as above': 'exceeds',
  'at least a value above level': 'exceeds',
  'estimated value above level': 'exceeds-estimated',
  'over range, above level': 'exceeds-estimated',
  'value below level': 'does-not-exceed',
  'value equal to level': 'does-not-exceed',
  'limit at or below level': 'not-detected',
  'limit above level': 'cannot-tell',
  'limit not given': 'cannot-tell',
  'at least a value not above level': 'cannot-tell',
  'over range, not above level': 'cannot-tell',
  rejected: 'rejected',
  'identity not confirmed': 'not-comparable',
  'unit not known': 'not-comparable',
  'level not readable': 'not-comparable',
  'different dimensions': 'not-comparable',
  'different basis': 'not-comparable',
  'basis not stated': 'not-comparable',
  'different fraction': 'not-comparable',
  'different matrix': 'not-comparable',
  'no level': 'no-level',
  blank: 'no-result',
  'detected without a value': 'no-result',
  zero: 'no-result',
  unreadable: 'no-result',
} as const satisfies Readonly<Record<string, Verdict>>;

export type Reason = keyof typeof VERDICT_OF;

/** All reasons; a reason's place here is its code in `verdict-columns.ts`. */
export const REASONS = Object.keys(VERDICT_OF) as readonly Reason[];

/** A verdict and why. The same few objects serve every result. */
export type Outcome = { readonly verdict: Verdict; readonly reason: Reason };

/** Each reason with the verdict it belongs to. */
export const OUTCOME = Object.fromEntries(
  Object.entries(VERDICT_OF).map(([reason, verdict]) => [reason, { verdict, reason }]),
) as Readonly<Record<Reason, Outcome>>;
