import type { GridFacts } from '../../src/domain/grid';
import type { DataPackage } from '../../src/domain/site/data-package';
import type { TableName } from '../../src/domain/site/schema';
import { readSite, type Site } from '../../src/domain/site/site';
import type { Settings } from '../../src/domain/site/settings';
import type { Table } from '../../src/domain/site/table';
import { degrees, metres } from '../../src/domain/units';
import { readCsv } from '../../src/io/csv';

/** Settings of a site in feet, unless said otherwise. */
export const settingsIn = (over: Partial<Settings> = {}): Settings => ({
  title: 'Test site',
  grid: { name: 'Local grid', code: null, projection: null, unit: 'ft' },
  verticalUnit: 'ft',
  verticalDatum: 'NAVD 88',
  volumeUnit: 'gal',
  elevation: metres(0),
  headError: metres(0.015, over.verticalUnit ?? 'ft'),
  confidence: 0.95,
  gaugingSpread: 24,
  soundingTolerance: metres(0.2, 'ft'),
  levelSets: [],
  validated: false,
  ...over,
});

/** A flat grid: a grid foot is a ground foot, and grid north is true north. */
export const flatGrid = (over: Partial<GridFacts> = {}): GridFacts => ({
  name: 'Local grid',
  unit: 'ft',
  conformal: true,
  convergence: degrees(0),
  pointScale: 1,
  combinedFactor: 1,
  elevation: metres(0),
  caution: null,
  ...over,
});

/** Tables written as lines, the first line the header; cells are parted by commas. */
export function packageFrom(
  lines: Readonly<Partial<Record<TableName, readonly string[]>>>,
  settings: Partial<Settings> = {},
): DataPackage {
  const tables: Partial<Record<TableName, Table>> = {};
  for (const [name, rows] of Object.entries(lines))
    tables[name as TableName] = readCsv(rows.join('\n')).table;
  return { settings: settingsIn(settings), tables, paths: {}, columnUnits: {}, descriptor: {} };
}

export const siteFrom = (
  lines: Readonly<Partial<Record<TableName, readonly string[]>>>,
  settings: Partial<Settings> = {},
  grid: Partial<GridFacts> = {},
): Site =>
  readSite(packageFrom(lines, settings), flatGrid({ unit: settings.grid?.unit ?? 'ft', ...grid }));
