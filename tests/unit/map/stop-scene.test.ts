/** What a stop of a demo's walk has on its map. */
import { describe, expect, test } from 'vitest';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import { firstWalk } from '../../../src/domain/walk/first-walk';
import { namedPoints } from '../../../src/domain/walk/named-points';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { drawnPlaces, placeOf } from '../../../src/map/scene/from-locations';
import { grown, meet } from '../../../src/map/scene/place-labels';
import {
  extentOf,
  inView,
  placesOf,
  type Scene,
  type TextItem,
} from '../../../src/map/scene/scene';
import { wordsPlaced } from '../../../src/map/scene/svg';
import { readable, stopScene } from '../../../src/map/stop-scene';
import { openFolder } from '../folder';

const { site } = openFolder('demo-sites/osier-bend');
const of = {
  event: '2026-09',
  zone: 'shallow',
  levelSet: 'Federal drinking water (40 CFR 141.61(a))',
};
const walk = firstWalk(site, of);
const heads = headsOf(site, of.event);
const flow = flowOf(site, of.event, of.zone, heads);
const results = judgedAgainst(site, of.levelSet, { event: of.event, fieldSamples: true });
const sceneOf = (made: string, change: { made?: null } = {}): Scene => {
  const stop = walk.find((one) => one.made === made);
  if (!stop) throw new Error(made);
  const drawing = { site, shown: stop.view.shown, heads, flow, results, construction: [] };
  return stopScene(drawing, { ...stop, ...change }, null);
};
const hasLines = (scene: Scene) => scene.some(({ layer }) => layer === 'section-lines');
const namesOf = (scene: Scene) =>
  scene
    .filter((item): item is TextItem => item.kind === 'text' && item.layer === 'point-labels')
    .map(({ text }) => text);

describe('lines of section', () => {
  test('are drawn where a section is shown, and where somebody kept the view', () => {
    expect(hasLines(sceneOf('below'))).toBe(true);
    expect(hasLines(sceneOf('water', { made: null }))).toBe(true);
  });

  test('are left away where the stop is about something else', () => {
    expect(hasLines(sceneOf('water'))).toBe(false);
    expect(hasLines(sceneOf('exceeds'))).toBe(false);
  });
});

describe('on a wall, wells of the demo’s nests', () => {
  // The window of a stop at 1920 by 1080: some 600 m in 1200 px.
  const at = (id: string) => {
    const location = site.locations.get(id);
    return location ? placeOf(location) : null;
  };
  const [west, south] = at('MW-4') ?? [0, 0];
  const around = { west: west - 100, south: south - 150, east: west + 500, north: south + 390 };
  const laid = readable(sceneOf('exceeds'), site, {
    seen: around,
    size: [1200, 1080],
    magnify: 1.5,
  });

  test('all have their names where all are sampled', () => {
    expect(namesOf(laid)).toEqual(expect.arrayContaining(['MW-3', 'PZ-3D', 'MW-6', 'PZ-6D']));
  });

  test('stand at the same easting, the deep one under the shallow one', () => {
    const places = drawnPlaces(laid);
    const [shallow, deep] = [places.get('MW-6'), places.get('PZ-6D')];
    expect(shallow?.[0]).toBe(deep?.[0]);
    expect((shallow?.[1] ?? 0) - (deep?.[1] ?? 0)).toBeGreaterThan(0);
    // No farther from their place than the symbols are high: 20 px of half a metre, times 1.5.
    expect(Math.abs((shallow?.[1] ?? 0) - (at('MW-6')?.[1] ?? 0))).toBeLessThan(15);
  });
});

test('words stand where they were placed, so that every painter sets them alike', () => {
  const seen = walk.find(({ made }) => made === 'found')?.view.window;
  if (!seen) throw new Error('found');
  const laid = readable(sceneOf('found'), site, { seen, size: [1190, 1010], magnify: 1.5 });
  const texts = laid.filter((item): item is TextItem => item.kind === 'text');
  expect(texts.length).toBeGreaterThan(15);
  for (const { sides, always } of texts) expect([sides.length, always]).toEqual([1, true]);
  const placed = wordsPlaced(laid, { extent: seen, width: 1190, height: 1010 }, 1.5);
  expect(placed.map(({ further }) => further)).toEqual(texts.map(() => 0));
  for (const [i, { box }] of placed.entries())
    expect(placed.slice(i + 1).filter((other) => meet(other.box, box))).toEqual([]);
});

