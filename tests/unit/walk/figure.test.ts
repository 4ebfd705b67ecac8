/** Sheets at a true scale. Paper sizes are those of ANSI/ASME Y14.1 and ISO 216. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  PAPERS,
  SCALES,
  scaleThatFits,
  scaleWords,
  sheetAreas,
  windowAt,
  type Paper,
} from '../../../src/domain/walk/figure';
import { sheetFindings } from '../../../src/domain/walk/figure-checks';
import { excludedNotes, footNotes } from '../../../src/domain/walk/figure-notes';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { SHOWN_AT_FIRST } from '../../../src/domain/site/shown';
import { sheetWords, wrapped } from '../../../src/map/figure-layout';
import { textWidth } from '../../../src/map/scene/text-width';
import { openFolder } from '../folder';

const FORM = {
  kind: 'map',
  line: null,
  exaggeration: null,
  table: 'heads',
  boxes: false,
  paper: 'tabloid',
  upright: false,
  ratio: 600,
  scaleUnit: 'ft',
  title: 'Water levels',
  number: '1',
  project: 'P',
  preparer: 'A.',
  reviewer: 'B.',
  revision: '0',
} as const;

test('one inch is 50 ft at 1:600', () => {
  expect(scaleWords(600, 'ft')).toBe('1 inch = 50 ft (1:600)');
  expect(scaleWords(500, 'm')).toBe('1:500');
});

test('a map 50.8 mm wide at 1:600 holds 100 ft of ground', () => {
  const { west, east, south, north } = windowAt([0, 0], { width: 50.8, height: 25.4 }, 600, 1);
  expect(east - west).toBeCloseTo(100 * 0.3048, 9);
  expect(north - south).toBeCloseTo(50 * 0.3048, 9);
});

test('the scale is that of the ground, not of the grid', () => {
  const { west, east } = windowAt([0, 0], { width: 1000, height: 1000 }, 1000, 0.9996);
  expect(east - west).toBeCloseTo(999.6, 9);
});

test('on every paper, either way up, map and words lie on the sheet and not on one another', () => {
  for (const paper of Object.keys(PAPERS) as Paper[])
    for (const upright of [true, false]) {
      const { map, words } = sheetAreas({ paper, upright });
      const beside = words.left >= map.left + map.width - 1e-9;
      const below = words.top >= map.top + map.height - 1e-9;
      expect(beside || below).toBe(true);
      const [short, long] = PAPERS[paper];
      expect(words.left + words.width).toBeLessThanOrEqual((upright ? short : long) - 9.99);
      expect(words.top + words.height).toBeLessThanOrEqual((upright ? long : short) - 9.99);
    }
});

test('the scale that fits holds the site, and the next larger one does not', () => {
  fc.assert(
    fc.property(fc.double({ min: 5, max: 400, noNaN: true }), (side) => {
      const whole = { west: 0, south: 0, east: side, north: side };
      const area = { width: 300, height: 200 };
      const ratio = scaleThatFits(whole, area, 'm', 1);
      const holds = (at: number) => (area.height / 1000) * at >= side - 1e-9;
      expect(holds(ratio)).toBe(true);
      const before = SCALES.m[SCALES.m.indexOf(ratio as 100) - 1];
      if (before !== undefined) expect(holds(before)).toBe(false);
    }),
  );
});

describe('the words of a sheet of Osier Bend, September 2026', () => {
  const { site } = openFolder('demo-sites/osier-bend');
  const heads = headsOf(site, '2026-09');
  const shown = { ...SHOWN_AT_FIRST, event: '2026-09', zone: 'shallow' };
  const figure = {
    site,
    shown,
    heads,
    flow: flowOf(site, '2026-09', 'shallow', heads),
    interval: 1,
    north: 'True north is 0.37° west of it',
  };
  const foot = footNotes(FORM, figure)
    .map(({ text }) => text)
    .join('\n');

  test('give datum, units, scale, contour interval, direction with its error, and that it is interpretive', () => {
    for (const words of [
      'NAVD 88',
      'ftUS',
      '1:600',
      '1.00 ft',
      '106° ±',
      'Interpretive',
      'true north'.replace('t', 'T'),
    ])
      expect(foot).toContain(words);
  });

  test('say at Quellmoor that the direction rests on one well, and so do the doubts before it goes out', () => {
    const { site: quellmoor } = openFolder('demo-sites/quellmoor');
    const gauged = headsOf(quellmoor, '2026-05');
    const sheet = {
      ...figure,
      site: quellmoor,
      shown: { ...shown, event: '2026-05', zone: 'sand' },
      heads: gauged,
      flow: flowOf(quellmoor, '2026-05', 'sand', gauged),
    };
    const says = 'rests on one well, W-6: without that well no direction could be told.';
    const notes = (of: typeof figure) => footNotes(FORM, of).map(({ text }) => text).join('\n'); // prettier-ignore
    const doubts = (of: typeof figure) =>
      sheetFindings(FORM, of, {
        extent: { west: -1e9, south: -1e9, east: 1e9, north: 1e9 },
        findings: [],
        wordsCut: false,
      })
        .map((one) => one.says)
        .join('\n');
    for (const words of [notes, doubts]) {
      expect(words(sheet)).toContain(says);
      expect(words(figure)).not.toContain('rests on one well');
    }
    expect(doubts({ ...sheet, shown: { ...sheet.shown, arrow: false } })).not.toContain('rests on');
  });

  test('name the well with product whose density was not measured, and why it is out', () => {
    expect(excludedNotes(heads).join('\n')).toMatch(/MW-5: product floats/);
  });

  test('stay in their column, and say so where they do not fit', () => {
    const text = { head: [], foot: footNotes(FORM, figure), scene: [] };
    const { lines, cut } = sheetWords(text, { width: 260, height: 900, columns: 1 });
    expect(cut).toBe(false);
    for (const { text: line, size, face } of lines)
      if (line.includes(' ')) expect(textWidth(line, size, face)).toBeLessThanOrEqual(260);
    expect(sheetWords(text, { width: 260, height: 60, columns: 1 }).cut).toBe(true);
    // Nearer together before anything is left off, and no nearer than they must be.
    const lowest = (height: number) => {
      const set = sheetWords(text, { width: 260, height, columns: 1 });
      return { cut: set.cut, y: Math.max(...set.lines.map(({ y }) => y)) };
    };
    const roomy = lowest(900).y;
    const crowded = lowest(Math.ceil(roomy) - 6);
    expect(crowded.cut).toBe(false);
    expect(crowded.y).toBeLessThan(roomy - 6);
  });

  test('are wrapped without losing a word', () => {
    expect(wrapped(foot, 120, 10, 'regular').join(' ')).toBe(foot.split(/\s+/).join(' '));
  });

  test('a sheet without a reviewer, with points off its edge, is held back with reasons', () => {
    const extent = { west: 0, south: 0, east: 1, north: 1 };
    const said = sheetFindings({ ...FORM, reviewer: ' ' }, figure, {
      extent,
      findings: [],
      wordsCut: true,
    });
    const all = said.map(({ says }) => says).join('\n');
    expect(all).toContain('Blank in the title block: reviewer.');
    expect(all).toContain('Off the sheet: MW-1');
    expect(said.filter(({ severity }) => severity === 'serious')).toHaveLength(1);
  });
});
