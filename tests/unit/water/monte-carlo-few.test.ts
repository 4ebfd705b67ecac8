import { Matrix, inverse } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { azimuth, metres, turn } from '../../../src/domain/units';
import {
  simulateDirection,
  simulateInSteps,
  statedErrors,
  type Simulation,
  type StatedErrors,
} from '../../../src/domain/water/monte-carlo';
import type { HeadPoint } from '../../../src/domain/water/plane';
import { normalDeviates, randomFrom } from '../../../src/domain/water/random';
import { off, valueOf, well } from './wells';

/** Five wells of unequal error, invented, far from the grid's origin. */
const WELLS = [
  well('1', 5000, 9000, 12.4, 0.02),
  well('2', 5140, 9025, 11.93, 0.05),
  well('3', 5060, 9130, 11.71, 0.04),
  well('4', 5210, 9160, 11.02, 0.06),
  well('5', 4960, 9090, 12.21, 0.05),
];
const CHANCES = [0, 0.025, 0.16, 0.5, 0.975, 1];
const DRAWS = 150;

/** Slopes east and north by the normal equations, with another library. */
function slopesOf(
  wells: readonly { x: number; y: number; head: number }[],
  weights: readonly number[],
) {
  const total = weights.reduce((sum, w) => sum + w);
  const mean = (of: (w: { x: number; y: number; head: number }) => number) =>
    wells.reduce((sum, one, i) => sum + weights[i]! * of(one), 0) / total;
  const [mx, my, mh] = [mean((w) => w.x), mean((w) => w.y), mean((w) => w.head)];
  const X = new Matrix(wells.map(({ x, y }) => [x - mx, y - my]));
  const W = Matrix.diag([...weights]);
  const h = Matrix.columnVector(wells.map(({ head }) => head - mh));
  const left = X.transpose().mmul(W);
  const [a, b] = inverse(left.mmul(X)).mmul(left.mmul(h)).to1DArray();
  return [a!, b!] as const;
}

/** A percentile between draws in proportion: definition 7 of Hyndman and Fan (1996). */
const percentile = (values: readonly number[], chance: number) => {
  const sorted = values.toSorted((one, other) => one - other);
  const at = chance * (sorted.length - 1);
  const [low, high] = [sorted[Math.floor(at)]!, sorted[Math.ceil(at)]!];
  return low + (at - Math.floor(at)) * (high - low);
};

/** Every draw solved anew, and summed as unit vectors. */
function drawnAnew(errors: readonly StatedErrors[], weighted: boolean, seed: number) {
  const normal = normalDeviates(randomFrom(seed));
  const weights = WELLS.map(({ sigma }) => (weighted ? sigma ** -2 : 1));
  const moves = errors.some(({ position }) => position > 0);
  const slopes = Array.from({ length: DRAWS }, () =>
    slopesOf(
      WELLS.map(({ x, y, head }, i) => {
        const { level, survey, position } = errors[i]!;
        const [dx, dy] = moves ? [position * normal(), position * normal()] : [0, 0];
        return { x: x + dx, y: y + dy, head: head + Math.hypot(level, survey) * normal() };
      }),
      weights,
    ),
  );
  const directions = slopes.map(([a, b]) => azimuth((Math.atan2(-a, -b) * 180) / Math.PI));
  const gradients = slopes.map(([a, b]) => Math.hypot(a, b));
  const sum = (of: (angle: number) => number) =>
    directions.reduce<number>((total, at) => total + of((at * Math.PI) / 180), 0);
  const [east, north] = [sum(Math.sin), sum(Math.cos)];
  return { directions, gradients, east, north };
}

const simulated = (
  errors: readonly StatedErrors[],
  weighted: boolean,
  seed: number,
  points: readonly HeadPoint[] = WELLS,
) =>
  simulateDirection(points, errors, { weighted, draws: DRAWS, chances: CHANCES }, randomFrom(seed));

const errorsOf = (position: number): StatedErrors[] =>
  WELLS.map(({ sigma }, i) => ({
    level: metres(sigma),
    survey: metres(0.01 * (i + 1)),
    position: metres(position * i),
  }));

