import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pushedInAll, rodsFor, rodsOnRig } from '../../../src/domain/layout/rods';
import { oneInEach, QUALITY_RATES, sampleCounts } from '../../../src/domain/layout/sample-counts';
import {
  capacityOf,
  cylinder,
  isPastSuction,
  litresPerMetreOf,
  minimumPurge,
  minutesToPump,
  sealingVolume,
  systemVolume,
} from '../../../src/domain/layout/volumes';
import { inUnits, inVolumeUnits, litres, metres, type Metres } from '../../../src/domain/units';

const inches = (n: number) => metres(n / 12, 'ft');
const ft = (n: number) => metres(n, 'ft');

describe('what a tube holds, by inside diameter', () => {
  // V = π/4·(d/12)²·h ft³ × 1728/231 gal/ft³ × 3.785412 L/gal: computed independently.
  test.each([
    ['0.170 in', 0.17, 0.00118, 0.0045],
    ['0.250 in', 0.25, 0.00255, 0.0097],
    ['0.375 in', 0.375, 0.00574, 0.0217],
    ['0.500 in', 0.5, 0.0102, 0.0386],
    ['0.750 in', 0.75, 0.02295, 0.0869],
    ['1.000 in', 1, 0.0408, 0.1544],
    ['1.500 in', 1.5, 0.0918, 0.3475],
    ['2.000 in', 2, 0.1632, 0.6178],
    ['2.067 in, 2-inch schedule 40', 2.067, 0.17432, 0.6599],
    ['4.000 in', 4, 0.6528, 2.4711],
    ['4.026 in, 4-inch schedule 40', 4.026, 0.66131, 2.5033],
    ['6.000 in', 6, 1.4688, 5.56],
    ['8.000 in', 8, 2.61119, 9.8844],
    ['12.00 in', 12, 5.87519, 22.24],
  ])('%s: %d gives %d gal/ft, %d L/ft', (_, diameter, gallons, litresPerFoot) => {
    const capacity = capacityOf(inches(diameter));
    expect(capacity.gallonsPerFoot).toBeCloseTo(gallons, 5);
    expect(cylinder(inches(diameter), ft(1))).toBeCloseTo(
      litresPerFoot,
      litresPerFoot > 20 ? 3 : 4,
    );
  });

  test.each([
    [0.17, 4.46],
    [0.25, 9.65],
    [0.375, 21.72],
    [0.5, 38.61],
    [0.75, 86.87],
    [1, 154.44],
    [1.5, 347.5],
  ])('tubing of %d in holds %d mL a foot', (diameter, millilitres) => {
    expect(inVolumeUnits(cylinder(inches(diameter), ft(1)), 'mL')).toBeCloseTo(millilitres, 2);
  });

  // As printed in a public monitoring report.
  test.each([
    [2.067, 0.17],
    [4.026, 0.66],
  ])('schedule 40 of %d in: %d gal/ft in print', (diameter, printed) => {
    expect(capacityOf(inches(diameter)).gallonsPerFoot).toBeCloseTo(printed, 2);
  });

  // MIL-HDBK-1164, table 1.
  test.each([
    [4, 0.65],
    [6, 1.47],
    [8, 2.61],
    [10, 4.08],
    [12, 5.88],
  ])('casing of %d in: %d gal/ft in MIL-HDBK-1164', (diameter, printed) => {
    expect(capacityOf(inches(diameter)).gallonsPerFoot).toBeCloseTo(printed, 2);
  });

  test('the handbook’s metric column is wrong: 0.65 gal/ft is 8.1 L/m, not 3.1', () => {
    expect(litresPerMetreOf(0.65)).toBeCloseTo(8.07, 2);
    expect(capacityOf(inches(4)).litresPerMetre).toBeCloseTo(8.107, 3);
  });
});

describe('purging', () => {
  // 2-inch casing, total depth 30.00, water at 12.35: computed independently.
  const parts = {
    casing: inches(2),
    column: ft(30 - 12.35),
    tubing: inches(0.25),
    tubingLength: ft(30),
    cell: litres(250, 'mL'),
  };
  const gallons = (times: number) => {
    const least = minimumPurge({ kind: 'volumes', times }, parts);
    return least.ok ? inVolumeUnits(least.value, 'gal') : NaN;
  };

  test('one volume is 2.880 gal, three are 8.641', () => {
    expect(gallons(1)).toBeCloseTo(2.88, 3);
    expect(gallons(3)).toBeCloseTo(8.641, 3);
  });

  test('three volumes by P = π·r²·h × 7.48 × 3, as printed in a public monitoring report', () => {
    expect(gallons(3)).toBeCloseTo(Math.PI * (1 / 12) ** 2 * 17.65 * 7.48 * 3, 2);
  });

  test('30 ft of quarter-inch tubing hold 289.6 mL; with a 250 mL cell, 2.70 minutes at 200 mL/min', () => {
    expect(inVolumeUnits(cylinder(parts.tubing, parts.tubingLength), 'mL')).toBeCloseTo(289.6, 1);
    expect(minutesToPump(systemVolume(parts), 0.2)).toBeCloseTo(2.7, 2);
  });

  test('low flow: the 0.3 ft drawn down and the tubing', () => {
    const least = minimumPurge({ kind: 'low flow', drawdown: ft(0.3) }, parts);
    expect(least.ok && inVolumeUnits(least.value, 'gal')).toBeCloseTo(
      0.3 * 0.1632 + 30 * 0.00255,
      3,
    );
  });

  test('with no water level, or a dry screen, there is no minimum', () => {
    expect(minimumPurge({ kind: 'volumes', times: 3 }, { ...parts, column: null })).toEqual({
      ok: false,
      problem: { kind: 'no-water' },
    });
    expect(minimumPurge({ kind: 'volumes', times: 3 }, { ...parts, column: ft(-1) })).toEqual({
      ok: false,
      problem: { kind: 'dry' },
    });
    expect(minutesToPump(litres(1), 0)).toBeNull();
  });

  test('a pump at the surface lifts about 25 ft', () => {
    expect(isPastSuction(ft(25))).toBe(false);
    expect(isPastSuction(ft(25.1))).toBe(true);
    expect(isPastSuction(ft(22), ft(20))).toBe(true);
  });
});

