import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/domain/arithmetic';
import { metres, type Metres } from '../../../src/domain/units';
import { CONDUCTIVITIES, POROSITIES } from '../../../src/domain/water/ground-tables';
import {
  DAYS_PER_YEAR,
  inVelocityUnits,
  inYears,
  metresPerDay,
  seepage,
  SEEPAGE_CAUTIONS,
  steadyGradient,
  travelTime,
  type Chosen,
  type Seepage,
  type SeepageGiven,
  type VelocityUnit,
} from '../../../src/domain/water/seepage';
import { seepageProblemWords } from '../../../src/domain/water/seepage-words';
import type { Source } from '../../../src/domain/work';

const from: Source = { kind: 'citation', text: 'test' };
const range = <T extends number>(low: T, high: T = low): Chosen<T> => ({ low, high, from });

const given = (k: number, unit: VelocityUnit, i: number, n: number): SeepageGiven => ({
  conductivity: range(metresPerDay(k, unit)),
  gradient: range(i),
  porosity: range(n),
});

const velocity = (...args: Parameters<typeof seepage>): Seepage => {
  const answer = seepage(...args);
  if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
  return answer.value;
};

describe('published and computed cases', () => {
  // Public monitoring report.
  test('K 10,100 ft/yr, i 0.0015, n 0.30: 50.5 ft/yr', () => {
    const { slowest, fastest } = velocity(given(10_100, 'ft/yr', 0.0015, 0.3));
    expect(inVelocityUnits(slowest.value, 'ft/yr')).toBeCloseTo(50.5, 10);
    expect(fastest.value).toBe(slowest.value);
  });

  // The same report's K before its rounding; a year of 365 days gives 50.70.
  test('K 9.8·10⁻³ cm/s is 10,139.5 ft in a year of 365 days, and v 50.7 ft/yr', () => {
    const k = inVelocityUnits(metresPerDay(9.8e-3, 'cm/s'), 'ft/d');
    expect(k * 365).toBeCloseTo(10_139.5, 1);
    const { slowest } = velocity(given(9.8e-3, 'cm/s', 0.0015, 0.3));
    expect(inVelocityUnits(slowest.value, 'ft/yr')).toBeCloseTo(50.7, 1);
  });

  // Public monitoring report.
  test('K 6.28 ft/d, i 0.0027, n 0.30: 0.0565 ft/d', () => {
    const { slowest } = velocity(given(6.28, 'ft/d', 0.0027, 0.3));
    expect(inVelocityUnits(slowest.value, 'ft/d')).toBeCloseTo(0.0565, 4);
  });

  // R. C. Heath, 1983, USGS Water-Supply Paper 2220, p. 25; value from memory, re-derived.
  test('sand, K 60 m/d, 1 in 1000, n 0.20: 0.3 m/d', () => {
    expect(velocity(given(60, 'm/d', 0.001, 0.2)).slowest.value).toBeCloseTo(0.3, 12);
  });

  // As above.
  test('clay, K 0.0001 m/d, 1 in 10, n 0.50: 0.00002 m/d', () => {
    expect(velocity(given(0.0001, 'm/d', 0.1, 0.5)).slowest.value).toBeCloseTo(0.00002, 15);
  });

  // Computed independently.
  test('K 10 ft/d, i 0.005, n 0.25 over 500 ft: 0.2 ft/d, 2500 days, 6.845 years', () => {
    const v = velocity(given(10, 'ft/d', 0.005, 0.25), 'ft/d');
    expect(inVelocityUnits(v.slowest.value, 'ft/d')).toBeCloseTo(0.2, 12);
    const { shortest, longest } = travelTime(range(metres(500, 'ft')), v, 'ft/d');
    expect(shortest?.value).toBeCloseTo(2500, 9);
    expect(longest?.value).toBeCloseTo(2500, 9);
    expect(inYears(shortest!.value)).toBeCloseTo(6.845, 3);
  });

  // Computed independently.
  test('10⁻³ cm/s is 2.8346 ft/d, 0.864 m/d, 21.205 gpd/ft²', () => {
    const k = metresPerDay(1e-3, 'cm/s');
    expect(inVelocityUnits(k, 'ft/d')).toBeCloseTo(2.8346, 4);
    expect(inVelocityUnits(k, 'm/d')).toBeCloseTo(0.864, 12);
    expect(inVelocityUnits(k, 'gpd/ft²')).toBeCloseTo(21.205, 3);
    expect(inVelocityUnits(k, 'm/s')).toBeCloseTo(1e-5, 18);
    expect(inVelocityUnits(k, 'm/yr')).toBeCloseTo(0.864 * DAYS_PER_YEAR, 9);
  });
});

