import type { LngLat } from '../../domain/grid';
import {
  gridSuspicions,
  longitudeSignSuspicion,
  type GridSuspicion,
  type PlacedPoint,
} from '../../domain/grid-suspicions';
import { decimal } from '../../domain/site/read-cell';
import type { TableName } from '../../domain/site/schema';
import { cellText, eachRow, type Table } from '../../domain/site/table';
import { readAngle } from '../projection/angles';
import type { Context, Target } from './context';

/** A table of more rows is added as blocks: a row object each would cost more than the file. */
export const MOST_ROW_OBJECTS = 5_000;

/** Rows an import would add to a table. */
export type Addition = { readonly table: TableName; readonly rows: Rows };

export type Rows =
  | {
      readonly kind: 'few';
      readonly size: number;
      readonly rows: readonly Readonly<Record<string, string>>[];
    }
  | { readonly kind: 'many'; readonly size: number; readonly added: Table };

/** Doubts about the site's locations as they would be. */
export function doubtsOf(
  adds: readonly Addition[],
  { package: site, grid }: Target,
): readonly GridSuspicion[] {
  const points: PlacedPoint[] = [];
  const add = (id: string, east: string, north: string) => {
    const [easting, northing] = [decimal(east.trim()), decimal(north.trim())];
    if (easting !== null && northing !== null) points.push({ id, easting, northing });
  };
  for (const { table, rows } of adds) {
    if (table !== 'locations') continue;
    if (rows.kind === 'few')
      for (const row of rows.rows) add(row.id ?? '', row.easting ?? '', row.northing ?? '');
    else
      for (let i = 0; i < rows.size; i++)
        add(...(['id', 'easting', 'northing'].map((column) => cellText(rows.added, i, column)) as [string, string, string])); // prettier-ignore
  }
  if (points.length === 0) return [];
  const table = site.tables.locations;
  const most = Math.min(table?.size ?? 0, MOST_ROW_OBJECTS);
  for (let i = 0; table && i < most; i++)
    add(cellText(table, i, 'id'), cellText(table, i, 'easting'), cellText(table, i, 'northing'));
  return gridSuspicions(points, site.settings.grid.unit, grid.covers);
}

/** Whether longitudes of the file lie in the grid's area only with their sign turned. */
export function longitudesTurned(context: Context): boolean {
  const [lngAt, latAt] = [context.at('@longitude'), context.at('@latitude')];
  if (lngAt === null || latAt === null) return false;
  const places: LngLat[] = [];
  for (const cells of eachRow(context.source.table)) {
    if (places.length >= 1000) break;
    const lng = readAngle(cells[lngAt] ?? '', 'longitude');
    const lat = readAngle(cells[latAt] ?? '', 'latitude');
    if (lng.ok && lat.ok) places.push([lng.value, lat.value]);
  }
  const { grid } = context.target;
  return longitudeSignSuspicion(places, (lng, lat) => {
    const at = grid.fromOwnLngLat(lng, lat);
    return at !== null && grid.covers(...at) === true;
  });
}
