/**
 * Tables of the report. The numbers expected are those worked by hand in the
 * README of the demo site (expected.json), not the program's own.
 */
import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import {
  asTable,
  flowTable,
  headsTable,
  pushTable,
  resultsTable,
} from '../../../src/domain/walk/report-tables';
import { headsOf } from '../../../src/domain/water/event-heads';
import { writeCsv } from '../../../src/io/csv';
import { openFolder } from '../folder';

const { site } = openFolder('demo-sites/osier-bend');
type Expected = {
  heads: {
    screen: string;
    event: string;
    time: string;
    head: number | null;
    leftOut: string | null;
  }[];
  flow: { event: string; zone: string; wells: number; azimuthGrid: number; gradient: number }[];
};
const expected = JSON.parse(
  readFileSync('demo-sites/osier-bend/expected.json', 'utf8'),
) as Expected;

describe('tables of Osier Bend', () => {
  test('heads stand as worked by hand, each with whether it counts', () => {
    const table = headsTable(site, headsOf(site, '2025-09'));
    const wells = expected.heads.filter(
      ({ event, leftOut, head }) => event === '2025-09' && leftOut === null && head !== null,
    );
    expect(wells.length).toBeGreaterThan(8);
    for (const { screen, time, head } of wells) {
      const row = table.rows.find(([id, , at]) => id === screen && at === time.replace('T', ' '));
      expect(Math.abs(Number(row?.[5]) - (head ?? 0))).toBeLessThanOrEqual(0.0051);
      expect(row?.[6]).toMatch(/^yes/);
    }
    for (const row of table.rows) expect(row[6]).toMatch(/^(yes|no: .+)/);
  });

  test('flow by event gives the direction and gradient of each', () => {
    const table = flowTable(site, 'shallow');
    for (const { event, zone, azimuthGrid, gradient } of expected.flow) {
      if (zone !== 'shallow' || !azimuthGrid) continue;
      const title = site.events.get(event)?.title ?? event;
      const row = table.rows.find(([name]) => name === title);
      expect(Math.abs(Number.parseFloat(row?.[4] ?? '') - azimuthGrid)).toBeLessThan(0.51);
      expect(Number(row?.[7]) / gradient).toBeCloseTo(1, 2);
    }
  });

  test('an unresolved direction has a reason and no number', () => {
    const quellmoor = openFolder('demo-sites/quellmoor').site;
    const row = flowTable(quellmoor, 'sand').rows[0] ?? [];
    expect(row[4]).toBe('');
    expect(row[9]).toMatch(/^no: .{10,}/);
  });

  test('every hole and every field result is in its table, once', () => {
    const results = judgedAgainst(site, 'Federal drinking water (40 CFR 141.61(a))', {
      event: '2025-09',
      fieldSamples: true,
    });
    const table = resultsTable(results);
    expect(table.rows).toHaveLength(results.length);
    for (const row of table.rows) for (const c of [0, 1, 2, 3, 7]) expect(row[c]).not.toBe('');
    const pushes = [...site.locations.values()].filter(({ kind }) => kind === 'direct push');
    expect(pushTable(site).rows.map(([id]) => id)).toEqual(pushes.map(({ id }) => id));
  });

  test('as CSV another reader (PapaParse) reads the same cells back', () => {
    for (const table of [
      headsTable(site, headsOf(site, '2025-09')),
      flowTable(site, 'shallow'),
      pushTable(site),
    ]) {
      const { data, errors } = Papa.parse<string[]>(writeCsv(asTable(table)).trimEnd());
      expect(errors).toEqual([]);
      expect(new Set(data[0]).size).toBe(table.columns.length);
      expect(data.slice(1)).toEqual(table.rows);
    }
  });
});
