import type { ScreeningLevel } from '../site/schema';
import { analyteKey } from './analytes';
import { basisOf } from './basis';
import { amountOf, unitOf, type Amount, type ConcentrationUnit } from './concentration-units';
import { decimalOf } from './decimal';
import type { DecidingLimit, Reading } from './reading';
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
  return {
    input,
    rules,
    key: analyteKey(input.cas, input.analyte),
    basis: basisOf(unit?.basis ?? null, input.analyte),
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
  const level = levelMatrix?.trim().toLowerCase() ?? '';
  const sample = sampleMatrix?.trim().toLowerCase() ?? '';
  if (level === '' || sample === '' || level === sample) return true;
  return level === 'water' && sample.includes('water');
}

/**
 * Levels by analyte. For a result it is the level of its fraction and matrix,
 * else the one for any fraction. Filtered and total are kept apart: a level for
 * one is never used for the other, nor for a result that does not say.
 */
export function levelFinder(levels: readonly Level[]): (reading: Reading) => Match {
  const byKey = new Map<string, Match[]>();
  for (const level of levels) {
    const matches = byKey.get(level.key) ?? [];
    byKey.set(level.key, [...matches, { level, misfit: null }]);
  }
  return (reading) => {
    const matches = byKey.get(reading.key);
    return matches === undefined ? NO_MATCH : fitting(matches, reading);
  };
}

function fitting(matches: readonly Match[], { result }: Reading): Match {
  let best: Match | null = null;
  let misfit: Match = NO_MATCH;
  for (const match of matches) {
    const level = match.level?.input;
    if (!level) continue;
    if (!covers(level.matrix, result.matrix)) {
      misfit = misfit.level === null ? { level: match.level, misfit: 'matrix' } : misfit;
    } else if (level.fraction !== null && level.fraction !== result.fraction) {
      misfit = { level: match.level, misfit: 'fraction' };
    } else if (best === null || closer(level, best.level?.input)) best = match;
  }
  return best ?? misfit;
}

/** A level that names the fraction, then one that names the matrix, comes before one for any. */
const closer = (a: LevelInput, b: LevelInput | undefined) =>
  score(a) > (b === undefined ? -1 : score(b));

const score = ({ fraction, matrix }: LevelInput) =>
  (fraction === null ? 0 : 2) + (matrix === null ? 0 : 1);
