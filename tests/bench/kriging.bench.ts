/**
 * Kriging 500 wells to a 200 × 200 grid against the npm kriging package in most
 * use, in the same run and per node. The package fits its own exponential
 * variogram and solves its own system first; neither is timed.
 */
import peer from '@sakitam-gis/kriging';
import { bench, describe } from 'vitest';
import { kriged } from '../../src/domain/water/surface/kriging';
import { krigedGrid } from '../../src/domain/water/surface/kriging-grid';
import { allAtOnce } from '../../src/domain/steps';
import { triangulate } from '../../src/domain/water/surface/tin';
import { tinContours } from '../../src/domain/water/surface/contour';
import { contourLevels } from '../../src/domain/water/surface/contour-interval';
import { metres } from '../../src/domain/units';
import { point } from '../unit/surface/oracle';
import { seeded } from '../../src/domain/layout/seeded';
import { note } from './rounds';

const WELLS = 500;
const SIDE = 200;
const NODES = SIDE * SIDE;
const FRAME = { x: metres(0), y: metres(0), step: metres(5), columns: SIDE, rows: SIDE };
/** The package takes 30 s for a grid of variances: a hundredth of it is timed. */
const SOME = NODES / 100;

const random = seeded(2025);
const wells = Array.from({ length: WELLS }, (_, i) => {
  const [x, y] = [random() * 1000, random() * 1000];
  return point(`W${i}`, x, y, 30 - 0.004 * x + 0.2 * (random() - 0.5));
});

const surface = kriged(wells, {
  model: { shape: 'exponential', sill: 0.02, range: metres(300), nugget: 0.0005, anisotropy: null },
  drift: 'linear',
  errors: 'ignored',
});
if (!surface.ok) throw new Error(surface.problem.kind);

const trained = peer.train(
  wells.map(({ head }) => head),
  wells.map(({ x }) => x),
  wells.map(({ y }) => y),
  'exponential',
  0,
  100,
);
const node = (k: number) => [(k % SIDE) * 5, Math.floor(k / SIDE) * 5] as const;

/** What is timed, and for how many nodes. */
const TASKS = {
  heads: [
    NODES,
    () => allAtOnce(krigedGrid(surface.value, FRAME, { variance: false, mask: null })),
  ],
  both: [NODES, () => allAtOnce(krigedGrid(surface.value, FRAME, { variance: true, mask: null }))],
  theirHeads: [
    NODES,
    () => {
      for (let k = 0; k < NODES; k++) peer.predict(...node(k), trained);
    },
  ],
  theirVariances: [
    SOME,
    () => {
      for (let k = 0; k < SOME; k++) peer.variance(...node(k * 100 + 50), trained);
    },
  ],
} as const;

/** Microseconds a node of each task, one entry a round. */
type Round = Record<keyof typeof TASKS, number>;
const rounds: Round[] = [];

const median = (numbers: readonly number[]) =>
  [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? NaN;

/** Ratios are taken within a round, since whatever else the machine does slows all four alike. */
const report = () => {
  const of = (pick: (round: Round) => number) => median(rounds.map(pick));
  const line = (what: string, ours: (r: Round) => number, other: (r: Round) => number) =>
    note(
      `${what}, ${WELLS} wells to ${SIDE} × ${SIDE} nodes, medians of ${rounds.length} rounds`,
      `${of(ours).toFixed(2)} µs a node, the package ${of(other).toFixed(2)}: ${of((r) => other(r) / ours(r)).toFixed(1)} times as fast`,
    );
  const least = (task: keyof Round) => (Math.min(...rounds.map((r) => r[task])) * NODES) / 1e6;
  line(
    'Heads',
    (r) => r.heads,
    (r) => r.theirHeads,
  );
  line(
    'Heads and variances',
    (r) => r.both,
    (r) => r.theirHeads + r.theirVariances,
  );
  note(
    'Variances with the heads',
    `${of((r) => r.both / r.heads).toFixed(1)} times the cost of heads alone; at best ${least('heads').toFixed(3)} s and ${least('both').toFixed(3)} s`,
  );
};

describe(`kriging ${WELLS} wells to ${SIDE} × ${SIDE} nodes`, () => {
  bench(
    'all four in turn: our heads, our heads and variances, their heads, some of their variances',
    () => {
      const round = { heads: 0, both: 0, theirHeads: 0, theirVariances: 0 };
      for (const task of Object.keys(TASKS) as (keyof Round)[]) {
        const [nodes, run] = TASKS[task];
        const start = performance.now();
        run();
        round[task] = (1000 * (performance.now() - start)) / nodes;
      }
      rounds.push(round);
    },
    {
      iterations: 9,
      time: 0,
      warmupIterations: 2,
      warmupTime: 0,
      setup: () => void rounds.splice(0),
      teardown: (_task, mode) => (mode === 'run' ? report() : undefined),
    },
  );
});

describe('triangles', () => {
  const many = Array.from({ length: 5000 }, (_, i) =>
    point(`P${i}`, random() * 3000, random() * 3000, 30 + random()),
  );
  bench('5,000 points triangulated', () => {
    triangulate(many);
  });
  const tin = triangulate(wells);
  bench('500 wells, ten contours', () => {
    if (!tin.ok) return;
    for (const level of contourLevels(metres(26), metres(30), metres(0.4)))
      tinContours(tin.value, level);
  });
});
