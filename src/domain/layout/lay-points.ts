import { fixed } from '../show';
import type { Edit } from '../site/edits/apply';
import type { LengthUnit } from '../units';
import { blockWords, shiftWords } from './layout-words';
import { nameBy, readPattern } from './numbering';
import type { Stake } from './stakes';

/** A stake to be laid, and its name. */
export type NamedStake = Stake & { readonly name: string };

/** A coordinate as it is written: a hundredth of the grid's unit. */
const coordinate = (n: number) => n.toFixed(2);

/**
 * Rows of planned locations for clear stakes, one step to undo. A stake that
 * is still blocked is not laid. A shift is kept in the row's note with the
 * place it came from and why it was blocked there.
 *
 * @param reasons  why each was blocked where the layout gave it, by name
 * @returns null where no stake is clear
 */
export function layPointsEdit(
  stakes: readonly NamedStake[],
  purpose: string,
  unit: LengthUnit,
  reasons: ReadonlyMap<string, Stake['blocks']>,
): Edit | null {
  const clear = stakes.filter(({ blocks }) => blocks.length === 0);
  if (clear.length === 0) return null;
  const rows = clear.map(({ name, at, shift }) => {
    const why = (reasons.get(name) ?? []).map((block) => blockWords(block, unit)).join('; ');
    return {
      id: name,
      kind: 'direct push',
      status: 'planned',
      planned_easting: coordinate(at[0]),
      planned_northing: coordinate(at[1]),
      purpose,
      note: shift ? `${shiftWords(shift, unit)}: ${why}` : '',
    };
  });
  return { kind: 'add-rows', table: 'locations', rows };
}

/** The name a pattern would give the first of its kind, for showing beside its field; null while it can't. */
export function exampleName(pattern: string, words: readonly string[]): string | null {
  const read = readPattern(pattern, words);
  return read.ok ? nameBy(read.value, Object.fromEntries(words.map((word) => [word, 1]))) : null;
}

/** "E 488,490.00" is never written: digits alone, so that it can be typed into a receiver. */
export const placeWords = ([east, north]: readonly [number, number]) =>
  `E ${fixed(east, 2)}, N ${fixed(north, 2)}`;
