import { type Grid } from '../domain/grid';
import type { DataPackage } from '../domain/site/data-package';
import type { Problem } from '../domain/site/problem';
import { decimal } from '../domain/site/read-cell';
import { allOf } from '../domain/site/read-table';
import { readingSite, type Site } from '../domain/site/site';
import { cellText } from '../domain/site/table';
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
  const [easting, northing] = middleOf(given) ?? [0, 0];
  const facts = grid.factsAt(easting, northing, given.settings.elevation);
  return readingSite(given, facts, gridProblem);
}

/** The middle one of the eastings and of the northings: a point a hundred kilometres off moves it little. */
function middleOf({ tables }: DataPackage): readonly [number, number] | null {
  const table = tables.locations;
  if (!table) return null;
  const numbers = (column: string) =>
    Array.from({ length: table.size }, (_, row) => decimal(cellText(table, row, column).trim()))
      .filter((n) => n !== null)
      .sort((a, b) => a - b);
  const [eastings, northings] = [numbers('easting'), numbers('northing')];
  const middle = (sorted: readonly number[]) => sorted[Math.floor(sorted.length / 2)];
  const [easting, northing] = [middle(eastings), middle(northings)];
  return easting === undefined || northing === undefined ? null : [easting, northing];
}
