import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readSite } from '../../src/domain/site/site';
import { sentenceOf } from '../../src/domain/site/problem';
import type { TableName } from '../../src/domain/site/schema';
import { inUnits } from '../../src/domain/units';
import { headsOf } from '../../src/domain/water/event-heads';
import { openPackage } from '../../src/io/package/open';
import { flatGrid } from './site-from';

// The expected values were worked by hand: demo-sites/<site>/README.md shows the steps.
type Expected = {
  readonly rows: Readonly<Record<string, number>>;
  readonly heads: readonly {
    readonly row: number;
    readonly screen: string;
    readonly event: string;
    readonly head: number | null;
    readonly leftOut: string | null;
  }[];
  readonly results: {
    readonly rows: number;
    readonly replaced: readonly unknown[];
    readonly sets: Readonly<
      Record<
        string,
        {
          readonly all: Readonly<Record<string, number>>;
          readonly exceeds: readonly NamedResult[];
          readonly cannotBeTold: readonly NamedResult[];
        }
      >
    >;
  };
};
type NamedResult = {
  readonly row: number;
  readonly sample: string;
  readonly analyte: string;
  readonly value: string;
  readonly verdict: string;
};

const FOLDER = new URL('../../demo-sites/', import.meta.url).pathname;

function demo(name: string) {
  const folder = join(FOLDER, name);
  const files = new Map(
    readdirSync(folder).map((file) => [file, new Uint8Array(readFileSync(join(folder, file)))]),
  );
  const opened = openPackage(files);
  if (!opened.ok) throw new Error(sentenceOf(opened.problem));
  const { package: given, problems } = opened.value;
  const site = readSite(given, flatGrid({ unit: given.settings.grid.unit }));
  const expected = JSON.parse(readFileSync(join(folder, 'expected.json'), 'utf8')) as Expected;
  return { site, problems: [...problems, ...site.problems], expected };
}

describe.each(['osier-bend', 'quellmoor'])('the demo site %s', (name) => {
  const { site, problems, expected } = demo(name);

  test('opens with every row read and nothing to complain of', () => {
    expect(problems.map(sentenceOf)).toEqual([]);
    for (const [table, rows] of Object.entries(expected.rows))
      expect([table, site.accounts[table as TableName].read]).toEqual([table, rows]);
  });

  test('has the heads worked by hand, and leaves out the readings the hand work leaves out', () => {
    const ours = [...site.events.keys()].flatMap((event) => headsOf(site, event));
    const unit = site.settings.verticalUnit;
    const byRow = new Map(ours.map((gauged) => [gauged.reading.row, gauged]));
    expect(ours).toHaveLength(expected.heads.length);
    for (const { row, screen, event, head, leftOut } of expected.heads) {
      const gauged = byRow.get(row);
      expect([row, gauged?.screen.id, gauged?.reading.event, gauged?.leftOut]).toEqual([
        row,
        screen,
        event,
        leftOut,
      ]);
      if (head === null) expect(gauged?.head).toBeNull();
      else expect(gauged?.head && inUnits(gauged.head.value, unit)).toBeCloseTo(head, 9);
    }
  });

  test.each(Object.keys(expected.results.sets))('accounts for every result against %s', (set) => {
    const counted = expected.results.sets[set];
    if (!counted) throw new Error(set);
    const { all, exceeds, cannotBeTold } = counted;
    const sum = Object.values(all).reduce((total, n) => total + n, 0);
    expect(sum + expected.results.replaced.length).toBe(site.results.length);
    expect(exceeds.length).toBe((all.exceeds ?? 0) + (all['exceeds, estimated'] ?? 0));
    for (const { row, sample, analyte, value } of [...exceeds, ...cannotBeTold]) {
      const result = site.results.at(row - 2);
      expect([result?.row, result?.sample, result?.analyte, result?.value ?? '']).toEqual([
        row,
        sample,
        analyte,
        value,
      ]);
    }
  });
});
