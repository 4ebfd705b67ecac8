import { expose } from 'comlink';
import { extentInSteps, type ExtentQuestion } from '../../domain/lab/extent';
import { drawnSurfaceInSteps, type SurfaceQuestion } from '../../domain/water/drawn-surface';
import { simulateInSteps, statedErrors } from '../../domain/water/monte-carlo';
import type { Metres } from '../../domain/units';
import type { HeadPoint } from '../../domain/water/plane';
import { randomFrom } from '../../domain/water/random';
import { triangleReview } from '../../domain/water/triangle-review';
import { trianglesOf } from '../../domain/water/triangles';

type Report = (share: number) => void;

/** Milliseconds between two reports of progress. */
const BETWEEN_REPORTS = 80;

function finished<Answer>(steps: Generator<number, Answer>, report: Report): Answer {
  let told = 0;
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    const now = performance.now();
    if (now - told < BETWEEN_REPORTS) continue;
    told = now;
    report(value);
  }
}

/** What a direction is to be simulated from; the seed makes it the same again. */
export type SimulationQuestion = {
  readonly points: readonly HeadPoint[];
  /** One standard error of each well's place, in each of east and north. */
  readonly position: Metres;
  readonly draws: number;
  readonly chances: readonly number[];
  readonly seed: number;
};

/** The slow parts of questioning an event, away from the page. */
const slowWater = {
  surface: (question: SurfaceQuestion, report: Report) =>
    finished(drawnSurfaceInSteps(question), report),
  extent: (question: ExtentQuestion, report: Report) => finished(extentInSteps(question), report),
  simulation: ({ points, position, draws, chances, seed }: SimulationQuestion, report: Report) =>
    finished(
      simulateInSteps(
        points,
        statedErrors(points).map((error) => ({ ...error, position })),
        { weighted: true, draws, chances },
        randomFrom(seed),
      ),
      report,
    ),
  triangles: (points: readonly HeadPoint[]) => triangleReview(trianglesOf(points)),
};

export type SlowWater = typeof slowWater;

expose(slowWater);
