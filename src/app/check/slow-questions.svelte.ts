import type { Result } from '../../domain/result';
import type { DrawnSurface, SurfaceQuestion } from '../../domain/water/drawn-surface';
import type { HeadPoint } from '../../domain/water/plane';
import type { TriangleReview } from '../../domain/water/triangle-review';
import type { Simulation, SimulationProblem } from '../../domain/water/monte-carlo';
import { Slow } from './slow.svelte';
import type { SimulationQuestion } from './surface-worker';

/** Directions drawn again and again with their errors. */
export const simulation = () =>
  new Slow<SimulationQuestion, Result<Simulation, SimulationProblem>>((water, question, report) =>
    water.simulation(question, report),
  );

/** A surface through the heads, with its contours and errors. */
export const surfaceDrawing = () =>
  new Slow<SurfaceQuestion, Result<DrawnSurface, string>>((water, question, report) =>
    water.surface(question, report),
  );

/** Every three of many wells: 60 wells make 34,220. */
export const manyTriangles = () =>
  new Slow<readonly HeadPoint[], TriangleReview>((water, points) => water.triangles(points));
