import { wrap } from 'comlink';
import type { readSecondHalf, SecondReader } from '../../io/import/second-half';

/** A worker that reads the second half of a large file; null where there are no workers. */
export function secondReader(): SecondReader | null {
  if (typeof Worker === 'undefined') return null;
  let worker: Worker | null = null;
  return {
    read: (half) =>
      new Promise((answer) => {
        worker?.terminate();
        worker = new Worker(new URL('./second-half-worker.ts', import.meta.url), {
          type: 'module',
        });
        // Without it the first reader goes on by itself.
        const give = () => answer(null);
        worker.onerror = give;
        wrap<typeof readSecondHalf>(worker)(half).then(answer, give);
      }),
    stop: () => worker?.terminate(),
  };
}
