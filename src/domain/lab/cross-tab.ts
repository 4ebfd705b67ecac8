import { fixed, significant } from '../show';
import type { ScreeningLevel } from '../site/schema';
import { footnotes } from './cross-notes';
import {
  judgedBy,
  worseRowFirst,
  worstRowsBy,
  type JudgedSelection,
  type WorstRows,
} from './judged-selection';
import type { Level } from './level';
import { limitOf } from './limit';
import type { LegendRow } from './qualifiers';
import { valueOf } from './reading';
import { sampleRows } from './sample-rows';
import { ratioToLevel, type Judged, type LevelSet } from './screening';
import { allRows, type Selection } from './selection';
import { columnsOfList } from './site-columns';
import type { PlacedSample, SiteReading } from './site-results';
import { REASONS } from './verdict';
import { outcomeWithCode } from './verdict-columns';
import { resultText } from './verdict-words';

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

/**
 * Samples by analytes. Rows by location and depth, the most exceeded columns
 * first. Where a sample has an analyte twice, the worse stands and the other is
 * counted. The cells of a row are made when they are looked at.
 */
export function crossTab(
  results: Selection | readonly SiteReading[],
  sets: readonly LevelSet[],
  legendRows: readonly (LegendRow | { readonly meaning: string })[],
): CrossTab {
  const asked = 'rows' in results ? results : allRows(columnsOfList(results));
  const judged = sets.map((set) => judgedBy(asked, set));
  const { columns, columnOf } = crossColumns(asked, judged);
  const { samples, rowsOf } = sampleRows(asked);
  const worse = worseIn(judged);
  /** What stands in each column of a sample's row: the worst, and how many others there are. */
  const standing = (sample: number) => {
    const found: (Standing | null)[] = columns.map(() => null);
    for (const row of rowsOf(sample)) {
      const at = columnOf[asked.columns.kind[row] ?? 0] ?? 0;
      const before = found[at];
      if (!before) found[at] = { row, others: 0 };
      else
        found[at] = {
          row: worse(row, before.row) < 0 ? row : before.row,
          others: before.others + 1,
        };
    }
    return found;
  };
  function* shown() {
    for (const sample of samples) for (const one of standing(sample)) if (one) yield one.row;
  }
  const notes = footnotes(legendRows as readonly LegendRow[], asked, shown());
  const cellOf = ({ row, others }: Standing): CrossCell => {
    const result = asked.columns.resultAt(row);
    const { lab_qualifier: lab, validation_qualifier: validation } = result.row;
    const against = sets.map((set) => set.judge(result.reading));
    return {
      result,
      judged: against,
      text: reportedText(result),
      letters: [lab, validation].flatMap((letters) => letters?.trim() || []).join(' · '),
      notes: notes.of(row),
      ratio: against[0] ? ratioText(against[0]) : '',
      others,
    };
  };
  return {
    sets: sets.map(({ name }) => name),
    columns,
    rows: Array.from(
      samples,
      (place) =>
        new SampleRow(asked.columns.samples[place] as PlacedSample, () =>
          standing(place).map((one) => one && cellOf(one)),
        ),
    ),
    footnotes: notes.all,
  };
}

/** A row whose cells are made when they are looked at. */
class SampleRow implements CrossRow {
  #cells: CrossRow['cells'] | null = null;
  readonly #taken: PlacedSample;
  readonly #make: () => CrossRow['cells'];

  constructor(taken: PlacedSample, make: () => CrossRow['cells']) {
    this.#taken = taken;
    this.#make = make;
  }

  get sample() {
    return this.#taken.sample.id;
  }
  get kind() {
    return this.#taken.sample.kind;
  }
  get location() {
    return this.#taken.location?.id ?? null;
  }
  get screen() {
    return this.#taken.screen?.id ?? null;
  }
  get zone() {
    return this.#taken.screen?.zone ?? null;
  }
  get cells() {
    return (this.#cells ??= this.#make());
  }
}

type Standing = { readonly row: number; readonly others: number };

/** Which of two rows is the worse against the first set; without a set none is. */
const worseIn = ([first]: readonly JudgedSelection[]) => (first ? worseRowFirst(first) : () => 0);

/** The columns of the table, and for each kind of result its column. */
function crossColumns(
  { columns: { kinds, kind, analyte, analytes }, rows }: Selection,
  judged: readonly JudgedSelection[],
) {
  const [first] = judged;
  const worse = worseIn(judged);
  const keys = kinds.map(({ key, result }) => `${key}|${result.fraction ?? ''}`);
  const groups = [...new Set(keys)];
  const groupOf = Int32Array.from(keys, (key) => groups.indexOf(key));
  const groupAt = (row: number) => groupOf[kind[row] ?? 0] ?? 0;
  const { met, worst } = first
    ? worstRowsBy(first, groups.length, groupAt)
    : firstRowsBy(rows, groups.length, groupAt);
  const exceeding = new Uint32Array(groups.length);
  for (const row of first ? rows : []) {
    const group = groupAt(row);
    exceeding[group] = (exceeding[group] ?? 0) + (EXCEEDS[first?.codes[row] ?? 0] ?? 0);
  }
  const found = met.map(
    (group) => [group, { worst: worst[group] ?? 0, exceeding: exceeding[group] ?? 0 }] as const,
  );
  const nameOf = (row: number) => analytes[analyte[row] ?? 0] ?? '';
  const sorted = found.toSorted(
    ([, a], [, b]) =>
      b.exceeding - a.exceeding ||
      worse(a.worst, b.worst) ||
      nameOf(a.worst).localeCompare(nameOf(b.worst)),
  );
  const placeOf = new Map(sorted.map(([group], place) => [group, place]));
  return {
    columns: sorted.map(([group, { worst }]): CrossColumn => ({
      key: groups[group] ?? '',
      analyte: nameOf(worst),
      fraction: kinds[kind[worst] ?? 0]?.result.fraction ?? null,
      levels: judged.map(({ levels }) => levels[kind[worst] ?? 0] ?? null),
    })),
    columnOf: Int32Array.from(groupOf, (group) => placeOf.get(group) ?? 0),
  };
}

/** Without a set of levels no result is worse than another: the first of each group. */
function firstRowsBy(
  rows: Uint32Array,
  groups: number,
  groupOf: (row: number) => number,
): WorstRows {
  const worst = new Uint32Array(groups);
  const met = new Set<number>();
  for (const row of rows) {
    if (!met.has(groupOf(row))) worst[groupOf(row)] = row;
    met.add(groupOf(row));
  }
  return { met: [...met], worst };
}

const EXCEEDS = Uint8Array.from(REASONS, (_, code) =>
  outcomeWithCode(code).verdict.startsWith('exceeds') ? 1 : 0,
);

/** What a level rests on: "Maximum contaminant level; 40 CFR part 141; 141.61(a)(2); verified". */
export const levelBasis = ({
  basis,
  source,
  section,
  value_status: status,
}: Partial<Pick<ScreeningLevel, 'basis' | 'source' | 'section' | 'value_status'>>): string =>
  [basis, source, section, status].flatMap((part) => part ?? []).join('; ') || 'no source is given';
