import type { Grid } from '../../domain/grid';
import type { PlannedPoint } from '../../domain/layout/field-plan';
import type { Settings } from '../../domain/site/settings';
import { gpxOf } from '../../io/export/gpx-out';
import type { PlacedThing } from '../../io/export/placed-things';

/** Stakes as waypoints on WGS 84; null where the grid is tied to nothing, or reaches none of them. */
export function stakesGpx(
  { title, verticalDatum }: Settings,
  grid: Grid,
  points: readonly PlannedPoint[],
): string | null {
  const things = points.flatMap(({ location, at, ground }): PlacedThing[] => {
    const place = grid.toLngLat(...at);
    if (!place) return [];
    const how = ground.ok ? [['ground', ground.value.how] as const] : [];
    return [
      {
        table: 'locations',
        id: location.id,
        shape: { kind: 'points', points: [place] },
        elevation: ground.ok ? ground.value.elevation.value : null,
        properties: new Map([['status', 'planned'], ...how]),
      },
    ];
  });
  if (things.length === 0) return null;
  const note = grid.datum.note;
  return gpxOf({ title: `${title}, stakes`, verticalDatum, things, left: [], note });
}