test('a hole of 2.25 in to 24 ft takes 4.96 gal to seal, 5.95 with a fifth more', () => {
  const volume = sealingVolume(inches(2.25), ft(24), 0.2);
  // π/4·(2.25/12)²·24 × 1728/231 × 1.2
  expect(inVolumeUnits(volume, 'gal')).toBeCloseTo(5.949, 3);
  expect(inVolumeUnits(sealingVolume(inches(2.25), ft(24), 0), 'gal')).toBeCloseTo(4.957, 3);
});

describe('rods', () => {
  const plan = {
    tipDepth: ft(24),
    toolLength: ft(5),
    rodLength: ft(4),
    retraction: ft(4),
    leastAbove: ft(1),
  };
  const string = (more: Partial<typeof plan>) => {
    const found = rodsFor({ ...plan, ...more });
    if (!found.ok) throw new Error(found.problem.kind);
    const { rods, above, aboveRetracted } = found.value;
    return [rods, ...[above, aboveRetracted].map((n) => Number(inUnits(n, 'ft').toFixed(6)))];
  };

  test.each<[string, Partial<typeof plan>, number[]]>([
    ['24 ft with a 5-ft tool and 4-ft rods: 5 rods, 1 ft above, 5 once drawn back', {}, [5, 1, 5]],
    ['24.1 ft takes one more', { tipDepth: ft(24.1) }, [6, 4.9, 8.9]],
    ['5-ft rods', { rodLength: ft(5) }, [4, 1, 5]],
    [
      'a metre rod, 6.3 m',
      {
        tipDepth: metres(6.3),
        rodLength: metres(1),
        toolLength: metres(0),
        leastAbove: metres(0.2),
        retraction: metres(0),
      },
      [7, 2.296588, 2.296588],
    ],
    ['the tool alone', { tipDepth: ft(3) }, [0, 2, 6]],
  ])('%s', (_, more, expected) => {
    expect(string(more)).toEqual(expected);
  });

  test.each<[string, Partial<typeof plan>, string]>([
    ['rods of no length', { rodLength: ft(0) }, 'no-rod-length'],
    ['a depth above ground', { tipDepth: ft(-1) }, 'negative'],
    ['no number', { tipDepth: NaN as Metres }, 'negative'],
    ['rods of a millimetre', { rodLength: metres(0.001) }, 'too-many-rods'],
  ])('%s are refused', (_, more, kind) => {
    expect(rodsFor({ ...plan, ...more })).toEqual({ ok: false, problem: { kind } });
  });

  test('one rod fewer would never reach, and the string always does', () => {
    const tenths = fc.integer({ min: 0, max: 1000 }).map((n) => ft(n / 10));
    fc.assert(
      fc.property(tenths, fc.integer({ min: 1, max: 50 }), (tipDepth, rod) => {
        const rodLength = ft(rod / 2);
        const found = rodsFor({ ...plan, tipDepth, rodLength });
        if (!found.ok) throw new Error(found.problem.kind);
        const { rods, above } = found.value;
        expect(above).toBeGreaterThanOrEqual(plan.leastAbove - 1e-6);
        if (rods > 0) expect(above - rodLength).toBeLessThan(plan.leastAbove);
      }),
    );
  });

  test('the rig carries the longest string', () => {
    const strings = [ft(24), ft(40), ft(12)].flatMap((tipDepth) => {
      const found = rodsFor({ ...plan, tipDepth });
      return found.ok ? [found.value] : [];
    });
    expect(rodsOnRig(strings)).toBe(9);
    expect(rodsOnRig([])).toBeNull();
  });

  test('forty feet and twenty are sixty pushed, one point has no depth yet', () => {
    const { depth, points, unknown } = pushedInAll([ft(40), null, ft(20)]);
    expect([inUnits(depth, 'ft').toFixed(3), points, unknown]).toEqual(['60.000', 2, 1]);
  });
});

describe('quality-control samples', () => {
  test.each([
    [0, 10, 0],
    [1, 10, 1],
    [10, 10, 1],
    [11, 10, 2],
    [40, 20, 2],
    [41, 20, 3],
  ])('%i samples, one in %i: %i', (samples, rate, count) => {
    expect(oneInEach(samples, rate)).toBe(count);
  });

  test('no rate, no samples', () => {
    expect(oneInEach(40, null)).toBe(0);
    expect(oneInEach(40, 0)).toBe(0);
  });

  test('42 samples over 4 days in 5 coolers, one in ten', () => {
    const [tenth] = QUALITY_RATES;
    expect(tenth && sampleCounts(42, 5, 4, tenth)).toEqual({
      fieldSamples: 42,
      fieldDuplicates: 5,
      matrixSpikes: 3,
      tripBlanks: 5,
      equipmentBlanks: 4,
      total: 59,
    });
  });

  test('both presets say where they were read', () => {
    expect(QUALITY_RATES.map(({ fieldDuplicate }) => fieldDuplicate)).toEqual([10, 20]);
    expect(QUALITY_RATES.every(({ source }) => source.includes('monitoring reports'))).toBe(true);
  });
});
