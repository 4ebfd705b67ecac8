/** A new site: no ground surveyed, no well gauged; a boundary, planned points, and what is expected of the water. */
import { describe, expect, test } from 'vitest';
import { expectedWaterWords } from '../../../src/domain/layout/expected-water';
import { plannedPoints } from '../../../src/domain/layout/field-plan';
import { layingName, layingsOf, takeBackEdit } from '../../../src/domain/layout/layings';
import { chanceWords } from '../../../src/domain/layout/layout-words';
import { layPointsEdit } from '../../../src/domain/layout/lay-points';
import { besidePoints, easilyTakenFor } from '../../../src/domain/layout/near-planned';
import { planElsewhere } from '../../../src/domain/layout/replan';
import { screenLines } from '../../../src/domain/layout/screen-lines';
import {
  isChanged,
  setAll,
  setScreensEdit,
  type TypedRule,
} from '../../../src/domain/layout/set-screens';
import { pushSheet } from '../../../src/domain/layout/push-sheet';
import {
  containerTotals,
  containerWords,
  sampleCounts,
} from '../../../src/domain/layout/sample-counts';
import { containerLines } from '../../../src/domain/layout/crew-kit';
import {
  groundSaidOnce,
  groundWords,
  pushTable,
  stakeTable,
  withColumns,
} from '../../../src/domain/layout/sheet-tables';
import { apply } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import type { Settings } from '../../../src/domain/site/settings';
import { inUnits, inVolumeUnits, metres } from '../../../src/domain/units';
import { readSettings, writeSettings } from '../../../src/io/package/settings';
import { flatGrid, packageFrom, settingsIn } from '../site-from';
import { EQUIPMENT } from './equipment';

const PLANNED = [
  'id,kind,status,planned_easting,planned_northing,laid,note',
  'DP-001,direct push,planned,50,50,"1: grid, 30.0 ft",',
  'DP-002,direct push,planned,80,50,"1: grid, 30.0 ft","Shifted 7.1 ft toward 090° from E 73, N 50: in building Shed"',
] as const;

const opened = (settings: Partial<Settings> = {}, screens: readonly string[] = []) => {
  const given = packageFrom(
    { locations: PLANNED, ...(screens.length > 0 ? { screens } : {}) },
    settings,
  );
  return { given, site: readSite(given, flatGrid()) };
};

const STRADDLE: TypedRule = {
  kind: 'straddle',
  exposed: 4,
  amount: 1,
  part: 'top',
  at: 'top',
  layer: '',
};
const COMMON = {
  toolOffset: null,
  boringDepth: null,
  leastGap: metres(2, 'ft'),
  unit: 'ft',
} as const;
const WATER_AT_9 = { expectedWater: { depth: 9, error: 2 } };
const ft = (of: number | null | undefined) => inUnits(metres(of ?? NaN), 'ft');

describe('water expected about 9 ft below ground, and nothing else known', () => {
  const { site } = opened(WATER_AT_9);
  const points = plannedPoints(site, null);

  test('a 4 ft screen 1 ft above it is open from 8 to 12 ft: by pencil', () => {
    const [set] = setAll(points, [STRADDLE], COMMON);
    const [line] = set ? screenLines(set, 'ft') : [];
    const { tip, top, base } = line?.screen ?? {};
    expect([tip, top, base].map((depth) => Number(ft(depth).toFixed(6)))).toEqual([12, 8, 12]);
    expect(line?.screen?.wetness).toBe('straddling');
    expect(line?.says).toBe('not set yet');
    expect(line?.screen?.work?.formula).toBe('water - above + exposed');
  });

  test('5 ft below it the top is at 14 ft; without it there is no screen to set', () => {
    const below: TypedRule = { ...STRADDLE, kind: 'below water', amount: 5 };
    const [set] = setAll(points, [below], COMMON);
    const [setting] = set?.made.settings ?? [];
    expect(setting?.ok && ft(setting.value.interval.depth.top.value)).toBeCloseTo(14, 9);
    const [none] = setAll(plannedPoints(opened().site, null), [below], COMMON);
    expect(none?.made.settings[0]).toMatchObject({ ok: false, problem: { kind: 'no-ground' } });
  });

  test.each([
    ['top', 10, 14],
    ['mid', 8, 12],
    ['base', 6, 10],
  ] as const)('a screen with its %s 10 ft below ground', (part, top, base) => {
    const rule: TypedRule = { ...STRADDLE, kind: 'depth', part, amount: 10 };
    const [set] = setAll(plannedPoints(opened().site, null), [rule], COMMON);
    const [line] = set ? screenLines(set, 'ft') : [];
    expect(ft(line?.screen?.top)).toBeCloseTo(top, 9);
    expect(ft(line?.screen?.base)).toBeCloseTo(base, 9);
  });

  test('the push sheet says where water is expected and the least purge: 3 columns of 3 ft in 1/2 inch', () => {
    const edit = setScreensEdit(setAll(points, [STRADDLE], COMMON), site, 'ft', null);
    const made = edit && apply(opened(WATER_AT_9).given, edit);
    if (!made?.ok) throw new Error('not set');
    const after = readSite(made.value, flatGrid());
    const rows = pushSheet(after, plannedPoints(after, null), EQUIPMENT);
    expect(ft(rows[0]?.depthToWater)).toBeCloseTo(9, 9);
    // 0.0408 d² gal/ft, d in inches: 231 in³ a gallon.
    expect(inVolumeUnits((rows[0]?.purge ?? NaN) as never, 'gal')).toBeCloseTo(
      3 * 3 * 0.04079992 * 0.25,
      5,
    );
    const units = { vertical: 'ft', grid: 'ft', volume: 'gal' } as const;
    const [first, second] = pushTable(rows, EQUIPMENT, units).rows;
    expect(first?.[7]).toBe('9.00');
    expect(first?.at(-2)).toMatch(/and a field duplicate; and MS and MSD: twice more of each$/);
    expect(second?.at(-2)).toMatch(/stake shifted 7\.1 ft toward 090°$/);
  });

  test('how far off it may be is said as it was typed', () => {
    expect(expectedWaterWords(null, WATER_AT_9.expectedWater, 'ft')).toBe(
      'water expected about 9.00 ft below ground ± 2.00 ft, as typed',
    );
    expect(expectedWaterWords(null, { depth: 9, error: null }, 'ft')).toMatch(/error not stated/);
    expect(expectedWaterWords(null, null, 'ft')).toBe('');
  });
});

