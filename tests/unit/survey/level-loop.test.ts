import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chosen } from '../../../src/domain/layout/given';
import { adjusted, type SharedBy } from '../../../src/domain/survey/adjustment';
import {
  closureOf,
  levelLoop,
  type LevelLoop,
  type Shot,
} from '../../../src/domain/survey/level-loop';
import { allowable, LEVEL_ORDERS, suspects } from '../../../src/domain/survey/misclosure';
import { inUnits, metres, type LengthUnit, type Metres } from '../../../src/domain/units';
import { expectToWorkOut } from '../layout/calculator';

type Line = readonly [
  point: string,
  back: number | null,
  fore: number | null,
  known?: number | null,
  distance?: number,
];

const book = (lines: readonly Line[], unit: LengthUnit = 'ft'): Shot[] =>
  lines.map(([point, back, fore, known = null, distance], i) => {
    const given = (n: number | null) => (n === null ? null : chosen(n, unit, `line ${i + 1}`));
    return {
      order: i + 1,
      point,
      backsight: given(back),
      foresight: given(fore),
      known: given(known),
      distance: i === 0 ? metres(0) : distance === undefined ? null : metres(distance, unit),
    };
  });

const reduced = (shots: readonly Shot[]): LevelLoop => {
  const loop = levelLoop(shots);
  if (!loop.ok) throw new Error(JSON.stringify(loop.problem));
  return loop.value;
};

const inside = (n: number, unit: LengthUnit) => Number(inUnits(metres(n), unit).toFixed(4));
const elevations = (loop: LevelLoop, unit: LengthUnit = 'ft') =>
  loop.stations.slice(1).map(({ elevation }) => inside(elevation.value, unit));
const misclosure = (loop: LevelLoop, unit: LengthUnit = 'ft') => {
  const closure = closureOf(loop);
  return closure && inside(closure.misclosure.value, unit);
};
const adjustedTo = (
  loop: LevelLoop,
  unit: LengthUnit,
  decimals: number,
  by: SharedBy = 'set-ups',
) => {
  const found = adjusted(loop, by, null);
  return found.ok
    ? found.value.slice(1).map(({ elevation }) => inUnits(elevation.value, unit).toFixed(decimals))
    : found.problem.kind;
};

/** A line of benchmarks and turning points from lists of readings. */
const line = (
  from: string,
  known: number,
  points: readonly string[],
  backs: readonly number[],
  fores: readonly number[],
  close: number | null,
): Line[] => [
  [from, backs[0] ?? null, null, known],
  ...points.map((point, i): Line => {
    const last = i === points.length - 1;
    return [point, last ? null : (backs[i + 1] ?? null), fores[i] ?? null, last ? close : null];
  }),
];

