import { isTableName } from '../../domain/site/schema';
import { lastingAnswers, type Answers } from '../../io/import/ask';
import type { Mapping } from '../../io/import/mapping';

const KEY = 'downgradient.columns-of-sites';
const MOST = 60;

/** Stored by an older or a broken page it may be anything: it is believed only in this shape. */
function isMapping(value: unknown): value is Mapping {
  if (typeof value !== 'object' || value === null) return false;
  const { form, layout, columns, headRows, coordinates, shape } = value as Record<string, unknown>;
  return (
    typeof form === 'string' &&
    isTableName(form) &&
    typeof layout === 'string' &&
    Array.isArray(columns) &&
    columns.every((use: unknown) => typeof use === 'object' && use !== null && 'use' in use) &&
    Array.isArray(headRows) &&
    typeof coordinates === 'object' &&
    coordinates !== null &&
    typeof shape === 'string'
  );
}

/** How files were matched before, by the shape of their header: on this site, and on others. */
export type Remembered = {
  readonly here: ReadonlyMap<string, Mapping>;
  readonly elsewhere: ReadonlyMap<string, Mapping>;
};

export const NOTHING_REMEMBERED: Remembered = { here: new Map(), elsewhere: new Map() };

type Kept = { readonly site: string; readonly mapping: Mapping; readonly answers?: Answers };

function isKept(value: unknown): value is Kept {
  if (typeof value !== 'object' || value === null) return false;
  const { site, mapping, answers = {} } = value as Record<string, unknown>;
  return typeof site === 'string' && isMapping(mapping) && isAnswers(answers);
}

const isAnswers = (value: unknown): value is Answers =>
  typeof value === 'object' &&
  value !== null &&
  Object.values(value).every((answer) => typeof answer === 'string');

/** The last first. */
function kept(): readonly Kept[] {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(stored) ? stored.filter(isKept) : [];
  } catch {
    // Nothing was kept, or this browser keeps nothing for us.
    return [];
  }
}

/**
 * How files were matched before; kept in this browser.
 * @param site  title of the site in hand
 */
export function rememberedMappings(site: string): Remembered {
  const byShape = (all: readonly Kept[]) =>
    // The last of one shape stands.
    new Map([...all].reverse().map(({ mapping }) => [mapping.shape, mapping]));
  const all = kept();
  return {
    here: byShape(all.filter((each) => each.site === site)),
    elsewhere: byShape(all.filter((each) => each.site !== site)),
  };
}

/** What was answered of the last file of this shape on this site; nothing that each file is asked anew. */
export const rememberedAnswers = (site: string, shape: string): Answers =>
  kept().find((each) => each.site === site && each.mapping.shape === shape)?.answers ?? {};

/** Remember how a file was matched and what was answered of it, for the next with the same headings. */
export function rememberMapping(site: string, mapping: Mapping, given: Answers): void {
  const answers = lastingAnswers(given);
  const others = kept().filter((each) => each.site !== site || each.mapping.shape !== mapping.shape); // prettier-ignore
  try {
    localStorage.setItem(
      KEY,
      JSON.stringify([{ site, mapping, answers }, ...others].slice(0, MOST)),
    );
  } catch {
    // A full or closed store only means that the columns are matched anew next time.
  }
}
