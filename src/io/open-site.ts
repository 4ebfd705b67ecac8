import type { Grid, GridFacts } from '../domain/grid';
import type { DataPackage } from '../domain/site/data-package';
import { middleOfSite } from '../domain/site/middle-of-site';
import type { Problem } from '../domain/site/problem';
import { allOf } from '../domain/site/read-table';
import { readingSite, type Site } from '../domain/site/site';
import type { Result } from '../domain/result';
import { ok } from '../domain/result';
import { openPackage } from './package/open';
import type { Files } from './package/files';
import { openDefined } from './projection/open-defined';
import { openLocalGrid } from './projection/open-grid';

/** A site opened for use: what is kept, what is read of it, and its grid. */
export type OpenedSite = {
  readonly package: DataPackage;
  readonly site: Site;
  readonly grid: Grid;
  /** What could not be read of the descriptor and the files; the site's own list is `site.problems`. */
  readonly problems: readonly Problem[];
};

/** Open a site from the files of its folder or zip; fails only where there is none in them. */
export function openSite(files: Files): Result<OpenedSite, Problem> {
  const opened = openPackage(files);
  if (!opened.ok) return opened;
  const { package: given, problems } = opened.value;
  const { grid, problem } = gridOf(given);
  const site = siteOf(given, grid, problem);
  return ok({ package: given, site, grid, problems });
}

/**
 * The grid a site's settings ask for. Where it can't be opened the coordinates
 * are still drawn, as a local grid, and the sentence says why nothing that
 * needs distances or directions is worked out.
 */
export function gridOf({ settings }: DataPackage): { grid: Grid; problem: string | null } {
  const grid = openDefined(settings.grid);
  return grid.ok
    ? { grid: grid.value, problem: null }
    : {
        grid: openLocalGrid(settings.grid.name, settings.grid.unit, null),
        problem: grid.problem,
      };
}

/** What the calculations use, with the facts of the grid at the middle of the site. */
export const siteOf = (given: DataPackage, grid: Grid, gridProblem: string | null): Site =>
  allOf(readingSiteOf(given, grid, gridProblem));

/** `siteOf` a block at a time, as `readingSite` has it. */
export function readingSiteOf(
  given: DataPackage,
  grid: Grid,
  gridProblem: string | null,
): Generator<number, Site> {
  return readingSite(given, factsOf(given, grid), gridProblem);
}

/** Facts at the middle of the site; where nothing has a place yet, none that hang on one. */
function factsOf(given: DataPackage, grid: Grid): GridFacts {
  const middle = middleOfSite(given);
  const facts = grid.factsAt(...(middle ?? [0, 0]), given.settings.elevation);
  if (middle) return facts;
  return {
    ...facts,
    convergence: null,
    pointScale: null,
    combinedFactor: null,
    caution: null,
    unplaced: true,
  };
}