describe('a velocity is a range', () => {
  const wide: SeepageGiven = {
    conductivity: range(metresPerDay(5), metresPerDay(20)),
    gradient: range(0.002, 0.004),
    porosity: range(0.2, 0.3),
  };

  test('slowest where K and i are least and porosity most, fastest the other way', () => {
    const { slowest, fastest, flux } = velocity(wide);
    expect(slowest.value).toBeCloseTo((5 * 0.002) / 0.3, 14);
    expect(fastest.value).toBeCloseTo((20 * 0.004) / 0.2, 14);
    expect(flux).toEqual({ low: 0.01, high: 0.08 });
  });

  test('and so is a travel time: the farthest at the slowest, the nearest at the fastest', () => {
    const times = travelTime(range(metres(90), metres(110)), velocity(wide));
    expect(times.shortest?.value).toBeCloseTo(90 / 0.4, 9);
    expect(times.longest?.value).toBeCloseTo(110 / (0.01 / 0.3), 6);
  });

  test('each printed formula gives the printed answer, in feet as in metres', () => {
    for (const unit of ['m/d', 'ft/d'] as const) {
      const v = velocity(wide, unit);
      const { shortest, longest } = travelTime(range<Metres>(metres(100)), v, unit);
      for (const { work } of [v.slowest, v.fastest, shortest!, longest!]) {
        const symbols = new Map(work.terms.map(({ symbol, value }) => [symbol, value]));
        expect(evaluate(work.formula, symbols)! / work.answer.value).toBeCloseTo(1, 12);
      }
    }
    const feet = velocity(wide, 'ft/d').fastest.work;
    expect(feet.answer.value).toBeCloseTo(0.4 / 0.3048, 12);
    expect(feet.title).toBe('Fastest seepage velocity, ft/d');
  });

  test('velocities and times are printed to three figures, however small or large', () => {
    const decimals = (k: number, i = 0.001, n = 0.25) =>
      velocity(given(k, 'm/d', i, n)).slowest.work.decimals;
    expect(decimals(60)).toBe(3); // 0.240
    expect(decimals(0.0001, 0.1, 0.5)).toBe(7); // 0.0000200
    expect(decimals(30_000)).toBe(0); // 120
    expect(decimals(3_000_000)).toBe(0); // 12000
    expect(decimals(60, 0)).toBe(0); // 0
    expect(decimals(1e-15)).toBe(15); // no printer goes further
    const { shortest } = travelTime(range(metres(500)), velocity(given(60, 'm/d', 0.001, 0.25)));
    expect(shortest?.work.decimals).toBe(0); // 2083 days
  });

  test('a travel time opens into the velocity it rests on', () => {
    const v = velocity(wide);
    const { shortest, longest } = travelTime(range(metres(100)), v);
    expect(shortest?.work.terms[1]?.from).toEqual({ kind: 'work', work: v.fastest.work });
    expect(longest?.work.terms[1]?.from).toEqual({ kind: 'work', work: v.slowest.work });
  });

  test('pores may be the whole of the ground, as in an open fissure, and no more', () => {
    expect(seepage({ ...wide, porosity: range(0.3, 1) }).ok).toBe(true);
    expect(seepage({ ...wide, porosity: range(0.3, 1.01) }).ok).toBe(false);
  });

  test('on level ground the water stands still and never arrives', () => {
    const still = velocity({ ...wide, gradient: range(0, 0.001) });
    expect(still.slowest.value).toBe(0);
    const { shortest, longest } = travelTime(range(metres(100)), still);
    expect(longest).toBeNull();
    expect(shortest?.value).toBeCloseTo(1000, 9);
  });

  test.each([
    ['no-conductivity', { conductivity: range(metresPerDay(0), metresPerDay(1)) }],
    ['no-gradient', { gradient: range(-0.001, 0.001) }],
    ['no-porosity', { porosity: range(0, 0.2) }],
    ['no-porosity', { porosity: range(0.3, 30) }],
  ])('%s', (kind, part) => {
    expect(seepage({ ...wide, ...part })).toEqual({ ok: false, problem: { kind } });
  });

  test('a range upside down is named', () => {
    expect(seepage({ ...wide, gradient: range(0.004, 0.002) })).toEqual({
      ok: false,
      problem: { kind: 'range-upside-down', part: 'gradient' },
    });
  });

  test.each([
    [{ kind: 'no-conductivity' }, 'Hydraulic conductivity must be above zero.'],
    [{ kind: 'no-gradient' }, 'There is no gradient to work from.'],
    [{ kind: 'no-porosity' }, 'Effective porosity is a part of one, above zero.'],
    [
      { kind: 'range-upside-down', part: 'porosity' },
      'The range of porosity runs from more to less.',
    ],
  ] as const)('$0.kind is said in a sentence', (problem, words) => {
    expect(seepageProblemWords(problem)).toBe(words);
  });

  test('is never read without its cautions', () => {
    expect(SEEPAGE_CAUTIONS).toHaveLength(4);
    expect(SEEPAGE_CAUTIONS.join(' ')).toMatch(/factor of ten.*porosity.*faster.*alike/s);
  });
});

