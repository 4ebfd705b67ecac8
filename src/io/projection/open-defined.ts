import type { Grid } from '../../domain/grid';
import { placedOn, placingSentence } from '../../domain/local-placing';
import { fail, ok, type Result } from '../../domain/result';
import type { GridDefinition } from '../../domain/site/settings';
import { openGrid } from './open-grid';
import { openLocalGrid } from './open-local-grid';
import { gridProblemSentence } from './problem';

/** A grid as a site or a file defines it, opened; or why it can't be, in a sentence. */
export function openDefined(definition: GridDefinition): Result<Grid, string> {
  const { name, code, projection, unit, local } = definition;
  if (code !== null || projection !== null) {
    const grid = openGrid({ name, code, projection, unit });
    return grid.ok ? grid : fail(gridProblemSentence(grid.problem));
  }
  if (local === undefined) return ok(openLocalGrid(name, unit, null));
  const on = openGrid(local.on);
  if (!on.ok) return fail(`The grid that ${name} is laid on: ${gridProblemSentence(on.problem)}`);
  const placed = placedOn(local, unit);
  return placed.ok
    ? ok(openLocalGrid(name, unit, { tie: placed.value.tie, on: on.value }))
    : fail(placingSentence(placed.problem));
}
