import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { metres, turn } from '../../../src/domain/units';
import { leaveOneOut } from '../../../src/domain/water/leave-one-out';
import { fitPlane, type HeadPoint } from '../../../src/domain/water/plane';
import {
  fixture,
  noise,
  off,
  oracleCase,
  oracleWells,
  scattered,
  SIX_IN_FEET,
  slope,
  valueOf,
  well,
} from './wells';

const left = (points: readonly HeadPoint[], weighted = false) =>
  valueOf(leaveOneOut(points, { weighted, confidence: 0.95 }));

const FOOT = metres(1, 'ft');
const mistyped = (points: readonly HeadPoint[], at: number, by = FOOT) =>
  points.map((point, i) => (i === at ? { ...point, head: metres(point.head + by) } : point));
const largest = (points: readonly HeadPoint[]) => {
  const { wells } = left(points);
  return wells.toSorted((a, b) => Math.abs(b.studentised!) - Math.abs(a.studentised!))[0]!;
};

test('six wells: directions without each of P1 to P6, computed independently (basis, case 3.1)', () => {
  const { wells, driver } = left(SIX_IN_FEET);
  const printed = [130.114, 127.029, 130.919, 126.449, 131.711, 127.657];
  wells.forEach(({ without, shift }, i) => {
    expect(without?.azimuth).toBeCloseTo(printed[i]!, 3);
    expect(shift).toBeCloseTo(printed[i]! - 128.91587, 3);
  });
  expect(driver).toBe('P5');
});

describe('from the definitions at 50 digits (mpmath)', () => {
  type Row = {
    leverage: number;
    azimuth: number;
    gradient: number;
    prediction_residual: number;
    studentised?: number;
    cook: number;
  };
  const { influence } = fixture<{ influence: Record<string, Row[]> }>('planes/influence.json');

  test.each(Object.entries(influence))('%s: leverage, studentised, influence', (id, rows) => {
    const set = oracleCase(id);
    const { wells } = left(oracleWells(set), set.weights !== null);
    expect(wells).toHaveLength(rows.length);
    rows.forEach((row, i) => {
      const found = wells[i]!;
      expect(off(found.leverage, row.leverage)).toBeLessThan(1e-9);
      expect(off(found.without?.azimuth, row.azimuth)).toBeLessThan(1e-9);
      expect(off(found.without?.gradient, row.gradient)).toBeLessThan(1e-9);
      expect(off(found.predictionResidual, row.prediction_residual)).toBeLessThan(1e-8);
      expect(off(found.cook, row.cook)).toBeLessThan(1e-8);
      if (row.studentised === undefined) expect(found.studentised).toBeNull();
      else expect(off(found.studentised, row.studentised)).toBeLessThan(1e-8);
    });
  });
});

