/**
 * Planes against a general matrix library, in the same run: 10,000 fits of eight
 * wells by ml-matrix's own least squares (`solve` of a tall matrix, by QR) and
 * by the normal equations written out with it; every three of 60 wells; and
 * 100,000 draws of a direction with heads alone, and with places too.
 */
import { Matrix, solve } from 'ml-matrix';
import { bench, describe } from 'vitest';
import { metres } from '../../src/domain/units';
import { fitMany, type WellSets } from '../../src/domain/water/fit-many';
import { simulateDirection } from '../../src/domain/water/monte-carlo';
import { fitPlane, type HeadPoint } from '../../src/domain/water/plane';
import { randomFrom } from '../../src/domain/water/random';
import { triangleReview } from '../../src/domain/water/triangle-review';
import { trianglesOf } from '../../src/domain/water/triangles';
import { seeded } from '../../src/domain/layout/seeded';
import { note } from './rounds';

const FITS = 10_000;
const WELLS = 8;
const DRAWS = 100_000;
/** The draws are compared with so many fits by the library; ten times as many would be waited for. */
const PEER_DRAWS = FITS;

const random = seeded(8);
const wellsOf = (count: number): HeadPoint[] =>
  Array.from({ length: count }, (_, i) => {
    const [x, y] = [500 * random(), 400 * random()];
    const head = 30 - 0.003 * x + 0.002 * y + 0.02 * (random() - 0.5);
    return {
      id: `W${i}`,
      x: metres(x),
      y: metres(y),
      head: metres(head),
      sigma: metres(0.004 + 0.002 * random()),
    };
  });

const sets = Array.from({ length: FITS }, () => wellsOf(WELLS));
const all = sets.flat();
const columns: WellSets = {
  starts: Uint32Array.from({ length: FITS + 1 }, (_, k) => WELLS * k),
  x: Float64Array.from(all, ({ x }) => x),
  y: Float64Array.from(all, ({ y }) => y),
  head: Float64Array.from(all, ({ head }) => head),
  weight: null,
};
const sixty = wellsOf(60);

/** Given what a general library is given: rows of 1, x, y about the middle, made beforehand. */
const tall = sets.map((set) => {
  const middle = (pick: (p: HeadPoint) => number) => set.reduce((s, p) => s + pick(p), 0) / WELLS;
  const [x0, y0] = [middle((p) => p.x), middle((p) => p.y)];
  return {
    x: new Matrix(set.map(({ x, y }) => [1, x - x0, y - y0])),
    h: Matrix.columnVector(set.map(({ head }) => head)),
  };
});

/** Where sums go, so that nothing timed is left out as unused. */
let sink = 0;

const few = sixty.slice(0, WELLS);
const errors = (position: number) =>
  few.map(({ sigma }) => ({ level: sigma, survey: metres(0), position: metres(position) }));
const draw = (position: number) => {
  const drawn = simulateDirection(
    few,
    errors(position),
    { weighted: true, draws: DRAWS, chances: [0.025, 0.5, 0.975] },
    randomFrom(1),
  );
  sink += drawn.ok ? drawn.value.about : 0;
};

const TASKS = {
  many: () => void (sink += fitMany(columns).a[0] ?? 0),
  whole: () => {
    for (const set of sets) {
      const fit = fitPlane(set, { weighted: false });
      sink += fit.ok ? fit.value.a : 0;
    }
  },
  qr: () => {
    for (const { x, h } of tall) sink += solve(x, h).get(1, 0);
  },
  normal: () => {
    for (const { x, h } of tall) {
      const across = x.transpose();
      sink += solve(across.mmul(x), across.mmul(h)).get(1, 0);
    }
  },
  triangles: () => void (sink += trianglesOf(sixty).gradient[0] ?? 0),
  review: () => void (sink += triangleReview(trianglesOf(sixty)).kept.length),
  heads: () => draw(0),
  places: () => draw(0.5),
} as const;

type Round = Record<keyof typeof TASKS, number>;
const rounds: Round[] = [];

const median = (numbers: readonly number[]) =>
  [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? NaN;
const of = (pick: (round: Round) => number) => median(rounds.map(pick));
const ms = (task: keyof Round) => `${of((r) => r[task]).toFixed(1)} ms`;

/** Ratios are taken within a round, since whatever else the machine does slows all alike. */
const report = () => {
  const times = (slow: keyof Round, fast: keyof Round) =>
    `${of((r) => r[slow] / r[fast]).toFixed(0)} times as fast`;
  note(
    `${FITS} fits of ${WELLS} wells, medians of ${rounds.length} rounds`,
    `${ms('many')}; ml-matrix by QR ${ms('qr')}: ${times('qr', 'many')}; by normal equations ${ms('normal')}: ${times('normal', 'many')}`,
  );
  note(
    `${FITS} whole planes with errors, leverage and lack of fit`,
    `${ms('whole')}; ${times('qr', 'whole')} as ml-matrix by QR for the slopes alone`,
  );
  note(
    '34,220 triangles of 60 wells',
    `${ms('triangles')}, the time of ${of((r) => (FITS * r.triangles) / r.many).toFixed(0)} such fits; reviewed for the page ${ms('review')}, of ${of((r) => (FITS * r.review) / r.many).toFixed(0)}`,
  );
  note(
    `${DRAWS} draws of ${WELLS} wells`,
    `heads ${ms('heads')}, heads and places ${ms('places')}; as many fits by ml-matrix would take ${of((r) => (r.qr * DRAWS) / PEER_DRAWS).toFixed(0)} ms: ${of((r) => (r.qr * DRAWS) / PEER_DRAWS / r.places).toFixed(1)} times as long as the latter`,
  );
};

describe('planes', () => {
  bench(
    'all in turn',
    () => {
      const round = Object.fromEntries(
        Object.entries(TASKS).map(([task, run]) => {
          const start = performance.now();
          run();
          return [task, performance.now() - start];
        }),
      );
      rounds.push(round as Round);
    },
    {
      iterations: 15,
      time: 0,
      warmupIterations: 3,
      warmupTime: 0,
      setup: () => void rounds.splice(0),
      teardown: (_task, mode) => {
        if (mode !== 'run') return;
        report();
        if (!Number.isFinite(sink)) throw new Error('a sum of slopes is no number');
      },
    },
  );
});
