import { groupBy } from '../group';
import { significant } from '../show';
import type { Sample } from '../site/schema';
import { covers, type Level } from './level';
import type { Reading } from './reading';
import type { LevelSet } from './screening';
import { SUM_RULES, type SumRule } from './sum-rules';
import { reportedAsSuch, sumVerdict, type NonDetectRule, type Sum } from './sums';
import { listed, onlyRows, type Selection } from './selection';
import type { SiteReading } from './site-results';
import { countVerdicts, type VerdictCounts } from './worst';

/** A sum of analytes of one sample and fraction, against each of some sets of levels. */
export type SampleSum = {
  readonly sample: Sample;
  readonly fraction: string | null;
  /** In the order of the sets; never empty. */
  readonly against: readonly Sum[];
};

/** One sum and fraction: a column of the table of samples by analytes. */
export type SumColumn = {
  readonly key: string;
  readonly rule: SumRule;
  readonly fraction: string | null;
  /** In the order of the sets: "10 mg/L", "1" for an index; null where a set has none. */
  readonly levels: readonly (string | null)[];
  /** By sample id. */
  readonly sums: ReadonlyMap<string, SampleSum>;
};

const partKeys = new Map(
  SUM_RULES.map((rule) => [rule, new Set(rule.parts.flatMap(({ either }) => either.flat()))]),
);

/** The results of a selection that a sum is made of, or that are one: no others bear on the sums. */
export function partsOfSums(of: Selection): SiteReading[] {
  const { kinds, kind } = of.columns;
  const isPart = kinds.map(({ key }) =>
    SUM_RULES.some((rule) => rule.key === key || partKeys.get(rule)?.has(key)),
  );
  if (!isPart.includes(true)) return [];
  return listed(onlyRows(of, (row) => isPart[kind[row] ?? 0] === true));
}

/**
 * The sums that can be made of these results, one column for each sum and
 * fraction. A sum the laboratory reports itself is not added again; one with
 * none of its parts is not made.
 */
export function sumColumns(
  results: readonly SiteReading[],
  sets: readonly LevelSet[],
  nonDetects: NonDetectRule,
): readonly SumColumn[] {
  const bySample = groupBy(results, ({ sample, row }) => `${sample.id}|${row.fraction ?? ''}`);
  const columns = new Map<string, SumColumn & { readonly sums: Map<string, SampleSum> }>();
  for (const here of bySample.values()) {
    const [first] = here;
    if (!first || sets.length === 0) continue;
    const readings = here.map(({ reading }) => reading);
    const { sample, row } = first;
    for (const rule of SUM_RULES) {
      if (!readings.some((one) => partKeys.get(rule)?.has(one.key))) continue;
      if (reportedAsSuch(rule, readings).length > 0) continue;
      const levels = sets.map((set) => levelOf(rule, set, first.reading));
      const key = `${rule.key}|${row.fraction ?? ''}`;
      const column = columns.get(key) ?? {
        key,
        rule,
        fraction: row.fraction,
        levels: levels.map((level) => sumLevelText(rule, level)),
        sums: new Map<string, SampleSum>(),
      };
      columns.set(key, column);
      column.sums.set(sample.id, {
        sample,
        fraction: row.fraction,
        against: levels.map((level) => sumVerdict(rule, readings, level, nonDetects)),
      });
    }
  }
  return [...columns.values()];
}

/** The level of a sum in a set, where it is for this matrix and fraction. */
const levelOf = ({ key }: SumRule, { levels }: LevelSet, { result }: Reading): Level | null =>
  levels.find(
    ({ key: its, input }) =>
      its === key &&
      covers(input.matrix, result.matrix) &&
      (input.fraction === null || input.fraction === result.fraction),
  ) ?? null;

const sumLevelText = ({ index }: SumRule, level: Level | null): string | null =>
  index ? `${index.limit}, an index` : level && `${level.input.value} ${level.input.unit}`;

/** How many of a column's sums came to each verdict against the first set. */
export function sumCounts({ sums }: SumColumn): VerdictCounts {
  const verdicts = [...sums.values()].flatMap(({ against: [first] }) => first?.verdict ?? []);
  return countVerdicts(verdicts);
}

/** Least and most of a sum with its unit; `most` is null where it is the same, or nothing bounds it. */
export function sumTexts({ low, high, unit }: Sum): {
  readonly least: string;
  readonly most: string | null;
  readonly unbounded: boolean;
} {
  const text = (value: number) =>
    `${value === 0 ? '0' : significant(value, 3)}${unit ? ` ${unit.text}` : ''}`;
  const [least, most] = [text(low), high === null ? null : text(high)];
  return { least, most: most === least ? null : most, unbounded: high === null };
}

/** What a non-detect adds to a sum, as the table and the sheet say it. */
export const NON_DETECT_WORDS: Readonly<Record<NonDetectRule, string>> = {
  range: 'nothing at least, its limit at most',
  zero: 'nothing',
  'half the limit': 'half its limit',
  'the limit': 'its limit',
};

export const NON_DETECT_RULES = Object.keys(NON_DETECT_WORDS) as readonly NonDetectRule[];

/** What is to be known of a sum whose rule is under change; null for the others. */
export const changeProposed = ({ source }: SumRule): string | null =>
  /proposed/i.test(source)
    ? 'Its rescission has been proposed: check whether it still stands before use.'
    : null;
