import { analyteNamed } from '../../domain/lab/analytes';
import { isCas } from '../../domain/lab/cas';
import { unitOf } from '../../domain/lab/concentration-units';
import { readReported } from '../../domain/lab/reported';
import { TABLE_NAMES } from '../../domain/site/schema';
import type { LengthUnit } from '../../domain/units';
import { columnOf, ESSENCE, slotsOf, slotTitle, type FormName, type Slot } from './forms';
import { headerShape, lengthUnitNamed, readHeading, type Heading } from './heading';
import type { Coordinates, SourceTable } from './source-table';
import { withShots } from './survey-columns';
import { LEFT_OUT, SYNONYMS, UNIT_OF_HEADING } from './synonyms';

/** What is done with a column of a file. */
export type ColumnUse =
  /** It fills a slot; `unit` as its heading names it, null where it does not. */
  | { readonly use: 'slot'; readonly slot: string; readonly unit: string | null }
  /** Kept as a column of its own, under its own heading. */
  | { readonly use: 'keep' }
  | { readonly use: 'leave' }
  /** Results of one analyte, in a table with the analytes across. */
  | { readonly use: 'analyte'; readonly analyte: string; readonly unit: string | null }
  /** Letters beside the results of the column named. */
  | { readonly use: 'letters'; readonly of: number }
  /** Results of one sample, in a table with the samples across. */
  | { readonly use: 'sample'; readonly sample: string };

/** How a file is read into the tables: plain data, corrected by hand, remembered by its header. */
export type Mapping = {
  readonly form: FormName;
  readonly layout: 'rows' | 'analytes across' | 'samples across';
  /** One a column of the file, in its order. */
  readonly columns: readonly ColumnUse[];
  /** Rows of the table, from 0, that belong to the header: units or samples' dates. */
  readonly headRows: readonly HeadRow[];
  readonly coordinates: Coordinates;
  readonly shape: string;
};

/** A row below the header that says something of every column: its unit, its day, its location. */
export type HeadRow = { readonly row: number; readonly slot: string };

/** Why a column was matched so, for a person. */
export type Match = {
  readonly heading: string;
  readonly use: ColumnUse;
  /** 1: as good as certain; below 0.9 only likely. */
  readonly score: number;
  readonly why: string;
};

export type Proposal = {
  readonly mapping: Mapping;
  /** One a column. */
  readonly matches: readonly Match[];
  /** Kinds of file it could be, the likeliest first. */
  readonly forms: readonly { readonly form: FormName; readonly score: number }[];
};

/** Rows looked at to tell what a column holds. */
const LOOKED_AT = 200;

const LIKELY = 0.7;
const WITHOUT_UNIT = 0.97;
const BY_CONTENT = 0.8;

type Word = { readonly plain: string; readonly score: number };

