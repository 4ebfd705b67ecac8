import { slotNamed } from '../../io/import/forms';
import type { ColumnUse, Mapping, Proposal } from '../../io/import/match-columns';
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

/** The mapping with one column put to another use. A slot is filled by one column: another that had it is left out. */
export function withUse(mapping: Mapping, at: number, use: ColumnUse): Mapping {
  const columns = mapping.columns.map((before, i): ColumnUse => {
    if (i === at) return use;
    const same = use.use === 'slot' && before.use === 'slot' && before.slot === use.slot;
    return same ? { use: 'leave' } : before;
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
