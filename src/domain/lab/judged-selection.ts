import { NO_SCREEN, type SiteColumns } from './column-writer';
import type { Level } from './level';
import { WITH_NUMBERS, type LevelSet } from './screening';
import type { Selection } from './selection';
import type { JudgedResult } from './site-results';
import { REASONS, VERDICTS, type Verdict } from './verdict';
import {
  countCodes,
  outcomeCodes,
  outcomeWithCode,
  ratioAt,
  VERDICT_PLACE,
} from './verdict-columns';
import { WORST_FIRST, type VerdictCounts } from './worst';

/** A selection judged against one set of levels. */
export type JudgedSelection = Selection & {
  readonly set: LevelSet;
  /** One a row of the columns: its outcome, for `outcomeWithCode`. */
  readonly codes: Uint8Array;
  /** The level found for each kind of the columns; null where there is none. */
  readonly levels: readonly (Level | null)[];
};

type JudgedColumns = Pick<JudgedSelection, 'codes' | 'levels'>;

const judgedBefore = new WeakMap<SiteColumns, WeakMap<LevelSet, JudgedColumns>>();

/** All of some columns against a set of levels, worked out once for each. */
function judgedColumns(columns: SiteColumns, set: LevelSet): JudgedColumns {
  const bySet = judgedBefore.get(columns) ?? new WeakMap<LevelSet, JudgedColumns>();
  judgedBefore.set(columns, bySet);
  const made = bySet.get(set) ?? {
    codes: outcomeCodes(columns, set),
    levels: columns.kinds.map((kind) => set.levelFor(kind).level),
  };
  bySet.set(set, made);
  return made;
}

export const judgedBy = (of: Selection, set: LevelSet): JudgedSelection => ({
  ...of,
  set,
  ...judgedColumns(of.columns, set),
});

/** One result of a judged selection as an object. */
export function judgedAt({ columns, set }: JudgedSelection, row: number): JudgedResult {
  const result = columns.resultAt(row);
  return { ...result, judged: set.judge(result.reading) };
}

/** All of them as objects: for few. */
export const judgedList = (of: JudgedSelection): JudgedResult[] =>
  Array.from(of.rows, (row) => judgedAt(of, row));

/** How many results came to each verdict. */
export const verdictCounts = ({ codes, rows }: JudgedSelection): VerdictCounts =>
  countCodes(codes, rows);

/** For each code, how bad it is: 0 the worst. */
const RANK = Uint8Array.from(REASONS, (_, code) =>
  WORST_FIRST.indexOf(outcomeWithCode(code).verdict),
);
const HAS_NUMBER = Uint8Array.from(REASONS, (_, code) =>
  WITH_NUMBERS.includes(outcomeWithCode(code).verdict) ? 1 : 0,
);

/** How bad the verdict on a row is: 0 the worst. */
const rankAt = ({ codes }: JudgedSelection, row: number): number => RANK[codes[row] ?? 0] ?? 0;

/** How many times its level a row is; 0 where nothing was compared. The ratio of `ratioToLevel`. */
function timesLevel({ columns, codes, levels }: JudgedSelection, row: number): number {
  const level = levels[columns.kind[row] ?? 0];
  if (!level || HAS_NUMBER[codes[row] ?? 0] === 0) return 0;
  return ratioAt(columns, row, level);
}

/** For sorting rows worst first, as `worseResultFirst` sorts results. */
export const worseRowFirst =
  (of: JudgedSelection) =>
  (a: number, b: number): number =>
    rankAt(of, a) - rankAt(of, b) || timesLevel(of, b) - timesLevel(of, a);

/** The results of one verdict with the highest ratio to their level first, so many at most. */
export function worstOfVerdict(
  of: JudgedSelection,
  verdict: Verdict,
  most: number,
): JudgedResult[] {
  const place = VERDICTS.indexOf(verdict);
  const worst: { readonly row: number; readonly times: number }[] = [];
  for (const row of of.rows) {
    if (VERDICT_PLACE[of.codes[row] ?? 0] !== place) continue;
    const times = timesLevel(of, row);
    if (worst.length === most && times <= (worst[most - 1]?.times ?? 0)) continue;
    // Of equals the first stands first.
    const before = worst.findLastIndex((one) => one.times >= times);
    worst.splice(before + 1, 0, { row, times });
    if (worst.length > most) worst.pop();
  }
  return worst.map(({ row }) => judgedAt(of, row));
}

/**
 * One row for each screen sampled: of the worst verdict there, the first of equals.
 * In the order the screens first appear; results of no screen are left out.
 */
export function worstRowsByScreen(of: JudgedSelection): number[] {
  const { rows, codes, columns } = of;
  const { sample, screen: screenOf } = columns;
  const NONE = -1;
  const worst = new Int32Array(columns.screens.length).fill(NONE);
  const met: number[] = [];
  for (const row of rows) {
    const screen = screenOf[sample[row] ?? 0] ?? NO_SCREEN;
    if (screen === NO_SCREEN) continue;
    const before = worst[screen] ?? NONE;
    if (before === NONE) met.push(screen);
    const rank = RANK[codes[row] ?? 0] ?? 0;
    if (before === NONE || rank < (RANK[codes[before] ?? 0] ?? 0)) worst[screen] = row;
  }
  return met.map((screen) => worst[screen] ?? NONE);
}

/** The worst row of each group of a selection. */
export type WorstRows = {
  /** Groups in the order they first appear. */
  readonly met: readonly number[];
  /** By group. */
  readonly worst: Uint32Array;
};

/**
 * The worst row of each group, as `worseRowFirst` sorts them; of equals the first.
 * @param groupOf  from 0 up to but without `groups`; below 0 for a row of none
 */
export function worstRowsBy(
  of: JudgedSelection,
  groups: number,
  groupOf: (row: number) => number,
): WorstRows {
  const worst = new Uint32Array(groups);
  const ranks = new Uint8Array(groups).fill(WORST_FIRST.length);
  const times = new Float64Array(groups);
  const met: number[] = [];
  for (const row of of.rows) {
    const group = groupOf(row);
    if (group < 0) continue;
    const before = ranks[group] ?? 0;
    const rank = rankAt(of, row);
    if (rank > before) continue;
    const ratio = timesLevel(of, row);
    if (before === WORST_FIRST.length) met.push(group);
    else if (rank === before && ratio <= (times[group] ?? 0)) continue;
    worst[group] = row;
    ranks[group] = rank;
    times[group] = ratio;
  }
  return { met, worst };
}
