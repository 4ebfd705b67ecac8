import { analyteNamed } from '../../domain/lab/analytes';
import { unitOf } from '../../domain/lab/concentration-units';
import { readReported } from '../../domain/lab/reported';
import type { Assigned } from './assign-columns';
import { firstCells, most, someTexts } from './column-texts';
import { slotsOf, type FormName } from './forms';
import { readHeading } from './heading';
import { analyteInHeading, fitOf, isLeftOut } from './heading-words';
import type { ColumnUse, HeadRow, Mapping, Match } from './mapping';
import type { SourceTable } from './source-table';

/** How many columns hold results under names of samples, beside a column of analytes. */
export function samplesAcross(source: SourceTable, given: ReadonlyMap<number, Assigned>): number {
  const ids = new Set([...given.values()].map(({ slot }) => slot.id));
  if (!ids.has('results.analyte') || ids.has('results.value')) return 0;
  return source.headings.filter((heading, at) => {
    if (given.has(at) || heading === '' || isLeftOut(heading)) return false;
    const results = someTexts(source, at).filter((text) => {
      const { kind } = readReported(text);
      return kind !== 'unreadable' && kind !== 'letters' && kind !== 'blank';
    });
    return results.length > 0;
  }).length;
}

/** Headings of analytes, where a table has the analytes across. */
export function analytesAcross(source: SourceTable): ReadonlyMap<number, ColumnUse> {
  const uses = new Map<number, ColumnUse>();
  source.headings.forEach((heading, at) => {
    const found = analyteInHeading(heading);
    if (found) uses.set(at, { use: 'analyte', ...found });
  });
  return uses;
}

/** Which way the results of a file stand, and which of its rows belong to its header. */
export type Layout = {
  readonly kind: Mapping['layout'];
  readonly headRows: readonly HeadRow[];
};

export function layoutOf(
  source: SourceTable,
  form: FormName,
  given: ReadonlyMap<number, Assigned>,
  across: ReadonlyMap<number, ColumnUse>,
): Layout {
  const has = (id: string) => [...given.values()].some(({ slot }) => slot.id === id);
  if (form !== 'results' || has('results.value')) return { kind: 'rows', headRows: [] };
  if (across.size >= 1 && !has('results.analyte')) {
    const units = firstCells(source, 0).filter((_, at) => across.has(at));
    const isUnits =
      units.length > 0 && most(units.filter(Boolean), (text) => unitOf(text) !== null);
    return {
      kind: 'analytes across',
      headRows: isUnits ? [{ row: 0, slot: 'results.unit' }] : [],
    };
  }
  if (!has('results.analyte')) return { kind: 'rows', headRows: [] };
  return { kind: 'samples across', headRows: headRowsOf(source, given) };
}

/** Rows above the first analyte that say something of each sample: its location, its day. */
function headRowsOf(source: SourceTable, given: ReadonlyMap<number, Assigned>): readonly HeadRow[] {
  const at = [...given].find(([, { slot }]) => slot.id === 'results.analyte')?.[0] ?? 0;
  const rows: HeadRow[] = [];
  for (let row = 0; row < 12; row++) {
    const label = firstCells(source, row)[at];
    if (label === undefined) break;
    if (label === '') continue;
    if (analyteNamed(label)) break;
    const slot = slotsOf('results')
      .filter(({ id }) => id.startsWith('samples.') || id === '@clock')
      .find((each) => (fitOf(label, readHeading(label), each, 'results')?.score ?? 0) > 0.9);
    if (slot) rows.push({ row, slot: slot.id });
  }
  return rows;
}

/** "Q" beside a column of results holds its letters. */
export function lettersBesides(
  source: SourceTable,
  layout: Layout,
  matches: readonly Match[],
): readonly ColumnUse[] {
  if (layout.kind === 'rows') return matches.map(({ use }) => use);
  return matches.map(({ use }, at) => {
    const beside = matches[at - 1]?.use;
    const isLetters =
      /^(?:q|qual|qualifier|flag|)$/i.test((source.headings[at] ?? '').replace(/[._\s\d]/g, '')) &&
      someTexts(source, at).every((text) => /^[A-Za-z*^#,; ]{1,8}[-+]?$/.test(text));
    const isResults = beside?.use === 'analyte' || beside?.use === 'sample';
    return isResults && isLetters ? { use: 'letters', of: at - 1 } : use;
  });
}
