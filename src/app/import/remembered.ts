import { isTableName } from '../../domain/site/schema';
import type { Mapping } from '../../io/import/match-columns';

const KEY = 'downgradient.matched-columns';
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

/** How files were matched before, by the shape of their header; kept in this browser. */
export function rememberedMappings(): ReadonlyMap<string, Mapping> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    const mappings = Array.isArray(kept) ? kept.filter(isMapping) : [];
    return new Map(mappings.map((mapping) => [mapping.shape, mapping]));
  } catch {
    // Nothing was kept, or this browser keeps nothing for us.
    return new Map();
  }
}

/** Remember how a file was matched, for the next with the same headings. */
export function rememberMapping(mapping: Mapping): void {
  const others = [...rememberedMappings().values()].filter(({ shape }) => shape !== mapping.shape);
  try {
    localStorage.setItem(KEY, JSON.stringify([mapping, ...others].slice(0, MOST)));
  } catch {
    // A full or closed store only means that the columns are matched anew next time.
  }
}