describe('150 draws, each solved anew with another library from the same deviates', () => {
  test.each([
    ['places exact, all alike', 0, false, 3],
    ['places exact, weighed by their errors', 0, true, 4],
    ['places known to some metres, all alike', 4, false, 5],
    ['places known to some metres, weighed', 4, true, 6],
  ])('%s', (_, position, weighted, seed) => {
    const errors = errorsOf(position);
    const found = valueOf(simulated(errors, weighted, seed));
    const { directions, gradients, east, north } = drawnAnew(errors, weighted, seed);
    expect(found).toMatchObject({ draws: DRAWS, unsolved: 0 });
    expect(found.about).toBe(found.plane.azimuth);
    found.direction.forEach(({ chance, deviation, azimuth: at }, i) => {
      expect(chance).toBe(CHANCES[i]);
      const expected = percentile(
        directions.map((one) => turn(found.about, one)),
        chance,
      );
      expect(deviation).toBeCloseTo(expected, 6);
      expect(turn(at, found.about + expected)).toBeCloseTo(0, 6);
    });
    found.gradient.forEach(({ chance, gradient }) => {
      expect(off(gradient, percentile(gradients, chance))).toBeLessThan(1e-6);
    });
    expect(turn(found.meanDirection, (Math.atan2(east, north) * 180) / Math.PI)).toBeCloseTo(0, 6);
    const length = Math.hypot(east, north) / DRAWS;
    expect(found.meanResultantLength).toBeCloseTo(length, 9);
    // √(−2 ln R̄), in degrees: K. V. Mardia, 1972.
    expect(found.circularStandardDeviation).toBeCloseTo(
      (Math.sqrt(-2 * Math.log(length)) * 180) / Math.PI,
      6,
    );
  });

  test('another seed, other draws; the same seed, the same', () => {
    const of = (seed: number) =>
      valueOf(simulated(errorsOf(0), true, seed)).direction[3]!.deviation;
    expect(of(8)).toBe(of(8));
    expect(of(8)).not.toBe(of(9));
  });
});

test('a level surface is counted from the mean of its draws', () => {
  const level = WELLS.map((one) => ({ ...one, head: metres(12) }));
  const found = valueOf(simulated(errorsOf(0), false, 7, level));
  expect(found.plane.level).not.toBeNull();
  expect(found.about).toBe(found.meanDirection);
  expect(found.meanResultantLength).toBeLessThan(0.5);
  expect(found.unsolved).toBe(0);
});

test('errors as stated are of the level alone', () => {
  expect(statedErrors(WELLS.slice(0, 1))).toEqual([{ level: 0.02, survey: 0, position: 0 }]);
});

describe('no simulation, and why', () => {
  const problem = (
    errors: readonly StatedErrors[],
    points: readonly HeadPoint[] = WELLS,
    draws = DRAWS,
  ) => {
    const made = simulateDirection(
      points,
      errors,
      { weighted: false, draws, chances: CHANCES },
      randomFrom(1),
    );
    return made.ok ? null : made.problem;
  };
  const none = { level: metres(0), survey: metres(0), position: metres(0) };

  test('fewer than a hundred draws, or none that are a number', () => {
    expect(problem(errorsOf(0), WELLS, 100)).toBeNull();
    expect(problem(errorsOf(0), WELLS, 99)).toEqual({ kind: 'too-few-draws', have: 99, need: 100 });
    expect(problem(errorsOf(0), WELLS, NaN)).toMatchObject({ kind: 'too-few-draws' });
  });

  test('more errors than wells, or wells in a line', () => {
    expect(problem(errorsOf(0).slice(1))).toEqual({
      kind: 'errors-do-not-match',
      wells: 5,
      errors: 4,
    });
    const line = WELLS.map((one, i) => ({ ...one, x: metres(i), y: metres(2 * i) }));
    expect(problem(errorsOf(0), line)).toMatchObject({ kind: 'wells-in-a-line' });
  });

  test('an error below nothing is named by its well; one of nothing beside others is none', () => {
    for (const part of ['level', 'survey', 'position'] as const) {
      const wrong = errorsOf(1).map((one, i) =>
        i === 2 ? { ...one, [part]: metres(-0.01) } : one,
      );
      expect(problem(wrong)).toEqual({ kind: 'no-error-stated', ids: ['3'] });
    }
    expect(problem(errorsOf(1).map((one, i) => (i === 2 ? none : one)))).toBeNull();
    const surveyed = WELLS.map(() => ({ ...none, survey: metres(0.05) }));
    expect(problem(surveyed)).toBeNull();
    expect(problem(WELLS.map(() => none))).toEqual({
      kind: 'no-error-stated',
      ids: ['1', '2', '3', '4', '5'],
    });
  });

  test('level heads and errors of place alone never tilt the surface', () => {
    const level = WELLS.map((one) => ({ ...one, head: metres(12) }));
    const places = WELLS.map(() => ({ ...none, position: metres(3) }));
    expect(problem(places, level)).toEqual({ kind: 'no-direction-drawn', draws: DRAWS });
  });
});

test('progress is told every 2048 draws, as the share done', () => {
  const steps = simulateInSteps(
    WELLS,
    errorsOf(0),
    { weighted: false, draws: 4500, chances: [0.5] },
    randomFrom(1),
  );
  const told: number[] = [];
  let last: Simulation | null = null;
  for (;;) {
    const { done, value } = steps.next();
    if (done) {
      last = value.ok ? value.value : null;
      break;
    }
    told.push(value);
  }
  expect(told).toEqual([2047 / 4500, 4095 / 4500]);
  expect(last?.draws).toBe(4500);
});
