import { describe, expect, test } from 'vitest';
import {
  clearanceReason,
  clearedOn,
  clearedWords,
  holdsOn,
} from '../../../src/domain/layout/cleared';
import { plannedPoints } from '../../../src/domain/layout/field-plan';
import { layPointsEdit } from '../../../src/domain/layout/lay-points';
import { pushSheet } from '../../../src/domain/layout/push-sheet';
import {
  isMove,
  setAll,
  setScreensEdit,
  type TypedRule,
} from '../../../src/domain/layout/set-screens';
import { pushTable, stakeTable, tableText } from '../../../src/domain/layout/sheet-tables';
import { shifted, stakesAt } from '../../../src/domain/layout/stakes';
import { apply } from '../../../src/domain/site/edits/apply';
import { readSite } from '../../../src/domain/site/site';
import { flowOf } from '../../../src/domain/water/flow';
import { inUnits, inVolumeUnits, metres } from '../../../src/domain/units';
import { drawn, planOf } from '../layout/ground';
import { flatGrid, packageFrom, siteFrom } from '../site-from';
import { EQUIPMENT } from './equipment';

/**
 * Three wells, water on a plane falling 1 ft in 100 ft to the east, ground
 * level at 100; a point planned between them and one beyond them.
 */
const LINES = {
  locations: [
    'id,easting,northing,ground_elevation,ground_how,kind,status,planned_easting,planned_northing',
    'MW-1,0,0,100.00,surveyed,monitoring well,installed,,',
    'MW-2,200,0,100.00,surveyed,monitoring well,installed,,',
    'MW-3,0,200,100.00,surveyed,monitoring well,installed,,',
    'DP-1,,,,,direct push,planned,50,50',
    'DP-2,,,,,direct push,planned,500,500',
  ],
  screens: [
    'id,location,tip_depth,exposed_length,zone',
    'MW-1,MW-1,20,10,A',
    'MW-2,MW-2,20,10,A',
    'MW-3,MW-3,20,10,A',
  ],
  measuring_points: [
    'id,screen,elevation,accuracy',
    'M1,MW-1,102.00,0.01',
    'M2,MW-2,102.00,0.01',
    'M3,MW-3,102.00,0.01',
  ],
  events: ['id,first_day,last_day', 'E,2026-04-01,2026-04-01'],
  water_levels: [
    'screen,event,measuring_point,time,depth_to_water,status',
    'MW-1,E,M1,2026-04-01T10:00,10.00,static',
    'MW-2,E,M2,2026-04-01T10:10,12.00,static',
    'MW-3,E,M3,2026-04-01T10:20,10.00,static',
  ],
} as const;

const RULE: TypedRule = {
  kind: 'straddle',
  exposed: 4,
  amount: 1,
  part: 'mid',
  at: 'top',
  layer: '',
};

const COMMON = {
  toolOffset: null,
  boringDepth: null,
  leastGap: metres(2, 'ft'),
  unit: 'ft',
} as const;

const ft = (of: number | null | undefined) => inUnits(metres(of ?? NaN), 'ft');

describe('planned points against ground and water', () => {
  const site = siteFrom(LINES);
  const points = plannedPoints(site, flowOf(site, 'E', 'A'));

  test('ground and water are expected between what was measured, by the plane through it', () => {
    const [inside] = points;
    // Worked by hand: the plane is 92 − east / 100, so 91.5 at 50 east; the ground is level.
    expect(inside?.water.ok && ft(inside.water.value.value)).toBeCloseTo(91.5, 9);
    expect(inside?.ground.ok && ft(inside.ground.value.elevation.value)).toBeCloseTo(100, 9);
    expect(inside?.ground.ok && inside.ground.value.how).toBe('estimated');
    expect(inside?.ground.ok && inside.ground.value.nearest?.id).toBe('MW-1');
  });

  test('beyond the wells neither is invented', () => {
    expect(points[1]?.ground).toMatchObject({ ok: false });
    expect(points[1]?.water).toMatchObject({ ok: false });
  });

  test('a straddling screen of 4 ft, 1 ft above water 8.5 ft deep, has its tip at 11.5 ft', () => {
    const [set, beyond] = setAll(points, [RULE], COMMON);
    const setting = set?.made.settings[0];
    expect(setting?.ok && ft(setting.value.tipDepth.value)).toBeCloseTo(11.5, 9);
    expect(setting?.ok && setting.value.water.ok && setting.value.water.value.wetness).toBe(
      'straddling',
    );
    expect(beyond?.made.settings[0]).toMatchObject({ ok: false, problem: { kind: 'no-ground' } });
  });
});

