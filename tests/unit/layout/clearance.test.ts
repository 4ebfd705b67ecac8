import { describe, expect, test } from 'vitest';
import { blocksAt } from '../../../src/domain/layout/blocks';
import { CAUTIONS, cautionsAbout } from '../../../src/domain/layout/cautions';
import { clearancesAt } from '../../../src/domain/layout/clearance';
import { overheadRules, rigDistance, TABLE_A } from '../../../src/domain/layout/overhead';
import { seeded } from '../../../src/domain/layout/seeded';
import { inUnits } from '../../../src/domain/units';
import { drawn, planOf } from './ground';

describe('distance from a point to what is drawn', () => {
  const plan = planOf(
    drawn('utility', 'Gas', 'LINESTRING (0 0, 100 0)', 1, 5),
    drawn('utility', 'Old drain', 'LINESTRING (0 30, 100 30)', 0.5),
    drawn('building', 'Shed', 'POLYGON ((60 8, 80 8, 80 20, 60 20, 60 8))', 0, 3),
  );

  test('from outside edges, nearest first, each against its buffer', () => {
    const list = clearancesAt([50, 5], plan).map(({ of, distance, verdict, short }) => [
      of.name,
      Number(distance.toFixed(3)),
      verdict,
      short,
    ]);
    expect(list).toEqual([
      ['Gas', 4, 'within buffer', 1],
      ['Shed', 10.44, 'clear', 0],
      ['Old drain', 24.5, 'no buffer', 0],
    ]);
  });

  test('exactly as far as asked is clear; in it is in it', () => {
    expect(clearancesAt([50, 6], plan, 6)).toMatchObject([{ verdict: 'clear', short: 0 }]);
    expect(clearancesAt([70, 10], plan, 1)).toMatchObject([
      { of: { name: 'Shed' }, verdict: 'inside' },
    ]);
    expect(clearancesAt([70, 0.5], plan, 1)).toMatchObject([
      { of: { name: 'Gas' }, verdict: 'inside', distance: 0 },
    ]);
  });

  test('what is farther than asked about is left out', () => {
    expect(clearancesAt([50, 5], plan, 4)).toEqual([]);
    expect(clearancesAt([50, 5], plan, 4.001)).toHaveLength(1);
  });

  test('nothing drawn: an empty list, and no comfort in it', () => {
    expect(clearancesAt([0, 0], planOf())).toEqual([]);
  });

  test('the list says the same as laying out does', () => {
    const random = seeded(4);
    for (let i = 0; i < 300; i++) {
      const at = [120 * random() - 10, 50 * random() - 10] as const;
      const all = clearancesAt(at, plan);
      expect(
        blocksAt(at, plan)
          .map((block) => ('of' in block ? block.of.name : ''))
          .sort(),
      ).toEqual(
        all
          .filter(({ verdict }) => verdict === 'inside' || verdict === 'within buffer')
          .map(({ of }) => of.name)
          .sort(),
      );
    }
  });

  test('3,000 points against 500 lines, each with what is within 30 ft', () => {
    const random = seeded(2);
    const lines = Array.from({ length: 500 }, (_, i) => {
      const [x, y] = [1000 * random(), 1000 * random()];
      const bends = Array.from({ length: 6 }, (_, k) => [x + 20 * k, y + 40 * random()] as const);
      return drawn('utility', `U${i}`, { kind: 'lines', lines: [bends] }, 0.5, 3);
    });
    const many = planOf(...lines);
    const points = Array.from({ length: 3000 }, () => [1000 * random(), 1000 * random()] as const);
    const listed = points.reduce((sum, at) => sum + clearancesAt(at, many, 30).length, 0);
    expect(listed).toBeGreaterThan(3000);
  });
});

describe('distance to the boundary', () => {
  const plan = planOf(
    drawn('boundary', 'North lot', 'POLYGON ((0 0, 100 0, 100 100, 0 100, 0 0))', 0, 10),
    drawn('boundary', 'South lot', 'POLYGON ((0 0, 100 0, 100 -50, 0 -50, 0 0))'),
    drawn('utility', 'Gas', 'LINESTRING (0 95, 100 95)', 0, 5),
  );

  test('counts with what is drawn: 10.0 ft from the lot line comes before 85 ft from the gas main', () => {
    expect(clearancesAt([50, 10], plan)[0]).toMatchObject({
      of: { kind: 'boundary', name: 'North lot' },
      distance: 10,
      verdict: 'clear',
    });
    expect(clearancesAt([50, 8], plan)).toMatchObject([
      { of: { name: 'North lot' }, verdict: 'within buffer', short: 2 },
      { of: { name: 'Gas' }, distance: 87 },
    ]);
  });

  test('outside every lot it is outside the nearest', () => {
    expect(clearancesAt([50, -58], plan)[0]).toMatchObject({
      of: { name: 'South lot' },
      distance: 8,
      verdict: 'outside',
    });
  });
});

describe('overhead lines', () => {
  // 29 CFR 1926.1408, Table A.
  test.each([
    [50, 10],
    [50.1, 15],
    [200, 15],
    [350, 20],
    [500, 25],
    [750, 35],
    [1000, 45],
  ])('%d kV: %d ft by Table A', (kilovolts, feet) => {
    const row = TABLE_A.find(({ upToKilovolts }) => kilovolts <= upToKilovolts);
    expect(row && inUnits(row.distance, 'ft')).toBeCloseTo(feet, 9);
  });

  // 29 CFR 1926.600(a)(6), value from memory; computed independently.
  test.each([
    [12, 10],
    [69, 10.63],
    [138, 12.93],
    [345, 19.83],
  ])('%d kV: %d ft for a rig', (kilovolts, feet) => {
    expect(inUnits(rigDistance(kilovolts), 'ft')).toBeCloseTo(feet, 2);
  });

  test('the farthest rule stands first', () => {
    const rules = overheadRules(138);
    expect(
      rules.ok && rules.value.map(({ distance }) => inUnits(distance, 'ft').toFixed(2)),
    ).toEqual(['15.00', '12.93']);
  });

  test('not known: 20 ft; above 1000 kV the utility is asked; less than nothing is no voltage', () => {
    const unknown = overheadRules(null);
    expect(unknown.ok && inUnits(unknown.value[0]?.distance ?? (0 as never), 'ft')).toBeCloseTo(
      20,
      9,
    );
    expect(overheadRules(1001)).toEqual({
      ok: false,
      problem: { kind: 'ask-the-utility', overKilovolts: 1000 },
    });
    expect(overheadRules(-1)).toMatchObject({ ok: false, problem: { kind: 'no-voltage' } });
    expect(overheadRules(NaN)).toMatchObject({ ok: false, problem: { kind: 'no-voltage' } });
  });
});

test('every caution says how it is known, and every value where it comes from', () => {
  for (const { text, source, known } of CAUTIONS) {
    expect(text).toMatch(/\.$/);
    if (/\d/.test(text)) expect(source).not.toBeNull();
    expect(source === null).toBe(known === 'by construction');
  }
  expect(cautionsAbout('drawn lines', 'one-call').map(({ about }) => about)).toEqual([
    'drawn lines',
    'one-call',
  ]);
});