test('100 m at 0.01 and 100 m at 0.001 take as long as 200 m at their harmonic mean', () => {
  const stretches = [
    { length: metres(100), gradient: 0.01 },
    { length: metres(100), gradient: 0.001 },
  ];
  const steady = steadyGradient(stretches)!;
  expect(steady.length).toBe(200);
  expect(steady.gradient).toBeCloseTo(200 / (100 / 0.01 + 100 / 0.001), 15);
  const timeAt = (length: number, gradient: number) =>
    travelTime(range(metres(length)), velocity({ ...given(10, 'm/d', gradient, 0.25) })).shortest!
      .value;
  expect(timeAt(200, steady.gradient)).toBeCloseTo(timeAt(100, 0.01) + timeAt(100, 0.001), 6);
  expect(steadyGradient([...stretches, { length: metres(5), gradient: 0 }])).toBeNull();
  expect(steadyGradient([])).toBeNull();
});

describe('the published tables', () => {
  const rowOf = <Row extends { readonly ground: string }>(rows: readonly Row[], ground: string) =>
    rows.find((row) => row.ground === ground);

  // H. Bouwer, 1978, as quoted in a public report.
  test('Bouwer: medium sand conducts 5 to 20 m/d, till 0.001 to 0.1', () => {
    const [bouwer] = CONDUCTIVITIES;
    expect(rowOf(bouwer!.rows, 'medium sand')).toMatchObject({ low: 5, high: 20 });
    expect(rowOf(bouwer!.rows, 'till')).toMatchObject({ low: 0.001, high: 0.1 });
    expect(bouwer?.source.seen).toBe('as quoted in a public report');
  });

  // R. A. Freeze and J. A. Cherry, 1979, Table 2.2; value from memory.
  test('Freeze and Cherry: clean sand 10⁻⁵ to 10⁻² m/s', () => {
    const clean = rowOf(CONDUCTIVITIES[1]!.rows, 'clean sand')!;
    expect(inVelocityUnits(clean.low, 'm/s')).toBeCloseTo(1e-5, 15);
    expect(inVelocityUnits(clean.high, 'm/s')).toBeCloseTo(1e-2, 12);
    expect(CONDUCTIVITIES[1]!.source.seen).toBe('from memory');
  });

  // R. C. Heath, 1983, pp. 7-9: porosity = specific yield + specific retention; value from memory.
  test('Heath: porosity less specific yield is specific retention', () => {
    const retention = { soil: 15, clay: 48, sand: 3, gravel: 1, limestone: 2, granite: 0.01 };
    for (const [ground, percent] of Object.entries(retention)) {
      const row = rowOf(POROSITIES[0]!.rows, ground)!;
      expect(100 * (row.low - row.specificYield!)).toBeCloseTo(percent, 9);
    }
  });

  test('every range is the right way up and possible', () => {
    for (const { rows } of CONDUCTIVITIES)
      for (const { low, high } of rows) expect(low > 0 && low <= high).toBe(true);
    for (const { rows } of POROSITIES)
      for (const { low, high } of rows) expect(low >= 0 && low <= high && high < 1).toBe(true);
  });
});
