import { describe, expect, test } from 'vitest';
import { askedResults, ASKED_AT_FIRST } from '../../../src/domain/lab/asked-results';
import { withBoxAt } from '../../../src/domain/lab/lab-settings';
import {
  formsOf,
  heldBox,
  MOST_RESULTS,
  resultBoxes,
  SCREEN_BOX,
  SHEET_BOX,
} from '../../../src/map/scene/from-results';
import { openFolder } from '../folder';

const { site } = openFolder('demo-sites/osier-bend');
const boxes = resultBoxes(
  site,
  askedResults(site, 'Federal drinking water (40 CFR 141.61(a))', '2025-09', ASKED_AT_FIRST),
);

describe('boxes of results', () => {
  test('the worst point comes first, and no box holds more than it should', () => {
    expect(boxes[0]?.worst[0]).toMatchObject({ verdict: 'exceeds' });
    for (const { worst } of boxes) expect(worst.length).toBeLessThanOrEqual(MOST_RESULTS);
  });

  test('a point with several screens names each over its results', () => {
    const box = boxes.find(({ who }) => who === 'DP-03');
    const screens = box?.lines.flatMap((line) => (line.kind === 'screen' ? line.text : []));
    expect(screens).toEqual(['DP-03-S1', 'DP-03-S2']);
  });

  test('shorter forms keep the worst, and what is left out is counted in every form', () => {
    for (const box of boxes) {
      const all = box.worst.length + box.more;
      for (const form of formsOf(box)) {
        const results = form.lines.filter(({ kind }) => kind === 'result');
        expect(results.length + form.more).toBe(all);
        expect(results).toContain(box.worst[0]);
        expect(form.lines.at(-1)?.kind).toBe('result');
      }
    }
  });

  test('every line carries its unit', () => {
    for (const { worst } of boxes)
      for (const line of worst)
        expect(line.text).toMatch(/ (µg\/L|mg\/L|µg\/kg|blank)|limit given/);
  });
});

describe('a box put somewhere by hand', () => {
  const at = (settings: typeof site.settings) => ({ ...site, settings });

  test('stays with the site, at the size of the screen and smaller on a sheet, until let go', () => {
    const moved = at({ ...site.settings, ...withBoxAt(site.settings, 'DP-03', [30, -48.26]) });
    expect(heldBox(moved, 'DP-03', SCREEN_BOX)).toEqual([30, -48.3]);
    const [right, down] = heldBox(moved, 'DP-03', SHEET_BOX) ?? [];
    expect([right, down]).toEqual([20, expect.closeTo(-32.2, 9)]);
    expect(heldBox(moved, 'DP-04', SCREEN_BOX)).toBeUndefined();
    expect(heldBox(moved, 'constructor', SCREEN_BOX)).toBeUndefined();
    const back = at({ ...moved.settings, ...withBoxAt(moved.settings, 'DP-03', null) });
    expect(heldBox(back, 'DP-03', SCREEN_BOX)).toBeUndefined();
    expect(back.settings.lab).toEqual({});
  });
});
