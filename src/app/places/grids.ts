import { ok, type Result } from '../../domain/result';
import type { GridDefinition } from '../../domain/site/settings';
import { openDefined } from '../../io/projection/open-defined';
import { openSearch } from '../../io/projection/systems';

/** A grid that can be chosen, with the words for where it is meant for. */
export type GridChoice = { readonly grid: GridDefinition; readonly place: string };

/** A search of the grids by name, number or region; the words are loaded when it is first asked for. */
export async function openGridSearch(): Promise<(query: string) => readonly GridChoice[]> {
  const search = await openSearch();
  return (query) =>
    search(query, 40).map(({ system: { name, code, unit }, place }) => ({
      grid: { name, code, projection: null, unit },
      place,
    }));
}

/** What is known of a grid that can be used, in a sentence; or why it can't be. */
export function gridWords(grid: GridDefinition): Result<string, string> {
  if (grid.code === null && grid.projection === null && grid.local === undefined)
    return ok('A local grid tied to nothing: its distances count as ground distances, and true north is not known.'); // prettier-ignore
  const opened = openDefined(grid);
  return opened.ok ? ok(opened.value.datum.note) : opened;
}
