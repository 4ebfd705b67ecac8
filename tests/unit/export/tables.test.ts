import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { TABLE_NAMES } from '../../../src/domain/site/schema';
import { cellText } from '../../../src/domain/site/table';
import { readCsv } from '../../../src/io/csv';
import { tableFile } from '../../../src/io/export/table-out';
import { flowTables, headTables } from '../../../src/io/export/work-tables';
import { preview } from '../../../src/io/import/preview';
import { proposedAnswers } from '../../../src/io/import/ask';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { openSite, type OpenedSite } from '../../../src/io/open-site';
import { sourceOf } from '../import/target';

const DEMOS = new URL('../../../demo-sites/', import.meta.url);

const demo = (name: string): OpenedSite => {
  const folder = new URL(`${name}/`, DEMOS);
  const files = new Map(
    readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => [entry.name, new Uint8Array(readFileSync(new URL(entry.name, folder)))]),
  );
  const opened = openSite(files);
  if (!opened.ok) throw new Error(opened.problem.expected);
  return opened.value;
};

const SITES = ['osier-bend', 'quellmoor'];

const cases = SITES.flatMap((name) => TABLE_NAMES.map((table) => [name, table] as const));

test.each(cases)(
  '%s: %s as a file of its own adds nothing when it is dropped in again',
  (name, table) => {
    // prettier-ignore
    const opened = demo(name);
    const file = tableFile(opened.package, table);
    if (!file) return;
    const source = sourceOf(file.name, ...file.text.trimEnd().split('\n'));
    const proposal = proposeMapping(source);
    // A list of samples could be a list of anything: its file says what it is by its columns.
    expect(proposal.mapping.form).toBe(table);
    const target = { package: opened.package, site: opened.site, grid: opened.grid };
    const asked = preview(source, proposal.mapping, {}, target).asks;
    const made = preview(source, proposal.mapping, proposedAnswers(asked), target);
    expect(made.refused).toEqual([]);
    expect(made.account).toMatchObject({ added: 0, changed: 0, same: source.table.size });
  },
);

test.each(SITES)(
  '%s: every line of work for a spreadsheet, worked again, gives its value',
  (name) => {
    // prettier-ignore
    const { site } = demo(name);
    let worked = 0;
    for (const event of site.events.keys())
      for (const [file, text] of [...headTables(site, event), ...flowTables(site, event)]) {
        if (!file.endsWith('-work.csv')) continue;
        const { table, broken } = readCsv(text);
        expect(broken).toEqual([]);
        for (let row = 0; row < table.size; row++) {
          if (cellText(table, row, 'what') !== 'answer') continue;
          const line = cellText(table, row, 'with its numbers');
          const value = cellText(table, row, 'value');
          // Only plain sums are worked here; the functions of the formulas have tests of their own.
          if (!/^[-+*/().\d\s]+$/.test(line)) continue;
          const again = Function(`"use strict"; return (${line});`)() as number;
          const half = 0.5 * 10 ** -(value.split('.')[1]?.length ?? 0);
          expect(Math.abs(again - Number(value))).toBeLessThanOrEqual(half * 1.000001);
          worked++;
        }
      }
    expect(worked).toBeGreaterThan(10);
  },
);

test('heads come out with their units in the heading and a reason for each that does not count', () => {
  // prettier-ignore
  const { site } = demo('osier-bend');
  const [event = ''] = site.events.keys();
  const tables = headTables(site, event);
  const [text = ''] = tables.values();
  const { table } = readCsv(text);
  expect(table.columns.slice(0, 6)).toEqual(['screen', 'location', 'zone', 'time', 'measuring_point', 'head (ft)']); // prettier-ignore
  for (let row = 0; row < table.size; row++)
    expect(cellText(table, row, 'counts') === 'no').toBe(cellText(table, row, 'why_not') !== '');
});