const compact = (text: string) => text.toLowerCase().replace(/[^a-z0-9#%]/g, '');

const wordsOf = new Map<string, readonly Word[]>();

/** The headings that mean a slot, certain ones and likely ones. */
function words(slot: Slot, form: FormName): readonly Word[] {
  const kept = `${form} ${slot.id}`;
  const before = wordsOf.get(kept);
  if (before) return before;
  const [certain = '', likely = ''] = (SYNONYMS[slot.id] ?? '').split('?');
  const parsed = (list: string, score: number) =>
    list
      .split(',')
      .map(compact)
      .filter(Boolean)
      .map((plain) => ({ plain, score }));
  const column = columnOf(slot);
  const named = [
    ...parsed(certain, 1),
    ...parsed(likely, LIKELY),
    // A column of another table goes by its name alone only where nothing else does.
    ...(column === null
      ? []
      : [{ plain: compact(column), score: slot.table === form ? 1 : LIKELY - 0.1 }]),
  ];
  wordsOf.set(kept, named);
  return named;
}

type Scored = { readonly score: number; readonly why: string };

/** How well a heading fits a slot; null where it doesn't. */
function fitOf(written: string, heading: Heading, slot: Slot, form: FormName): Scored | null {
  let best: Scored | null = null;
  const { from } = heading;
  const marked = from === null ? '' : `${heading.plain}${from === 'ground' ? 'bgs' : 'btoc'}`;
  for (const { plain, score } of words(slot, form)) {
    const exact = heading.whole === plain || compact(written) === plain;
    const without = heading.plain === plain || marked === plain;
    if (!exact && !without) continue;
    const reached = score * (exact ? 1 : WITHOUT_UNIT);
    if (best === null || reached > best.score)
      best = {
        score: reached,
        why:
          score === 1
            ? `“${written}” is a usual heading for it`
            : `“${written}” may stand for it; other tables use the word too`,
      };
  }
  return best;
}

let headings: ReadonlySet<string> | null = null;

/** Whether a text is a heading of some form, or an analyte: for finding the header among title lines. */
export function isHeading(text: string): boolean {
  if (!headings) {
    const known = new Set<string>();
    for (const form of TABLE_NAMES)
      for (const slot of slotsOf(form)) for (const { plain } of words(slot, form)) known.add(plain);
    headings = known;
  }
  const heading = readHeading(text);
  return (
    headings.has(heading.plain) || headings.has(heading.whole) || analyteInHeading(text) !== null
  );
}

/** The analyte a heading names, with the unit beside it: "Benzene (ug/L)". */
export function analyteInHeading(
  text: string,
): { readonly analyte: string; readonly unit: string | null } | null {
  const whole = text.trim();
  if (analyteNamed(whole)) return { analyte: whole, unit: null };
  const [, name = '', unit = ''] =
    /^(.*\S)\s*[,([{]\s*([^()[\]{}]{1,30}?)\s*[)\]}]?$/.exec(whole) ?? [];
  return unitOf(unit) && analyteNamed(name.replace(/,\s*$/, ''))
    ? { analyte: name.replace(/,\s*$/, ''), unit }
    : null;
}

/** Some distinct texts of a column that are not blank, from its first rows. */
function someTexts({ table }: SourceTable, at: number): readonly string[] {
  const [block] = table.blocks;
  const column = block?.columns[at];
  if (!column) return [];
  const codes = new Set(column.codes.subarray(0, LOOKED_AT));
  return [...codes].map((code) => (column.dictionary[code] ?? '').trim()).filter(Boolean);
}

const most = (texts: readonly string[], is: (text: string) => boolean) =>
  texts.length > 0 && texts.filter(is).length >= 0.8 * texts.length;

/** What the cells of a column say it is, where its heading does not. */
function fitOfContent(texts: readonly string[], slot: Slot): Scored | null {
  if (slot.id.endsWith('.cas') && most(texts, isCas))
    return { score: BY_CONTENT, why: 'its cells are CAS numbers with their check digits right' };
  if (slot.id.endsWith('.analyte') && most(texts, (text) => analyteNamed(text) !== null))
    return { score: BY_CONTENT, why: 'its cells are names of analytes' };
  if (slot.id === 'results.unit' && most(texts, (text) => unitOf(text) !== null))
    return { score: BY_CONTENT, why: 'its cells are units of concentration' };
  if (slot.id === '@unit' && most(texts, (text) => lengthUnitNamed(text) !== null))
    return { score: BY_CONTENT, why: 'its cells are units of length' };
  return null;
}

/** The slot a column is given to, how surely and why. */
export type Assigned = { readonly slot: Slot; readonly score: number; readonly why: string };

/** Columns given to the slots of a form, the best fits first, each slot once. */
function assign(source: SourceTable, form: FormName): ReadonlyMap<number, Assigned> {
  const fits: { at: number; slot: Slot; order: number; fit: Scored }[] = [];
  source.headings.forEach((written, at) => {
    const heading = readHeading(written);
    if (isLeftOut(written)) return;
    const texts = someTexts(source, at);
    slotsOf(form).forEach((slot, order) => {
      const fit =
        (written === '' ? null : fitOf(written, heading, slot, form)) ?? fitOfContent(texts, slot);
      if (fit) fits.push({ at, slot, order, fit });
    });
  });
  // A slot a row can't do without comes first among equals.
  const weight = ({ slot, fit }: (typeof fits)[number]) =>
    fit.score + (slot.field.required ? 0.001 : 0);
  fits.sort((a, b) => weight(b) - weight(a) || a.order - b.order || a.at - b.at);
  const given = new Map<number, Assigned>();
  const taken = new Set<string>();
  for (const { at, slot, fit } of fits) {
    if (given.has(at) || taken.has(slot.id)) continue;
    given.set(at, { slot, ...fit });
    taken.add(slot.id);
  }
  return form === 'locations' ? withShots(source, given, (at) => someTexts(source, at)) : given;
}

const LEFT = new Set<string>(LEFT_OUT.map(compact));
const isLeftOut = (written: string) => LEFT.has(compact(written));

/** How much of a file a form explains; 0 where the file lacks what makes it one of the form. */
function scoreOf(form: FormName, given: ReadonlyMap<number, Assigned>): number {
  const byId = new Map([...given.values()].map((each) => [each.slot.id, each.score]));
  let sum = 0;
  for (const list of ESSENCE[form]) {
    const best = Math.max(0, ...list.map((id) => byId.get(id) ?? 0));
    if (best === 0) return 0;
    sum += 2 * best;
  }
  for (const score of byId.values()) sum += score;
  return sum;
}

/** How many columns hold results under names of samples, beside a column of analytes. */
function samplesAcross(source: SourceTable, given: ReadonlyMap<number, Assigned>): number {
  const ids = new Set([...given.values()].map(({ slot }) => slot.id));
  if (!ids.has('results.analyte') || ids.has('results.value')) return 0;
  return source.headings.filter((heading, at) => {
    if (given.has(at) || heading === '' || isLeftOut(heading)) return false;
    const results = someTexts(source, at).filter((text) => {
      const { kind } = readReported(text);
      return kind !== 'unreadable' && kind !== 'letters' && kind !== 'blank';
    });
    return results.length > 0;
  }).length;
}

/** Headings of analytes, where a table has the analytes across. */
function analytesAcross(source: SourceTable): ReadonlyMap<number, ColumnUse> {
  const uses = new Map<number, ColumnUse>();
  source.headings.forEach((heading, at) => {
    const found = analyteInHeading(heading);
    if (found) uses.set(at, { use: 'analyte', ...found });
  });
  return uses;
}

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

type Layout = {
  readonly kind: Mapping['layout'];
  readonly headRows: readonly HeadRow[];
};

function layoutOf(
  source: SourceTable,
  form: FormName,
  given: ReadonlyMap<number, Assigned>,
  across: ReadonlyMap<number, ColumnUse>,
): Layout {
  const has = (id: string) => [...given.values()].some(({ slot }) => slot.id === id);
  if (form !== 'results' || has('results.value')) return { kind: 'rows', headRows: [] };
  if (across.size >= 1 && !has('results.analyte')) {
    const units = firstCells(source, 0).filter((_, at) => across.has(at));
    const isUnits =
      units.length > 0 && most(units.filter(Boolean), (text) => unitOf(text) !== null);
    return {
      kind: 'analytes across',
      headRows: isUnits ? [{ row: 0, slot: 'results.unit' }] : [],
    };
  }
  if (!has('results.analyte')) return { kind: 'rows', headRows: [] };
  return { kind: 'samples across', headRows: headRowsOf(source, given) };
}

/** The cells of a row, from 0. */
function firstCells({ table }: SourceTable, row: number): readonly string[] {
  const block = table.blocks[0];
  if (!block || row >= block.size) return [];
  return block.columns.map(({ dictionary, codes }) => (dictionary[codes[row] ?? -1] ?? '').trim());
}

/** Rows above the first analyte that say something of each sample: its location, its day. */
function headRowsOf(source: SourceTable, given: ReadonlyMap<number, Assigned>): readonly HeadRow[] {
  const at = [...given].find(([, { slot }]) => slot.id === 'results.analyte')?.[0] ?? 0;
  const rows: HeadRow[] = [];
  for (let row = 0; row < 12; row++) {
    const label = firstCells(source, row)[at];
    if (label === undefined) break;
    if (label === '') continue;
    if (analyteNamed(label)) break;
    const slot = slotsOf('results')
      .filter(({ id }) => id.startsWith('samples.') || id === '@clock')
      .find((each) => (fitOf(label, readHeading(label), each, 'results')?.score ?? 0) > 0.9);
    if (slot) rows.push({ row, slot: slot.id });
  }
  return rows;
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

/** The unit a heading names, where it is one of what the slot holds. */
export function unitInHeading(heading: string, { field, id }: Slot): string | null {
  const agency = UNIT_OF_HEADING[heading.trim().toLowerCase()];
  if (agency !== undefined) return agency;
  const { unit } = readHeading(heading);
  if (unit === null) return null;
  const length: LengthUnit | null = lengthUnitNamed(unit);
  if (field.kind === 'length' || field.kind === 'distance') return length;
  return id.startsWith('results.') || id.startsWith('screening_levels.')
    ? unitOf(unit)
      ? unit
      : null
    : null;
}

/** "Q" beside a column of results holds its letters. */
function lettersBesides(
  source: SourceTable,
  layout: Layout,
  matches: readonly Match[],
): readonly ColumnUse[] {
  if (layout.kind === 'rows') return matches.map(({ use }) => use);
  return matches.map(({ use }, at) => {
    const beside = matches[at - 1]?.use;
    const isLetters =
      /^(?:q|qual|qualifier|flag|)$/i.test((source.headings[at] ?? '').replace(/[._\s\d]/g, '')) &&
      someTexts(source, at).every((text) => /^[A-Za-z*^#,; ]{1,8}[-+]?$/.test(text));
    const isResults = beside?.use === 'analyte' || beside?.use === 'sample';
    return isResults && isLetters ? { use: 'letters', of: at - 1 } : use;
  });
}

function coordinatesOf(given: ReadonlyMap<number, Assigned>): Coordinates {
  const ids = new Set([...given.values()].map(({ slot }) => slot.id));
  const isPlane = ids.has('locations.easting') && ids.has('locations.northing');
  const isGeographic = (ids.has('@longitude') && ids.has('@latitude')) || ids.has('@place');
  return isGeographic && !isPlane ? { kind: 'lng-lat', datum: 'own' } : { kind: 'site grid' };
}
