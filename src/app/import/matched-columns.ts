import type { TableName } from '../../domain/site/schema';
import type { Ask } from '../../io/import/ask';
import { slotNamed, slotsOf, slotTitle } from '../../io/import/forms';
import { unitInHeading } from '../../io/import/heading-words';
import type { ColumnUse, Mapping, Proposal } from '../../io/import/mapping';
import type { SourceShown } from './importing';

/** A column of the file as the screen shows it. */
export type MatchedColumn = {
  readonly at: number;
  readonly heading: string;
  readonly use: ColumnUse;
  readonly why: string;
  readonly sure: boolean;
  /** Its cells in the first rows. */
  readonly first: readonly string[];
  /** Whether it holds a length, whose unit a person may say. */
  readonly isLength: boolean;
};

/** The columns of a file in its order, each with where it goes and why. */
export function matchedColumns(
  source: SourceShown,
  mapping: Mapping,
  proposal: Proposal | null,
): readonly MatchedColumn[] {
  return mapping.columns.map((use, at): MatchedColumn => {
    const match = proposal?.matches[at];
    const own = match?.use === use;
    const slot = use.use === 'slot' ? slotNamed(mapping.form, use.slot) : null;
    return {
      at,
      heading: source.headings[at] ?? '',
      use,
      why: own ? match.why : 'as you say',
      sure: !own || match.score >= 0.9,
      first: source.first.map((texts) => texts[at] ?? ''),
      isLength: slot?.field.kind === 'length' || slot?.field.kind === 'distance',
    };
  });
}

/** A place a column can go to, or a person may say for every row. */
export type SlotToChoose = {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly choices: readonly string[];
};

export const slotsToChoose = (form: TableName): readonly SlotToChoose[] =>
  slotsOf(form).map((slot) => ({
    id: slot.id,
    title: slotTitle(slot),
    says: slot.says,
    choices: slot.field.choices ?? [],
  }));

/** Places no column fills and no question asks about. */
export function unfilled(
  slots: readonly SlotToChoose[],
  { columns }: Mapping,
  asks: readonly Ask[],
): readonly SlotToChoose[] {
  const filled = columns.flatMap((use) => (use.use === 'slot' ? use.slot : []));
  const asked = asks.map(({ id }) => id);
  return slots.filter(
    ({ id }) => !id.startsWith('@') && !filled.includes(id) && !asked.includes(`is ${id}`),
  );
}

/**
 * The mapping with one column put to another use. A slot is filled by one column:
 * another that had it is left out. Put to another slot, it keeps the unit its
 * heading names.
 */
export function withUse(mapping: Mapping, at: number, asked: ColumnUse, heading: string): Mapping {
  const before = mapping.columns[at];
  const slot = asked.use === 'slot' ? slotNamed(mapping.form, asked.slot) : null;
  const isMoved = asked.use === 'slot' && !(before?.use === 'slot' && before.slot === asked.slot);
  const use: ColumnUse = isMoved && slot ? { ...asked, unit: unitInHeading(heading, slot) } : asked;
  const columns = mapping.columns.map((each, i): ColumnUse => {
    if (i === at) return use;
    const same = use.use === 'slot' && each.use === 'slot' && each.slot === use.slot;
    return same ? { use: 'leave' } : each;
  });
  return { ...mapping, columns };
}

/** Whether a file says where things are, so that its grid matters. */
export const hasPlaces = ({ columns }: Mapping): boolean =>
  columns.some(
    (use) =>
      use.use === 'slot' &&
      /easting|northing|longitude|latitude|@place|features\.shape/.test(use.slot),
  );
