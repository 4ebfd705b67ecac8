import { groupBy } from '../group';
import { written } from '../layout/given';
import { cell } from '../site/cite';
import type { Row } from '../site/schema';
import type { Shot } from './level-loop';

/** The level loops of a site by name, each in the order of its lines; every reading cites its cell. */
export function loopsIn(rows: Iterable<Row<'survey_shots'>>): ReadonlyMap<string, readonly Shot[]> {
  const loops = groupBy(rows, ({ loop }) => loop);
  return new Map(
    [...loops].map(([loop, lines]) => [loop, lines.sort((a, b) => a.order - b.order).map(shotOf)]),
  );
}

function shotOf(row: Row<'survey_shots'>): Shot {
  const given = (column: 'backsight' | 'foresight' | 'known_elevation') => {
    const value = row[column];
    return value && written(value, cell('survey_shots', row, column));
  };
  return {
    order: row.order,
    point: row.point,
    backsight: given('backsight'),
    foresight: given('foresight'),
    distance: row.distance?.value ?? null,
    known: given('known_elevation'),
  };
}
