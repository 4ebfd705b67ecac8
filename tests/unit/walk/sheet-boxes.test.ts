/** Boxes of results on a sheet of the demo, laid out as the worker lays them out. */
import { describe, expect, test } from 'vitest';
import { judgedAgainst } from '../../../src/domain/lab/site-results';
import { SHOWN_AT_FIRST } from '../../../src/domain/site/shown';
import { pushTable } from '../../../src/domain/walk/report-tables';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { layoutSheetBoxes } from '../../../src/map/scene/box-layout';
import { pointsExtent } from '../../../src/map/scene/from-locations';
import { meet } from '../../../src/map/scene/place-labels';
import { inView, withRoom } from '../../../src/map/scene/scene';
import { wordsPlaced } from '../../../src/map/scene/svg';
import { widened } from '../../../src/map/camera';
import { placesIn } from '../../../src/map/site-scene';
import { readable, stopScene } from '../../../src/map/stop-scene';
import { columnsThatFit, tableOnSheets } from '../../../src/ui/figures/table-columns';
import { boxesAsked, boxesPlaced, SHEET_SHARE, sheetFurniture } from '../../../src/ui/figures/sheet-boxes'; // prettier-ignore
import { openFolder } from '../folder';

const { site } = openFolder('demo-sites/osier-bend');
const of = {
  event: '2026-09',
  zone: 'shallow',
  levelSet: 'Federal drinking water (40 CFR 141.61(a))',
};
const SIZE = [1292, 1000] as const;
const around = pointsExtent(placesIn(site));
if (!around) throw new Error('Osier Bend has points.');
const extent = widened(withRoom(around, 0.03, 5), SIZE);
const heads = headsOf(site, of.event);
const results = judgedAgainst(site, of.levelSet, { event: of.event, fieldSamples: true });
const shown = { ...SHOWN_AT_FIRST, ...of };
const flow = flowOf(site, of.event, of.zone, heads);
const drawing = { site, shown, heads, flow, results, construction: [] };
const full = stopScene(
  drawing,
  { made: null, view: { shown, points: 'all', contours: false, window: null } },
  null,
);
const taken = sheetFurniture(SIZE);
const scene = inView(
  readable(full, site, { seen: extent, size: SIZE, magnify: SHEET_SHARE, taken }),
  extent,
);

describe('boxes of results on a tabloid sheet', () => {
  const asked = boxesAsked(site, results, extent, SIZE, scene);
  const placed = boxesPlaced(asked, layoutSheetBoxes(asked.requests, asked.points, asked.window));

  test('all find room, one for each point sampled in the event', () => {
    expect(placed.without).toEqual([]);
    const sampled = new Set(results.flatMap(({ location }) => location?.id ?? []));
    expect(new Set(placed.boxes.map(({ who }) => who))).toEqual(sampled);
  });

  test('cover no head that is posted, wherever it stands', () => {
    const posted = wordsPlaced(
      scene,
      { extent, width: SIZE[0], height: SIZE[1] },
      SHEET_SHARE,
    ).filter(({ item }) => item.layer === 'posted-heads');
    expect(posted.length).toBeGreaterThanOrEqual(8);
    for (const { box, item } of posted)
      for (const { box: other, who } of placed.boxes)
        expect(meet(box, other), `${who} over ${item.who} ${item.text}`).toBe(false);
  });
});

test('amounts with their unit stand under one another by their ends, words by their beginnings', () => {
  const rows = [['MW-1', '14.14 ft'], ['MW-3', '9.68 ft'], ['MW-5', '']]; // prettier-ignore
  const { columns } = columnsThatFit({ columns: [{ name: 'Screen' }, { name: 'Depth' }] }, rows, 300); // prettier-ignore
  expect(columns.map(({ number }) => number)).toEqual([false, true]);
});

describe('a table on sheets', () => {
  const pushes = pushTable(site);
  const LETTER = { width: 185, height: 195 };
  const { pages } = tableOnSheets(pushes, LETTER);

  test('has every word of every cell, on more lines where a line is too narrow for them', () => {
    const set = pages.flat().map(({ cells }) => cells.map((lines) => lines.join(' ')));
    expect(set).toEqual(pushes.rows.map((row) => row.map((cell) => cell.split(/\s+/).join(' '))));
    expect(Math.max(...pages.flat().flatMap(({ cells }) => cells.map((lines) => lines.length)))).toBeGreaterThan(1); // prettier-ignore
  });

  test('goes on to another sheet where its rows reach the foot of one', () => {
    for (const { width, height } of [LETTER, { width: 330, height: 90 }]) {
      const set = tableOnSheets(pushes, { width, height });
      for (const page of set.pages)
        expect(page.reduce((sum, { high }) => sum + high, 0)).toBeLessThan((height * 96) / 25.4);
      expect(set.pages.flat()).toHaveLength(pushes.rows.length);
    }
    expect(tableOnSheets(pushes, { width: 330, height: 90 }).pages.length).toBeGreaterThan(1);
  });

  test('of no rows is one sheet', () => {
    expect(tableOnSheets({ ...pushes, rows: [] }, LETTER).pages).toEqual([[]]);
  });
});
