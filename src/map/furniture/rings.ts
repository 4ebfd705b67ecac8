import type { SymbolItem } from '../scene/scene';
import type { MapPoint } from './point-list';

/** Rings that say which points are chosen, or would be; one for each point named, however often. */
export function ringsAround(
  points: readonly MapPoint[],
  ids: readonly (string | null)[],
): SymbolItem[] {
  const named = new Set(ids);
  return points.flatMap(({ id, at }): SymbolItem[] =>
    named.has(id)
      ? [{ kind: 'symbol', layer: 'selection', at, shape: 'selection', size: 34, colour: 'ink' }]
      : [],
  );
}
