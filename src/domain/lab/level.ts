import type { ScreeningLevel } from '../site/schema';
import { groupBy } from '../group';
import { analyteFacts } from './analytes';
import { basisOf } from './basis';
import { amountOf, unitOf, type Amount, type ConcentrationUnit } from './concentration-units';
import { decimalOf } from './decimal';
import type { DecidingLimit } from './limit';
import type { Reading } from './reading';
import { plainDigits } from './reported';

/**
 * A level somebody chose: the columns of the table `screening_levels` that a
 * verdict needs, so that a row of the table is one.
 */
export type LevelInput = Pick<
  ScreeningLevel,
  'set' | 'cas' | 'analyte' | 'matrix' | 'fraction' | 'value' | 'unit' | 'decides'
> &
  Partial<
    Pick<
      ScreeningLevel,
      'basis' | 'source' | 'section' | 'date_read' | 'chosen_by' | 'value_status' | 'note'
    >
  > & {
    /** Row of the table, for citing its cells. */
    readonly row?: number;
  };

/** How results are compared with the levels of a set. */
export type SetRules = {
  /** Whether a result equal to the level exceeds it. Usually not. */
  readonly equalExceeds: boolean;
  /**
   * Whether detected values are first rounded to the level's last written
   * place, halves up, as compliance with a drinking-water level is reckoned
   * (value from memory); site screening usually does not.
   */
  readonly roundToLevel: boolean;
  /** Which limit decides a non-detect where the level's own row does not say. */
  readonly decides: DecidingLimit;
};

export const USUAL_RULES: SetRules = {
  equalExceeds: false,
  roundToLevel: false,
  decides: 'reporting limit',
};

/** A level ready to be compared with. */
export type Level = {
  readonly input: LevelInput;
  readonly rules: SetRules;
  readonly key: string;
  readonly basis: string | null;
  readonly decides: DecidingLimit;
  /** Null where the value is not one number above zero or the unit is not known. */
  readonly value: Amount | null;
  /** `value` in the unit its dimension is worked in; 0 where there is none. */
  readonly amount: number;
  /** Power of ten of the last place its value is written to: −3 for 0.005. */
  readonly place: number;
};

/** The unit of a level for soil is read as soil's: a ppb there is a µg/kg. */
const isSolid = (matrix: string | null) => /\b(soil|sediment|solid|sludge)/i.test(matrix ?? '');

export function levelFrom(input: LevelInput, rules: SetRules = USUAL_RULES): Level {
  const unit = unitOf(input.unit, isSolid(input.matrix));
  const value = amountIn(input.value, unit);
  const { key, basisInName } = analyteFacts(input.cas, input.analyte);
  return {
    input,
    rules,
    key,
    basis: basisOf(unit?.basis ?? null, basisInName),
    decides: input.decides ?? rules.decides,
    value,
    amount: value === null ? 0 : amountOf(value),
    place: value === null ? 0 : (decimalOf(value.text)?.exponent ?? 0),
  };
}

function amountIn(cell: string, unit: ConcentrationUnit | null): Amount | null {
  const text = plainDigits(cell.trim());
  return text !== null && unit !== null && Number(text) > 0 ? { text, unit } : null;
}

/** Why a level does not fit a result of its analyte. */
export type Misfit = 'fraction' | 'matrix';

/** The level for a result: one that fits, or the one of its analyte that does not and why, or none. */
export type Match =
  | { readonly level: Level; readonly misfit: Misfit | null }
  | { readonly level: null; readonly misfit: null };

const NO_MATCH: Match = { level: null, misfit: null };

/** Whether a level's matrix covers a sample's. Blank covers and is covered by all; "water" every water. */
export function covers(
  levelMatrix: string | null,
  sampleMatrix: string | null | undefined,
): boolean {
  if (!levelMatrix || !sampleMatrix || levelMatrix === sampleMatrix) return true;
  const level = levelMatrix.trim().toLowerCase();
  const sample = sampleMatrix.trim().toLowerCase();
  return (
    level === '' ||
    sample === '' ||
    level === sample ||
    (level === 'water' && sample.includes('water'))
  );
}

/** A level as the finder keeps it, with the answers for either kind of misfit ready made. */
type Candidate = {
  readonly level: Level;
  readonly fits: Match;
  readonly misfits: Readonly<Record<Misfit, Match>>;
  /** Whether it covers a matrix, by the matrix as written. */
  readonly coverage: Map<string, boolean>;
};

const candidateOf = (level: Level): Candidate => ({
  level,
  fits: { level, misfit: null },
  misfits: { fraction: { level, misfit: 'fraction' }, matrix: { level, misfit: 'matrix' } },
  coverage: new Map(),
});

/** Levels that name the fraction come first, then those that name the matrix. */
const score = ({ input: { fraction, matrix } }: Level) =>
  (fraction === null ? 0 : 2) + (matrix === null ? 0 : 1);

/**
 * Levels by analyte. For a result it is the level of its fraction and matrix,
 * else the one for any fraction. Filtered and total are kept apart: a level for
 * one is never used for the other, nor for a result that does not say.
 */
export function levelFinder(levels: readonly Level[]): (reading: Reading) => Match {
  const byKey = groupBy(
    [...levels].sort((a, b) => score(b) - score(a)).map(candidateOf),
    ({ level }) => level.key,
  );
  return ({ key, result }) => {
    const candidates = byKey.get(key);
    if (candidates === undefined) return NO_MATCH;
    let misfit = NO_MATCH;
    for (const candidate of candidates) {
      const { fraction } = candidate.level.input;
      if (!coversAgain(candidate, result.matrix)) {
        if (misfit.level === null) misfit = candidate.misfits.matrix;
      } else if (fraction !== null && fraction !== result.fraction)
        misfit = candidate.misfits.fraction;
      else return candidate.fits;
    }
    return misfit;
  };
}

function coversAgain({ level, coverage }: Candidate, matrix: string | null | undefined): boolean {
  if (!matrix || level.input.matrix === null) return true;
  const before = coverage.get(matrix);
  if (before !== undefined) return before;
  const answer = covers(level.input.matrix, matrix);
  coverage.set(matrix, answer);
  return answer;
}
