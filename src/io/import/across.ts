import { rowTexts, type Table } from '../../domain/site/table';
import { BlockBuilder } from './block-builder';
import { slotNamed } from './forms';
import type { ColumnUse, Mapping } from './mapping';
import type { SourceTable } from './source-table';

/**
 * A table with its analytes or its samples across, told as one with a result a
 * row. Every result remembers the row and column of the file it stood in.
 */
export type Long = {
  readonly source: SourceTable;
  readonly mapping: Mapping;
  /** Row of the file's table, from 0, of each row. */
  readonly rowOf: Uint32Array;
};

/** Results one file may hold across. */
const MOST_RESULTS = 4_000_000;

type Across = {
  readonly at: number;
  readonly use: ColumnUse;
  /** Column of the letters beside it. */
  readonly letters: number | null;
};

const isAcross = ({ use }: ColumnUse) => use === 'analyte' || use === 'sample';

const NOT_KEPT: ColumnUse = { use: 'leave' };

const slotUse = (slot: string): ColumnUse => ({ use: 'slot', slot, unit: null });

/** The long form of a table; the table itself where it is long already. */
export function toLong(source: SourceTable, mapping: Mapping): Long {
  if (mapping.layout === 'rows') {
    const rowOf = new Uint32Array(source.table.size);
    for (let row = 0; row < rowOf.length; row++) rowOf[row] = row;
    return { source, mapping, rowOf };
  }
  const across = mapping.columns.flatMap((use, at): Across[] => {
    if (!isAcross(use)) return [];
    const letters = mapping.columns.findIndex((each) => each.use === 'letters' && each.of === at);
    return [{ at, use, letters: letters < 0 ? null : letters }];
  });
  const kept = mapping.columns.flatMap((use, at) =>
    isAcross(use) || use.use === 'letters' ? [] : [at],
  );
  const head = headOf(source.table, mapping);
  const isSamples = mapping.layout === 'samples across';
  const hasUnits =
    !isSamples &&
    (head.has('results.unit') ||
      across.some(({ use }) => use.use === 'analyte' && use.unit !== null));
  const added = [
    isSamples ? 'samples.id' : 'results.analyte',
    'results.value',
    ...(across.some(({ letters }) => letters !== null) ? ['results.lab_qualifier'] : []),
    ...(hasUnits ? ['results.unit'] : []),
    ...[...head.keys()].filter((slot) => slot !== 'results.unit'),
  ];

  const builder = new BlockBuilder(kept.length + added.length);
  const rows: number[] = [];
  const broken = new Map<number, string>();
  const headRows = new Set(mapping.headRows.map(({ row }) => row));
  const overflowAt = source.headings.length;
  for (let row = 0; row < source.table.size; row++) {
    if (headRows.has(row)) continue;
    const cells = rowTexts(source.table, row);
    const before = kept.map((at) => cells[at] ?? '');
    const overflow = cells[overflowAt] ?? '';
    const whole = overflow.trim() !== '' || source.broken.has(row);
    const found = across.filter(({ at }) => (cells[at] ?? '').trim() !== '');
    if (found.length === 0 || whole) {
      // Nothing across: a blank row, or one that can’t be read, is still a row to account for.
      if (whole || cells.some((cell) => cell.trim() !== '')) {
        if (whole)
          broken.set(builder.rows, source.broken.get(row) ?? 'no more cells than the header has');
        else broken.set(builder.rows, 'a result in at least one column');
      }
      rows.push(row);
      builder.add(before);
      continue;
    }
    for (const { at, use, letters } of found) {
      if (rows.length >= MOST_RESULTS) break;
      rows.push(row);
      builder.add([
        ...before,
        ...added.map((slot) => {
          switch (slot) {
            case 'results.analyte':
              return use.use === 'analyte' ? use.analyte : '';
            case 'samples.id':
              return use.use === 'sample' ? use.sample : '';
            case 'results.value':
              return cells[at] ?? '';
            case 'results.lab_qualifier':
              return letters === null ? '' : (cells[letters] ?? '');
            case 'results.unit':
              return (use.use === 'analyte' ? use.unit : null) ?? head.get(slot)?.[at] ?? '';
            default:
              return head.get(slot)?.[at] ?? '';
          }
        }),
      ]);
    }
  }

  const headings = [
    ...kept.map((at) => source.headings[at] ?? ''),
    ...added.map((slot) => slotNamed('results', slot)?.id ?? slot),
  ];
  const uses = [
    ...kept.map((at) => mapping.columns[at] ?? NOT_KEPT),
    ...added.map((slot) => slotUse(slot)),
  ];
  return {
    source: { ...source, headings: headings.map(plainly), table: builder.table(headings), broken },
    mapping: {
      ...mapping,
      layout: 'rows',
      headRows: [],
      columns: withoutTwins(uses, kept.length),
    },
    rowOf: Uint32Array.from(rows),
  };
}

/** A made column stands before one of the file for the same slot: the unit beside the analyte, say. */
function withoutTwins(uses: readonly ColumnUse[], kept: number): readonly ColumnUse[] {
  const made = new Set(uses.slice(kept).flatMap((use) => (use.use === 'slot' ? [use.slot] : [])));
  return uses.map((use, i) =>
    i < kept && use.use === 'slot' && made.has(use.slot) ? { use: 'keep' } : use,
  );
}

const WORDS: Readonly<Record<string, string>> = {
  'samples.id': 'Sample',
  'results.analyte': 'Analyte',
  'results.value': 'Result',
  'results.lab_qualifier': 'Qualifier',
  'results.unit': 'Unit',
};

const plainly = (heading: string) =>
  Object.hasOwn(WORDS, heading) ? (WORDS[heading] ?? heading) : heading.replace(/^samples\./, '');

/** What the rows that belong to the header say, by slot and column. */
function headOf(table: Table, { headRows }: Mapping): ReadonlyMap<string, readonly string[]> {
  return new Map(headRows.map(({ row, slot }) => [slot, rowTexts(table, row)]));
}
