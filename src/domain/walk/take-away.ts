import type { DataPackage } from '../site/data-package';
import { TABLES, type TableName } from '../site/schema';
import { picturesOf, withPictures, type Picture } from '../site/pictures';
import { cellText, eachRow, tableOf, type Table } from '../site/table';
import { rewriteWalk } from './walk-stops';
import { counted, type Stop } from './stop';
import { apply } from '../site/edits/apply';

/** Tables a walk needs; how the work was done in the field stays at home. */
const TAKEN: readonly TableName[] = [
  'locations',
  'screens',
  'measuring_points',
  'strata',
  'features',
  'events',
  'water_levels',
  'decisions',
  'views',
  'samples',
  'results',
  'screening_levels',
  'qualifier_legends',
];

/** Columns for those who work on the site, not for those who are shown it. */
const INSIDE: readonly string[] = [
  'note',
  'notes',
  'read_by',
  'surveyor',
  'who',
  'chosen_by',
  'cooler',
  'custody_number',
  'relinquished_time',
  'blind_alias',
];

/**
 * The part of a site that goes into a walk to be taken away: rows of the events
 * released, stops that are told without their notes, pictures that lie under
 * them, nothing of the rest. A row
 * left out becomes a blank one, so that the work behind a number still names
 * the row it stands in.
 */
export function releasedPackage(
  given: DataPackage,
  stops: readonly Stop[],
  events: ReadonlySet<string>,
): DataPackage {
  const told = stops.filter(({ hidden }) => !hidden);
  const walk = apply(given, rewriteWalk(given, stops));
  const from = walk.ok ? walk.value : given;
  const samples = new Set(
    from.tables.samples
      ? rowsOf(from.tables.samples).flatMap((row) => (events.has(row('event')) ? [row('id')] : []))
      : [],
  );
  const isReleased = (name: TableName, row: (column: string) => string): boolean => {
    if (name === 'events') return events.has(row('id'));
    if (name === 'water_levels' || name === 'samples') return events.has(row('event'));
    if (name === 'results') return samples.has(row('sample'));
    if (name === 'views') return row('order') !== '' && row('hidden') === '';
    if (name !== 'decisions') return true;
    const [, event] = row('on').split(' @ ');
    const what = row('what');
    return (what === 'include' || what === 'exclude') && event !== undefined && events.has(event);
  };
  const tables = Object.fromEntries(
    TAKEN.flatMap((name) => {
      const table = from.tables[name];
      return table ? [[name, blanked(table, (row) => isReleased(name, row))]] : [];
    }),
  );
  return { ...from, tables, descriptor: withPictures({}, takenPictures(given, told)) };
}

/** Pictures that lie under the maps of stops that are told: those shown on the site's own. */
function takenPictures({ descriptor }: DataPackage, told: readonly Stop[]): readonly Picture[] {
  const isShown = told.some(({ view }) => view.pictures);
  return isShown ? picturesOf(descriptor).filter(({ shown }) => shown) : [];
}

type Cells = (column: string) => string;

const rowsOf = (table: Table): Cells[] =>
  Array.from({ length: table.size }, (_, row) => (column) => cellText(table, row, column).trim());

function blanked(table: Table, isReleased: (row: Cells) => boolean): Table {
  const released = rowsOf(table).map(isReleased);
  const inside = table.columns.map((column) => INSIDE.includes(column));
  const rows = [...eachRow(table)].map((texts, row) =>
    texts.map((text, column) => (released[row] && !inside[column] ? text : '')),
  );
  return tableOf(table.columns, rows);
}

/** What is inside, said before it is saved: each table with how many of its rows, and pictures by their titles. */
export function contentsOf(released: DataPackage): string[] {
  const pictures = picturesOf(released.descriptor);
  const tables = TAKEN.flatMap((name) => {
    const table = released.tables[name];
    const rows = table
      ? rowsOf(table).filter((row) => table.columns.some((column) => row(column) !== '')).length
      : 0;
    return rows > 0 ? [`${TABLES[name].title}: ${counted(rows, 'row')}`] : [];
  });
  return pictures.length > 0
    ? [...tables, `Pictures under the map: ${pictures.map(({ title }) => title).join(', ')}`]
    : tables;
}

/** Events whose data the told stops show: they go into the file. */
export const eventsOf = (stops: readonly Stop[]): ReadonlySet<string> =>
  new Set(stops.flatMap(({ hidden, view }) => (hidden ? [] : (view.shown.event ?? []))));

/** Events the told stops only speak of, such as for how far the direction ranges: without them a file's words range less far. */
export function eventsAlsoOf(stops: readonly Stop[]): ReadonlySet<string> {
  const shown = eventsOf(stops);
  const also = stops.flatMap(({ hidden, alsoOf }) => (hidden ? [] : (alsoOf ?? [])));
  return new Set(also.filter((event) => !shown.has(event)));
}
