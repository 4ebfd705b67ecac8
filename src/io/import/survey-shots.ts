/**
 * What a surveyor shot, by the description beside its point number: "MW-1 TOC",
 * "GS MW-1", "GP-01". Words for the marks are the trade's (common practice, no
 * source).
 */
export type Shot = {
  /** The location; blank where the description is the mark alone. */
  readonly name: string;
  readonly mark: 'casing' | 'ground' | null;
  /** The mark as a measuring point is described: "top of casing". */
  readonly words: string;
};

/** Words for a mark on a casing, longest first, and what it is called. */
const CASING: Readonly<Record<string, string>> = {
  'top of inner casing': 'top of inner casing',
  'top of pvc': 'top of PVC casing',
  'top of casing': 'top of casing',
  'top of riser': 'top of riser',
  'top of rods': 'top of rods',
  'top of rod': 'top of rods',
  'measuring point': 'measuring point',
  notch: 'notch on casing',
  riser: 'top of riser',
  casing: 'top of casing',
  toic: 'top of inner casing',
  csg: 'top of casing',
  toc: 'top of casing',
  tor: 'top of riser',
  tpvc: 'top of PVC casing',
  pvc: 'top of PVC casing',
  mp: 'measuring point',
};

const GROUND = new Set(
  'ground surface,ground shot,ground level,land surface,ground,grade,grnd,grd,gnd,gse,gs,ng,eg,gl,lsd,ls'.split(','), // prettier-ignore
);

const WORDS = [...Object.keys(CASING), ...GROUND].sort((a, b) => b.length - a.length).join('|');

const AFTER = new RegExp(`^(.*?)(?:[\\s,;:_/(\\[@.-]+|(?<=\\d)(?=[a-z])|^)(${WORDS})[)\\]]?$`, 'i');
const BEFORE = new RegExp(`^(${WORDS})[\\s,;:_/-]+([a-z].*)$`, 'i');

const markOf = (word: string): Pick<Shot, 'mark' | 'words'> => {
  const casing = CASING[word.toLowerCase()];
  return casing === undefined ? { mark: 'ground', words: word } : { mark: 'casing', words: casing };
};

/** A description taken apart. */
export function readShot(description: string): Shot {
  const text = description.trim().replace(/\s+/g, ' ');
  const after = AFTER.exec(text);
  if (after) {
    const [, rest = '', word = ''] = after;
    const more = AFTER.exec(rest);
    // "MW-1 PVC TOC": both words say one mark.
    const name = more && markOf(more[2] ?? '').mark === markOf(word).mark ? (more[1] ?? '') : rest;
    return { name: name.trim(), ...markOf(word) };
  }
  const before = BEFORE.exec(text);
  if (before) return { name: (before[2] ?? '').trim(), ...markOf(before[1] ?? '') };
  return { name: text, mark: null, words: '' };
}

/** The name of a point: letters and a number, of one word or two: "GP-01", "TY MW 3A". */
const isPointName = (text: string) => /^(?=.*[a-z])(?=.*\d)[\w.#/-]+(?: [\w.#/-]+)?$/i.test(text);

const isNumber = (text: string) => /^\d{1,6}$/.test(text);

/**
 * Whether descriptions are of survey shots: they name points with marks, or
 * points beside the bare numbers of the surveyor.
 *
 * @param numbers  texts of the column of points beside them; null where there is none
 */
export function areShots(
  descriptions: readonly string[],
  numbers: readonly string[] | null,
): boolean {
  if (descriptions.length === 0) return false;
  const shots = descriptions.map(readShot);
  const named = shots.filter(({ name }) => isPointName(name)).length;
  const marked = shots.filter(({ mark }) => mark !== null).length;
  const alone = shots.filter(({ name, mark }) => mark !== null && name === '').length;
  if (numbers === null) return named > 0 && marked > 0;
  const isNumbered = numbers.every(isNumber);
  // "MW-1" in the column of points, "TOC" and "GS" as descriptions.
  if (!isNumbered) return alone > 0 && alone === marked && alone >= 0.5 * descriptions.length;
  return named > 0 && (marked > 0 ? true : named >= 0.8 * descriptions.length);
}

/** Headings of a surveyor's list that has none, in its usual order (common practice, no source). */
export const SHOT_HEADINGS = ['Point', 'Northing', 'Easting', 'Elevation', 'Description'] as const;

const isDecimal = (text: string) => /^-?\d+(?:\.\d+)?$/.test(text);

/** Whether the first rows of a file are shots with no headings above: point, two coordinates, elevation, description. */
export function areBareShots(rows: readonly (readonly string[])[]): boolean {
  const shots = rows
    .map((cells) => cells.map((cell) => cell.trim()))
    .filter((cells) => cells.some((cell) => cell !== ''));
  const isShot = ([point = '', a = '', b = '', z = '', words = '', ...more]: readonly string[]) =>
    isNumber(point) && [a, b, z].every(isDecimal) && words !== '' && more.every((each) => each === ''); // prettier-ignore
  return (
    shots.length > 1 &&
    shots.every(isShot) &&
    areShots(
      shots.map((cells) => cells[4] ?? ''),
      shots.map(([point = '']) => point),
    )
  );
}
