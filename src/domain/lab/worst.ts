import { ratioToLevel, type Judged } from './screening';
import { VERDICTS, type Verdict } from './verdict';

/**
 * Verdicts from the one to look at first to the one to look at last. What
 * cannot be told, and every gap in what was asked for, comes before what was
 * found not to exceed, so that one mark for many results never hides it.
 */
export const WORST_FIRST: readonly Verdict[] = [
  'exceeds',
  'exceeds-estimated',
  'cannot-tell',
  'rejected',
  'not-comparable',
  'no-result',
  'does-not-exceed',
  'not-detected',
  'no-level',
];

const RANK = Object.fromEntries(WORST_FIRST.map((verdict, rank) => [verdict, rank])) as Readonly<
  Record<Verdict, number>
>;

/** For sorting verdicts worst first. */
export const worseFirst = (a: Verdict, b: Verdict): number => RANK[a] - RANK[b];

/** The worst of some verdicts; null of none. */
export function worstOf(verdicts: Iterable<Verdict>): Verdict | null {
  let worst: Verdict | null = null;
  for (const verdict of verdicts)
    if (worst === null || RANK[verdict] < RANK[worst]) worst = verdict;
  return worst;
}

/** For sorting results worst first: by verdict, then by ratio to the level, the larger first. */
export const worseResultFirst = (a: Judged, b: Judged): number =>
  worseFirst(a.outcome.verdict, b.outcome.verdict) || ratioFor(b) - ratioFor(a);

const ratioFor = (judged: Judged) => ratioToLevel(judged)?.value ?? 0;

/**
 * The worst result of each group, by what a group is: a location, a screen, an
 * analyte in a screen. In the order the groups first appear; of equals, the
 * first stands.
 */
export function worstBy<Key>(
  judged: Iterable<Judged>,
  groupOf: (judged: Judged) => Key,
): ReadonlyMap<Key, Judged> {
  const worst = new Map<Key, Judged>();
  for (const one of judged) {
    const key = groupOf(one);
    const before = worst.get(key);
    if (before === undefined || worseResultFirst(one, before) < 0) worst.set(key, one);
  }
  return worst;
}

/** How many of each verdict; together they are all there were. */
export type VerdictCounts = Readonly<Record<Verdict, number>>;

export function countVerdicts(verdicts: Iterable<Verdict>): VerdictCounts {
  const counts = Object.fromEntries(VERDICTS.map((verdict) => [verdict, 0])) as Record<
    Verdict,
    number
  >;
  for (const verdict of verdicts) counts[verdict]++;
  return counts;
}

export const totalOf = (counts: VerdictCounts): number =>
  VERDICTS.reduce((sum, verdict) => sum + counts[verdict], 0);
