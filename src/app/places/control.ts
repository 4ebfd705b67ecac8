import { controlOf, controlWords } from '../../domain/findings/ground/control';
import { fail, type Result } from '../../domain/result';
import { fixed } from '../../domain/show';
import { cellText } from '../../domain/site/table';
import type { OpenSite } from '../open-site.svelte';
import { knownPlace, type GivenAs } from './known-place';

/** A point of the site with the place known for it. */
export type ControlRow = {
  readonly id: string;
  readonly easting: string;
  readonly northing: string;
  readonly source: string;
};

/** Points whose place is known from outside. */
export const controlRows = ({ site }: OpenSite): readonly ControlRow[] =>
  [...site.locations.values()].flatMap(
    ({ id, control_easting: e, control_northing: n, control_source }) =>
      e && n ? [{ id, easting: e.text, northing: n.text, source: control_source ?? '' }] : [],
  );

/** What the comparison says, in sentences; null while no point has a known place. */
export function controlSays({ site }: OpenSite): string | null {
  const words = controlWords(site, controlOf(site));
  return words ? `${words.says} ${words.todo}`.trim() : null;
}

/** Write the known place of a point into its row, or blank it; one step that can be undone. */
export function writeControl(
  site: OpenSite,
  id: string,
  known: { given: GivenAs; texts: readonly [string, string]; source: string } | null,
): Result<unknown, string> {
  const table = site.package.tables.locations;
  const row = table
    ? Array.from({ length: table.size }, (_, i) => i).find((i) => cellText(table, i, 'id').trim() === id)
    : undefined; // prettier-ignore
  if (row === undefined) return fail('Choose a point of the site.');
  const place = known ? knownPlace(site.grid, known.given, known.texts) : null;
  if (place && !place.ok) return fail(`${id}: ${place.problem}.`);
  const written = (n: number) => fixed(n, 3).replace('−', '-');
  const texts = !known || !place
    ? ['', '', '']
    : known.given === 'grid'
      ? [known.texts[0].trim(), known.texts[1].trim(), known.source.trim()]
      : [written(place.value[0]), written(place.value[1]), known.source.trim()]; // prettier-ignore
  const cells = ['control_easting', 'control_northing', 'control_source'].map((column, i) => ({ row, column, text: texts[i] ?? '' })); // prettier-ignore
  const made = site.edit(known ? `Write the known place of ${id}` : `Take away the known place of ${id}`, { kind: 'write-cells', table: 'locations', cells }); // prettier-ignore
  return made.ok ? made : fail('Another window has this site: here it can only be read.');
}