describe('published level loops', () => {
  // A worked problem as read; benchmarks A 100.00 and B 94.91.
  const eight1 = book(
    line(
      'A',
      100,
      ['TP1', 'TP2', 'TP3', 'B'],
      [3.1, 6.44, 8.76, 7.12],
      [9.82, 6.96, 3.27, 10.42],
      94.91,
    ),
  );

  test('8.1: A to B, 93.28, 92.76, 98.25, 94.95; sums 25.42 less 30.47; misclosure +0.04', () => {
    const loop = reduced(eight1);
    expect(elevations(loop)).toEqual([93.28, 92.76, 98.25, 94.95]);
    expect(inside(loop.page.backsights, 'ft')).toBe(25.42);
    expect(inside(loop.page.foresights, 'ft')).toBe(30.47);
    expect(inside(loop.page.rise, 'ft')).toBe(-5.05);
    expect(loop.page.agrees).toBe(true);
    expect(misclosure(loop)).toBe(0.04);
  });

  // C. D. Ghilani and P. R. Wolf, Elementary surveying: data as read, adjusted values computed independently.
  test('8.2: BM Tree and back, misclosure +0.08; by equal set-ups BM X is 813.05', () => {
    const loop = reduced(
      book(
        line(
          'BM Tree',
          814.08,
          ['TP1', 'BM X', 'TP2', 'BM Tree'],
          [6.78, 5.04, 5.63, 7.35],
          [7.76, 5.05, 2.64, 9.27],
          null,
        ),
      ),
    );
    expect(elevations(loop)).toEqual([813.1, 813.09, 816.08, 814.16]);
    expect(misclosure(loop)).toBe(0.08);
    expect(adjustedTo(loop, 'ft', 2)).toEqual(['813.08', '813.05', '816.02', '814.08']);
  });

  // The same, problem 5.12: data as read, answers computed independently.
  const eight3 = book(
    line(
      'BM7',
      852.045,
      ['TP1', 'TP2', 'TP3', 'TP4', 'BM7'],
      [4.388, 6.907, 4.68, 3.73, 8.464],
      [4.538, 8.8, 5.978, 5.245, 3.598],
      null,
    ),
    'm',
  );

  test('8.3: BM7, 1500 m, misclosure +0.010 m passes third order and fails second, class II', () => {
    const loop = reduced(eight3);
    expect(misclosure(loop, 'm')).toBe(0.01);
    const limit = (name: string) => {
      const order = LEVEL_ORDERS.find((one) => one.name === name);
      return order ? allowable(order, metres(1500)).value : NaN;
    };
    expect(limit('Third order')).toBeCloseTo(0.0147, 4);
    expect(limit('Second order, class II')).toBeCloseTo(0.0098, 4);
    const at = (name: string) => adjusted(loop, 'set-ups', limit(name) as Metres);
    expect(at('Third order').ok).toBe(true);
    expect(at('Second order, class II')).toMatchObject({ problem: { kind: 'misclosure-exceeds' } });
    expect(adjustedTo(loop, 'm', 3)).toEqual([
      '851.893',
      '849.998',
      '848.698',
      '847.181',
      '852.045',
    ]);
  });

  // NAVEDTRA 14071, Fig. 7-4, as quoted: the closing benchmark alone; the readings are not at hand.
  test('8.4: closing at 136.457 on 136.442, misclosure 0.015', () => {
    const loop = reduced(book(line('BM', 130, ['BM 19'], [10], [3.543], 136.442)));
    expect(misclosure(loop)).toBe(0.015);
  });

  test('every line of work can be followed on a calculator', () => {
    const loop = reduced(eight1);
    const closure = closureOf(loop);
    if (closure) expectToWorkOut(closure.misclosure.work, 'ft');
    expectToWorkOut(loop.page.work, 'ft');
    for (const by of ['set-ups', 'distance'] as const) {
      const legs = eight1.map((shot) => ({ ...shot, distance: metres(250, 'ft') }));
      const found = adjusted(reduced(legs), by, null);
      for (const { elevation } of found.ok ? found.value : []) expectToWorkOut(elevation.work, 'm');
    }
  });
});

describe('allowable misclosure', () => {
  const feetAndMiles = LEVEL_ORDERS.find((order) => 'feetPerRootMile' in order);
  const third = LEVEL_ORDERS.find(({ name }) => name === 'Third order');

  // FGCC 1984: 12 mm√km is 0.04994 ft√mile, computed independently.
  test('third order over a mile is 0.04994 ft, and 0.05 ft√mile is the same rule to 0.1 %', () => {
    const mile = metres(5280, 'ft');
    const [metric, feet] = [third, feetAndMiles].map((order) =>
      order ? inUnits(allowable(order, mile).value, 'ft') : NaN,
    );
    expect(metric).toBeCloseTo(0.04994, 5);
    expect(feet).toBeCloseTo(0.05, 12);
    expect((feet ?? NaN) / (metric ?? NaN) - 1).toBeLessThan(0.0015);
  });

  test('every order says where it comes from and can be worked out', () => {
    for (const order of LEVEL_ORDERS) {
      expect(order.source).not.toBe('');
      expectToWorkOut(allowable(order, metres(1500)).work, 'm');
    }
  });
});

