import { groupBy } from '../group';
import { fixed, significant } from '../show';
import type { ScreeningLevel } from '../site/schema';
import type { Level } from './level';
import { limitOf } from './limit';
import { FLAG, legendsFrom, type LegendRow } from './qualifiers';
import { valueOf } from './reading';
import { ratioToLevel, type Judged, type LevelSet } from './screening';
import type { SiteReading } from './site-results';
import { resultText } from './verdict-words';
import { worseResultFirst } from './worst';

/** One analyte of one fraction. */
export type CrossColumn = {
  readonly key: string;
  readonly analyte: string;
  readonly fraction: string | null;
  /** Its level in each set, in the order of the sets; null where a set has none. */
  readonly levels: readonly (Level | null)[];
};

export type CrossCell = {
  readonly result: SiteReading;
  /** Against each set, in the order of the sets. */
  readonly judged: readonly Judged[];
  /** As reported, with its unit: "<25 µg/L", "3.7 µg/L". */
  readonly text: string;
  /** Letters as written, the laboratory's then the validator's. */
  readonly letters: string;
  /** Numbers of the footnotes that explain them. */
  readonly notes: readonly number[];
  /** Times the first set's level: "6.2 ×", "<5 ×"; blank where nothing was compared. */
  readonly ratio: string;
  /** Other results of the same analyte in the same sample, such as by another method. */
  readonly others: number;
};

/** One sample at one screen. */
export type CrossRow = {
  readonly sample: string;
  readonly kind: string;
  readonly location: string | null;
  readonly screen: string | null;
  readonly zone: string | null;
  /** One a column; null where it was not asked for in this sample. */
  readonly cells: readonly (CrossCell | null)[];
};

export type Footnote = { readonly number: number; readonly letters: string; readonly says: string };

export type CrossTab = {
  readonly sets: readonly string[];
  readonly columns: readonly CrossColumn[];
  readonly rows: readonly CrossRow[];
  readonly footnotes: readonly Footnote[];
};

/** A result as it was reported, with its unit; a word where there is no number. */
export function reportedText({ reading }: Pick<SiteReading, 'reading'>): string {
  const { state, result } = reading;
  if (state === 'not detected') {
    const limit = limitOf(reading, 'reporting limit');
    return limit ? `<${resultText(reading, limit)}` : 'ND, no limit given';
  }
  const value = valueOf(reading);
  if (value) return `${state === 'more than' ? '>' : ''}${resultText(reading, value)}`;
  const written = result.value?.trim() ?? '';
  if (written === '') return 'blank';
  return `${written} ${result.unit?.trim() ?? ''}`.trim();
}

/** Times the level: "6.2 ×", "at least 3 ×", and for a non-detect "<0.2 ×"; blank where nothing was compared. */
export function ratioText(judged: Judged): string {
  const ratio = ratioToLevel(judged);
  if (ratio === null) return '';
  const number = ratio.value >= 100 ? fixed(ratio.value, 0) : significant(ratio.value, 2);
  const before = { value: '', 'at least': 'at least ', limit: '<' }[ratio.of];
  return `${before}${number} ×`;
}

const columnKey = ({ reading, row }: SiteReading) => `${reading.key}|${row.fraction ?? ''}`;

/**
 * Samples by analytes. Rows by location and depth, the most exceeded columns
 * first. Where a sample has an analyte twice, the worse stands and the other is counted.
 */
