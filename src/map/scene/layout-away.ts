import type { BoxLayout, BoxRequest, Spot } from './box-layout';
import type { Box } from './place-labels';

/** What boxes of a sheet are laid out from: see `layoutSheetBoxes`. */
export type SheetQuestion = {
  readonly requests: readonly BoxRequest[];
  readonly points: readonly Spot[];
  readonly window: Box;
};

/**
 * Lays out the boxes of a sheet in a worker, since it may take seconds.
 *
 * @param tell  given the layout once it is there
 * @param fail  given what the browser said where it is not to be had
 * @returns what ends it before
 */
export function layoutAway(
  question: SheetQuestion,
  tell: (layout: BoxLayout) => void,
  fail: (problem: string) => void,
): () => void {
  const worker = new Worker(new URL('./box-worker.ts', import.meta.url), { type: 'module' });
  worker.onmessage = ({ data }: MessageEvent<BoxLayout>) => {
    worker.terminate();
    tell(data);
  };
  worker.onerror = ({ message }) => {
    worker.terminate();
    fail(message);
  };
  worker.postMessage(question);
  return () => worker.terminate();
}