test('the line of the section that is shown lies whole in the window of its stop, and no other line does', () => {
  const below = walk.find(({ made }) => made === 'below');
  const lines = sceneOf('below').filter(({ layer }) => layer === 'section-lines');
  expect(new Set(lines.map(({ who }) => who)).size).toBe(1);
  const around = extentOf(lines.flatMap(placesOf));
  const { window } = below?.view ?? {};
  if (!window || !around) throw new Error('below');
  expect(around.west).toBeGreaterThan(window.west);
  expect(around.south).toBeGreaterThan(window.south);
  expect(around.east).toBeLessThan(window.east);
  expect(around.north).toBeLessThan(window.north);
});

test('the legend of a stop is of what is in the window, not of what lies beside it', () => {
  const scene = sceneOf('where');
  const well = site.locations.get('MW-2');
  const [east, north] = (well && placeOf(well)) ?? [0, 0];
  const near = { west: east - 10, south: north - 10, east: east + 10, north: north + 10 };
  const shown = inView(scene, near);
  expect(shown.some(({ means }) => means === 'Monitoring well, installed')).toBe(true);
  expect(shown.some(({ means }) => means === 'Surface water')).toBe(false);
  expect(inView(scene, { west: -1, south: -1, east: 0, north: 0 })).toEqual([]);
});

describe('the points that the words of a stop name', () => {
  const window = { west: 0, south: 0, east: 1, north: 1 };
  const names = (scene: Scene) =>
    scene.filter((item): item is TextItem => item.kind === 'text' && item.layer === 'point-labels');

  test('have their names written before those of others, on the whole map and beside crosses', () => {
    const stop = walk.find(({ made }) => made === 'delineated');
    const seen = stop?.view.window ?? window;
    const drawn = readable(sceneOf('delineated'), site, { seen, size: [700, 600], magnify: 1 });
    const first = names(drawn).filter(({ priority }) => priority === 0);
    expect(first.map(({ text }) => text).toSorted()).toEqual(['MW-3', 'PZ-3D', 'PZ-7']);
  });

  test('are told apart from longer names that begin alike', () => {
    const words = { title: 'MW-1 and DP-1', sentences: [['at MW-12, (PZ-3D).']] };
    expect([...namedPoints(site, words)].toSorted()).toEqual(['MW-1', 'PZ-3D']);
    const sources = { title: '', sentences: [['Fuel tank pit and Degreaser sump.']] };
    expect([...namedPoints(site, sources)].toSorted()).toEqual(['SA-1', 'SA-2']);
  });
});

describe('a head of a nest on the wall, in a small window and on a sheet', () => {
  const { easting, northing } = site.locations.get('PZ-7') ?? {};
  const [east, north] = [easting?.value ?? 0, northing?.value ?? 0];
  // Half the width of the site in metres; px across; what sizes are multiplied by.
  const windows = [
    ['wall', 250, 1200, 1.5],
    ['small window', 250, 700, 1],
    ['sheet', 200, 1260, 0.75],
  ] as const;
  test.each(windows)('stands in one line with its own well: %s', (_, half, width, magnify) => {
    const seen = {
      west: east - half,
      east: east + half,
      south: north - half,
      north: north + half,
    };
    const laid = readable(sceneOf('water'), site, { seen, size: [width, width], magnify });
    const places = drawnPlaces(laid);
    const scale = width / (2 * half);
    const downOf = (who: string) => (seen.north - (places.get(who)?.[1] ?? NaN)) * scale;
    const placed = wordsPlaced(laid, { extent: seen, width, height: width }, magnify);
    for (const [own, mate] of [
      ['MW-3', 'PZ-3D'],
      ['MW-6', 'PZ-6D'],
      ['PZ-8', 'PZ-8D'],
    ] as const) {
      const head = placed.find(
        ({ item: { layer, who } }) => layer === 'posted-heads' && who === own,
      );
      const middle = ((head?.box.top ?? NaN) + (head?.box.bottom ?? NaN)) / 2;
      const apart = Math.abs(downOf(own) - downOf(mate));
      expect(Math.abs(middle - downOf(own)), own).toBeLessThan(apart / 3);
      // Nothing else is written in its line on that side.
      const name = placed.find(
        ({ item: { layer, who } }) => layer === 'point-labels' && who === mate,
      );
      if (head && name) expect(meet(grown(head.box, 6, 0), name.box), mate).toBe(false);
    }
  });
});