export function crossTab(
  readings: readonly SiteReading[],
  sets: readonly LevelSet[],
  legendRows: readonly (LegendRow | { readonly meaning: string })[],
): CrossTab {
  const notes = footnotes(legendRows as readonly LegendRow[]);
  const judgedOf = new Map(
    readings.map((result) => [result, sets.map((set) => set.judge(result.reading))] as const),
  );
  const worse = (a: SiteReading, b: SiteReading) => {
    const [x, y] = [judgedOf.get(a)?.[0], judgedOf.get(b)?.[0]];
    return x && y ? worseResultFirst(x, y) : 0;
  };
  const byColumn = [...groupBy(readings, columnKey)].map(([key, results]) => {
    const sorted = results.toSorted(worse);
    const [worst] = sorted;
    if (!worst) throw new Error('a group without members');
    const levels = sets.map((set) => set.levelFor(worst.reading).level);
    const exceeding = results.filter((result) =>
      judgedOf.get(result)?.[0]?.outcome.verdict.startsWith('exceeds'),
    ).length;
    return { key, worst, exceeding, levels };
  });
  byColumn.sort(
    (a, b) =>
      b.exceeding - a.exceeding ||
      worse(a.worst, b.worst) ||
      a.worst.row.analyte.localeCompare(b.worst.row.analyte),
  );
  const columns = byColumn.map(({ key, worst: { row }, levels }) => ({
    key,
    analyte: row.analyte,
    fraction: row.fraction,
    levels,
  }));

  const depth = ({ screen }: SiteReading) => screen?.tip_depth?.value ?? 0;
  const rows = [...groupBy(readings, ({ sample }) => sample)]
    .toSorted(
      ([, [a]], [, [b]]) =>
        (a?.location?.id ?? '￿').localeCompare(b?.location?.id ?? '￿', 'en', { numeric: true }) ||
        (a && b ? depth(a) - depth(b) : 0),
    )
    .map(([sample, results]): CrossRow => {
      const byKey = groupBy(results, columnKey);
      const [first] = results;
      return {
        sample: sample.id,
        kind: sample.kind,
        location: first?.location?.id ?? null,
        screen: first?.screen?.id ?? null,
        zone: first?.screen?.zone ?? null,
        cells: columns.map(({ key }) => {
          const here = byKey.get(key)?.toSorted(worse) ?? [];
          const [result] = here;
          if (!result) return null;
          const judged = judgedOf.get(result) ?? [];
          const { lab_qualifier: lab, validation_qualifier: validation } = result.row;
          return {
            result,
            judged,
            text: reportedText(result),
            letters: [lab, validation].flatMap((letters) => letters?.trim() || []).join(' · '),
            notes: notes.of(result),
            ratio: judged[0] ? ratioText(judged[0]) : '',
            others: here.length - 1,
          };
        }),
      };
    });
  return { sets: sets.map(({ name }) => name), columns, rows, footnotes: notes.all };
}

const SAYS: readonly (readonly [flag: number, words: string])[] = [
  [FLAG.rejected, 'rejected: not usable for any purpose'],
  [FLAG.notDetected, 'not detected at the limit shown'],
  [FLAG.tentative, 'identity tentative, not confirmed'],
  [FLAG.high, 'estimated, biased high'],
  [FLAG.low, 'estimated, biased low'],
  [FLAG.overRange, 'over the calibration range'],
  [FLAG.dilution, 'from a dilution'],
  [FLAG.inBlank, 'also found in a blank'],
  [FLAG.unknown, 'not in any legend: ask who wrote it'],
];

function meaningWords(flags: number): string {
  const words = SAYS.flatMap(([flag, says]) => (flags & flag ? [says] : []));
  if (flags & FLAG.estimated && !(flags & (FLAG.high | FLAG.low))) words.push('estimated');
  return words.length > 0 ? words.join('; ') : 'carries no meaning for a verdict';
}

/** A number for every set of letters used, by who wrote it, in the order first met. */
function footnotes(legendRows: readonly LegendRow[]) {
  const legends = legendsFrom(legendRows);
  const byWhat = new Map<string, Footnote>();
  const noteFor = (letters: string | null, who: string, flags: (letters: string) => number) => {
    const written = letters?.trim() ?? '';
    if (written === '') return [];
    const key = `${who}|${written}`;
    const before = byWhat.get(key);
    if (before) return [before.number];
    const number = byWhat.size + 1;
    const says = `${meaningWords(flags(written))} (${who})`;
    byWhat.set(key, { number, letters: written, says });
    return [number];
  };
  return {
    of: ({ row, sample }: SiteReading): number[] => {
      const { laboratory, validation } = legends(sample.laboratory);
      return [
        ...noteFor(
          row.lab_qualifier,
          sample.laboratory ?? 'laboratory not named',
          (letters) => laboratory(letters).flags,
        ),
        ...noteFor(row.validation_qualifier, 'validation', (letters) => validation(letters).flags),
      ];
    },
    get all(): readonly Footnote[] {
      return [...byWhat.values()];
    },
  };
}

/** What a level rests on: "Maximum contaminant level; 40 CFR part 141; 141.61(a)(2); verified". */
export const levelBasis = ({
  basis,
  source,
  section,
  value_status: status,
}: Partial<Pick<ScreeningLevel, 'basis' | 'source' | 'section' | 'value_status'>>): string =>
  [basis, source, section, status].flatMap((part) => part ?? []).join('; ') || 'no source is given';
