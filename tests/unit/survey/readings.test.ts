import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  CRITERIA_SETS,
  purgeOutcome,
  stabilisation,
  type CriteriaSet,
  type PurgeReading,
} from '../../../src/domain/survey/stabilisation';
import {
  levelState,
  minutesBetween,
  tapeAgrees,
  USUAL_STATIC_RULE,
} from '../../../src/domain/survey/static-level';
import { inUnits, metres } from '../../../src/domain/units';

const named = (name: string): CriteriaSet => {
  const set = CRITERIA_SETS.find((one) => one.name === name);
  if (!set) throw new Error(name);
  return set;
};

const PULS = named('Puls and Barcelona, 1996');
const PAUL = named('Paul and Puls, 2001');
const ASTM = named('ASTM D6771');

/** Readings five minutes apart, all parameters steady but those given. */
const purge = (...changes: Partial<PurgeReading>[]): PurgeReading[] =>
  changes.map((change, i) => ({
    minutes: 5 * i,
    ph: 7,
    conductance: 500,
    dissolved_oxygen: 2,
    orp: 100,
    temperature: 12,
    turbidity: 8,
    ...change,
  }));

describe('the published sets differ', () => {
  // Values and how each is known: as marked beside each criterion.
  test.each([
    [PULS, { ph: 0.1, orp: 10 }],
    [PAUL, { ph: 0.05, orp: 5 }],
    [ASTM, { ph: 0.2, orp: 20 }],
  ])('$name', ({ criteria, readings }, limits) => {
    expect(readings).toBe(3);
    for (const [parameter, limit] of Object.entries(limits))
      expect(criteria.find((one) => one.parameter === parameter)?.within).toBe(limit);
    expect(criteria.find((one) => one.parameter === 'conductance')?.percent).toBe(3);
  });

  test('pH 7.00, 7.08, 7.16 is steady by two of them and changing by the third', () => {
    const readings = purge({ ph: 7 }, { ph: 7.08 }, { ph: 7.16 });
    expect(CRITERIA_SETS.map((set) => stabilisation(readings, set).verdict)).toEqual([
      'stable',
      'changing',
      'stable',
    ]);
  });

  test('oxygen near nothing: 10 % cannot be met, 0.2 mg/L can', () => {
    const readings = purge(
      { dissolved_oxygen: 0.3 },
      { dissolved_oxygen: 0.2 },
      { dissolved_oxygen: 0.4 },
    );
    expect(stabilisation(readings, PULS).verdict).toBe('changing');
    expect(stabilisation(readings, ASTM).verdict).toBe('stable');
  });
});

describe('three successive readings', () => {
  test('exactly at the limit is steady: conductance 485, 500, 515', () => {
    const at = (spread: number) =>
      stabilisation(
        purge({ conductance: 500 - spread }, { conductance: 500 }, { conductance: 500 + spread }),
        PULS,
      ).verdict;
    expect(at(15)).toBe('stable');
    expect(at(15.01)).toBe('changing');
  });

  test('only the last three count', () => {
    expect(stabilisation(purge({ ph: 4 }, { ph: 5 }, {}, {}, {}), PULS).verdict).toBe('stable');
    expect(stabilisation(purge({}, {}, {}, { ph: 8 }), PULS).verdict).toBe('changing');
  });

  test('two are too few', () => {
    expect(stabilisation(purge({}, {}), PULS)).toEqual({
      verdict: 'too few readings',
      parameters: [],
    });
  });

  test('a minute apart is too close together, where the set says how far', () => {
    const quick = purge({}, {}, {}).map((reading, i) => ({ ...reading, minutes: i }));
    expect(stabilisation(quick, PULS).verdict).toBe('too close together');
    expect(stabilisation(quick, ASTM).verdict).toBe('stable');
  });

  test('a parameter not read is not steady', () => {
    const { verdict, parameters } = stabilisation(purge({}, { turbidity: null }, {}), PULS);
    expect(verdict).toBe('not all read');
    expect(parameters.find(({ parameter }) => parameter === 'turbidity')).toEqual({
      parameter: 'turbidity',
      state: 'not read',
      apart: null,
      allowed: null,
    });
  });

  test('each parameter shows how far apart and what is allowed', () => {
    const { parameters } = stabilisation(purge({ orp: 96 }, { orp: 100 }, { orp: 110 }), PULS);
    const orp = parameters.find(({ parameter }) => parameter === 'orp');
    expect(orp).toMatchObject({ state: 'steady', apart: 8, allowed: 10 });
  });

  test('negative potentials and a mean of nothing do no harm', () => {
    expect(stabilisation(purge({ orp: -105 }, { orp: -100 }, { orp: -98 }), PAUL).verdict).toBe(
      'stable',
    );
    const none = purge({ turbidity: 0 }, { turbidity: 0 }, { turbidity: 0 });
    expect(stabilisation(none, PULS).verdict).toBe('stable');
  });

  test('a set of one’s own: range instead of mean, and turbidity low enough', () => {
    const ours: CriteriaSet = {
      ...PULS,
      name: 'Ours',
      compared: 'range',
      criteria: PULS.criteria.map((one) =>
        one.parameter === 'turbidity' ? { ...one, steadyBelow: 5 } : one,
      ),
    };
    const ph = purge({ ph: 7 }, { ph: 7.08 }, { ph: 7.16 });
    expect(stabilisation(ph, ours).verdict).toBe('changing');
    const low = purge({ turbidity: 2 }, { turbidity: 4 }, { turbidity: 5 });
    expect(stabilisation(low, PULS).verdict).toBe('changing');
    expect(stabilisation(low, ours).verdict).toBe('stable');
  });

  test('whatever is read, the stricter comparison never passes what the other refuses', () => {
    const value = fc.double({ min: 0.1, max: 20, noNaN: true });
    fc.assert(
      fc.property(value, value, value, (a, b, c) => {
        const readings = purge({ ph: a }, { ph: b }, { ph: c });
        const strict = stabilisation(readings, { ...PULS, compared: 'range' });
        if (strict.verdict === 'stable')
          expect(stabilisation(readings, PULS).verdict).toBe('stable');
      }),
    );
  });
});

