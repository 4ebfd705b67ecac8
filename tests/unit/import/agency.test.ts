import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import type { DataPackage } from '../../../src/domain/site/data-package';
import type { TableName } from '../../../src/domain/site/schema';
import type { Site } from '../../../src/domain/site/site';
import { cellText } from '../../../src/domain/site/table';
import { inUnits, metres } from '../../../src/domain/units';
import { headsOf } from '../../../src/domain/water/event-heads';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { readDelimitedBytes } from '../../../src/io/import/read-delimited';
import type { Preview } from '../../../src/io/import/preview';
import { openSite } from '../../../src/io/open-site';
import { bytesOfFile, emptySite, importInto, targetOf } from './target';

// The four raw files of the U.S. Geological Survey (CC0; see raw/README.md), against the
// site made of them by another road (make.ts: proj4 and plain code, no import).
const RAW = new URL('../../fixtures/inl-southwest/raw/', import.meta.url);
const MADE = new URL('../../fixtures/inl-southwest/site/', import.meta.url);

const raw = (name: string) => {
  const read = readDelimitedBytes(name, bytesOfFile(new URL(name, RAW)));
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};

const made = (): Site => {
  const files = new Map<string, Uint8Array>();
  for (const name of ['datapackage.json', ...TABLES.map((table) => `${table}.csv`)])
    files.set(name, new Uint8Array(readFileSync(new URL(name, MADE))));
  const opened = openSite(files);
  if (!opened.ok) throw new Error(opened.problem.expected);
  return opened.value.site;
};

const TABLES: readonly TableName[] = [
  'locations',
  'screens',
  'measuring_points',
  'events',
  'water_levels',
  'samples',
  'results',
  'screening_levels',
  'qualifier_legends',
];

// What a person answers: the elevations were surveyed, and what the two network codes stand for.
const WELLS = {
  'is locations.ground_how': 'surveyed',
  'screens.zone A': 'aquifer',
  'screens.zone P': 'perched',
};

let site: DataPackage;
const previews: Record<string, Preview> = {};

beforeAll(() => {
  site = emptySite({
    grid: { name: 'NAD83 / UTM zone 12N', code: 'EPSG:26912', projection: null, unit: 'm' },
  });
  const take = (name: string, answers: Readonly<Record<string, string>>) => {
    const taken = importInto(site, raw(name), answers);
    previews[name] = taken.preview;
    site = taken.after;
  };
  take('wells.csv', WELLS);
  take('levels.csv', { rounds: 'year' });
  take('results.csv', { rounds: 'year', 'is samples.matrix': 'groundwater' });
  take('mcl.csv', { 'is screening_levels.set': 'Federal levels of the data set' });
});

test.each([
  ['wells.csv', 'locations', 6, 9],
  ['levels.csv', 'water_levels', 4, 7],
  ['results.csv', 'results', 10, 13],
  ['mcl.csv', 'screening_levels', 4, 4],
] as const)(
  '%s is known for a file of %s, and %i of its %i columns match by themselves',
  (name, form, matched, of) => {
    const { mapping } = proposeMapping(raw(name));
    expect(mapping.form).toBe(form);
    expect(mapping.columns.filter(({ use }) => use === 'slot')).toHaveLength(matched);
    expect(mapping.columns).toHaveLength(of);
  },
);

test.each([
  ['wells.csv', 95],
  ['levels.csv', 124],
  ['results.csv', 3573],
  ['mcl.csv', 44],
])('every row of %s is taken: %i of them', (name, rows) => {
  expect(previews[name]?.account).toEqual({
    rows,
    taken: rows,
    added: rows,
    same: 0,
    changed: 0,
    refused: 0,
    waiting: 0,
    blank: 0,
  });
});

/** Columns of a row that both sites have, without their place in the table. */
const seen = (rows: Iterable<object>, columns: readonly string[]) =>
  [...rows].map((row) =>
    columns.map((column) => {
      const cell = (row as Record<string, unknown>)[column] ?? null;
      return typeof cell === 'object' && cell !== null && 'text' in cell ? cell.text : cell;
    }),
  );

test('locations, screens, levels, samples, results and levels of the law are those of the fixture', () => {
  const ours = targetOf(site).site;
  const theirs = made();
  expect(ours.problems).toEqual([]);
  const same = (pick: (site: Site) => Iterable<object>, columns: readonly string[]) =>
    expect(seen(pick(ours), columns)).toEqual(seen(pick(theirs), columns));

  same((s) => s.locations.values(), ['id', 'easting', 'northing', 'ground_elevation', 'ground_how', 'kind', 'status']); // prettier-ignore
  same((s) => s.waterLevels, ['screen', 'event', 'time', 'depth_to_water', 'status', 'measuring_point']); // prettier-ignore
  same((s) => s.samples.values(), ['id', 'screen', 'event', 'time', 'kind', 'matrix']);
  same((s) => s.results, ['sample', 'cas', 'analyte', 'value', 'unit', 'detected', 'lab_qualifier', 'reporting_limit']); // prettier-ignore
  same((s) => s.screeningLevels, ['set', 'cas', 'analyte', 'value', 'unit']);
  same((s) => s.screens.values(), ['id', 'location', 'zone']);
});

test('heads from the imported readings are the altitudes the agency published', () => {
  const ours = targetOf(site).site;
  const levels = raw('levels.csv').table;
  const rounds = ['Levels 2008', 'Levels 2019'].map((event) => headsOf(ours, event));
  expect(rounds.flat()).toHaveLength(124);
  for (const heads of rounds) {
    for (const { head, reading } of heads) {
      const published = Number(cellText(levels, reading.row - 2, 'sl_lev_va'));
      expect(inUnits(head?.value ?? metres(0), 'ft')).toBeCloseTo(published, 2);
    }
  }
});

test('the four files a second time add nothing and change nothing', () => {
  for (const [name, answers] of [
    ['wells.csv', WELLS],
    ['levels.csv', { rounds: 'year' }],
    ['results.csv', { rounds: 'year', 'is samples.matrix': 'groundwater' }],
    ['mcl.csv', { 'is screening_levels.set': 'Federal levels of the data set' }],
  ] as const) {
    const { preview } = importInto(site, raw(name), answers);
    expect(preview.edit).toBeNull();
    expect(preview.account.same).toBe(preview.account.rows);
  }
});