describe('a side shot', () => {
  const shots = book([
    ['BM', 5, null, 100, 0],
    ['MW-1', null, 3.25, null, 40],
    ['TP1', 4, 6, null, 100],
    ['BM', null, 2.94, null, 100],
  ]);

  test('is read from the set-up that goes on, and is not in the sums', () => {
    const loop = reduced(shots);
    expect(elevations(loop)).toEqual([101.75, 99, 100.06]);
    expect(loop.stations.map(({ kind }) => kind)).toEqual(['start', 'side', 'turning', 'turning']);
    expect(loop.setUps).toBe(2);
    expect(inside(loop.length ?? metres(NaN), 'ft')).toBe(200);
    expect(inside(loop.page.foresights, 'ft')).toBe(8.94);
  });

  test('takes the correction of the turning point its set-up leads to', () => {
    const loop = reduced(shots);
    expect(adjustedTo(loop, 'ft', 3)).toEqual(['101.720', '98.970', '100.000']);
    expect(adjustedTo(loop, 'ft', 3, 'distance')).toEqual(['101.720', '98.970', '100.000']);
  });
});

describe('legs of different length', () => {
  const shots = book([
    ['BM', 5, null, 100],
    ['TP1', 4, 6, null, 300],
    ['BM', null, 2.96, null, 100],
  ]);

  test('by distance the long leg takes three quarters of the misclosure', () => {
    expect(adjustedTo(reduced(shots), 'ft', 3, 'distance')).toEqual(['98.970', '100.000']);
    expect(adjustedTo(reduced(shots), 'ft', 3)).toEqual(['98.980', '100.000']);
  });

  test('a leg that was not measured: set-ups will do, distance will not', () => {
    const unmeasured = shots.map((shot, i) => (i === 1 ? { ...shot, distance: null } : shot));
    expect(adjustedTo(reduced(unmeasured), 'ft', 3, 'distance')).toBe('no-distance');
    expect(adjustedTo(reduced(unmeasured), 'ft', 3)).toEqual(['98.980', '100.000']);
    expect(reduced(unmeasured).length).toBeNull();
  });
});

describe('a mistake leaves a misclosure that is said, not smoothed', () => {
  const limit = metres(0.03, 'ft');
  const right: readonly Line[] = [
    ['BM-1', 4.62, null, 970],
    ['TP-1', 4.05, 5.13],
    ['MW-3', 3.52, 2.37],
    ['TP-2', 4.94, 4.44],
    ['BM-1', null, 5.2],
  ];
  const broken = (change: (lines: Line[]) => void): Shot[] => {
    const lines = [...right];
    change(lines);
    return book(lines);
  };

  test('as read it closes to 0.01 and can be adjusted', () => {
    const loop = reduced(book(right));
    expect(misclosure(loop)).toBe(-0.01);
    expect(adjusted(loop, 'set-ups', limit).ok).toBe(true);
    expect(suspects(loop, book(right), limit, 'ft')).toEqual([]);
  });

  test('a backsight written in the foresight’s column: 2.30 ft, refused, and the line is named', () => {
    const shots = broken((lines) => (lines[2] = ['MW-3', 2.37, 3.52]));
    const loop = reduced(shots);
    expect(misclosure(loop)).toBe(-2.31);
    expect(loop.page.agrees).toBe(true); // the page check proves the adding up alone
    expect(adjusted(loop, 'set-ups', limit)).toMatchObject({
      ok: false,
      problem: { kind: 'misclosure-exceeds', limit },
    });
    expect(suspects(loop, shots, limit, 'ft')).toEqual([
      { kind: 'columns swapped', point: 'MW-3', order: 3 },
    ]);
  });

  test('a set-up read the wrong way round', () => {
    const shots = broken((lines) => {
      lines[1] = ['TP-1', 2.37, 5.13];
      lines[2] = ['MW-3', 3.52, 4.05];
    });
    const loop = reduced(shots);
    expect(misclosure(loop)).toBe(-3.37);
    expect(suspects(loop, shots, limit, 'ft')).toContainEqual({
      kind: 'set-up turned round',
      from: 'TP-1',
      to: 'MW-3',
    });
  });

  test('a rod misread by a foot', () => {
    const shots = broken((lines) => (lines[3] = ['TP-2', 5.94, 4.44]));
    expect(misclosure(reduced(shots))).toBe(0.99);
    expect(suspects(reduced(shots), shots, limit, 'ft')).toEqual([
      { kind: 'whole units', units: 1, unit: 'ft' },
    ]);
  });

  test('two backsights exchanged between set-ups close as well as before: levelling cannot show it', () => {
    const shots = broken((lines) => {
      lines[1] = ['TP-1', 3.52, 5.13];
      lines[2] = ['MW-3', 4.05, 2.37];
    });
    expect(misclosure(reduced(shots))).toBe(-0.01);
    expect(elevations(reduced(shots))).not.toEqual(elevations(reduced(book(right))));
  });
});