describe('screens written and moved', () => {
  const written = () => {
    const before = packageFrom(LINES);
    const site = readSite(before, flatGrid());
    const set = setAll(plannedPoints(site, flowOf(site, 'E', 'A')), [RULE], COMMON);
    const edit = setScreensEdit(set, site, 'ft', null);
    const made = edit && apply(before, edit);
    if (!made?.ok) throw new Error('not written');
    return made.value;
  };

  test('they are added under names of their own, and setting them again replaces them', () => {
    const once = written();
    const site = readSite(once, flatGrid());
    expect(site.screens.get('DP-1-1')?.planned_tip_depth?.text).toBe('11.50');
    const set = setAll(plannedPoints(site, flowOf(site, 'E', 'A')), [RULE], COMMON);
    expect(set[0]?.moves.some(isMove)).toBe(false);
    const edit = setScreensEdit(set, site, 'ft', null);
    const twice = edit && apply(once, edit);
    expect(twice?.ok && twice.value.tables.screens?.size).toBe(4);
  });

  test('a well surveyed 0.60 ft higher moves the screen by its share, and that is said', () => {
    const made = apply(written(), {
      kind: 'write-cells',
      table: 'locations',
      cells: [{ row: 0, column: 'ground_elevation', text: '100.60' }],
    });
    if (!made.ok) throw new Error(made.problem);
    const site = readSite(made.value, flatGrid());
    const set = setAll(plannedPoints(site, flowOf(site, 'E', 'A')), [RULE], COMMON);
    // DP-1 is a quarter of the way to MW-2 and to MW-3: half the weight is MW-1's.
    expect(ft(set[0]?.moves[0])).toBeCloseTo(0.3, 6);
    expect(isMove(set[0]?.moves[0] ?? null)).toBe(true);
  });
});

describe('the push sheet', () => {
  const before = packageFrom({
    ...LINES,
    screens: [
      'id,location,tip_depth,exposed_length,zone,planned_tip_depth,planned_exposed_length',
      ...LINES.screens.slice(1).map((line) => `${line},,`),
      'DP-1-1,DP-1,,,,11.5,4',
    ],
  });
  const site = readSite(before, flatGrid());
  const points = plannedPoints(site, flowOf(site, 'E', 'A'));
  const rows = pushSheet(site, points, EQUIPMENT);

  test('rods, tubing, volumes, sample and sealing of one screen, worked by hand', () => {
    const [row] = rows;
    // 11.5 ft and 1 ft above ground, less 4 ft of tool: 8.5 ft, so three rods of 4 ft.
    expect(row?.rods?.rods).toBe(3);
    expect(ft(row?.tubing?.length)).toBeCloseTo(16.5, 9);
    // 1/4 in holds 0.002550 gal/ft, 1/2 in 0.010200 gal/ft: 0.0408 d² (d in inches, 231 in³ a gallon).
    const gallons = (of: number | null | undefined) => inVolumeUnits((of ?? NaN) as never, 'gal');
    expect(gallons(row?.tubing?.volume)).toBeCloseTo(16.5 * 0.04079992 * 0.0625, 5);
    // Three times 3 ft of water in the screen.
    expect(gallons(row?.purge)).toBeCloseTo(3 * 3 * 0.04079992 * 0.25, 5);
    expect(gallons(row?.sealing)).toBeCloseTo(1.2 * 11.5 * 0.04079992 * 2.25, 4);
    expect(row?.sample).toBe('DP-1-8-12-20260531');
    expect(row?.duplicate).toBe(true);
  });

  test('a point with no screen is on the sheet, and every number column says its unit', () => {
    const units = { vertical: 'ft', grid: 'ft', volume: 'gal' } as const;
    const table = pushTable(rows, EQUIPMENT, units);
    expect(table.rows).toHaveLength(2);
    expect(table.rows[1]?.at(-2)).toMatch(/^no screen set; ground not known/);
    const { columns, rows: texts } = tableText(table);
    expect(columns).toContain('Drive tip to (ft below ground)');
    expect(columns.filter((_, i) => table.columns[i]?.isNumber).every((c) => c.endsWith(')'))).toBe(
      true,
    );
    for (const text of texts.flat()) expect(text).not.toMatch(/NaN|undefined|null|^$/);
    const near = points.map((point) => ({ point, near: [] }));
    const stakes = stakeTable(near, site, '2026-05-31', units, () => null);
    expect(stakes.rows.map((row) => row.at(-1))).toEqual(['NOT CLEARED', 'NOT CLEARED']);
  });
});

