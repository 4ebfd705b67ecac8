import { unitOf } from '../../domain/lab/concentration-units';
import type { LengthUnit } from '../../domain/units';

/** What a heading says: its words, and the unit and the mark it is measured from where it names them. */
export type Heading = {
  /** Letters and digits alone, in small letters: "depthtowater" for "Depth to Water (ft btoc)". */
  readonly plain: string;
  /** The same with the unit's words left in: "depthtowaterftbtoc". */
  readonly whole: string;
  /** Words in small letters, without unit and mark. */
  readonly words: readonly string[];
  /** A length, concentration or other unit as it was written; null where none is named. */
  readonly unit: string | null;
  /** Ground or top of casing, where the heading says what it is measured from. */
  readonly from: 'ground' | 'casing' | null;
};

/** Spellings of units of length, in small letters without signs. */
const LENGTH_UNITS: Readonly<Record<string, LengthUnit>> = {
  ft: 'ft',
  feet: 'ft',
  foot: 'ft',
  ift: 'ft',
  intft: 'ft',
  internationalfeet: 'ft',
  usft: 'us-ft',
  ftus: 'us-ft',
  usfeet: 'us-ft',
  ussurveyfeet: 'us-ft',
  ussurveyfoot: 'us-ft',
  ussurveyft: 'us-ft',
  surveyfeet: 'us-ft',
  surveyft: 'us-ft',
  sft: 'us-ft',
  m: 'm',
  meter: 'm',
  meters: 'm',
  metre: 'm',
  metres: 'm',
};

const squeezed = (text: string) => text.toLowerCase().replace(/[^a-z0-9]/g, '');

/** The unit of length a text names: "Feet", "US survey ft", "m"; null for any other. */
export function lengthUnitNamed(text: string): LengthUnit | null {
  const word = squeezed(text);
  return Object.hasOwn(LENGTH_UNITS, word) ? (LENGTH_UNITS[word] ?? null) : null;
}

/** Units of field parameters, by what they are often written as. */
const FIELD_UNITS = new Set(
  'c degc °c ºc f degf °f su std ph ntu fnu mv us/cm µs/cm umho/cm ms/cm ml/min l/min gpm gal gallons l litres liters ml min psi'.split(
    ' ',
  ),
);

/** Whether a text is a unit we have heard of, of whatever kind. */
export const isUnit = (text: string) =>
  lengthUnitNamed(text) !== null ||
  unitOf(text) !== null ||
  FIELD_UNITS.has(text.trim().toLowerCase());

const MARKS: Readonly<Record<string, 'ground' | 'casing'>> = {
  bgs: 'ground',
  bgl: 'ground',
  bls: 'ground',
  blsd: 'ground',
  belowground: 'ground',
  belowgroundsurface: 'ground',
  belowgrade: 'ground',
  bg: 'ground',
  btoc: 'casing',
  toc: 'casing',
  btor: 'casing',
  bmp: 'casing',
  belowtoc: 'casing',
  belowtopofcasing: 'casing',
};

const mark = (text: string) => {
  const word = squeezed(text);
  return Object.hasOwn(MARKS, word) ? (MARKS[word] ?? null) : null;
};

/** Words parted at blanks and signs, and where a small letter meets a capital. */
const wordsIn = (text: string) =>
  text
    .replace(/([a-z0-9])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/[µμ]/g, 'u')
    .split(/[^a-z0-9#%°/]+/)
    .filter(Boolean);

const kept = new Map<string, Heading>();
const MOST_KEPT = 5_000;

/** A heading taken apart. */
export function readHeading(text: string): Heading {
  const before = kept.get(text);
  if (before) return before;
  const heading = taken(text.slice(0, 200));
  if (kept.size < MOST_KEPT) kept.set(text, heading);
  return heading;
}

function taken(text: string): Heading {
  let unit: string | null = null;
  let from: Heading['from'] = null;
  const take = (inside: string): boolean => {
    const [first = '', ...others] = inside.trim().split(/[\s,;]+/);
    const rest = others.join(' ');
    if (isUnit(inside)) unit = inside.trim();
    else if (mark(inside)) from = mark(inside);
    else if (isUnit(first) && mark(rest)) [unit, from] = [first, mark(rest)];
    else return false;
    return true;
  };

  const bare = text.replace(/\s*[([{]([^()[\]{}]{1,40})[)\]}]/g, (all, inside: string) =>
    take(inside) ? ' ' : all,
  );
  const afterComma = /^(.*\S)\s*,\s*([^,]{1,40})$/.exec(bare);
  const without = afterComma?.[2] !== undefined && take(afterComma[2]) ? afterComma[1] : bare;
  const words = wordsIn(without ?? '');
  // "depth_to_water_ft", "DTW ft bgs": unit and mark as the last words.
  while (words.length > 1) {
    const last = words.at(-1) ?? '';
    const lastTwo = words.length > 2 ? `${words.at(-2)}/${last}` : '';
    if (from === null && mark(last)) from = mark(last);
    else if (unit === null && lastTwo !== '' && unitOf(lastTwo)) {
      unit = lastTwo;
      words.pop();
    } else if (unit === null && (lengthUnitNamed(last) || unitOf(last))) unit = last;
    else break;
    words.pop();
  }
  return {
    plain: words.join('').replace(/[^a-z0-9#%]/g, ''),
    whole: squeezed(text),
    words: words.map((word) => word.replace(/[^a-z0-9#%]/g, '')).filter(Boolean),
    unit,
    from,
  };
}

/**
 * The shape of a header: the same for the same headings in the same order,
 * however they are dressed. What was corrected by hand is remembered by it.
 */
export function headerShape(headings: readonly string[]): string {
  // FNV-1a over two lanes (Fowler, Noll, Vo): 64 bits are plenty for the headers one person meets.
  let [a, b] = [0x811c9dc5, 0x9e3779b9];
  const text = headings.map(squeezedHeading).join('\n');
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 0x01000193);
    b = Math.imul(b ^ (code + i), 0x01000193);
  }
  const hex = (n: number) => (n >>> 0).toString(16).padStart(8, '0');
  return `${headings.length}-${hex(a)}${hex(b)}`;
}

const squeezedHeading = (text: string) => text.toLowerCase().replace(/[\s_.\-]+/g, '');
