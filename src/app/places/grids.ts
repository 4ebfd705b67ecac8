import { ok, type Result } from '../../domain/result';
import type { GridDefinition } from '../../domain/site/settings';
import { placedOn } from '../../domain/local-placing';
import { placedWords } from '../../domain/local-words';
import { inUnits, metres } from '../../domain/units';
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
      place: shortPlace(place, query),
    }));
}

/** "USA - Indiana: Marion and 44 more counties": of a list of counties those sought, and how many there are. */
export function shortPlace(place: string, query: string): string {
  const [, region, list] = /^(.*?)\s*-\s*counties (?:of )?(.+)$/.exec(place) ?? [];
  if (region === undefined || list === undefined) return place;
  const counties = list.split(';').map((county) => county.trim());
  const words = query
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word.length > 2);
  const sought = counties.filter((county) => words.includes(county.toLowerCase())).slice(0, 3);
  const more = counties.length - sought.length;
  if (sought.length === 0) return `${region}, ${counties.length} counties`;
  return `${region}: ${sought.join(', ')}${more > 0 ? ` and ${more} more counties` : ''}`;
}

/** What is known of a grid that can be used, in a sentence; or why it can't be. */
export function gridWords(grid: GridDefinition): Result<string, string> {
  if (grid.code === null && grid.projection === null && grid.local === undefined)
    return ok('A local grid tied to nothing: its distances count as ground distances, and true north is not known.'); // prettier-ignore
  const opened = openDefined(grid);
  if (!opened.ok) return opened;
  const { note } = opened.value.datum;
  const placed = grid.local && placedOn(grid.local, grid.unit);
  if (!grid.local || !placed?.ok) return ok(note);
  const { local } = placed.value.tie;
  const at = [local.east, local.north].map((n) => inUnits(n, grid.unit)) as [number, number];
  const { convergence } = opened.value.factsAt(...at, metres(0));
  return ok(
    [`Laid on ${grid.local.on.name}.`, ...placedWords(placed.value, grid.local.on, convergence), note].join(' '), // prettier-ignore
  );
}
