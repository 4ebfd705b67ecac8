import { amountOf } from './concentration-units';
import {
  levelFinder,
  levelFrom,
  USUAL_RULES,
  type Level,
  type LevelInput,
  type Match,
  type SetRules,
} from './level';
import { limitOf } from './limit';
import { FLAG } from './qualifiers';
import { resultReader, type Reading, type ResultInput } from './reading';
import { outcomeOf } from './outcome';
import type { Outcome, Verdict } from './verdict';

/** A result, the level found for it, and what came of it. */
export type Judged = {
  readonly reading: Reading;
  readonly match: Match;
  readonly outcome: Outcome;
};

/** A set of levels ready for use. */
export type LevelSet = {
  readonly name: string;
  readonly levels: readonly Level[];
  readonly levelFor: (reading: Reading) => Match;
  /** The verdict on a result, made without allocating: for tables of a million. */
  readonly outcomeFor: (reading: Reading) => Outcome;
  readonly judge: (reading: Reading) => Judged;
};

/**
 * The sets of levels in a table, in the order they first appear.
 * @param rulesOf  how each set is compared with; the usual rules if not given
 */
export function levelSets(
  levels: Iterable<LevelInput>,
  rulesOf: (set: string) => SetRules = () => USUAL_RULES,
): ReadonlyMap<string, LevelSet> {
  const bySet = new Map<string, Level[]>();
  for (const level of levels) {
    const made = levelFrom(level, rulesOf(level.set));
    const before = bySet.get(level.set);
    if (before) before.push(made);
    else bySet.set(level.set, [made]);
  }
  return new Map([...bySet].map(([name, made]) => [name, levelSet(name, made)]));
}

/** A set of its levels. */
export function levelSet(name: string, levels: readonly Level[]): LevelSet {
  const levelFor = levelFinder(levels);
  return {
    name,
    levels,
    levelFor,
    outcomeFor: (reading) => outcomeOf(reading, levelFor(reading)),
    judge: (reading) => {
      const match = levelFor(reading);
      return { reading, match, outcome: outcomeOf(reading, match) };
    },
  };
}

/** One result against one level, or against none. For more than one, make a reader and a set. */
export function verdictOf(
  result: ResultInput,
  level: LevelInput | null,
  rules: SetRules = USUAL_RULES,
  read: (result: ResultInput) => Reading = resultReader(),
): Judged {
  const reading = read(result);
  const levels = level === null ? [] : [levelFrom(level, rules)];
  const match = levelFinder(levels)(reading);
  return { reading, match, outcome: outcomeOf(reading, match) };
}

/** How many times the level, and what is: the value, the least it can be, or the limit. */
export type Ratio = {
  readonly value: number;
  readonly of: 'value' | 'at least' | 'limit';
};

/** Verdicts that come of comparing a number with a level. */
export const WITH_NUMBERS: readonly Verdict[] = [
  'exceeds',
  'exceeds-estimated',
  'does-not-exceed',
  'not-detected',
  'cannot-tell',
];

/** The ratio of a result to its level; null where they were not compared or no limit was given. */
export function ratioToLevel({ reading, match, outcome }: Judged): Ratio | null {
  const { level } = match;
  if (level === null || level.value === null || !WITH_NUMBERS.includes(outcome.verdict))
    return null;
  if (reading.state === 'not detected') {
    const limit = limitOf(reading, level.decides);
    return limit && { value: limit.amount / amountOf(level.value), of: 'limit' };
  }
  const of = reading.state === 'more than' ? 'at least' : 'value';
  return { value: reading.amount / amountOf(level.value), of };
}

/** What a reader should know beside the verdict. None of it changes a number. */
export type Caution =
  | 'estimated'
  | 'estimated, biased high'
  | 'estimated, biased low'
  | 'found in a blank'
  | 'from a dilution'
  | 'over the calibration range'
  | 'limit estimated'
  | 'letters not in the legend'
  | 'parts per million or billion taken as mass per litre of dilute water'
  | 'judged by another limit than the one that decides';

export function cautionsOf({ reading, match }: Pick<Judged, 'reading' | 'match'>): Caution[] {
  const { flags, state, unit } = reading;
  const has = (flag: number) => (flags & flag) !== 0;
  const cautions: Caution[] = [];
  if (has(FLAG.estimated)) {
    if (state === 'not detected') cautions.push('limit estimated');
    else if (has(FLAG.high)) cautions.push('estimated, biased high');
    else cautions.push(has(FLAG.low) ? 'estimated, biased low' : 'estimated');
  }
  if (has(FLAG.overRange)) cautions.push('over the calibration range');
  if (has(FLAG.dilution)) cautions.push('from a dilution');
  if (has(FLAG.inBlank)) cautions.push('found in a blank');
  if (has(FLAG.unknown)) cautions.push('letters not in the legend');
  if (unit?.parts || match.level?.value?.unit.parts)
    cautions.push('parts per million or billion taken as mass per litre of dilute water');
  const decides = match.level?.decides;
  const limit = decides && limitOf(reading, decides);
  if (limit && limit.column !== decides.replace(' ', '_'))
    cautions.push('judged by another limit than the one that decides');
  return cautions;
}
