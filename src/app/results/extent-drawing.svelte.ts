import type { Extent, ExtentQuestion } from '../../domain/lab/extent';
import type { Result } from '../../domain/result';
import { Slow } from '../check/slow.svelte';

/** The extent of what exceeds, with its chances, worked out away from the page. */
export const extentDrawing = () =>
  new Slow<ExtentQuestion, Result<Extent, string>>((worker, question, report) =>
    worker.extent(question, report),
  );
