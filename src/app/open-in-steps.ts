import type { DataPackage } from '../domain/site/data-package';
import { gridOf, readingSiteOf } from '../io/open-site';

/** How far the reading of a site has got, in rows. */
export type RowsRead = { readonly done: number; readonly of: number };

/** The page answers a click after this long at most, and a block more, in ms. */
const WORK = 40;

/** Lets the page answer and draw. */
const rest = () => new Promise<void>((go) => setTimeout(go));

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
  let done = 0;
  let since = performance.now();
  for (const rows of readingSiteOf(given, grid, problem)) {
    done += rows;
    if (performance.now() - since < WORK) continue;
    report({ done, of });
    await rest();
    since = performance.now();
  }
}

/** Look at several things one after the other, with rests: what is kept of them is there afterwards. */
export async function inTurns(looks: readonly (() => unknown)[]): Promise<void> {
  for (const look of looks) {
    await rest();
    look();
  }
}
