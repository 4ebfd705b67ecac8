import { twiceSignedArea, whereInArea } from '../../domain/geometry/inside';
import type { Area, Ring } from '../../domain/geometry/shape';

/** Past this many rings their winding is taken at its word. */
const MOST_NESTED = 300;

/**
 * Rings of a file sorted into areas: a ring that lies in an odd number of others
 * is a hole of the smallest of them. How they wind does not matter, except in a
 * file with very many.
 */
export function areasOf(rings: readonly Ring[]): readonly Area[] {
  if (rings.length > MOST_NESTED) return byWinding(rings);
  const size = rings.map((ring) => Math.abs(twiceSignedArea(ring)));
  const around = rings.map((ring, i) => {
    const [corner] = ring;
    return rings.flatMap((other, j) =>
      i !== j &&
      corner &&
      (size[j] ?? 0) > (size[i] ?? 0) &&
      whereInArea([other], corner) === 'inside'
        ? [j]
        : [],
    );
  });
  const areas = new Map<number, Ring[]>();
  rings.forEach((ring, i) => {
    if ((around[i]?.length ?? 0) % 2 === 0) areas.set(i, [ring]);
  });
  rings.forEach((ring, i) => {
    const outside = around[i] ?? [];
    if (outside.length % 2 === 0) return;
    const smallest = outside
      .filter((j) => areas.has(j))
      .sort((a, b) => (size[a] ?? 0) - (size[b] ?? 0))[0];
    if (smallest === undefined) areas.set(i, [ring]);
    else areas.get(smallest)?.push(ring);
  });
  return [...areas.values()];
}

/** Outer rings wind clockwise, holes the other way (Shapefile Technical Description, 1998, page 8). */
function byWinding(rings: readonly Ring[]): readonly Area[] {
  const areas: Ring[][] = [];
  for (const ring of rings) {
    const last = areas.at(-1);
    if (twiceSignedArea(ring) <= 0 || !last) areas.push([ring]);
    else last.push(ring);
  }
  return areas;
}
