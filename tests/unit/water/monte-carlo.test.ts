import { describe, expect, test } from 'vitest';
import { metres, turn } from '../../../src/domain/units';
import {
  simulateDirection,
  simulateInSteps,
  statedErrors,
  type SimulationChoice,
  type StatedErrors,
} from '../../../src/domain/water/monte-carlo';
import type { HeadPoint } from '../../../src/domain/water/plane';
import { randomFrom } from '../../../src/domain/water/random';
import { off, ORACLE, oracleCase, oracleWells, SIX_IN_FEET, valueOf, well } from './wells';

const CHANCES = [0.025, 0.05, 0.16, 0.5, 0.84, 0.95, 0.975];
const choice = (draws: number): SimulationChoice => ({ weighted: false, draws, chances: CHANCES });

const simulated = (
  points: readonly HeadPoint[],
  draws: number,
  seed = 1,
  errors: readonly StatedErrors[] = statedErrors(points),
) => valueOf(simulateDirection(points, errors, choice(draws), randomFrom(seed)));

describe('12 sets of 400,000 draws (numpy), and the exact percentiles they were checked by', () => {
  const DRAWS = 400_000;

  test('all twelve are here', () => expect(ORACLE.monte_carlo).toHaveLength(12));

  test.each(ORACLE.monte_carlo)('$case, measuring error $measuring_sigma', (reference) => {
    const points = oracleWells(oracleCase(reference.case), reference.measuring_sigma);
    const found = simulated(points, DRAWS);
    expect(reference.percentiles).toEqual(CHANCES);
    expect(off(found.about, reference.azimuth_best)).toBeLessThan(1e-9);
    found.direction.forEach(({ deviation }, i) => {
      const error = reference.mc_standard_error[i]!;
      const exact = reference.azimuth_deviation_exact[i]!;
      const drawn = reference.azimuth_deviation_mc[i]!;
      expect(Math.abs(deviation - exact), `exact ${CHANCES[i]}`).toBeLessThan(4 * error);
      // Two simulations of the same size differ by √2 standard errors.
      expect(Math.abs(deviation - drawn), `${CHANCES[i]}`).toBeLessThan(4 * Math.SQRT2 * error);
    });
    found.gradient.forEach(({ gradient }, i) => {
      expect(Math.abs(gradient / reference.gradient_mc[i]! - 1)).toBeLessThan(0.01);
    });
    expect(found.meanResultantLength).toBeCloseTo(reference.mean_resultant_length, 2);
    expect(Math.abs(found.circularStandardDeviation - reference.circular_sd_deg)).toBeLessThan(
      0.15,
    );
  });
});

test('Masters’ triangle with 0.01 m: direction sure to 2.83°, by 400,000 draws elsewhere (basis, case 3.2)', () => {
  const masters = [well('1', 0, 0, -10), well('2', 100, 0, -10.2), well('3', 100, 100, -10.1)];
  const found = simulated(masters, 400_000);
  // The reference is printed to 0.01°; the error of a standard deviation of 400,000 draws is 0.003°.
  expect(Math.abs(found.circularStandardDeviation - 2.83)).toBeLessThan(0.02);
  const [, , below, , above] = found.gradient;
  expect((above!.gradient - below!.gradient) / 2).toBeCloseTo(0.000167, 5);
});

describe('stated errors of level, survey and position', () => {
  const six = SIX_IN_FEET;
  const with_ = (level: number, survey: number, position: number) =>
    six.map(() => ({
      level: metres(level),
      survey: metres(survey),
      position: metres(position),
    }));
  const width = (errors: readonly StatedErrors[], seed = 3) => {
    const { direction } = simulated(six, 100_000, seed, errors);
    return direction[6]!.deviation - direction[0]!.deviation;
  };

  test('level and survey add by squares: 3 and 4 mm are 5 mm', () => {
    expect(width(with_(0.003, 0.004, 0))).toBeCloseTo(width(with_(0.005, 0, 0)), 9);
  });

  test('a position off by d on a slope i is a head off by i·d: the same spread of direction', () => {
    const gradient = simulated(six, 100).plane.gradient;
    const byPosition = width(with_(0, 0, 0.3));
    // i·d along the slope only, so one coordinate's error counts; scatter about the plane adds a little.
    const byHead = width(with_(gradient * 0.3, 0, 0));
    expect(off(byPosition, byHead)).toBeLessThan(0.03);
  });

  test('with heads and places both drawn, the errors add', () => {
    const [heads, places, both] = [
      width(with_(0.003, 0, 0)),
      width(with_(0, 0, 0.5)),
      width(with_(0.003, 0, 0.5)),
    ];
    expect(off(both, Math.hypot(heads, places))).toBeLessThan(0.03);
  });

  test('drawing heads only, with the places drawn by nothing: both ways of drawing agree', () => {
    const tiny = width(with_(0.003, 0, 1e-9));
    expect(off(tiny, width(with_(0.003, 0, 0)))).toBeLessThan(0.02);
  });
});

