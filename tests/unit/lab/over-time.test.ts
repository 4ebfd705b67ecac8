import { describe, expect, test } from 'vitest';
import { linear, roundSteps } from '../../../src/domain/chart-scale';
import { dayAt, seriesOf, yearsAt } from '../../../src/domain/lab/over-time';
import { summarySentence } from '../../../src/domain/lab/summary-words';
import { timeChart } from '../../../src/domain/lab/time-chart';
import { trendOf } from '../../../src/domain/lab/trend';
import { siteFrom } from '../site-from';

const DAYS = ['2021-05-01', '2022-05-01', '2023-05-01', '2024-05-01', '2025-05-01'];
const VALUES = ['40,µg/L,,1', '0.03,mg/L,,1', '25,µg/L,U,25', '12,µg/L,J,1', '8,µg/L,,1'];
const site = siteFrom({
  locations: ['id,easting,northing,kind,status', 'MW-1,0,0,monitoring well,installed'],
  screens: ['id,location', 'MW-1,MW-1'],
  events: ['id,first_day,last_day', ...DAYS.map((day, i) => `E${i},${day},${day}`)],
  samples: ['id,screen,event,kind', ...DAYS.map((_, i) => `S${i},MW-1,E${i},field sample`)],
  results: [
    'sample,cas,analyte,value,unit,lab_qualifier,reporting_limit',
    ...VALUES.map((value, i) => `S${i},71-43-2,Benzene,${value}`),
    'S4,108-88-3,Toluene,1,µg/L,,1',
  ],
  screening_levels: ['set,cas,analyte,value,unit', 'One,71-43-2,Benzene,0.005,mg/L'],
});
const [series, ...others] = seriesOf(site, 'One');

describe('benzene in one well over five years', () => {
  test('is one series in one unit; an analyte of a single event is none', () => {
    expect(others).toEqual([]);
    expect(series).toMatchObject({ screen: 'MW-1', analyte: 'Benzene', unit: 'µg/L', without: 0 });
    expect(series?.points.map(({ value, detected }) => [value, detected])).toEqual([
      [40, true],
      [30, true],
      [25, false],
      [12, true],
      [8, true],
    ]);
    expect(series?.level?.amount).toBe(5);
  });

  // By hand: <25 makes 12 and 8 equal to it. Of ten pairs seven fall and three tie.
  test('falls by S = −7: what lies under the highest limit counts as equal', () => {
    expect(trendOf(series!.points).test.s).toBe(-7);
  });

  test('is drawn with the non-detect as a span, the line broken there, and every mark in words', () => {
    const chart = timeChart(series!, 400, 200);
    expect(chart.marks.map(({ kind }) => kind)).toEqual([
      'detected',
      'detected',
      'not detected',
      'detected',
      'detected',
    ]);
    expect(chart.marks[2]?.says).toBe('2023-05-01: not detected, limit 25.0 µg/L');
    expect(chart.lines.map((line) => line.length)).toEqual([2, 2]);
    expect(chart.level).toBeGreaterThan(chart.marks[4]!.y);
    expect(chart.xTicks.map(({ text }) => text)).toEqual(['2022', '2023', '2024', '2025']);
    for (const { x, y } of chart.marks) {
      expect(x).toBeGreaterThan(chart.frame.left);
      expect(x).toBeLessThan(chart.frame.right);
      expect(y).toBeGreaterThanOrEqual(chart.frame.top);
      expect(y).toBeLessThanOrEqual(chart.frame.bottom);
    }
  });

  test('is summed up with nothing in place of the non-detect', () => {
    expect(summarySentence(series!)).toMatch(
      /^Detected in 4 of 5; by Kaplan–Meier median 12.0 µg\/L/,
    );
    const none = { ...series!, points: series!.points.filter(({ detected }) => !detected) };
    expect(summarySentence(none)).toContain('nothing more can be said');
  });
});

test('days and years go there and back', () => {
  for (const day of DAYS) expect(dayAt(yearsAt(day) ?? 0)).toBe(day);
  expect(yearsAt('some day')).toBeNull();
});

test('axes have round steps that hold the data', () => {
  expect(roundSteps(0, 7.3, 4)).toEqual([0, 2, 4, 6, 8]);
  expect(roundSteps(0, 0, 4).every(Number.isFinite)).toBe(true);
  expect(linear([3, 3], [0, 10])(3)).toBe(5);
});