describe('screens that are planned, opened again', () => {
  const screens = [
    'id,location,planned_tip_depth,planned_exposed_length,tool_offset',
    'S1,DP-001,11.3,4,0.3',
  ];
  const bottom: TypedRule = { ...STRADDLE, kind: 'bottom of boring' };

  test('are shown as set, whatever the rules in hand give', () => {
    const points = plannedPoints(opened({}, screens).site, null);
    const [set, without] = setAll(points, [bottom], COMMON);
    const [line] = set ? screenLines(set, 'ft') : [];
    expect([ft(line?.screen?.top), ft(line?.screen?.base)].map((n) => n.toFixed(2))).toEqual([
      '7.00',
      '11.00',
    ]);
    expect(line?.says).toBe('as set; these rules set none: the depth of the boring is not given');
    expect(without && screenLines(without, 'ft')[0]?.says).toMatch(/^Not set: the depth/);
  });

  test('the rules they were set by come back with the site', () => {
    const screenRules = { rules: [bottom], leastGap: 2, toolOffset: 0.3, boringDepth: 11.3 };
    const kept = writeSettings(settingsIn({ screenRules, ...WATER_AT_9 }));
    const back = readSettings({ downgradient: JSON.parse(JSON.stringify(kept)) });
    expect(back.problems).toEqual([]);
    expect(back.settings.screenRules).toEqual(screenRules);
    expect(back.settings.expectedWater).toEqual(WATER_AT_9.expectedWater);
    const spoilt = { ...kept, screenRules: { rules: [] }, expectedWater: { depth: '9' } };
    expect(readSettings({ downgradient: spoilt }).problems.map(({ column }) => column)).toEqual([
      'downgradient.screenRules',
      'downgradient.expectedWater',
    ]);
  });

  test('there is nothing to set until a rule, an offset or a length is another', () => {
    const points = plannedPoints(opened({}, screens).site, null);
    const given = (n: number) =>
      ({ value: metres(n, 'ft'), from: { kind: 'citation', text: 'typed' } }) as const;
    const common = { ...COMMON, toolOffset: given(0.3), boringDepth: given(11.3) };
    const [same] = setAll(points, [bottom], common);
    const [longer] = setAll(points, [{ ...bottom, exposed: 5 }], common);
    const [deeper] = setAll(points, [bottom], { ...common, boringDepth: given(12) });
    expect(same && isChanged(same, common.toolOffset)).toBe(false);
    expect(same && isChanged(same, given(0.5))).toBe(true);
    expect(longer && isChanged(longer, common.toolOffset)).toBe(true);
    expect(deeper && isChanged(deeper, common.toolOffset)).toBe(true);
  });
});

