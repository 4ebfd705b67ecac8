import type { Edit } from '../site/edits/apply';
import type { Location } from '../site/schema';
import type { Site } from '../site/site';

/** Points that were laid together and stand as they were laid. */
export type Laying = { readonly name: string; readonly points: readonly Location[] };

/**
 * The layings of a site, in the order they were laid: the points of each that
 * are still planned, were not moved, and have nothing recorded on them.
 */
export function layingsOf(site: Site): Laying[] {
  const spokenOf = new Set(site.decisions.map(({ on }) => on));
  const worked = new Set(
    [...site.screens.values()].flatMap(({ location, tip_depth }) => (tip_depth ? [location] : [])),
  );
  const layings = new Map<string, Location[]>();
  for (const location of site.locations.values()) {
    const { id, laid, status, easting, northing, ground_elevation } = location;
    if (laid === null || status !== 'planned' || easting || northing || ground_elevation) continue;
    if (spokenOf.has(id) || worked.has(id)) continue;
    layings.set(laid, [...(layings.get(laid) ?? []), location]);
  }
  return [...layings].map(([name, points]) => ({ name, points }));
}

/** A name for the next laying that no other has: "2: grid, 30.0 ft". */
export function layingName(site: Site, how: string): string {
  const numbers = [...site.locations.values()].map(({ laid }) => parseInt(laid ?? '', 10) || 0);
  return `${1 + numbers.reduce((most, n) => Math.max(most, n), 0)}: ${how}`;
}

/** The points of a laying taken out, and the screens planned at them; one step. */
export function takeBackEdit(site: Site, { points }: Laying): Edit | null {
  if (points.length === 0) return null;
  const ids = new Set(points.map(({ id }) => id));
  const screens = [...site.screens.values()].filter(({ location }) => ids.has(location));
  const rows = (of: readonly { readonly row: number }[]) => of.map(({ row }) => row - 2);
  const edits: Edit[] = [
    { kind: 'remove-rows', table: 'locations', rows: rows(points) },
    ...(screens.length > 0
      ? [{ kind: 'remove-rows', table: 'screens', rows: rows(screens) } as const]
      : []),
  ];
  return { kind: 'together', edits };
}
