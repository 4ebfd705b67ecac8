/** A view that is kept holds what is on the screen, and what it holds can be changed. */
import { flushSync } from 'svelte';
import { describe, expect, test } from 'vitest';
import { OpenSite } from '../../../src/app/open-site.svelte';
import { checkViewOf } from '../../../src/app/check/check-view.svelte';
import { resultsViewOf } from '../../../src/app/check/results-view.svelte';
import { Walk } from '../../../src/app/walk/walk.svelte';
import { whatIsDrawn } from '../../../src/app/walk/what-is-drawn';
import { ASKED_AT_FIRST } from '../../../src/domain/lab/asked-results';
import type { DataPackage } from '../../../src/domain/site/data-package';
import { cellText } from '../../../src/domain/site/table';
import { inUnits, metres } from '../../../src/domain/units';
import { reachOf } from '../../../src/domain/walk/delineation-stop';
import { MADE_STOPS } from '../../../src/domain/walk/stop';
import { releasedPackage } from '../../../src/domain/walk/take-away';
import { openFolder } from '../folder';

const WINDOW = { west: 0, south: 0, east: 10, north: 10 };
const TCE = 'Trichloroethylene (TCE)';
const opened = () => {
  const site = new OpenSite({ package: openFolder('demo-sites/osier-bend').package, problems: [] });
  return { site, walk: new Walk(site) };
};
const anything = [{}];
const tableIds = ({ tables: { views } }: DataPackage) =>
  views ? Array.from({ length: views.size }, (_, row) => cellText(views, row, 'id')) : [];

describe('a view kept in Check', () => {
  test('holds event, analyte, contours, open sides and the section as it is cut', () => {
    const { site, walk } = opened();
    site.show({ event: '2025-09', analyte: TCE });
    for (const name of ['surface', 'open-sides', 'section']) site.overlay(name, anything);
    checkViewOf(site).section.choose('SEC-B');
    const { drawn, without } = whatIsDrawn(site);
    expect(without).toEqual([]);
    walk.keep(WINDOW, 'Plume', drawn);
    const kept = walk.stops.at(-1);
    expect(kept?.view).toMatchObject({
      shown: { event: '2025-09', analyte: TCE },
      contours: true,
      sides: true,
      section: true,
      cut: { line: 'SEC-B' },
      window: WINDOW,
    });
    // Fifty US survey feet.
    expect(kept?.view.cut?.corridor).toBeCloseTo(15.24003, 5);
    expect(walk.kept).toMatch(/^Kept as stop \d+: Push campaign .*Trichloroethylene.*section\./);
  });

  test('holds a line between two points by its ends', () => {
    const { site, walk } = opened();
    site.overlay('section', anything);
    const { section } = checkViewOf(site);
    section.choose('between two points');
    section.ends = ['MW-1', 'MW-6'];
    walk.keep(WINDOW, 'Across', whatIsDrawn(site).drawn);
    const line = walk.stops.at(-1)?.view.cut?.line;
    expect(line).toHaveLength(2);
    const mw1 = site.site.locations.get('MW-1');
    expect(line?.[0]).toEqual([mw1?.easting?.value, mw1?.northing?.value]);
  });

  test('holds which results were asked for, and the walk asks for them again', () => {
    const { site, walk } = opened();
    site.asked = { ...ASKED_AT_FIRST, allEvents: true, group: null, zone: 'shallow' };
    walk.keep(WINDOW, 'Deep');
    site.asked = ASKED_AT_FIRST;
    walk.start(walk.told.length - 1);
    expect(site.asked).toMatchObject({ allEvents: true, zone: 'shallow' });
    walk.go(0);
    expect(site.asked).toEqual(ASKED_AT_FIRST);
  });

  test('says what it cannot hold', () => {
    const { site } = opened();
    site.overlay('extent', anything);
    resultsViewOf(site).boxes = true;
    expect(whatIsDrawn(site).without).toEqual(['the outline of the extent', 'boxes of results']);
    expect(whatIsDrawn(site).drawn).toEqual({});
  });
});

describe('a view kept in the walk', () => {
  test('stands after the stop in hand, holds what that stop draws, and can be undone', () => {
    const { site, walk } = opened();
    walk.start();
    const before = walk.told.length;
    walk.go(walk.told.findIndex(({ made }) => made === 'delineated'));
    walk.keep(WINDOW, 'Closer');
    flushSync();
    expect(walk.told).toHaveLength(before + 1);
    const kept = walk.told[walk.at + 1];
    expect(kept).toMatchObject({ made: null, title: 'Closer', view: { sides: true } });
    expect(walk.kept).toContain(`Kept as stop ${walk.at + 2}`);
    site.undo();
    expect(walk.told).toHaveLength(before);
  });

  test('changes the site for the desk too, though the part of it that asked first is gone', () => {
    const { site, walk } = opened();
    let section = null as unknown as ReturnType<typeof checkViewOf>['section'];
    $effect.root(() => {
      section = checkViewOf(site).section;
      expect(section.lines).toHaveLength(2);
    })();
    walk.start();
    walk.keep(WINDOW, 'Closer');
    const row = site.site.features.findIndex(({ id }) => id === 'SEC-B');
    site.edit('Remove', { kind: 'remove-rows', table: 'features', rows: [row] });
    expect(section.lines).toHaveLength(1);
  });
});

