import type { Reading } from './reading';

/**
 * How far above its blank a result must be not to be flagged. The older
 * National Functional Guidelines: five times the blank, ten for the usual
 * laboratory contaminants (values from memory, EPA 540/R-99/008, 1999). Newer
 * editions compare both with the quantitation limit instead.
 */
export type BlankRule = {
  readonly times: number;
  readonly timesForUsual: number;
  /** Keys of the analytes laboratories themselves bring in. */
  readonly usual: ReadonlySet<string>;
};

export const USUAL_BLANK_RULE: BlankRule = {
  times: 5,
  timesForUsual: 10,
  usual: new Set([
    '67-64-1', // acetone
    '78-93-3', // 2-butanone
    '75-09-2', // methylene chloride
    '117-81-7', // bis(2-ethylhexyl) phthalate
    '84-66-2', // diethyl phthalate
    '131-11-3', // dimethyl phthalate
    '84-74-2', // di-n-butyl phthalate
    '85-68-7', // butyl benzyl phthalate
    '117-84-0', // di-n-octyl phthalate
  ]),
};

/**
 * A result whose blank also held the analyte. The number stays as reported:
 * results are given unadjusted for blanks and the samples flagged (a regional
 * water board's standard provisions, January 2012).
 */
export type BlankFlag = {
  readonly sample: Reading;
  readonly blank: Reading;
  readonly times: number;
  /** Result over blank. */
  readonly ratio: number;
  readonly why: string;
};

/**
 * Whether a detected result is flagged for what its blank held; null where it
 * is not, or where the two cannot be compared. An estimated or at-least result
 * in the blank counts as it stands.
 */
export function blankFlag(
  sample: Reading,
  blank: Reading,
  rule: BlankRule = USUAL_BLANK_RULE,
): BlankFlag | null {
  const seen = (reading: Reading) => reading.state === 'detected' || reading.state === 'more than';
  if (!seen(sample) || !seen(blank) || sample.key !== blank.key) return null;
  if (sample.unit?.dimension !== blank.unit?.dimension || sample.basis !== blank.basis) return null;
  if (blank.amount <= 0) return null;
  const times = rule.usual.has(sample.key) ? rule.timesForUsual : rule.times;
  const ratio = sample.amount / blank.amount;
  // "> 200" may be any number of times the blank: it is not under the limit for certain.
  if (sample.state === 'more than' || ratio >= times * (1 - 1e-12)) return null;
  return {
    sample,
    blank,
    times,
    ratio,
    why: `${sample.result.analyte} was found in ${blank.result.sample}; ${sample.result.sample} holds less than ${times} times as much. The number is as reported.`,
  };
}
