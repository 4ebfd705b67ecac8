/** Bad files: a sentence naming file, row and column, and the rest of the site still opens. */
import { describe, expect, test } from 'vitest';
import { sentenceOf } from '../../../src/domain/site/problem';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { openSite } from '../../../src/io/open-site';
import { bytesOf, openZip, textOf, zipOf, type Files } from '../../../src/io/package/files';
import { filesIn, openFolder } from '../folder';

const good = filesIn('demo-sites/osier-bend');
const changed = (file: string, change: (text: string) => string): Files =>
  new Map([...good, [file, bytesOf(change(textOf(good.get(file) ?? new Uint8Array())))]]);
const withChanges = (changes: Readonly<Record<string, (text: string) => string>>): Files =>
  new Map([
    ...good,
    ...Object.entries(changes).map(
      ([file, change]) => [file, changed(file, change).get(file) ?? new Uint8Array()] as const,
    ),
  ]);
const line = (n: number, change: (cells: string) => string) => (text: string) =>
  text
    .split('\n')
    .map((row, i) => (i === n - 1 ? change(row) : row))
    .join('\n');
const sentences = (files: Files) => {
  const { problems, site } = openFolder('demo-sites/osier-bend', files);
  return [...problems, ...site.problems].map(sentenceOf);
};
const shallow = (files: Files) =>
  flowOf(openFolder('demo-sites/osier-bend', files).site, '2026-09', 'shallow');

test('the untouched site has no problem', () => expect(sentences(good)).toEqual([]));

test('a missing table is named, and the arrow still stands', () => {
  const files = new Map([...good].filter(([name]) => name !== 'strata.csv'));
  expect(sentences(files)).toEqual([
    'strata.csv: expected this table’s file in the folder, found a blank.',
  ]);
  expect(shallow(files).resolved).toBe(true);
});

test('an unknown vertical unit is said, and nothing is read as if in another', () => {
  const files = changed('datapackage.json', (text) =>
    text.replace('"verticalUnit": "ft"', '"verticalUnit": "feet"'),
  );
  const found = sentences(files);
  expect(found[0]).toBe(
    'datapackage.json, downgradient.verticalUnit: expected a unit: m, ft or us-ft, found “feet”.',
  );
  const { site } = openFolder('demo-sites/osier-bend', files);
  expect(site.locations.size).toBe(46);
  expect(headsOf(site, '2026-09').every(({ head }) => head === null)).toBe(true);
  expect(shallow(files)).toMatchObject({ gradient: null, azimuthGrid: null });
});

test('text in a number, a duplicate id and a level for no screen are each named', () => {
  const files = withChanges({
    'locations.csv': line(5, (row) => row.replace('488670.0', '488670 ft')),
    'events.csv': (text) => `${text}${text.split('\n')[1] ?? ''}\n`,
    'water_levels.csv': (text) => `${text}MW-99,2026-09,,2026-09-22T10:00,12.00,,,static,,,,\n`,
  });
  const found = sentences(files);
  expect(found).toContain(
    'locations.csv, row 5, easting: expected a number in ftUS, found “488670 ft”.',
  );
  expect(
    found.some((s) => /^events\.csv, row 5, id: expected a row not already there/.test(s)),
  ).toBe(true);
  expect(
    found.some((s) => /^water_levels\.csv, row \d+, screen: .* found “MW-99”\.$/.test(s)),
  ).toBe(true);
  expect(shallow(files).fitted.length).toBe(7); // MW-4 lost its place; the others still make a plane
});

test.each([
  ['longitude and latitude', 'EPSG:4326', /longitude and latitude/],
  ['Web Mercator', 'EPSG:3857', /Web Mercator/],
  ['a code nobody has', 'EPSG:99999', /not in the list/],
])('a grid in %s is refused for arithmetic, and the points are still there', (_, code, words) => {
  const files = changed('datapackage.json', (text) => text.replace('EPSG:2965', code));
  const { site } = openFolder('demo-sites/osier-bend', files);
  expect(site.gridProblem).toMatch(words);
  expect(site.locations.size).toBe(46);
  expect(shallow(files)).toMatchObject({ azimuthGrid: null, reason: site.gridProblem });
});

describe('a folder that is no site', () => {
  const trouble = (files: Files) => {
    const opened = openSite(files);
    return opened.ok ? '' : sentenceOf(opened.problem);
  };
  test('without a descriptor', () => {
    expect(trouble(new Map([['locations.csv', bytesOf('id\n')]]))).toBe(
      'datapackage.json: expected this file in the folder, found “locations.csv”.',
    );
  });
  test('with one that is no JSON', () => {
    expect(trouble(new Map([['datapackage.json', bytesOf('{"title": ')]]))).toMatch(
      /^datapackage\.json: expected a JSON object/,
    );
  });
  test('of a newer version is refused politely', () => {
    const files = changed('datapackage.json', (text) => text.replace('"format": 1', '"format": 9'));
    expect(trouble(files)).toMatch(/newer version/);
  });
});

describe('a zip', () => {
  test('of a site opens as its folder does', () => {
    const opened = openZip(zipOf(good));
    expect(opened.ok && [...opened.value.keys()].toSorted()).toEqual([...good.keys()].toSorted());
  });
  test('cut short is said', () => {
    const zip = zipOf(good);
    const opened = openZip(zip.slice(0, zip.length / 2));
    expect(opened).toMatchObject({ ok: false });
  });
  test('that climbs out of its folder is not opened', () => {
    const opened = openZip(zipOf(new Map([['../outside.csv', bytesOf('id\n')]])));
    expect(opened.ok ? '' : opened.problem).toMatch(/outside/);
  });
});
