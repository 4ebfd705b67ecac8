import type { DataPackage } from '../domain/site/data-package';
import { gridOf, readingSiteOf } from '../io/open-site';

/** How far the reading of a site has got, in rows. */
export type RowsRead = { readonly done: number; readonly of: number };

/** The page answers a click after this long at most, and a block more, in ms. */
const WORK = 40;

/** Lets the page answer and draw. */
const rest = () => new Promise<void>((go) => setTimeout(go));

/**
 * Take the steps of a reading, each of which says how many rows it read, with
 * rests in which the page answers. False once it is no longer wanted.
 */
export async function takeSteps(
  steps: Iterable<number>,
  report: (done: number) => void = () => undefined,
  isWanted: () => boolean = () => true,
): Promise<boolean> {
  let done = 0;
  let since = performance.now();
  for (const rows of steps) {
    done += rows;
    if (performance.now() - since < WORK) continue;
    report(done);
    await rest();
    if (!isWanted()) return false;
    since = performance.now();
  }
  return true;
}

/**
 * Read a site a block at a time, with rests in which the page answers. Nothing
 * is given back: whoever reads the same package afterwards has it at once.
 */
export async function readInSteps(
  given: DataPackage,
  report: (rows: RowsRead) => void = () => undefined,
): Promise<void> {
  const { grid, problem } = gridOf(given);
  const of = Object.values(given.tables).reduce((sum, { size }) => sum + size, 0);
  await takeSteps(readingSiteOf(given, grid, problem), (done) => report({ done, of }));
}

/** Look at several things one after the other, with rests: what is kept of them is there afterwards. */
export async function inTurns(looks: readonly (() => unknown)[]): Promise<void> {
  for (const look of looks) {
    await rest();
    look();
  }
}
