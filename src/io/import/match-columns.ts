import { TABLE_NAMES } from '../../domain/site/schema';
import { assign, scoreOf, type Assigned } from './assign-columns';
import { most, someTexts } from './column-texts';
import { slotTitle, type FormName, type Slot } from './forms';
import { headerShape, readHeading } from './heading';
import { isLeftOut, LIKELY, unitInHeading } from './heading-words';
import {
  analytesAcross,
  layoutOf,
  lettersBesides,
  samplesAcross,
  type Layout,
} from './layout-across';
import type { ColumnUse, Mapping, Match, Proposal } from './mapping';
import type { Coordinates, SourceTable } from './source-table';

/** Lines or areas as well-known text; the word at its start tells. */
const isDrawn = (text: string) => /^(?:MULTI)?(?:LINESTRING|POLYGON)\s*[Z(]/i.test(text);

const hasShapes = (source: SourceTable): boolean =>
  source.headings.some((_, at) => most(someTexts(source, at), isDrawn));

/**
 * How the columns of a file match the tables, and why. Nothing is settled: every
 * use can be changed, and what the headings do not say is asked.
 *
 * @param as  the form a person chose; else the one that explains most of the file
 * @param remembered  mappings corrected before, by the shape of their header
 * @param elsewhere  those of other sites, followed only where they take the file for the same
 */
export function proposeMapping(
  source: SourceTable,
  as: FormName | null = null,
  remembered: ReadonlyMap<string, Mapping> = new Map(),
  elsewhere: ReadonlyMap<string, Mapping> = new Map(),
): Proposal {
  const shape = headerShape(source.headings);
  const across = analytesAcross(source);
  const assigned = TABLE_NAMES.map((form) => ({ form, given: assign(source, form) }));
  const scored = assigned
    .map(({ form, given }) => ({ form, score: scoreOf(form, given) }))
    .filter(({ score }) => score > 0);
  const results = assigned.find(({ form }) => form === 'results')?.given;
  const isAcross = across.size >= 2 && !scored.some(({ form }) => form === 'purge_readings');
  if (isAcross) {
    const before = scored.findIndex(({ form }) => form === 'results');
    if (before >= 0) scored.splice(before, 1);
    scored.push({ form: 'results', score: 4 + across.size + (results?.size ?? 0) });
  }
  const samples = results ? samplesAcross(source, results) : 0;
  if (samples > 0 && !scored.some(({ form }) => form === 'results'))
    scored.push({ form: 'results', score: 4 + samples + (results?.size ?? 0) });
  scored.sort((a, b) => b.score - a.score);
  // Lines and areas stand in one table only, whatever else the file has in common with others.
  const drawn = scored.findIndex(({ form }) => form === 'features');
  if (drawn > 0 && hasShapes(source)) scored.unshift(...scored.splice(drawn, 1));

  const here = remembered.get(shape);
  const there = elsewhere.get(shape);
  const known = here ?? (there?.form === scored[0]?.form ? there : undefined);
  if (
    known &&
    (as === null || known.form === as) &&
    known.columns.length === source.headings.length
  )
    return {
      mapping: known,
      matches: known.columns.map((use, at) => ({
        heading: source.headings[at] ?? '',
        use,
        score: 1,
        why: here
          ? 'as for the last file with these headings'
          : 'as for a file with these headings on another site',
      })),
      forms: scored,
    };

  const form = as ?? scored[0]?.form ?? 'locations';
  const given = assigned.find((each) => each.form === form)?.given ?? new Map<number, Assigned>();
  const layout = layoutOf(source, form, given, across);
  const matches = source.headings.map((heading, at): Match => {
    if (isLeftOut(heading))
      return { heading, use: { use: 'leave' }, score: 1, why: 'says nothing of the site' };
    return matchOf(source, heading, at, given.get(at) ?? null, layout, across);
  });
  const columns = lettersBesides(source, layout, matches);
  return {
    mapping: {
      form,
      layout: layout.kind,
      columns,
      headRows: layout.headRows,
      coordinates: source.coordinates ?? coordinatesOf(given),
      shape,
    },
    matches: matches.map((match, at) => ({ ...match, use: columns[at] ?? match.use })),
    forms: scored,
  };
}

function matchOf(
  source: SourceTable,
  heading: string,
  at: number,
  given: Assigned | null,
  layout: Layout,
  across: ReadonlyMap<number, ColumnUse>,
): Match {
  const analyte = across.get(at);
  if (layout.kind === 'analytes across' && analyte)
    return { heading, use: analyte, score: 1, why: `“${heading}” is the name of an analyte` };
  if (given) {
    const unit = unitInHeading(heading, given.slot);
    const slot = byReference(given.slot, heading);
    return {
      heading,
      use: { use: 'slot', slot, unit },
      score: given.score,
      why: `${slotTitle(given.slot)}: ${given.why}${unit === null ? '' : `; in ${unit}`}`,
    };
  }
  if (layout.kind === 'samples across' && heading !== '')
    return {
      heading,
      use: { use: 'sample', sample: heading },
      score: LIKELY,
      why: 'a column of results under the name of a sample',
    };
  const blank = heading === '' && someTexts(source, at).length === 0;
  return {
    heading,
    use: blank ? { use: 'leave' } : { use: 'keep' },
    score: 0,
    why: blank
      ? 'it is blank'
      : 'no column of the tables goes by this heading; it is kept as it is',
  };
}

/** "DTW (ft bgs)" is measured from the ground, whatever else its heading says. */
function byReference({ id }: Slot, heading: string): string {
  const { from } = readHeading(heading);
  if (id === 'water_levels.depth_to_water' && from === 'ground') return '@depth_below_ground';
  if (id === '@depth_below_ground' && from === 'casing') return 'water_levels.depth_to_water';
  return id;
}

function coordinatesOf(given: ReadonlyMap<number, Assigned>): Coordinates {
  const ids = new Set([...given.values()].map(({ slot }) => slot.id));
  const isPlane = ids.has('locations.easting') && ids.has('locations.northing');
  const isGeographic = (ids.has('@longitude') && ids.has('@latitude')) || ids.has('@place');
  return isGeographic && !isPlane ? { kind: 'lng-lat', datum: 'own' } : { kind: 'site grid' };
}
