import type { GridFacts } from '../grid';
import type { DataPackage } from './data-package';
import type { Problem } from './problem';
import {
  allOf,
  readingTable,
  type Account,
  type Named,
  type Rows,
  type TableReading,
} from './read-table';
import { rowChecks } from './row-checks';
import type { Row, TableName } from './schema';
import { TABLE_NAMES } from './schema';
import { unitsOf, type Settings } from './settings';
import { tableOf, cellText, type Table } from './table';

/** A site as the calculations see it: every row that could be read, by name where it has one. */
export type Site = {
  readonly settings: Settings;
  readonly grid: GridFacts;
  /** Why the grid is of no use for distances and directions; null when it is. */
  readonly gridProblem: string | null;
  readonly locations: ReadonlyMap<string, Row<'locations'>>;
  readonly screens: ReadonlyMap<string, Row<'screens'>>;
  readonly measuringPoints: ReadonlyMap<string, Row<'measuring_points'>>;
  readonly attempts: readonly Row<'attempts'>[];
  readonly strata: readonly Row<'strata'>[];
  readonly features: readonly Row<'features'>[];
  readonly surveyShots: readonly Row<'survey_shots'>[];
  readonly events: ReadonlyMap<string, Row<'events'>>;
  readonly waterLevels: readonly Row<'water_levels'>[];
  readonly purgeReadings: readonly Row<'purge_readings'>[];
  readonly decisions: readonly Row<'decisions'>[];
  readonly views: readonly Row<'views'>[];
  readonly samples: ReadonlyMap<string, Row<'samples'>>;
  readonly results: Rows<Row<'results'>>;
  readonly screeningLevels: readonly Row<'screening_levels'>[];
  readonly qualifierLegends: readonly Row<'qualifier_legends'>[];
  /** File of each table, for naming the cell a number came from. */
  readonly files: Readonly<Record<TableName, string>>;
  readonly accounts: Readonly<Record<TableName, Account>>;
  readonly problems: readonly Problem[];
};

/** Tables a site lacks: each its own, so that its reading is kept beside those of the others. */
const EMPTY = Object.fromEntries(TABLE_NAMES.map((name) => [name, tableOf([], [])])) as Readonly<
  Record<TableName, Table>
>;

/** A table's reading is kept for as long as the table and what it was read against stay the same. */
const kept = new WeakMap<
  Table,
  { readonly against: string; readonly names: unknown[]; readonly reading: unknown }
>();

/** The file a table is written to when the descriptor names none. */
export const usualFile = (name: TableName) => `${name}.csv`;

/** Read the tables of a site against their schemas and each other. */
export const readSite = (
  from: DataPackage,
  grid: GridFacts,
  gridProblem: string | null = null,
): Site => allOf(readingSite(from, grid, gridProblem));

/**
 * `readSite` a block at a time, so that a page can answer in between; each step
 * says how many rows it read. Tables are kept as they were read: the same
 * package is read at once afterwards.
 */
export function* readingSite(
  from: DataPackage,
  grid: GridFacts,
  gridProblem: string | null = null,
): Generator<number, Site> {
  const { settings } = from;
  const units = unitsOf(settings);
  const problems: Problem[] = [];
  const accounts = {} as Record<TableName, Account>;
  const files = Object.fromEntries(
    TABLE_NAMES.map((name) => [name, from.paths[name] ?? usualFile(name)]),
  ) as Record<TableName, string>;
  const names: Partial<Record<TableName, Named>> = {};

  function* read<Name extends TableName>(
    name: Name,
    ...against: readonly TableName[]
  ): Generator<number, Rows<Row<Name>>> {
    const table = from.tables[name] ?? EMPTY[name];
    const columnUnits = from.columnUnits[name] ?? {};
    const facts = JSON.stringify([units, columnUnits, files[name]]);
    const named = against.map((other) => names[other]);
    const before = kept.get(table);
    const same =
      before?.against === facts && named.every((n, i) => n === before.names[i]) ? before : null;
    const reading = (same?.reading ??
      rowChecks(
        name,
        yield* readingTable(name, table, { file: files[name], units, columnUnits, names }),
        files[name],
      )) as TableReading<Name>;
    if (!same) kept.set(table, { against: facts, names: named, reading });
    problems.push(...reading.problems);
    accounts[name] = reading.account;
    return reading.rows;
  }
  function* named<Name extends 'locations' | 'screens' | 'measuring_points' | 'events' | 'samples'>(
    name: Name,
    ...against: readonly TableName[]
  ): Generator<number, ReadonlyMap<string, Row<Name>>> {
    const rows = yield* read(name, ...against);
    const table = from.tables[name] ?? EMPTY[name];
    const map = mapOf(rows as Rows<Row<Name> & { readonly id: string }>);
    // Tens of thousands of names are a step of their own.
    yield 0;
    names[name] = namesOf(table, map);
    yield 0;
    return map;
  }

  const locations = yield* named('locations');
  const screens = yield* named('screens', 'locations');
  const measuringPoints = yield* named('measuring_points', 'screens');
  const events = yield* named('events');
  const samples = yield* named('samples', 'screens', 'events');
  return {
    settings,
    grid,
    gridProblem,
    locations,
    screens,
    measuringPoints,
    events,
    samples,
    attempts: listOf(yield* read('attempts', 'locations')),
    strata: listOf(yield* read('strata', 'locations')),
    features: listOf(yield* read('features')),
    surveyShots: listOf(yield* read('survey_shots')),
    waterLevels: listOf(yield* read('water_levels', 'screens', 'events', 'measuring_points')),
    purgeReadings: listOf(yield* read('purge_readings', 'screens', 'events')),
    decisions: listOf(yield* read('decisions')),
    views: listOf(yield* read('views')),
    results: yield* read('results', 'samples'),
    screeningLevels: listOf(yield* read('screening_levels')),
    qualifierLegends: listOf(yield* read('qualifier_legends')),
    files,
    accounts,
    problems,
  };
}

/** What is made from rows or from a table is made once, so that it is the same thing next time. */
function once<Key extends object, Value>(make: (key: Key) => Value) {
  const made = new WeakMap<Key, Value>();
  return (key: Key): Value => {
    const before = made.get(key);
    if (before !== undefined) return before;
    const value = make(key);
    made.set(key, value);
    return value;
  };
}

const listed = once((rows: Rows<unknown>) => [...rows]);
const listOf = <T>(rows: Rows<T>) => listed(rows) as readonly T[];

const mapped = once(
  (rows: Rows<{ readonly id: string }>) => new Map([...rows].map((r) => [r.id, r])),
);
const mapOf = <T extends { readonly id: string }>(rows: Rows<T>) =>
  mapped(rows) as unknown as ReadonlyMap<string, T>;

const namesFor = new WeakMap<ReadonlyMap<string, unknown>, Named>();

function namesOf(table: Table, rows: ReadonlyMap<string, unknown>): Named {
  const before = namesFor.get(rows);
  if (before) return before;
  const read = new Set(rows.keys());
  const all = Array.from({ length: table.size }, (_, i) => cellText(table, i, 'id').trim());
  const named = { read, refused: new Set(all.filter((id) => id !== '' && !read.has(id))) };
  namesFor.set(rows, named);
  return named;
}
