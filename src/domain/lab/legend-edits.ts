import type { Edit } from '../site/edits/apply';
import type { Site } from '../site/site';
import { DEFAULT_LEGEND, FLAG, isMeaning, type Meaning } from './qualifiers';
import { columnsOf } from './site-columns';

/** A letter in a legend as a person sees it. */
export type LegendLine = {
  readonly letter: string;
  readonly meaning: Meaning;
  readonly source: string | null;
  /** Where it is written: a row of this legend, of the one for every laboratory, or the guidelines. */
  readonly from: 'this laboratory' | 'every laboratory' | 'national guidelines';
};

/** Laboratories of the site's samples and legends; null stands for every laboratory and the validator. */
export function laboratoriesOf(site: Site): readonly (string | null)[] {
  const named = [
    ...[...site.samples.values()].map(({ laboratory }) => laboratory),
    ...site.qualifierLegends.map(({ laboratory }) => laboratory),
  ].flatMap((name) => name?.trim() || []);
  return [...[...new Set(named)].toSorted((a, b) => a.localeCompare(b)), null];
}

const nameOf = (laboratory: string | null) => laboratory?.trim() || null;

/** The rows of a legend for a letter, the last of which stands. */
const rowsOf = ({ qualifierLegends }: Site, laboratory: string | null, letter: string) =>
  qualifierLegends.filter(
    (row) => nameOf(row.laboratory) === laboratory && row.letter.trim() === letter,
  );

/** What each letter means for a laboratory, in the order it is looked up: its own, every one's, the guidelines'. */
export function legendLines(site: Site, laboratory: string | null): readonly LegendLine[] {
  const lines = new Map<string, LegendLine>();
  const add = (
    rows: Iterable<{ letter: string; meaning: string; source: string | null }>,
    from: LegendLine['from'],
  ) => {
    const own = new Map([...rows].map((row) => [row.letter.trim(), row]));
    for (const [letter, { meaning, source }] of own)
      if (isMeaning(meaning) && !lines.has(letter))
        lines.set(letter, { letter, meaning, source, from });
  };
  const of = (name: string | null) =>
    site.qualifierLegends.filter((row) => nameOf(row.laboratory) === name);
  if (laboratory !== null) add(of(laboratory), 'this laboratory');
  add(of(null), laboratory === null ? 'this laboratory' : 'every laboratory');
  add(DEFAULT_LEGEND, 'national guidelines');
  return [...lines.values()].toSorted((a, b) => a.letter.localeCompare(b.letter));
}

/** The edit that gives a letter its meaning in a legend: over its row where it has one, else a new row. */
export function giveMeaning(
  site: Site,
  laboratory: string | null,
  letter: string,
  meaning: Meaning,
  source: string,
): Edit {
  const rows = rowsOf(site, laboratory, letter);
  if (rows.length === 0)
    return {
      kind: 'add-rows',
      table: 'qualifier_legends',
      rows: [{ laboratory: laboratory ?? '', letter, meaning, source }],
    };
  return {
    kind: 'write-cells',
    table: 'qualifier_legends',
    // A row of a table is counted as a spreadsheet does, its header first.
    cells: rows.flatMap(({ row }) => [
      { row: row - 2, column: 'meaning', text: meaning },
      ...(source === '' ? [] : [{ row: row - 2, column: 'source', text: source }]),
    ]),
  };
}

/** The edit that takes a letter out of a legend, so that the next one explains it; null where it is in none. */
export function takeOut(site: Site, laboratory: string | null, letter: string): Edit | null {
  const rows = rowsOf(site, laboratory, letter);
  return rows.length === 0
    ? null
    : {
        kind: 'remove-rows',
        table: 'qualifier_legends',
        rows: rows.map(({ row }) => row - 2),
      };
}

/** Letters of a laboratory that stand beside results and that no legend explains, with how many results. */
export function unexplained(site: Site, laboratory: string | null): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  const { size, flags, sample, samples, resultAt } = columnsOf(site);
  for (let row = 0; row < size; row++) {
    if (((flags[row] ?? 0) & FLAG.unknown) === 0) continue;
    if (nameOf(samples[sample[row] ?? 0]?.sample.laboratory ?? null) !== laboratory) continue;
    for (const letter of resultAt(row).reading.unknownLetters)
      counts.set(letter, (counts.get(letter) ?? 0) + 1);
  }
  return counts;
}