describe('a wellhead mistyped by a foot', () => {
  const eight = (
    [
      [0, 0],
      [60, 8],
      [118, -5],
      [12, 55],
      [71, 62],
      [125, 50],
      [40, 110],
      [95, 118],
    ] as const
  ).map(([x, y], i) => {
    const scatter = [0.011, -0.008, 0.004, -0.013, 0.006, 0.009, -0.005, -0.004][i]!;
    return well(`MW-${i + 1}`, x, y, 31.2 - 0.004 * x + 0.002 * y + scatter);
  });

  test('eight wells on a plane, untouched: nobody is named', () => {
    expect(left(eight).culprit.kind).toBe('none-stands-out');
  });

  test.each(eight.map(({ id }, i) => [id, i] as const))(
    '%s a foot too high or too low: it stands out, is named, and by how much',
    (id, at) => {
      for (const by of [FOOT, metres(-1, 'ft')]) {
        const points = mistyped(eight, at, by);
        expect(largest(points).id).toBe(id);
        const { culprit } = left(points);
        expect(culprit).toMatchObject({ kind: 'named', id });
        if (culprit.kind !== 'named') continue;
        expect(culprit.probability).toBeLessThan(0.001);
        expect(Math.abs(culprit.predictionResidual - by)).toBeLessThan(0.04);
      }
    },
  );

  test('for any eight wells or more, where the well decides less than half its own fit', () => {
    const site = scattered(8, 20).chain((places) =>
      fc.record({
        places: fc.constant(places),
        scatter: fc.array(noise, { minLength: places.length, maxLength: places.length }),
        at: fc.nat(places.length - 1),
        a: slope,
        b: slope,
      }),
    );
    fc.assert(
      fc.property(site, ({ places, scatter, at, a, b }) => {
        // Scatter of up to 0.02 m: a foot is over five times that.
        const points = places.map(([x, y], i) =>
          well(`${i}`, x, y, 30 + a * x + b * y + 0.02 * scatter[i]!),
        );
        fc.pre(left(points).wells[at]!.leverage < 0.5);
        expect(largest(mistyped(points, at)).id).toBe(`${at}`);
        expect(left(mistyped(points, at)).culprit).toMatchObject({ kind: 'named', id: `${at}` });
      }),
    );
  });

  test('on a plane without any scatter, to the last bit, it stands out by a finite amount', () => {
    // Sixty-fourths and powers of two: sums without rounding.
    const exact = [
      [0, 0],
      [64, 0],
      [128, 0],
      [0, 64],
      [64, 64],
      [128, 64],
      [0, 128],
      [64, 128],
    ].map(([x, y], i) => well(`${i}`, x!, y!, 16 - x! / 64 - y! / 128));
    const worst = largest(mistyped(exact, 3, metres(0.5)));
    expect(worst.id).toBe('3');
    expect(worst.studentised).toBeGreaterThan(1e9);
    expect(worst.studentised).toBeLessThan(1e15);
  });
});

describe('too few to blame one', () => {
  const four = [
    well('1', 0, 0, 9),
    well('2', 90, 0, 8.8),
    well('3', 0, 80, 8.9),
    well('4', 100, 90, 9.3),
  ];

  test('four wells: all four residuals can be any one’s fault, and none is named', () => {
    const { wells, culprit } = left(four);
    expect(culprit).toEqual({ kind: 'cannot-be-named', have: 4, need: 6 });
    for (const found of wells) expect(found.studentised).toBeNull();
    // r²/(1 − h) is the whole sum of squares at each of the four.
    const blame = wells.map(({ residual, leverage }) => residual ** 2 / (1 - leverage));
    for (const each of blame) expect(off(each, blame[0]!)).toBeLessThan(1e-9);
  });

  test('five wells: residuals are studentised, and still none is named', () => {
    const { wells, culprit } = left([...four, well('5', 50, 40, 9)]);
    expect(culprit).toEqual({ kind: 'cannot-be-named', have: 5, need: 6 });
    for (const found of wells) expect(found.studentised).not.toBeNull();
  });

  test('three wells cannot be left out of', () => {
    expect(leaveOneOut(four.slice(1), { weighted: false, confidence: 0.95 })).toMatchObject({
      problem: { kind: 'too-few-wells', have: 3, need: 4 },
    });
  });
});

test('the one well off a line decides alone: without it there is no plane, and it says so', () => {
  const line = [0, 50, 100, 150].map((x, i) => well(`${i}`, x, 0, 9 - x / 1000 + (i % 2) / 100));
  const { wells, driver } = left([...line, well('off', 70, 60, 9.1)]);
  expect(wells.at(-1)).toMatchObject({
    id: 'off',
    leverage: expect.closeTo(1, 9),
    without: null,
    none: 'in-a-line',
    shift: null,
    predictionResidual: null,
    studentised: null,
    cook: null,
  });
  expect(driver).not.toBe('off');
});