describe('the sheets of a new site', () => {
  test('say once that no ground is known, and in a file on what the numbers stand', () => {
    const { site } = opened();
    const points = plannedPoints(site, null);
    const once = groundSaidOnce(points);
    expect(once).toBe('ground not known: 0 points surveyed, three are needed');
    expect(points.map((point) => groundWords(point, 'ft', once))).toEqual([
      'not known',
      'not known',
    ]);
    const units = { vertical: 'ft', grid: 'ft', volume: 'gal' } as const;
    const near = points.map((point) => ({ point, near: [] }));
    const table = stakeTable(near, site, '2026-05-31', units, () => [-86.1, 40.05]);
    const { columns, rows } = withColumns(table, { Grid: 'Yard grid' });
    expect(columns.map(({ name }) => name).slice(3, 5)).toEqual(['Latitude', 'Longitude']);
    expect(rows[1]?.slice(3, 5)).toEqual(['40.0500000', '-86.1000000']);
    expect(rows[1]).toContain('shifted 7.1 ft toward 090°');
    expect(rows.map((row) => row.at(-1))).toEqual(['Yard grid', 'Yard grid']);
  });

  test('count vials for spikes and blanks: 3 × (12 + 2 + 2 + 1 + 1) for volatiles, no trip blank of metals', () => {
    const counts = sampleCounts(12, 1, 1, {
      name: 'as typed',
      fieldDuplicate: 10,
      matrixSpike: 20,
      tripBlank: true,
      equipmentBlank: true,
      source: 'as typed',
    });
    const lines = containerLines(
      'VOCs: 3 × 40 mL vial, HCl\nMetals: 1 × 250 mL\nSVOCs: 2 × 1 L amber',
    );
    expect(containerTotals(lines, counts).map(({ total }) => total)).toEqual([54, 17, 34]);
    const [volatiles] = containerTotals(lines, counts);
    expect(volatiles && containerWords(volatiles)).toBe(
      'VOCs, 3 × 40 mL vial, HCl: 54 in all, 3 for each of field samples 12 + field duplicates 2 + MS and MSD 2 + equipment blanks 1 + trip blanks 1',
    );
  });
});

test('trying shows neither "always" nor "never": 20000 hits of 20000 are more than 99.9 %', () => {
  const tried = (hits: number) => ({
    chance: hits / 20_000,
    standardError: 0.00007,
    hits,
    trials: 20_000,
  });
  expect(chanceWords(tried(20_000))).toBe('more than 99.9 %');
  expect(chanceWords(tried(0))).toBe('less than 0.1 %');
  expect(chanceWords({ ...tried(14_240), standardError: 0.0032 })).toBe('71.2 % ± 0.3 %');
});

describe('a grid over points that are there', () => {
  test('stakes within half a spacing of them are found, the closest pair first', () => {
    const stakes = [
      [0, 0],
      [30, 0],
      [60, 4],
    ].map(([x = 0, y = 0]) => ({ at: [x, y] as const }));
    const there = [
      { id: 'DP-001', at: [33, 4] as const },
      { id: 'DP-002', at: [60, 0] as const },
      { id: 'DP-003', at: [0, 15] as const },
    ];
    expect(besidePoints(stakes, there, 15).map(({ point, distance }) => [point, distance])).toEqual(
      [
        ['DP-002', 4],
        ['DP-001', 5],
      ],
    );
  });

  test('a name that is easily taken for one in use is named', () => {
    const named = ['DP-01', 'dp 10', 'DP-12', 'DP-100'].map((name) => ({ name }));
    expect(easilyTakenFor(named, ['DP-001', 'DP-10', 'MW-12'])).toEqual([
      ['DP-01', 'DP-001'],
      ['dp 10', 'DP-10'],
    ]);
  });

  test('a laying is taken back in one step, with its screens, but for a point that was moved', () => {
    const { given, site } = opened({}, [
      'id,location,planned_tip_depth,planned_exposed_length',
      'S1,DP-001,11,4',
      'S2,DP-002,11,4',
    ]);
    expect(layingName(site, 'grid, 60.0 ft')).toBe('2: grid, 60.0 ft');
    const second = site.locations.get('DP-002');
    const moved =
      second &&
      planElsewhere(site, second, [90, 50], 'fence', { who: '', when: '2026-05-31T10:00' });
    const made = moved && apply(given, moved);
    if (!made?.ok) throw new Error('not moved');
    const after = readSite(made.value, flatGrid());
    const [laying] = layingsOf(after);
    expect(laying?.points.map(({ id }) => id)).toEqual(['DP-001']);
    const edit = laying && takeBackEdit(after, laying);
    const taken = edit && apply(made.value, edit);
    if (!taken?.ok) throw new Error('not taken back');
    const left = readSite(taken.value, flatGrid());
    expect([...left.locations.keys(), ...left.screens.keys()]).toEqual(['DP-002', 'S2']);
  });

  test('each laying writes its name with its points', () => {
    const edit = layPointsEdit(
      [{ at: [1, 2], counts: { row: 1 }, blocks: [], shift: null, name: 'DP-9' }],
      '',
      'ft',
      '3: rings',
      [],
    );
    expect(edit).toMatchObject({ rows: [{ id: 'DP-9', laid: '3: rings' }] });
  });
});
