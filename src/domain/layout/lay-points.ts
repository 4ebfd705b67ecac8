import type { Edit } from '../site/edits/apply';
import type { LengthUnit } from '../units';
import { blockWords, countsWords, shiftWords } from './layout-words';
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
 * @param laying  what the layout is called
 * @param laid    the stakes as the layout first gave them, with what blocked them there
 * @returns null where no stake is clear
 */
export function layPointsEdit(
  stakes: readonly NamedStake[],
  purpose: string,
  unit: LengthUnit,
  laying: string,
  laid: readonly Stake[],
): Edit | null {
  const clear = stakes.filter(({ blocks }) => blocks.length === 0);
  if (clear.length === 0) return null;
  const reasons = new Map(laid.map((stake) => [countsWords(stake), stake.blocks]));
  const rows = clear.map((stake) => {
    const { name, at, shift } = stake;
    const blocks = reasons.get(countsWords(stake)) ?? [];
    const why = blocks.map((block) => blockWords(block, unit)).join('; ');
    return {
      id: name,
      kind: 'direct push',
      status: 'planned',
      planned_easting: coordinate(at[0]),
      planned_northing: coordinate(at[1]),
      purpose,
      laid: laying,
      note: shift ? `${shiftWords(shift, unit)}, where it was ${why}` : '',
    };
  });
  return { kind: 'add-rows', table: 'locations', rows };
}
