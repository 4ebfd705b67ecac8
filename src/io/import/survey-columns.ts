import { slotsOf } from './forms';
import type { Assigned } from './assign-columns';
import type { SourceTable } from './source-table';
import { areShots } from './survey-shots';

/** Headings a surveyor's descriptions stand under; and those of his own numbers. */
const DESCRIBED =
  /^(?:desc|description|descriptor|code|note|notes|remark|remarks|comment|comments|name|id|point id|d)$/i;

const NUMBERED = /^(?:pt|p|pnt|point|shot)(?:[\s_.-]*(?:no|num|number|id|#))?\.?$/i;

/**
 * The columns of a file of locations, with descriptions of survey shots and their
 * elevations as such where it has them.
 *
 * @param textsOf  some of a column's texts that are not blank
 */
export function withShots(
  source: SourceTable,
  given: ReadonlyMap<number, Assigned>,
  textsOf: (at: number) => readonly string[],
): ReadonlyMap<number, Assigned> {
  const atOf = (id: string) => [...given].find(([, { slot }]) => slot.id === id)?.[0] ?? -1;
  if (atOf('locations.easting') < 0 || atOf('locations.northing') < 0) return given;
  const idAt = atOf('locations.id');
  const numberAt =
    idAt >= 0 ? idAt : source.headings.findIndex((each) => NUMBERED.test(each.trim()));
  const pointsBeside = (at: number) => (numberAt < 0 || numberAt === at ? null : textsOf(numberAt));
  const shotAt = source.headings.findIndex(
    (heading, at) => DESCRIBED.test(heading.trim()) && areShots(textsOf(at), pointsBeside(at)),
  );
  if (shotAt < 0) return given;
  const slots = slotsOf('locations');
  const put = (id: string, why: string): Assigned[] =>
    slots.filter((slot) => slot.id === id).map((slot) => ({ slot, score: 1, why }));
  const found = new Map(given);
  const isNumbered = idAt >= 0 && textsOf(idAt).every((text) => /^\d+$/.test(text));
  if (isNumbered) found.delete(idAt);
  for (const each of put('@shot', 'its cells name what was shot')) found.set(shotAt, each);
  const elevationAt = atOf('locations.ground_elevation');
  if (elevationAt >= 0)
    for (const each of put('@shot_elevation', 'the description says of what')) found.set(elevationAt, each); // prettier-ignore
  return found;
}
