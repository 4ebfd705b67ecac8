import { analyteNamed } from '../../domain/lab/analytes';
import { unitOf } from '../../domain/lab/concentration-units';
import { TABLE_NAMES } from '../../domain/site/schema';
import type { LengthUnit } from '../../domain/units';
import { columnOf, slotsOf, type FormName, type Slot } from './forms';
import { lengthUnitNamed, readHeading, type Heading } from './heading';
import { LEFT_OUT, SYNONYMS, UNIT_OF_HEADING } from './synonyms';

/** The score of a word that may stand for something, and of a heading that fits but for its unit. */
export const LIKELY = 0.7;
const WITHOUT_UNIT = 0.97;

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

/** How well something fits, from 0 to 1, and why. */
export type Scored = { readonly score: number; readonly why: string };

/** How well a heading fits a slot; null where it doesn't. */
export function fitOf(
  written: string,
  heading: Heading,
  slot: Slot,
  form: FormName,
): Scored | null {
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

const LEFT = new Set<string>(LEFT_OUT.map(compact));
/** Whether a heading is of something no table wants. */
export const isLeftOut = (written: string) => LEFT.has(compact(written));

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
