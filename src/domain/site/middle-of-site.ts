import type { EastNorth } from '../grid';
import { cornersOf } from '../geometry/shape';
import { readShape } from '../geometry/wkt';
import type { DataPackage } from './data-package';
import { decimal } from './read-cell';
import { cellText, type Table } from './table';

/**
 * The place that stands for the whole site in convergence and scale, in the
 * grid's unit: the middle one of the eastings and of the northings, so that a
 * point a hundred kilometres off moves it little. Of the locations as they
 * stand; where none stands yet, as they are planned; where there are none, of
 * the corners of what is drawn.
 *
 * @returns null where nothing of the site has a place
 */
export function middleOfSite({ tables: { locations, features } }: DataPackage): EastNorth | null {
  return (
    middleOf(locations, 'easting', 'northing') ??
    middleOf(locations, 'planned_easting', 'planned_northing') ??
    middleOfDrawn(features)
  );
}

const column = (table: Table, name: string): string[] =>
  Array.from({ length: table.size }, (_, row) => cellText(table, row, name).trim());

function middleOf(table: Table | undefined, east: string, north: string): EastNorth | null {
  if (!table) return null;
  const numbers = (name: string) =>
    column(table, name)
      .map(decimal)
      .filter((n) => n !== null);
  return middle(numbers(east), numbers(north));
}

function middleOfDrawn(table: Table | undefined): EastNorth | null {
  const corners = (table ? column(table, 'shape') : []).flatMap((text) => {
    const shape = readShape(text);
    return shape.ok ? cornersOf(shape.value) : [];
  });
  return middle(
    corners.map(([east]) => east),
    corners.map(([, north]) => north),
  );
}

function middle(eastings: readonly number[], northings: readonly number[]): EastNorth | null {
  const [east, north] = [eastings, northings].map(
    (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)],
  );
  return east === undefined || north === undefined ? null : [east, north];
}
