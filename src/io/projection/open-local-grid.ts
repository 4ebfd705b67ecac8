import type { Grid } from '../../domain/grid';
import {
  fromLocal,
  localFacts,
  toLocal,
  type LocalTie,
  type Position,
} from '../../domain/local-grid';
import { inUnits, metres, type LengthUnit } from '../../domain/units';

/**
 * A local plant grid. Tied to another, it has a place on earth and a true
 * north; tied to nothing, positions have neither and come back null.
 */
export function openLocalGrid(
  name: string,
  unit: LengthUnit,
  tied: { readonly tie: LocalTie; readonly on: Grid } | null,
): Grid {
  if (tied === null)
    return {
      name,
      unit,
      datum: {
        name: null,
        shifted: false,
        accuracy: null,
        note: 'The grid is local and tied to nothing: the site has no place on a map of the world.',
      },
      toLngLat: () => null,
      fromLngLat: () => null,
      toOwnLngLat: () => null,
      fromOwnLngLat: () => null,
      covers: () => null,
      factsAt: (_easting, _northing, elevation) => localFacts(name, unit, elevation, null),
    };

  const { tie, on } = tied;
  const outward = (easting: number, northing: number): readonly [number, number] => {
    const at = fromLocal(position(easting, northing, unit), tie);
    return [inUnits(at.east, on.unit), inUnits(at.north, on.unit)];
  };
  const inward = (there: readonly [number, number] | null) => {
    if (there === null) return null;
    const at = toLocal(position(...there, on.unit), tie);
    return [inUnits(at.east, unit), inUnits(at.north, unit)] as const;
  };
  return {
    name,
    unit,
    datum: on.datum,
    toLngLat: (easting, northing) => on.toLngLat(...outward(easting, northing)),
    fromLngLat: (longitude, latitude) => inward(on.fromLngLat(longitude, latitude)),
    toOwnLngLat: (easting, northing) => on.toOwnLngLat(...outward(easting, northing)),
    fromOwnLngLat: (longitude, latitude) => inward(on.fromOwnLngLat(longitude, latitude)),
    covers: (easting, northing) => on.covers(...outward(easting, northing)),
    factsAt: (easting, northing, elevation) =>
      localFacts(name, unit, elevation, {
        tie,
        on: on.factsAt(...outward(easting, northing), elevation),
      }),
  };
}

const position = (easting: number, northing: number, unit: LengthUnit): Position => ({
  east: metres(easting, unit),
  north: metres(northing, unit),
});
