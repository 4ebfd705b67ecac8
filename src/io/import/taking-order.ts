import type { TableName } from '../../domain/site/schema';
import type { Proposal } from './mapping';

/** What a file seems to be, told by its first rows. */
export type Recognised = {
  readonly form: TableName;
  /** Whether it says where locations are. */
  readonly hasPlaces: boolean;
};

/** Rows name others: locations come before what was measured there, levels of screening before results. */
const ORDER: readonly TableName[] = [
  'events',
  'locations',
  'screens',
  'measuring_points',
  'survey_shots',
  'features',
  'strata',
  'attempts',
  'water_levels',
  'purge_readings',
  'samples',
  'screening_levels',
  'qualifier_legends',
  'results',
  'decisions',
  'views',
];

export function recognised({ mapping, forms }: Proposal): Recognised | null {
  if (forms.length === 0) return null;
  const hasPlaces = mapping.columns.some(
    (use) => use.use === 'slot' && /easting|@longitude|@place/.test(use.slot),
  );
  return { form: mapping.form, hasPlaces };
}

const rankOf = (file: Recognised | null): number =>
  file === null
    ? ORDER.length
    : ORDER.indexOf(file.form) - (file.form === 'locations' && file.hasPlaces ? 0.5 : 0);

/** Files in the order in which each finds what it names; those alike as they came. */
export const inTakingOrder = <File extends { readonly is: Recognised | null }>(
  files: readonly File[],
): readonly File[] => [...files].sort((a, b) => rankOf(a.is) - rankOf(b.is));

/** The file to take before another, of which no row can be taken: what it names is in there. */
export const fileBefore = <File extends { readonly is: Recognised | null }>(
  form: TableName,
  files: readonly File[],
): File | null =>
  inTakingOrder(files).find(
    ({ is }) => is !== null && rankOf(is) < rankOf({ form, hasPlaces: false }),
  ) ?? null;