describe('clearance', () => {
  test('a point is not cleared until it is recorded, nor after its ticket expires', () => {
    const reason = clearanceReason({
      ticket: 'T-1',
      expires: '2026-06-01',
      privateLocate: '',
      handCleared: '5 ft',
      by: 'RK',
    });
    expect(reason).toBe('ticket T-1; expires 2026-06-01; hand-cleared to 5 ft; cleared by RK');
    const site = siteFrom({
      ...LINES,
      decisions: ['what,on,reason,who,when', `clear point,DP-1,${reason},RK,2026-05-20T08:00`],
    });
    const cleared = clearedOn(site, 'DP-1');
    expect(holdsOn(cleared, '2026-06-01')).toBe(true);
    expect(clearedWords(cleared, '2026-06-02')).toBe('NOT CLEARED: ticket expired 2026-06-01');
    expect(clearedWords(clearedOn(site, 'DP-2'), '2026-05-31')).toBe('NOT CLEARED');
  });

  test('nothing is recorded without a ticket or without a name', () => {
    const blank = { ticket: 'T', expires: '', privateLocate: '', handCleared: '', by: ' ' };
    expect(clearanceReason(blank)).toBeNull();
    expect(clearanceReason({ ...blank, ticket: '', by: 'RK' })).toBeNull();
  });
});

describe('points laid', () => {
  test('a shifted node is laid with its shift and reason in the remark, a blocked one is not laid', () => {
    const plan = planOf(
      drawn('boundary', 'ground', 'POLYGON ((0 0, 100 0, 100 100, 0 100, 0 0))'),
      drawn('utility', 'Gas', 'LINESTRING (0 50, 100 50)', 0, 5),
    );
    const stakes = stakesAt(
      [20, 48, 51].map((north, i) => ({ at: [50, north] as const, counts: { row: i + 1 } })),
      plan,
    );
    const [clear, near, blocked] = stakes;
    if (!clear || !near || !blocked) throw new Error('three');
    const moved = shifted(near, plan, 20);
    if (!moved.ok) throw new Error('no clear place');
    const edit = layPointsEdit(
      [
        { ...clear, name: 'DP-1' },
        { ...moved.value, name: 'DP-2' },
        { ...blocked, name: 'DP-3' },
      ],
      'delineate',
      'ft',
      '1: grid',
      stakes,
    );
    if (edit?.kind !== 'add-rows') throw new Error('no edit');
    expect(edit.rows.map(({ id }) => id)).toEqual(['DP-1', 'DP-2']);
    expect(edit.rows[1]?.note).toBe(
      'Shifted 3.0 ft toward 180° from E 50.00, N 48.00, where it was 2.0 ft from utility Gas, which asks 5.0 ft',
    );
    expect(Number(edit.rows[1]?.planned_northing)).toBeLessThanOrEqual(45);
  });
});
