import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chosen, type Given } from '../../../src/domain/layout/given';
import { intervalOf, type Driven, type Interval } from '../../../src/domain/layout/interval';
import { ruleProblem, type TypedRule } from '../../../src/domain/layout/set-screens';
import { setScreen, setScreens, type Ground } from '../../../src/domain/layout/setting-rules';
import { contactsCrossed, waterIn, type Layer } from '../../../src/domain/layout/water-in-screen';
import { printWork } from '../../../src/domain/print-work';
import { inUnits, metres, type Metres } from '../../../src/domain/units';
import { expectToWorkOut } from './calculator';

const ft = (n: number): Given => chosen(n, 'ft', 'field form');
const feet = (length: Metres) => Number(inUnits(length, 'ft').toFixed(4));

const driven = (more: Partial<Driven> = {}): Driven => ({
  tipDepth: ft(24),
  toolOffset: ft(0),
  exposedLength: ft(4),
  ground: ft(101.2),
  ...more,
});

const interval = (more: Partial<Driven> = {}): Interval => {
  const found = intervalOf(driven(more));
  if (!found.ok) throw new Error(JSON.stringify(found.problem));
  return found.value;
};

const three = (of: Interval['depth']) => [of.top, of.mid, of.base].map(({ value }) => feet(value));
const elevations = ({ elevation }: Interval) => (elevation.ok ? three(elevation.value) : null);

describe('the open interval of a driven screen', () => {
  // Computed independently.
  test('ground 101.20, base at 24.0, 4 ft exposed: 81.20, 79.20, 77.20', () => {
    expect(elevations(interval())).toEqual([81.2, 79.2, 77.2]);
    expect(three(interval().depth)).toEqual([20, 22, 24]);
  });

  test('a tool offset of 0.3 ft raises all of it by 0.3 ft', () => {
    expect(three(interval({ toolOffset: ft(0.3) }).depth)).toEqual([19.7, 21.7, 23.7]);
  });

  test('below sea level elevations are below nothing', () => {
    expect(elevations(interval({ ground: ft(-2.5) }))).toEqual([-22.5, -24.5, -26.5]);
  });

  test('with no offset recorded none is taken off, and it says so', () => {
    const { offsetAssumed, depth } = interval({ toolOffset: null });
    expect(offsetAssumed).toBe(true);
    expect(depth.base.work.note).toMatch(/none is taken off/);
    expect(interval().offsetAssumed).toBe(false);
  });

  test('without a ground elevation there are depths and no elevations', () => {
    const { depth, elevation } = interval({ ground: null });
    expect(three(depth)).toEqual([20, 22, 24]);
    expect(elevation).toEqual({ ok: false, problem: { kind: 'no-ground' } });
  });

  test('its work can be followed from the elevation to what was written', () => {
    const { elevation } = interval({ toolOffset: ft(0.35) });
    if (!elevation.ok) throw new Error('no elevation');
    const printed = printWork(elevation.value.top.work, { vertical: 'ft', grid: 'ft' });
    expect(`${printed.formula}; ${printed.substituted} = ${printed.answer}`).toBe(
      'top = ground - depth; 101.2 - 19.65 = 81.55',
    );
    for (const { work } of Object.values(elevation.value))
      for (const unit of ['ft', 'm'] as const) expectToWorkOut(work, unit);
  });
});

describe('what cannot be is refused', () => {
  test.each<[string, Partial<Driven>, object]>([
    ['no tip depth', { tipDepth: null }, { kind: 'no-tip-depth' }],
    ['no exposed length', { exposedLength: null }, { kind: 'no-exposed-length' }],
    ['nothing exposed', { exposedLength: ft(0) }, { kind: 'top-below-base' }],
    ['less than nothing exposed', { exposedLength: ft(-1) }, { kind: 'top-below-base' }],
    [
      'more exposed than driven',
      { tipDepth: ft(3) },
      { kind: 'screen-above-ground', depth: expect.closeTo(metres(-1, 'ft'), 12) as number },
    ],
    ['an offset more than driven', { toolOffset: ft(30) }, { kind: 'base-above-ground' }],
    [
      'more exposed than the rods were drawn back',
      { retraction: ft(3.5) },
      {
        kind: 'exposed-over-retraction',
        exposed: metres(4, 'ft'),
        retraction: metres(3.5, 'ft'),
      },
    ],
    [
      'drawn back farther than the screen is long',
      { retraction: ft(5), screenLength: ft(4) },
      { kind: 'retraction-over-screen' },
    ],
    [
      'more exposed than the screen is long',
      { screenLength: ft(3) },
      { kind: 'exposed-over-screen' },
    ],
  ])('%s', (_, more, problem) => {
    expect(intervalOf(driven(more))).toMatchObject({ ok: false, problem });
  });

  test.each<[string, Partial<Driven>]>([
    ['exposed, drawn back and screen all 4 ft', { retraction: ft(4), screenLength: ft(4) }],
    ['a screen that comes up to the ground', { tipDepth: ft(4) }],
    ['a length of 0.1 + 0.2 against 0.3', { exposedLength: ft(0.1 + 0.2), retraction: ft(0.3) }],
  ])('equal is allowed: %s', (_, more) => {
    expect(intervalOf(driven(more)).ok).toBe(true);
  });
});

