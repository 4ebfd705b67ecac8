import { analyteNamed } from '../../domain/lab/analytes';
import { isCas } from '../../domain/lab/cas';
import { unitOf } from '../../domain/lab/concentration-units';
import { most, someTexts } from './column-texts';
import { ESSENCE, slotsOf, type FormName, type Slot } from './forms';
import { lengthUnitNamed, readHeading } from './heading';
import { fitOf, isLeftOut, type Scored } from './heading-words';
import type { SourceTable } from './source-table';
import { withShots } from './survey-columns';

/** The score of a column told by its cells. */
const BY_CONTENT = 0.8;

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
export function assign(source: SourceTable, form: FormName): ReadonlyMap<number, Assigned> {
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

/** How much of a file a form explains; 0 where the file lacks what makes it one of the form. */
export function scoreOf(form: FormName, given: ReadonlyMap<number, Assigned>): number {
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