test('without the one high well the rest is level: no direction, and the reason', () => {
  const places = [
    [0, 0],
    [90, 0],
    [0, 80],
    [100, 90],
  ] as const;
  const flat = places.map(([x, y], i) => well(`${i}`, x, y, 5));
  const { wells } = left([...flat, well('high', 30, 40, 6)]);
  expect(wells.at(-1)).toMatchObject({
    id: 'high',
    none: 'level',
    shift: null,
    without: { gradient: 0, azimuth: null },
  });
});

test('for any wells: the plane without a well is the plane of the others, weighted or not', () => {
  fc.assert(
    fc.property(
      scattered(5, 10),
      fc.array(noise, { minLength: 10, maxLength: 10 }),
      fc.boolean(),
      (places, h, weighted) => {
        const points = places.map(([x, y], i) =>
          well(`${i}`, x, y, 5 + h[i]!, 0.01 * (1 + (i % 3))),
        );
        left(points, weighted).wells.forEach(({ without, none }, i) => {
          const others = fitPlane(points.toSpliced(i, 1), { weighted });
          expect(none === 'in-a-line').toBe(!others.ok);
          if (!others.ok || others.value.gradient < 1e-4) return;
          expect(off(without?.gradient, others.value.gradient)).toBeLessThan(1e-9);
          expect(turn(without!.azimuth!, others.value.azimuth!)).toBeCloseTo(0, 8);
        });
      },
    ),
    { numRuns: 50 },
  );
});

describe('from six wells on', () => {
  test('one foot on one of six is named; its chance by t with two degrees of freedom, in closed form', () => {
    for (const at of [0, 2, 4]) {
      const points = mistyped(SIX_IN_FEET, at);
      const found = valueOf(leaveOneOut(points, { weighted: false, confidence: 0.5 }));
      const { culprit } = found;
      if (culprit.kind === 'cannot-be-named') throw new Error('six are enough');
      const t = Math.abs(culprit.studentised);
      // P(T > t) = ½ − t/(2√(2 + t²)), twice, and divided among six.
      const chance = Math.min(1, 12 * (0.5 - t / (2 * Math.sqrt(2 + t * t))));
      expect(off(culprit.probability, chance)).toBeLessThan(1e-6);
      expect(culprit.id).toBe(points[at]!.id);
      expect(culprit.kind).toBe(chance < 0.5 ? 'named' : 'none-stands-out');
    }
  });

  test('wells in a line are refused as any plane of them is', () => {
    const line = [0, 1, 2, 3, 4].map((i) => well(`${i}`, i, 2 * i, 10 - i));
    expect(leaveOneOut(line, { weighted: false, confidence: 0.95 })).toMatchObject({
      ok: false,
      problem: { kind: 'wells-in-a-line' },
    });
  });

  test('a level surface has no direction to turn, and no well drives it', () => {
    const level = [well('1', 0, 0, 7), well('2', 64, 0, 7), well('3', 0, 64, 7), well('4', 64, 64, 7), well('5', 32, 16, 7)]; // prettier-ignore
    const { wells, driver } = left(level);
    expect(driver).toBeNull();
    for (const one of wells) expect(one).toMatchObject({ none: 'level', shift: null, cook: null });
    // One head raised: without it the rest are level, and with it there is a direction.
    const raised = left(level.map((one, i) => (i === 4 ? { ...one, head: metres(7.5) } : one)));
    expect(raised.wells[4]).toMatchObject({ none: 'level', shift: null });
    expect(raised.wells[0]?.shift).not.toBeNull();
    expect(['1', '2', '3', '4']).toContain(raised.driver);
  });

  test('influence is measured against the scatter, and there is none on a plane to the last bit', () => {
    const exact = [well('1', 0, 0, 10), well('2', 64, 0, 9), well('3', 0, 64, 9.5), well('4', 64, 64, 8.5), well('5', 32, 16, 9.375)]; // prettier-ignore
    for (const { cook } of left(exact).wells) expect(cook).toBeNull();
    for (const { cook } of left(SIX_IN_FEET).wells) expect(cook).toBeGreaterThan(0);
  });
});
