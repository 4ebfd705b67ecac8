import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sentenceOf } from '../../../src/domain/site/problem';
import { readTable, type ReadingContext } from '../../../src/domain/site/read-table';
import { rowChecks } from '../../../src/domain/site/row-checks';
import type { TableName } from '../../../src/domain/site/schema';
import { inUnits } from '../../../src/domain/units';
import { readCsv } from '../../../src/io/csv';

const context = (over: Partial<ReadingContext> = {}): ReadingContext => ({
  file: 'locations.csv',
  units: { vertical: 'ft', grid: 'us-ft', volume: 'gal' },
  columnUnits: {},
  names: {},
  ...over,
});

const read = <Name extends TableName>(
  name: Name,
  lines: string[],
  over?: Partial<ReadingContext>,
) =>
  rowChecks(
    name,
    readTable(name, readCsv(lines.join('\n')).table, context({ file: `${name}.csv`, ...over })),
    `${name}.csv`,
  );

describe('reading locations', () => {
  const lines = [
    'id,easting,northing,ground_elevation,ground_how,kind,status,crew',
    'DP-1,1000.5,2000,101.20,surveyed,direct push,pushed,AB',
    ',,,,,,,',
    'DP-2,12O0,2000,101.2,surveyed,direct push,pushed,AB',
    'DP-3,1200,2000,101.2,surveyed,drilled hole,pushed,AB',
    'DP-1,1300,2000,101.2,surveyed,direct push,pushed,AB',
    ',1300,2000,101.2,surveyed,direct push,pushed,AB',
  ];
  const reading = read('locations', lines);

  test('the good row is kept as it was written, in metres within', () => {
    const rows = [...reading.rows];
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({
      row: 2,
      id: 'DP-1',
      ground_elevation: { text: '101.20', unit: 'ft' },
      easting: { text: '1000.5', unit: 'us-ft' },
      note: null,
    });
    const ground = rows[0]?.ground_elevation?.value;
    expect(ground === undefined ? null : inUnits(ground, 'ft')).toBeCloseTo(101.2, 12);
  });

  test('each bad cell is a sentence a person can act on', () => {
    expect(reading.problems.map(sentenceOf)).toEqual([
      'locations.csv, row 4, easting: expected a number in ftUS, found “12O0”.',
      'locations.csv, row 5, kind: expected one of direct push, monitoring well, piezometer, staff gauge, supply well, found “drilled hole”.',
      'locations.csv, row 6, id: expected a row not already there (row 2), found “DP-1”.',
      'locations.csv, row 7, id: expected a text, found a blank.',
    ]);
  });

  test('every row is accounted for', () => {
    expect(reading.account).toEqual({ rows: 6, read: 1, refused: 4, blank: 1 });
  });
});

test('a reading for a screen that does not exist is named, and the others are kept', () => {
  const { rows, problems } = read(
    'water_levels',
    [
      'screen,event,time,depth_to_water,status',
      'MW-1,E1,2026-04-01T09:10,8.31,static',
      'MW-9,E1,2026-04-01T09:30,7.90,static',
      'MW-2,E1,2026-04-01T09:40,dry,dry',
      'MW-2,E1,2026-04-01T09:50,,static',
      'MW-2,E1,2026-04-01,,dry',
    ],
    {
      names: {
        screens: { read: new Set(['MW-1', 'MW-2']), refused: new Set(['MW-9']) },
        events: { read: new Set(['E1']), refused: new Set() },
      },
    },
  );
  expect([...rows].map(({ screen, status }) => `${screen} ${status}`)).toEqual([
    'MW-1 static',
    'MW-2 dry',
  ]);
  expect(problems.map(sentenceOf)).toEqual([
    'water_levels.csv, row 3, screen: expected a row of screens that could be read, found “MW-9”.',
    'water_levels.csv, row 4, depth_to_water: expected a number in ft, found “dry”.',
    'water_levels.csv, row 5, depth_to_water: expected a depth to water, or the status dry, obstructed or flowing, found a blank.',
  ]);
});

test('a column in an unknown unit is said once, and is not read as if in another', () => {
  const { rows, problems } = read(
    'locations',
    ['id,ground_elevation,kind,status', 'A,10,piezometer,installed', 'B,11,piezometer,installed'],
    { columnUnits: { ground_elevation: 'fathom' } },
  );
  expect([...rows].map((row) => row.ground_elevation)).toEqual([null, null]);
  expect(problems.map(sentenceOf)).toEqual([
    'locations.csv, row 1, ground_elevation: expected a unit for this column: m, ft or us-ft, found “fathom”.',
  ]);
});

test('a thousands comma is refused rather than read as 1 ft', () => {
  const { rows, problems } = read('strata', [
    'location,top,bottom',
    'DP-1,0,1,204.5',
    'DP-1,0,4.5',
  ]);
  expect(rows).toHaveLength(1);
  expect(problems[0]).toMatchObject({ row: 2, column: 'after the last column', found: '204.5' });
});

test('a missing column is one problem, and its rows are refused', () => {
  const { account, problems } = read('events', ['id,first_day', 'E1,2026-04-01']);
  expect(problems[0]).toMatchObject({ row: 1, column: 'last_day', expected: 'this column' });
  expect(account).toEqual({ rows: 1, read: 0, refused: 1, blank: 0 });
});

test.each(['2026-02-30', '31/03/2026', '2026-3-31', '20260331'])(
  '%s is not taken for a day',
  (day) => {
    expect(read('events', ['id,first_day,last_day', `E1,${day},2026-12-31`]).account.refused).toBe(
      1,
    );
  },
);

test('rows read, refused and blank add up to the rows of any file', () => {
  const cell = fc.oneof(
    fc.constantFrom('', ' ', 'DP-1', 'surveyed', 'direct push', 'pushed', '12.5', '=1+1', '1,204'),
    fc.string({ maxLength: 6 }),
  );
  fc.assert(
    fc.property(
      fc.array(fc.array(cell, { minLength: 1, maxLength: 9 }), { maxLength: 30 }),
      (rows) => {
        const quoted = rows.map((row) => row.map((c) => `"${c.replaceAll('"', '""')}"`).join(','));
        const { account, rows: kept } = read('locations', [
          'id,easting,northing,ground_elevation,ground_how,kind,status',
          ...quoted,
        ]);
        expect(account.read + account.refused + account.blank).toBe(account.rows);
        expect(account.rows).toBe(rows.length);
        expect([...kept]).toHaveLength(account.read);
      },
    ),
  );
});