describe('where purging ends', () => {
  const stable = stabilisation(purge({}, {}, {}), PULS);
  const changing = stabilisation(purge({}, {}, { ph: 8 }), PULS);
  const limit = { minutes: 60, litres: 20 };

  test.each([
    ['stable', stable, { minutes: 20, litres: 4 }, 'ready to sample'],
    ['stable at the limit', stable, { minutes: 60, litres: 4 }, 'ready to sample'],
    ['changing', changing, { minutes: 20, litres: 4 }, 'keep purging'],
    ['out of time', changing, { minutes: 60, litres: 4 }, 'did not clear'],
    ['out of volume', changing, { minutes: 20, litres: 20 }, 'did not clear'],
  ] as const)('%s', (_, state, purged, outcome) => {
    expect(purgeOutcome(state, purged, limit)).toBe(outcome);
  });

  test('with no limit there is always more to purge', () => {
    expect(
      purgeOutcome(changing, { minutes: 900, litres: 900 }, { minutes: null, litres: null }),
    ).toBe('keep purging');
  });
});

describe('a static water level', () => {
  const levels = (...pairs: [minutes: number, feet: number][]) =>
    pairs.map(([minutes, depth]) => ({ minutes, depth: metres(depth, 'ft') }));
  const state = (...pairs: [number, number][]) => levelState(levels(...pairs), USUAL_STATIC_RULE);

  test.each<[string, [number, number][], string]>([
    [
      'the same for 15 minutes',
      [
        [0, 9.82],
        [5, 9.82],
        [15, 9.82],
      ],
      'static',
    ],
    [
      'a hundredth in 15 minutes',
      [
        [0, 9.83],
        [8, 9.82],
        [15, 9.82],
      ],
      'static',
    ],
    [
      'two hundredths in 15 minutes is not under it',
      [
        [0, 9.84],
        [15, 9.82],
      ],
      'rising',
    ],
    [
      'still coming up',
      [
        [0, 12],
        [5, 11],
        [10, 10.4],
        [15, 10.1],
      ],
      'rising',
    ],
    [
      'going down',
      [
        [0, 9.8],
        [15, 9.9],
      ],
      'falling',
    ],
    [
      'up and down',
      [
        [0, 9.8],
        [7, 9.7],
        [15, 9.8],
      ],
      'unsteady',
    ],
    [
      'early movement does not count',
      [
        [0, 14],
        [10, 9.83],
        [20, 9.82],
        [26, 9.82],
      ],
      'static',
    ],
  ])('%s', (_, pairs, kind) => {
    expect(state(...pairs).kind).toBe(kind);
  });

  test('two readings a minute apart that agree to 0.02 ft check the tape, not the level', () => {
    expect(tapeAgrees(metres(9.82, 'ft'), metres(9.84, 'ft'))).toBe(true);
    expect(tapeAgrees(metres(9.82, 'ft'), metres(9.85, 'ft'))).toBe(false);
    expect(state([0, 9.82], [1, 9.84])).toEqual({ kind: 'too short', minutes: 1, need: 15 });
  });

  test('one reading is too few', () => {
    expect(state([0, 9.82])).toEqual({ kind: 'too few', have: 1 });
    expect(state()).toEqual({ kind: 'too few', have: 0 });
  });

  test('the rate is said: 1.9 ft in 15 minutes', () => {
    const found = state([0, 12], [15, 10.1]);
    expect('rate' in found && inUnits(metres(found.rate), 'ft')).toBeCloseTo(1.9 / 15, 9);
  });

  test('the rule is the site’s: 0.05 ft over 10 minutes', () => {
    const rule = { change: metres(0.05, 'ft'), minutes: 10, source: 'work plan' };
    expect(levelState(levels([0, 9.84], [10, 9.8]), rule).kind).toBe('static');
  });
});

test.each([
  ['2026-05-31T14:05', '2026-05-31T14:20', 15],
  ['2026-05-31T23:55', '2026-06-01T00:05', 10],
  ['2024-02-28 12:00', '2024-03-01 12:00', 2880],
  ['2026-05-31T14:05:30', '2026-05-31T14:06', 0.5],
  ['2026-05-31T14:20', '2026-05-31T14:05', -15],
  ['2026-05-31', '2026-05-31T14:05', null],
  ['', '2026-05-31T14:05', null],
])('from %s to %s: %s minutes', (from, to, minutes) => {
  expect(minutesBetween(from, to)).toBe(minutes);
});