describe('the depth sounded after retraction', () => {
  test.each<[number, number, boolean]>([
    [24.0, 0, false],
    [23.9, -0.1, false],
    [23.8, -0.2, false], // exactly the limit
    [24.2, 0.2, false],
    [23.79, -0.21, true],
    [20.5, -3.5, true], // rode up with the rods
  ])('%d ft against a base at 24.0: %d ft, uncertain %s', (sounded, apart, uncertain) => {
    const found = interval({ soundedDepth: ft(sounded) });
    expect(found.sounding && feet(found.sounding.apart.value)).toBeCloseTo(apart, 9);
    expect(found.uncertain).toBe(uncertain);
  });

  test('the limit is the user’s', () => {
    const found = intervalOf(driven({ soundedDepth: ft(23.9) }), metres(0.05, 'ft'));
    expect(found.ok && found.value.uncertain).toBe(true);
  });

  test('not sounded is not certain and not uncertain', () => {
    expect(interval()).toMatchObject({ sounding: null, uncertain: false });
  });
});

describe('water in the screen from 77.20 to 81.20', () => {
  test.each<[number, string, number, number]>([
    [85, 'submerged', 7.8, 4],
    [81.2, 'submerged', 4, 4], // exactly at the top
    [81.19, 'straddling', 3.99, 3.99],
    [78, 'straddling', 0.8, 0.8],
    [77.2, 'dry', 0, 0], // exactly at the base
    [70, 'dry', -7.2, 0],
  ])('water at %d ft: %s', (water, wetness, above, wetted) => {
    const found = waterIn(interval(), ft(water));
    if (!found.ok) throw new Error(found.problem.kind);
    expect(found.value.wetness).toBe(wetness);
    expect(feet(found.value.aboveBase.value)).toBeCloseTo(above, 6);
    expect(feet(found.value.wetted)).toBeCloseTo(wetted, 6);
    expectToWorkOut(found.value.aboveBase.work, 'ft');
  });

  test('without ground or water nobody can say', () => {
    expect(waterIn(interval({ ground: null }), ft(80))).toMatchObject({
      problem: { kind: 'no-ground' },
    });
    expect(waterIn(interval(), null)).toMatchObject({ problem: { kind: 'no-water' } });
  });
});

const layers: readonly Layer[] = [
  { name: 'fill', top: ft(0), bottom: ft(3) },
  { name: 'clay', top: ft(3), bottom: ft(14) },
  { name: 'sand', top: ft(14), bottom: ft(22) },
  { name: 'till', top: ft(22), bottom: ft(40) },
];

describe('an interval that crosses a contact', () => {
  test('from 20 to 24 it crosses sand into till at 22', () => {
    expect(contactsCrossed(interval(), layers)).toEqual([
      { depth: metres(22, 'ft'), above: 'sand', below: 'till' },
    ]);
  });

  test('ending exactly at the contact does not cross it', () => {
    expect(contactsCrossed(interval({ tipDepth: ft(22) }), layers)).toEqual([]);
    expect(contactsCrossed(interval({ tipDepth: ft(26) }), layers)).toEqual([]);
  });

  test('a layer logged in two parts is one', () => {
    const parts = [
      { name: 'sand', top: ft(14), bottom: ft(22) },
      { name: 'sand', top: ft(22), bottom: ft(30) },
    ];
    expect(contactsCrossed(interval(), parts)).toEqual([]);
  });
});

