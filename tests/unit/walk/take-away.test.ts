import { describe, expect, test } from 'vitest';
import { embedded } from '../../../src/app/walk/take-away';
import { openTaken } from '../../../src/app/walk/taken';
import { base64Of } from '../../../src/domain/base64';
import { apply } from '../../../src/domain/site/edits/apply';
import { picturesOf, withPictures, type Picture } from '../../../src/domain/site/pictures';
import { cellText } from '../../../src/domain/site/table';
import {
  contentsOf,
  eventsAlsoOf,
  eventsOf,
  releasedPackage,
} from '../../../src/domain/walk/take-away';
import { plain, type Stop } from '../../../src/domain/walk/stop';
import { rewriteWalk, stopsOf } from '../../../src/domain/walk/walk-stops';
import { gridOf, siteOf } from '../../../src/io/open-site';
import { savePackage } from '../../../src/io/package/save';
import { textOf } from '../../../src/io/package/files';
import { openFolder } from '../folder';

const { package: given, site } = openFolder('demo-sites/osier-bend');
const of = {
  event: '2026-03',
  zone: 'shallow',
  levelSet: 'Federal drinking water (40 CFR 141.61(a))',
};
const stops = stopsOf(site, of).map((stop) => ({ ...stop, hidden: stop.made === 'next' }));
const released = releasedPackage(given, stops, new Set(['2026-03']));
const text = [...savePackage(released).values()].map(textOf).join('\n');
const opened = siteOf(released, gridOf(released).grid, null);

describe('a walk of March 2026 that is taken away', () => {
  test('holds no reading and no result of another event', () => {
    expect([...opened.events.keys()]).toEqual(['2026-03']);
    expect(new Set(opened.waterLevels.map(({ event }) => event))).toEqual(new Set(['2026-03']));
    for (const { event } of opened.samples.values()) expect(event).toBe('2026-03');
    for (const { sample } of opened.results) expect(opened.samples.has(sample)).toBe(true);
    expect(text).not.toContain('-2509');
  });

  test('holds no notes, no initials, no hidden stop and no table of the field work', () => {
    expect(text).not.toMatch(/K\.B\.|COC-/);
    expect(released.tables.attempts).toBeUndefined();
    expect(released.tables.purge_readings).toBeUndefined();
    const views = released.tables.views;
    const ids = Array.from({ length: views?.size ?? 0 }, (_, row) =>
      views ? cellText(views, row, 'id') : '',
    );
    expect(ids).not.toContain('next');
    for (const { notes } of opened.views) expect(notes).toBeNull();
  });

  test('releases what a stop shows, and beside it what a stop only speaks of', () => {
    const told = stops.map((stop) => ({
      ...stop,
      hidden: stop.made !== 'way' && stop.made !== 'exceeds',
    }));
    expect([...eventsOf(told)]).toEqual(['2026-03']);
    expect([...eventsAlsoOf(told)].toSorted()).toEqual(['2025-09', '2026-09']);
    // What the pushes found is shown: its event goes with it.
    expect([...eventsOf(stops)].toSorted()).toEqual(['2025-09', '2026-03']);
    expect([...eventsAlsoOf(stops)]).toEqual(['2026-09']);
  });

  test('speaks of the events in it alone', () => {
    const way = stopsOf(opened, of).find(({ made }) => made === 'way');
    expect(way?.sentences.map(plain).join(' ')).toContain('Only one event was gauged');
  });

  test('tells the same sentences, and cites the same rows of the same tables', () => {
    const all = releasedPackage(
      given,
      stops,
      new Set([...eventsOf(stops), ...eventsAlsoOf(stops)]),
    );
    const opened = siteOf(all, gridOf(all).grid, null);
    const tell = (from: typeof site) =>
      stopsOf(from, of)
        .filter(({ made }) => made === 'water' || made === 'way' || made === 'exceeds')
        .map(({ title, sentences }) => [title, ...sentences.map(plain)].join(' '));
    expect(tell(opened)).toEqual(tell(site));
    const row = (from: typeof site) =>
      from.waterLevels.find(({ screen, event }) => screen === 'MW-3' && event === '2026-03')?.row;
    expect(row(opened)).toBe(row(site));
  });

  test('says what is inside', () => {
    expect(contentsOf(released)).toContain('Events: 1 row');
    expect(contentsOf(released).join()).not.toMatch(/Attempts|Purge/);
  });
});

describe('pictures under the maps of a walk', () => {
  const plan: Picture = {
    path: 'images/plan.png',
    title: 'Site plan, as built',
    type: 'image/png',
    size: { width: 400, height: 300 },
    marks: [
      { name: 'NW corner', dots: [0, 0], grid: [489000, 1822300] },
      { name: 'SE corner', dots: [400, 300], grid: [489400, 1822000] },
    ],
    opacity: 0.5,
    shown: true,
  };
  const photo: Picture = { ...plan, path: 'images/photo.png', title: 'Photo', shown: false };
  const withPlan = { ...given, descriptor: withPictures(given.descriptor, [plan, photo]) };
  const taken = (told: readonly Stop[]) => releasedPackage(withPlan, told, eventsOf(told));

  test('go with it where a stop shows them, and are named in what is inside; others stay at home', () => {
    const inside = taken(stops);
    expect(picturesOf(inside.descriptor)).toEqual([plan]);
    expect(contentsOf(inside).at(-1)).toBe('Pictures under the map: Site plan, as built');
  });

  test('stay at home where no stop that is told shows them', () => {
    const without = stops.map((stop) => ({ ...stop, hidden: stop.view.pictures === true }));
    expect(picturesOf(taken(without).descriptor)).toEqual([]);
    expect(contentsOf(taken(without)).join()).not.toContain('Pictures');
  });

  test('come out of the file with the very bytes they went in with', () => {
    const bytes = Uint8Array.from({ length: 70_000 }, (_, i) => (i * 7) % 256);
    const files = Object.fromEntries(
      [...savePackage(taken(stops))].map(([path, of_]) => [path, textOf(of_)]),
    );
    const pictures = { [plan.path]: base64Of(bytes) };
    const back = openTaken(embedded({ files, pictures, event: null, zone: null, levelSet: null }));
    expect(back.ok && back.value.files.get(plan.path)).toEqual(bytes);
  });

  test('are kept with a view, and read from the views table', () => {
    const [where] = stops;
    if (!where) throw new Error('no stop');
    const kept = { ...where, id: 'mine', made: null };
    const edit = apply(given, rewriteWalk(given, [kept]));
    if (!edit.ok) throw new Error(edit.problem);
    const read = siteOf(edit.value, gridOf(edit.value).grid, null);
    expect(stopsOf(read, of)[0]?.view.pictures).toBe(true);
  });
});

test('data in the page cannot end the element they stand in', () => {
  const files = { 'a.csv': '</script><script>alert(1)</script><!-- \u2028' };
  const page = embedded({ files, pictures: {}, event: null, zone: null, levelSet: null });
  expect(page).not.toMatch(/<|\u2028/);
  expect(JSON.parse(page)).toMatchObject({ files });
});

test('a file whose data are cut short says so', () => {
  expect(openTaken('{"files": {')).toEqual({
    ok: false,
    problem: 'The data in this file are cut short.',
  });
});
