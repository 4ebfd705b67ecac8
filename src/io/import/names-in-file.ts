import type { Context } from './context';
import { dayOf } from './days';

/** Texts a column of a block can have: its codes are of 16 bits. */
const CODES = 0x10000;

/** The names of samples in a laboratory's file, each with what stands beside it, in the order of the file. */
export type NamesInFile = {
  /** Numbers of the laboratory; blank where it gives none. */
  readonly numbers: ReadonlyMap<string, ReadonlySet<string>>;
  /** Days it was sampled on; no entry where none can be read. */
  readonly days: ReadonlyMap<string, ReadonlySet<string>>;
};

/** The day a cell of dates says; null where it says none. */
export function dayIn(context: Context, text: string): string | null {
  const when = context.when(text.trim());
  return 'text' in when ? dayOf(when.text) : null;
}

/** @param nameAt  the column of names */
export function namesInFile(context: Context, nameAt: number): NamesInFile {
  const numbers = new Map<string, Set<string>>();
  const days = new Map<string, Set<string>>();
  const [numberAt, timeAt] = [context.at('samples.lab_number'), context.at('samples.time')];
  for (const { columns, size } of context.source.table.blocks) {
    const named = columns[nameAt];
    const numbered = numberAt === null ? undefined : columns[numberAt];
    const dated = timeAt === null ? undefined : columns[timeAt];
    const dayOfText = dated?.dictionary.map((text) => dayIn(context, text));
    const seen = new Set<number>();
    for (let i = 0; named && i < size; i++) {
      const nameCode = named.codes[i] ?? 0;
      const numberCode = numbered?.codes[i] ?? 0;
      const dateCode = dated?.codes[i] ?? 0;
      const codes = (nameCode * CODES + numberCode) * CODES + dateCode;
      if (seen.has(codes)) continue;
      seen.add(codes);
      const name = (named.dictionary[nameCode] ?? '').trim();
      if (name === '') continue;
      setOf(numbers, name).add((numbered?.dictionary[numberCode] ?? '').trim());
      const day = dayOfText?.[dateCode] ?? null;
      if (day !== null) setOf(days, name).add(day);
    }
  }
  return { numbers, days };
}

/** The set of a name, made where there is none yet. */
function setOf(sets: Map<string, Set<string>>, name: string): Set<string> {
  const known = sets.get(name) ?? new Set<string>();
  sets.set(name, known);
  return known;
}
