import { CONFLICT } from './basis';
import type { Amount } from './concentration-units';
import type { Level } from './level';
import { levelInUnitOf } from './level-in-unit';
import { limitOf } from './limit';
import { valueOf, type Reading } from './reading';
import type { Judged } from './screening';
import { withMicro } from './unit-shown';
import { VERDICT_WORDS } from './verdict';

/** A number and its unit as they were written: "0.005 mg/L"; "5 µg/L" where "ug/L" was. */
export const resultText = ({ result }: Reading, amount: Amount | null) =>
  amount === null ? '' : withMicro(`${amount.text} ${result.unit?.trim() ?? ''}`.trim());

/** A level as it was published: "0.005 mg/L". */
export const levelText = ({ input }: Level) =>
  withMicro(`${input.value.trim()} ${input.unit.trim()}`);

/** Why the verdict is what it is, with the numbers it rests on: a sentence. */
export function becauseOf({ reading, match, outcome }: Judged): string {
  const { result, basis } = reading;
  const { level } = match;
  const value = resultText(reading, valueOf(reading));
  const limit = level && resultText(reading, limitOf(reading, level.decides));
  const inUnit = level && levelInUnitOf(level, reading);
  const at = level ? `${levelText(level)}${inUnit === null ? '' : ` (${inUnit})`}` : '';
  const unit = result.unit?.trim() || 'blank';

  switch (outcome.reason) {
    case 'value above level':
      return `${value} is above the level of ${at}.`;
    case 'equal counts as above':
      return `${value} equals the level of ${at}, which in this set counts as exceeding.`;
    case 'at least a value above level':
      return `It is at least ${value}, above the level of ${at}.`;
    case 'estimated value above level':
      return `${value}, estimated, is above the level of ${at}.`;
    case 'over range, above level':
      return `It is over the calibration range, at least about ${value}: above the level of ${at}.`;
    case 'value below level':
      return `${value} is below the level of ${at}.`;
    case 'value equal to level':
      return `${value} equals the level of ${at}; equal is not above.`;
    case 'limit at or below level':
      return `Not detected; the limit of ${limit} is not above the level of ${at}.`;
    case 'limit above level':
      return `Not detected, but the limit of ${limit} is above the level of ${at}: it could exceed.`;
    case 'limit not given':
      return 'Not detected, but no limit is given that can be read.';
    case 'at least a value not above level':
      return `It is at least ${value}, which is not above the level of ${at}: it could exceed.`;
    case 'over range, not above level':
      return `It is over the calibration range, at least about ${value}, with no dilution run to use: it could exceed ${at}.`;
    case 'rejected':
      return 'Rejected: not usable for any purpose; a data gap.';
    case 'identity not confirmed':
      return 'The compound is only tentatively identified, so it is not screened under this name.';
    case 'unit not known':
      return `The unit, ${unit}, is not one we can compare.`;
    case 'level not readable':
      return `The level, ${at}, is not one number above zero in a unit we know.`;
    case 'different dimensions':
      return `A result in ${unit} cannot be compared with a level of ${at}.`;
    case 'different basis':
      return `The result is counted as ${basisWords(basis)}, the level as ${basisWords(level?.basis ?? null)}; they are not turned into one another.`;
    case 'basis not stated':
      return 'It is not said what both count (nitrogen or the whole ion), so they cannot be compared.';
    case 'different fraction':
      return `The level is for the ${level?.input.fraction ?? ''} fraction; this result is ${result.fraction ?? 'of a fraction not stated'}.`;
    case 'different matrix':
      return `The level is for ${level?.input.matrix ?? ''}; this sample is ${result.matrix ?? ''}.`;
    case 'no level':
      return 'No level has been chosen for this analyte.';
    case 'blank':
      return 'No result is given.';
    case 'detected without a value':
      return 'Marked as detected, but without a value.';
    case 'zero':
      return 'Reported as 0 with no limit: not a concentration that was measured.';
    case 'unreadable':
      return reading.why?.kind === 'unreadable'
        ? `Expected ${reading.why.expected}, found “${reading.why.found}”.`
        : 'The result cannot be read.';
  }
}

const basisWords = (basis: string | null) => (basis === CONFLICT ? 'two things at once' : basis);

/** "exceeds: 7.2 µg/L is above the level of 5 µg/L." */
export const verdictSentence = (judged: Judged) =>
  `${VERDICT_WORDS[judged.outcome.verdict]}: ${becauseOf(judged)}`;