describe('what it reports', () => {
  test('the same seed, the same figure; another seed, nearly', () => {
    const [one, again, other] = [1, 1, 2].map((seed) => simulated(SIX_IN_FEET, 20_000, seed));
    expect(again).toEqual(one);
    expect(other).not.toEqual(one);
    expect(turn(one!.meanDirection, other!.meanDirection)).toBeCloseTo(0, 1);
  });

  test('turned by 100°, so are the percentiles', () => {
    const [cos, sin] = [Math.cos((100 * Math.PI) / 180), Math.sin((100 * Math.PI) / 180)];
    const turned = SIX_IN_FEET.map((w) => ({
      ...w,
      x: metres(w.x * cos + w.y * sin),
      y: metres(w.y * cos - w.x * sin),
    }));
    const [before, after] = [simulated(SIX_IN_FEET, 50_000), simulated(turned, 50_000)];
    before.direction.forEach(({ azimuth, deviation }, i) => {
      expect(turn(azimuth + 100, after.direction[i]!.azimuth)).toBeCloseTo(0, 1);
      expect(turn(before.about + deviation, azimuth)).toBeCloseTo(0, 9);
    });
  });

  test('flow due north: percentiles on both sides of 0°, and no jump', () => {
    const north = [well('1', 0, 0, 10), well('2', 100, 0, 10), well('3', 50, 90, 9.5)];
    const { direction, meanDirection } = simulated(north, 50_000);
    expect(direction[0]!.azimuth).toBeGreaterThan(350);
    expect(direction[6]!.azimuth).toBeLessThan(10);
    expect(turn(0, meanDirection)).toBeCloseTo(0, 1);
  });

  test('a level surface: directions all round, and a mean that means little', () => {
    const flat = [well('1', 0, 0, 5), well('2', 100, 0, 5), well('3', 50, 87, 5)];
    const found = simulated(flat, 50_000);
    expect(found.plane.azimuth).toBeNull();
    expect(found.meanResultantLength).toBeLessThan(0.02);
    expect(found.about).toBe(found.meanDirection);
    // Uniform: 95 % of directions take 342°.
    const [low, high] = [found.direction[0]!.deviation, found.direction[6]!.deviation];
    expect(Math.abs(high - low - 342)).toBeLessThan(4);
  });

  test('it can be stopped on the way, and says how far it is', () => {
    const steps = simulateInSteps(
      SIX_IN_FEET,
      statedErrors(SIX_IN_FEET),
      choice(10_000),
      randomFrom(1),
    );
    const shares: number[] = [];
    for (let step = steps.next(); !step.done; step = steps.next()) shares.push(step.value);
    expect(shares.length).toBeGreaterThan(3);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    for (const share of shares) expect(share > 0 && share < 1).toBe(true);
  });
});

describe('what it refuses', () => {
  const refused = (
    points: readonly HeadPoint[],
    errors: readonly StatedErrors[] = statedErrors(points),
    draws = 1000,
  ) => simulateDirection(points, errors, choice(draws), randomFrom(1));

  test('two wells, or wells in a line: as the plane has it', () => {
    expect(refused([well('1', 0, 0, 1), well('2', 1, 0, 2)])).toMatchObject({
      problem: { kind: 'too-few-wells' },
    });
    expect(refused([well('1', 0, 0, 1), well('2', 1, 1, 2), well('3', 4, 4, 2)])).toMatchObject({
      problem: { kind: 'wells-in-a-line' },
    });
  });

  test('errors for other wells than these', () => {
    expect(refused(SIX_IN_FEET, statedErrors(SIX_IN_FEET).slice(1))).toMatchObject({
      problem: { kind: 'errors-do-not-match', wells: 6, errors: 5 },
    });
  });

  test('ten draws', () => {
    expect(refused(SIX_IN_FEET, undefined, 10)).toMatchObject({
      problem: { kind: 'too-few-draws', have: 10, need: 100 },
    });
  });

  const errorsOf = (points: readonly HeadPoint[], level: number, position: number) =>
    points.map(() => ({ level: metres(level), survey: metres(0), position: metres(position) }));

  test('no error at all, or one below nothing', () => {
    expect(refused(SIX_IN_FEET, errorsOf(SIX_IN_FEET, 0, 0))).toMatchObject({
      problem: { kind: 'no-error-stated' },
    });
    const one = errorsOf(SIX_IN_FEET, 0.01, 0).with(2, errorsOf(SIX_IN_FEET, -0.01, 0)[0]!);
    expect(refused(SIX_IN_FEET, one)).toMatchObject({
      problem: { kind: 'no-error-stated', ids: ['P3'] },
    });
  });

  test('a level surface with only its places in doubt: no draw has a direction', () => {
    const flat = [well('1', 0, 0, 5), well('2', 100, 0, 5), well('3', 50, 87, 5)];
    expect(refused(flat, errorsOf(flat, 0, 1))).toMatchObject({
      problem: { kind: 'no-direction-drawn', draws: 1000 },
    });
  });
});
