import type { Letters } from './column-writer';
import type { Footnote } from './cross-tab';
import { FLAG, legendsFrom, type LegendRow } from './qualifiers';
import type { Selection } from './selection';

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

/** A note before it has its number; `key` says whose letters it explains. */
type Note = { readonly key: string } & Pick<Footnote, 'letters' | 'says'>;

function notesOf(letters: Letters, legends: ReturnType<typeof legendsFrom>): readonly Note[] {
  const { laboratory, validation } = legends(letters.laboratory);
  const note = (written: string | null, who: string, flagsOf: (letters: string) => number) => {
    const text = written?.trim() ?? '';
    const says = () => `${meaningWords(flagsOf(text))} (${who})`;
    return text === '' ? [] : [{ key: `${who}|${text}`, letters: text, says: says() }];
  };
  return [
    ...note(
      letters.lab_qualifier,
      letters.laboratory ?? 'laboratory not named',
      (text) => laboratory(text).flags,
    ),
    ...note(letters.validation_qualifier, 'validation', (text) => validation(text).flags),
  ];
}

/**
 * A number for every set of letters used, by who wrote it, in the order first met.
 * @param shown  the rows that stand in the table, in its order
 */
export function footnotes(
  legendRows: readonly LegendRow[],
  { columns: { letter, letters }, rows }: Selection,
  shown: Iterable<number>,
) {
  const legends = legendsFrom(legendRows);
  const notes = letters.map((one) => notesOf(one, legends));
  const unmet = new Set<number>();
  for (const row of rows)
    if ((notes[letter[row] ?? 0]?.length ?? 0) > 0) unmet.add(letter[row] ?? 0);
  const numbered = new Map<string, Footnote>();
  if (unmet.size > 0)
    for (const row of shown) {
      if (!unmet.delete(letter[row] ?? 0)) continue;
      for (const { key, ...note } of notes[letter[row] ?? 0] ?? [])
        if (!numbered.has(key)) numbered.set(key, { number: numbered.size + 1, ...note });
      if (unmet.size === 0) break;
    }
  return {
    all: [...numbered.values()] as readonly Footnote[],
    /** Numbers of the notes that explain a row's letters. */
    of: (row: number): number[] =>
      (notes[letter[row] ?? 0] ?? []).flatMap(({ key }) => numbered.get(key)?.number ?? []),
  };
}
