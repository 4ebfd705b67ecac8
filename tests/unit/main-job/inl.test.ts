/**
 * Real wells, as the agency published them: J. C. Fisher, A. R. Trcka, K. C.
 * Treinen, 2024, inldata 1.2.5, U.S. Geological Survey (CC0), cut to the
 * south-west of the Idaho National Laboratory. A check of wiring, not of
 * physics: depths are from the land surface and screens are not given. Flow there
 * is generally to the south-west with gradients of a few feet per mile
 * (Bartholomay and others, USGS Scientific Investigations Reports; from memory).
 */
import { describe, expect, test } from 'vitest';
import { countsOf, judgedAgainst } from '../../../src/domain/lab/site-results';
import { cellText } from '../../../src/domain/site/table';
import { inUnits } from '../../../src/domain/units';
import { headsOf } from '../../../src/domain/water/event-heads';
import { flowOf } from '../../../src/domain/water/flow';
import { intervalOf } from '../../../src/domain/water/screen-interval';
import { openFolder } from '../folder';

const utm = openFolder('tests/fixtures/inl-southwest/site');
const statePlane = openFolder('tests/fixtures/inl-southwest/site-state-plane');
const EVENTS = ['Levels 2008', 'Levels 2019'] as const;

test('every row of the agency’s tables is read', () => {
  expect([...utm.problems, ...utm.site.problems]).toEqual([]);
});

test('all 124 published groundwater elevations come out to 0.01 ft', () => {
  const published = utm.package.tables.water_levels;
  if (!published) throw new Error('no levels');
  const heads = EVENTS.flatMap((event) => headsOf(utm.site, event));
  expect(heads).toHaveLength(124);
  for (const { head, reading } of heads) {
    const theirs = Number(cellText(published, reading.row - 2, 'sl_lev_va'));
    if (!head) throw new Error(`no head in row ${reading.row}`);
    expect(Math.abs(inUnits(head.value, 'ft') - theirs)).toBeLessThanOrEqual(0.01 + 1e-9);
  }
});

test('no interval is made up: every screen says it is not known', () => {
  for (const screen of utm.site.screens.values()) {
    const location = utm.site.locations.get(screen.location);
    if (!location) throw new Error(screen.id);
    expect(intervalOf(screen, location)).toEqual({ ok: false, problem: 'no-tip-depth' });
  }
});

describe('the 53 aquifer points of April 2008 (a regression)', () => {
  test.each([
    ['UTM zone 12N', utm, 226.0],
    ['State Plane Idaho East', statePlane, 225.2],
  ])('fit a plane of 0.000351 to the south-west in %s', (_, { site }, azimuth) => {
    const flow = flowOf(site, 'Levels 2008', 'aquifer', undefined, { weighted: false });
    expect(flow.fitted).toHaveLength(53);
    expect(flow.gradient?.value).toBeCloseTo(0.000351, 6);
    expect(Math.abs((flow.azimuthGrid?.value ?? NaN) - azimuth)).toBeLessThan(0.5);
    expect(flow.rSquared).toBeCloseTo(0.749, 3);
  });
  test('turn to one true direction from both grids', () => {
    const [one, other] = [utm, statePlane].map(
      ({ site }) => flowOf(site, 'Levels 2008', 'aquifer').azimuthTrue?.value ?? NaN,
    );
    expect(one).toBeCloseTo(other ?? NaN, 2);
  });
  test('are not one plane, and it is said', () => {
    const flow = flowOf(utm.site, 'Levels 2008', 'aquifer');
    expect(flow.isPlane).toBe(false);
    expect(flow.findings.join(' ')).toContain('do not lie on one plane');
  });
});

describe('results against the data set’s own levels', () => {
  const [set = ''] = utm.site.settings.levelSets;
  test('field samples: 24 exceed, 387 do not, 898 are not detected, none cannot be told', () => {
    const judged = judgedAgainst(utm.site, set, { fieldSamples: true });
    expect(countsOf(judged)).toMatchObject({
      exceeds: 24,
      'does-not-exceed': 387,
      'not-detected': 898,
      'cannot-tell': 0,
    });
    const exceeding = judged.filter(({ judged: { outcome } }) => outcome.verdict === 'exceeds');
    const of = (name: string) => exceeding.filter(({ row }) => row.analyte === name);
    expect(of('Carbon tetrachloride')).toHaveLength(23);
    expect(of('Trichloroethylene')).toHaveLength(1);
  });
  test('carbon tetrachloride is above 5 µg/L in exactly two wells', () => {
    const wells = judgedAgainst(utm.site, set, {
      fieldSamples: true,
      analyte: 'Carbon tetrachloride',
    }).filter(({ judged: { outcome } }) => outcome.verdict === 'exceeds');
    expect(new Set(wells.map(({ location }) => location?.id)).size).toBe(2);
  });
  test('with replicates and blanks: 26, 427, 1,005', () => {
    expect(countsOf(judgedAgainst(utm.site, set))).toMatchObject({
      exceeds: 26,
      'does-not-exceed': 427,
      'not-detected': 1005,
    });
  });
});