describe('a view kept while the walk tells of an event with a stop less', () => {
  /** Kept of the push campaign, whose results "What the pushes found" would only repeat. */
  const keptOfPushes = (before: (walk: Walk) => void = () => {}) => {
    const { site, walk } = opened();
    site.show({ event: '2026-09' });
    before(walk);
    const order = walk.stops.map(({ made }) => made);
    site.show({ event: '2025-09' });
    expect(walk.stops.some(({ made }) => made === 'found')).toBe(false);
    walk.keep(WINDOW, 'View');
    site.show({ event: '2026-09' });
    return { site, walk, order };
  };

  test('leaves that stop in the walk of the others, where it stood', () => {
    const { site, walk, order } = keptOfPushes();
    expect(order).toContain('found');
    expect(walk.stops.map(({ made }) => made)).toEqual([...order, null]);
    const ids = site.site.views.map(({ id }) => id);
    expect(ids.slice(0, MADE_STOPS.length)).toEqual(MADE_STOPS);
    const file = releasedPackage(site.package, walk.stops, new Set(['2025-09', '2026-09']));
    expect(tableIds(file)).toContain('found');
  });

  test('leaves it in its place, reworded or hidden, where somebody changed that', () => {
    const { walk, order } = keptOfPushes((walk) => {
      walk.move('found', -1);
      walk.reword('found', { title: 'In September' });
    });
    expect(walk.stops.map(({ made }) => made)).toEqual([...order, null]);
    expect(walk.stops.find(({ made }) => made === 'found')?.title).toBe('In September');

    const hidden = keptOfPushes((walk) => walk.hide('found', true));
    expect(hidden.walk.stops.find(({ made }) => made === 'found')?.hidden).toBe(true);
    hidden.site.show({ event: '2025-09' });
    const file = releasedPackage(hidden.site.package, hidden.walk.stops, new Set(['2025-09']));
    expect(tableIds(file)).not.toContain('found');
  });

  test('goes with Remove, and takes nothing with it', () => {
    const { walk, order } = keptOfPushes();
    walk.remove(walk.stops.at(-1)?.id ?? '');
    expect(walk.stops.map(({ made }) => made)).toEqual(order);
  });
});

describe('a kept view that is edited', () => {
  test('shows another event, analyte and section, and keeps its camera', () => {
    const { walk } = opened();
    walk.keep(WINDOW, 'View');
    const kept = walk.stops.at(-1);
    if (!kept) throw new Error('no stop');
    const view = {
      ...kept.view,
      shown: { ...kept.view.shown, event: '2026-03', analyte: 'Benzene' },
      section: true as const,
      cut: { line: 'SEC-A', corridor: 20 },
    };
    walk.reword(kept.id, { shown: JSON.stringify(view) });
    expect(walk.stops.at(-1)?.view).toEqual(view);
  });

  test('keeps the paragraphs of its words', () => {
    const { walk } = opened();
    walk.keep(WINDOW, 'View');
    const id = walk.stops.at(-1)?.id ?? '';
    walk.reword(id, { words: 'One.\n\nTwo.\nThree.' });
    expect(walk.stops.at(-1)?.sentences).toEqual([['One.'], ['Two.'], ['Three.']]);
  });
});

test('another event told of leaves the room at the stop it is at, though that event has a stop less', () => {
  const { site, walk } = opened();
  site.show({ event: '2026-09' });
  walk.start();
  walk.go(walk.told.findIndex(({ made }) => made === 'exceeds'));
  walk.tellOf('2025-09');
  expect(walk.stop?.made).toBe('exceeds');
  expect(walk.told.some(({ made }) => made === 'found')).toBe(false);
  expect(site.shown.event).toBe('2025-09');
});

test('Check and walk ask for the edge within the same distance, round in the site’s own unit', () => {
  for (const [folder, unit, out, down] of [
    ['osier-bend', 'us-ft', 100, 20],
    ['quellmoor', 'm', 30, 6],
  ] as const) {
    const { package: given } = openFolder(`demo-sites/${folder}`);
    const site = new OpenSite({ package: given, problems: [] });
    const { within, below } = resultsViewOf(site);
    expect(inUnits(metres(within), unit)).toBeCloseTo(out, 9);
    expect(inUnits(metres(below), site.site.settings.verticalUnit)).toBeCloseTo(down, 9);
    expect(reachOf(site.site)).toMatchObject({ within, below });
  }
});