describe('screens set by rule, ground 101.20 and water expected at 90.00', () => {
  const at: Ground = {
    ground: ft(101.2),
    water: ft(90),
    boringDepth: ft(30),
    toolOffset: ft(0.3),
    layers,
  };
  const set = (rule: Parameters<typeof setScreen>[0], more: Partial<Ground> = {}) => {
    const found = setScreen(rule, { ...at, ...more });
    if (!found.ok) throw new Error(JSON.stringify(found.problem));
    return found.value;
  };
  const exposed = ft(4);

  test('straddling, 1 ft above: open 91.00 to 87.00, drive to 14.50 and draw back 4', () => {
    const { tipDepth, interval: open, water } = set({ kind: 'straddle', exposed, above: ft(1) });
    expect(feet(tipDepth.value)).toBe(14.5);
    expect(elevations(open)).toEqual([91, 89, 87]);
    expect(water).toMatchObject({ ok: true, value: { wetness: 'straddling' } });
    expect(printWork(tipDepth.work, { vertical: 'ft', grid: 'ft' }).substituted).toBe(
      '101.2 - (90 + 1) + 4 + 0.3',
    );
    expectToWorkOut(tipDepth.work, 'ft');
    expectToWorkOut(tipDepth.work, 'm');
  });

  test('5 ft below the water: open 85.00 to 81.00', () => {
    const { interval: open, water } = set({ kind: 'below water', exposed, below: ft(5) });
    expect(elevations(open)).toEqual([85, 83, 81]);
    expect(water).toMatchObject({ ok: true, value: { wetness: 'submerged' } });
  });

  test.each<['top' | 'mid' | 'base', number[]]>([
    ['top', [80, 78, 76]],
    ['mid', [82, 80, 78]],
    ['base', [84, 82, 80]],
  ])('%s at elevation 80.00', (part, expected) => {
    const { interval: open, tipDepth } = set({
      kind: 'elevation',
      exposed,
      part,
      elevation: ft(80),
    });
    expect(elevations(open)).toEqual(expected);
    expectToWorkOut(tipDepth.work, 'ft');
  });

  test('at the top of the sand: 14 to 18; at its bottom: 18 to 22; neither crosses a contact', () => {
    const sand = layers[2] ?? null;
    const top = set({ kind: 'layer', exposed, at: 'top', layer: sand });
    const bottom = set({ kind: 'layer', exposed, at: 'bottom', layer: sand });
    expect(three(top.interval.depth)).toEqual([14, 16, 18]);
    expect(three(bottom.interval.depth)).toEqual([18, 20, 22]);
    expect([...top.crosses, ...bottom.crosses]).toEqual([]);
  });

  test('in a layer thinner than the screen it says what it crosses', () => {
    const { crosses } = set({
      kind: 'layer',
      exposed: ft(10),
      at: 'top',
      layer: layers[2] ?? null,
    });
    expect(crosses).toMatchObject([{ above: 'sand', below: 'till' }]);
  });

  test('at the bottom of the boring the tip stands on it', () => {
    const { tipDepth, interval: open } = set({ kind: 'bottom of boring', exposed });
    expect(feet(tipDepth.value)).toBe(30);
    expect(three(open.depth)).toEqual([25.7, 27.7, 29.7]);
  });

  test('with no tool offset the tip is the base', () => {
    const { tipDepth } = set({ kind: 'straddle', exposed, above: ft(1) }, { toolOffset: null });
    expect(feet(tipDepth.value)).toBe(14.2);
  });

  test.each<[string, Parameters<typeof setScreen>[0], Partial<Ground>, string]>([
    ['no ground', { kind: 'straddle', exposed, above: ft(1) }, { ground: null }, 'no-ground'],
    ['no water', { kind: 'straddle', exposed, above: ft(1) }, { water: null }, 'no-water'],
    ['no water below', { kind: 'below water', exposed, below: ft(1) }, { water: null }, 'no-water'],
    [
      'an elevation and no ground',
      { kind: 'elevation', exposed, part: 'top', elevation: ft(80) },
      { ground: null },
      'no-ground',
    ],
    ['no such layer', { kind: 'layer', exposed, at: 'top', layer: null }, {}, 'no-layer'],
    ['no boring', { kind: 'bottom of boring', exposed }, { boringDepth: null }, 'no-boring-depth'],
    [
      'top 4 ft above with 4 exposed',
      { kind: 'straddle', exposed, above: ft(4) },
      {},
      'does-not-straddle',
    ],
    ['top not above', { kind: 'straddle', exposed, above: ft(0) }, {}, 'does-not-straddle'],
    [
      'water too near the ground',
      { kind: 'straddle', exposed, above: ft(2) },
      { water: ft(100) },
      'screen-above-ground',
    ],
  ])('%s has no screen', (_, rule, more, kind) => {
    expect(setScreen(rule, { ...at, ...more })).toMatchObject({ ok: false, problem: { kind } });
  });

  test('two screens with 3 ft between them where 5 is asked', () => {
    const { settings, gaps } = setScreens(
      [
        { kind: 'elevation', exposed, part: 'top', elevation: ft(80) },
        { kind: 'straddle', exposed, above: ft(1) },
        { kind: 'elevation', exposed, part: 'top', elevation: ft(84) },
      ],
      at,
      metres(5, 'ft'),
    );
    expect(settings.map(({ ok }) => ok)).toEqual([true, true, true]);
    expect(gaps.map(({ upper, lower, gap }) => [upper, lower, feet(gap)])).toEqual([
      [1, 2, 3],
      [2, 0, 0],
    ]);
  });

  test('screens that overlap have less than nothing between them; one that fails leaves the rest', () => {
    const { settings, gaps } = setScreens(
      [
        { kind: 'elevation', exposed, part: 'top', elevation: ft(80) },
        { kind: 'elevation', exposed, part: 'top', elevation: ft(82) },
        { kind: 'layer', exposed, at: 'top', layer: null },
      ],
      at,
      metres(0),
    );
    expect(settings.map(({ ok }) => ok)).toEqual([true, true, false]);
    expect(gaps.map(({ gap }) => feet(gap))).toEqual([-2]);
  });

  const length = fc.integer({ min: 1, max: 1000 }).map((n) => n / 100);

  test('whatever the ground and water, straddling straddles, and every line works out', () => {
    fc.assert(
      fc.property(length, length, fc.integer({ min: 1200, max: 9000 }), (one, other, down) => {
        const [above, open] = [Math.min(one, other), one + other];
        const ground = ft(500.25);
        const found = setScreen(
          { kind: 'straddle', exposed: ft(open), above: ft(above) },
          { ...at, ground, water: ft(500.25 - down / 100) },
        );
        fc.pre(found.ok);
        if (!found.ok) return;
        expect(found.value.water).toMatchObject({ ok: true, value: { wetness: 'straddling' } });
        const top = found.value.interval.elevation;
        expect(top.ok && feet(top.value.top.value)).toBeCloseTo(500.25 - down / 100 + above, 6);
        expectToWorkOut(found.value.tipDepth.work, 'ft');
      }),
      { numRuns: 60 },
    );
  });

  test('raising the ground by a foot drives a foot deeper to the same elevations', () => {
    const rule = { kind: 'below water', exposed, below: ft(5) } as const;
    const [low, high] = [set(rule), set(rule, { ground: ft(102.2) })];
    expect(feet(high.tipDepth.value)).toBeCloseTo(feet(low.tipDepth.value) + 1, 9);
    expect(elevations(high.interval)).toEqual(elevations(low.interval));
  });
});

describe('a rule that can set no screen is refused as it is typed', () => {
  const rule: TypedRule = {
    ...{ kind: 'straddle', exposed: 4, amount: 2 },
    ...{ part: 'mid', at: 'top', layer: '' },
  };
  test.each<[string, Partial<TypedRule>, RegExp | null]>([
    ['2 ft of 4 ft above the water', {}, null],
    ['all of it above the water', { amount: 4 }, /4\.00 ft above the water leaves nothing/],
    ['its top at the water', { amount: 0 }, /must stand above the water/],
    ['nothing exposed', { exposed: 0 }, /above zero/],
    ['an exposed length taken away', { exposed: NaN }, /above zero/],
    ['no distance below the water', { kind: 'below water', amount: NaN }, /how far/],
    ['an elevation below the datum', { kind: 'elevation', amount: -3 }, null],
    ['no elevation', { kind: 'elevation', amount: NaN }, /elevation/],
    ['the bottom of the boring, no amount', { kind: 'bottom of boring', amount: NaN }, null],
  ])('%s', (_, typed, said) => {
    const problem = ruleProblem({ ...rule, ...typed }, 'ft');
    if (said) expect(problem).toMatch(said);
    else expect(problem).toBeNull();
  });
});
