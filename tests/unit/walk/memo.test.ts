/**
 * The memo of an event. What is expected is the hand work in the README of the
 * demo site: lists "What exceeds, by analyte" and "What cannot be told", and
 * the plane of 2025-09.
 */
import { describe, expect, test } from 'vitest';
import { answersFor } from '../../../src/app/answers-for';
import { SHOWN_AT_FIRST } from '../../../src/domain/site/shown';
import { memoFigures, memoStops, unsettledTable } from '../../../src/domain/walk/memo';
import { said, type Stop } from '../../../src/domain/walk/stop';
import { usualSurface } from '../../../src/domain/walk/usual-surface';
import { resultsWords, viewWords } from '../../../src/domain/walk/view-words';
import { direction } from '../../../src/domain/show';
import { frameFor } from '../../../src/ui/figures/memo-frame';
import { openFolder } from '../folder';

const { site } = openFolder('demo-sites/osier-bend');
const levelSet = 'Federal drinking water (40 CFR 141.61(a))';
const shownIn = (event: string, analyte: string | null = null) => ({
  ...SHOWN_AT_FIRST,
  event,
  zone: 'shallow',
  levelSet,
  analyte,
});

describe('the table of what exceeds', () => {
  test('lists every analyte of the event and says which event, whatever the desk shows', () => {
    const table = unsettledTable(site, shownIn('2026-09', 'Trichloroethylene (TCE)'));
    expect(table.title).toContain('every analyte: Autumn gauging, low water, 2026-09-22');
    const rows = table.rows.map(([point, , analyte, result]) => `${point} ${analyte} ${result}`);
    expect(rows.map((row) => row.replace(/ [µu]g\/L$/, '')).toSorted()).toEqual([
      'MW-3 Trichloroethylene (TCE) 8.2',
      'PZ-7 Benzene 68',
      'PZ-7 Trichloroethylene (TCE) 37',
      'PZ-7 Vinyl chloride 2.1',
    ]);
  });

  test('holds what cannot be told beside what exceeds', () => {
    const { rows } = unsettledTable(site, shownIn('2025-09'));
    const told = (verdict: RegExp) => rows.filter((row) => verdict.test(row[7] ?? ''));
    // DP-03-S1 three times, DP-04-S1, DP-05-S2; a rejected, a not comparable and a blank one.
    expect(told(/^limit exceeds level/)).toHaveLength(5);
    expect(told(/rejected|not comparable|no result/)).toHaveLength(3);
  });
});

describe('a figure of a stop', () => {
  test('is drawn of its own event: direction, heads and results', () => {
    const { flow, heads, results } = answersFor(site, shownIn('2025-09'));
    expect(direction(flow?.azimuthGrid?.value ?? 0)).toBe('112°');
    const top = heads.find(({ screen }) => screen.id === 'MW-1')?.head?.value ?? 0;
    expect(top / 0.3048).toBeCloseTo(960.53, 2);
    const exceeding = results.filter(({ judged }) => judged.outcome.verdict.startsWith('exceeds'));
    const points = new Set(exceeding.map(({ location }) => location?.id));
    expect(points.size).toBeGreaterThan(21);
    expect(answersFor(site, shownIn('2026-09')).flow?.event).toBe('2026-09');
  });

  test('is drawn of its own analyte', () => {
    const { results } = answersFor(site, shownIn('2025-09', 'Trichloroethylene (TCE)'));
    const exceeding = results.filter(({ judged }) => judged.outcome.verdict.startsWith('exceeds'));
    expect(new Set(exceeding.map(({ location }) => location?.id)).size).toBe(21);
    expect(new Set(results.map(({ row }) => row.analyte)).size).toBe(1);
  });

  test('has contours where a direction is resolved, and none where it is not', () => {
    const made = usualSurface(site, answersFor(site, shownIn('2025-09')).flow);
    expect(made?.interval).toBeGreaterThan(0);
    expect(made?.surface.pieces.length).toBeGreaterThan(2);
    const { site: quellmoor } = openFolder('demo-sites/quellmoor');
    const october = answersFor(quellmoor, { ...SHOWN_AT_FIRST, event: '2025-10', zone: 'sand' });
    expect(usualSurface(quellmoor, october.flow)).toBeNull();
    expect(usualSurface(site, null)).toBeNull();
  });

  test('says in words what it shows', () => {
    const shown = shownIn('2025-09', 'Benzene');
    expect(viewWords(site, { shown, contours: true, section: true })).toBe(
      `Push campaign and first gauging, 2025-09-15 to 2025-09-19; shallow zone; heads; direction of flow; contours; results (Benzene) against ${levelSet}; section`,
    );
    expect(
      resultsWords(
        { analyte: null },
        {
          allEvents: true,
          zone: 'gravel',
          matrix: null,
          samples: 'all samples',
          group: 'aromatics',
        },
      ),
    ).toBe('aromatics, of every event, gravel zone alone, duplicates and blanks too');
  });
});

describe('the stops of a memo', () => {
  const stop = (id: string, made: Stop['made'], words: string): Stop => ({
    id,
    made,
    title: id,
    sentences: [said(words)],
    notes: '',
    hidden: false,
    view: { shown: SHOWN_AT_FIRST, points: 'all', contours: false, window: null },
  });
  const told = [
    stop('where', 'where', 'Here.'),
    stop('way', 'way', 'East.'),
    stop('View 10', null, ' '),
  ];

  test('are those with something to say, and a kept view without words is a figure and no heading', () => {
    expect(memoStops(told).map(({ id }) => id)).toEqual(['way']);
    expect(memoFigures(told).map(({ id }) => id)).toEqual(['way', 'View 10']);
  });
});

test('the frame of a figure is as tall as what it shows, within what a page holds', () => {
  const extent = (wide: number, tall: number) => ({ west: 0, south: 0, east: wide, north: tall });
  expect(frameFor(extent(200, 100))).toEqual([760, 380]);
  expect(frameFor(extent(400, 100))).toEqual([760, 300]);
  expect(frameFor(extent(100, 400))).toEqual([760, 470]);
  expect(frameFor(null)).toEqual([760, 470]);
});
