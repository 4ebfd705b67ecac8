/** A worker for the slow parts of questioning an event. */
export const openWorker = () =>
  new Worker(new URL('./surface-worker.ts', import.meta.url), { type: 'module' });