describe('a loop that cannot be reduced says why and where', () => {
  test.each<[string, Line[], object]>([
    ['nothing', [], { kind: 'too-few-shots', have: 0 }],
    ['one line', [['BM', 5, null, 100]], { kind: 'too-few-shots', have: 1 }],
    [
      'no elevation to start from',
      [
        ['TP', 5, null],
        ['BM', null, 3, 100],
      ],
      { kind: 'no-start-elevation', order: 1, point: 'TP' },
    ],
    [
      'no backsight on the start',
      [
        ['BM', null, null, 100],
        ['TP', null, 3],
      ],
      { kind: 'no-start-backsight', order: 1 },
    ],
    [
      'a foresight before any set-up',
      [
        ['BM', 5, 4, 100],
        ['TP', null, 3],
      ],
      { kind: 'foresight-at-start', order: 1 },
    ],
    [
      'a foresight left out',
      [
        ['BM', 5, null, 100],
        ['TP1', 4, null],
        ['TP2', null, 3],
      ],
      { kind: 'no-foresight', order: 2, point: 'TP1' },
    ],
    [
      'a last line read back and never forward',
      [
        ['BM', 5, null, 100],
        ['TP1', 4, 3],
      ],
      { kind: 'ends-on-backsight', order: 2, point: 'TP1' },
    ],
  ])('%s', (_, lines, problem) => {
    expect(levelLoop(book(lines))).toMatchObject({ ok: false, problem });
  });

  test('an open line has elevations, no closure, and no adjustment', () => {
    const loop = reduced(
      book([
        ['BM', 5, null, 100],
        ['TP1', null, 3],
      ]),
    );
    expect(elevations(loop)).toEqual([102]);
    expect(closureOf(loop)).toBeNull();
    expect(adjustedTo(loop, 'ft', 2)).toBe('open');
  });
});

test('benchmarks met on the way are checked too; the last one closes', () => {
  const loop = reduced(
    book([
      ['BM-1', 5, null, 100],
      ['BM-2', 4, 3, 101.98],
      ['BM-3', null, 6, 100.03],
    ]),
  );
  expect(loop.checks.map(({ misclosure: m }) => inside(m.value, 'ft'))).toEqual([0.02, -0.03]);
  expect(misclosure(loop)).toBe(-0.03);
});

describe('for any loop', () => {
  const reading = fc.integer({ min: 20, max: 1400 }).map((n) => n / 100);
  const readings = fc.array(fc.tuple(reading, reading), { minLength: 1, maxLength: 20 });
  const loopOf = (pairs: readonly (readonly [number, number])[]) =>
    reduced(
      book(
        line(
          'BM',
          500,
          [...pairs.slice(1).map((_, i) => `TP${i + 1}`), 'BM'],
          pairs.map(([back]) => back),
          pairs.map(([, fore]) => fore),
          null,
        ),
      ),
    );

  test('page check agrees, and the misclosure is backsights less foresights', () => {
    fc.assert(
      fc.property(readings, (pairs) => {
        const loop = loopOf(pairs);
        const sum = pairs.reduce((total, [back, fore]) => total + back - fore, 0);
        expect(loop.page.agrees).toBe(true);
        expect(misclosure(loop)).toBeCloseTo(sum, 3);
      }),
    );
  });

  test('adjusted, it closes on the known elevation, and corrections never jump', () => {
    fc.assert(
      fc.property(readings, (pairs) => {
        const found = adjusted(loopOf(pairs), 'set-ups', null);
        const corrections = found.ok ? found.value.map(({ correction }) => correction) : [];
        const last = found.ok ? found.value.at(-1) : undefined;
        expect(last && inUnits(last.elevation.value, 'ft')).toBeCloseTo(500, 8);
        const step = (corrections.at(-1) ?? 0) / pairs.length;
        corrections
          .slice(1)
          .forEach((c, i) => expect(c - (corrections[i] ?? 0)).toBeCloseTo(step, 9));
      }),
    );
  });
});
