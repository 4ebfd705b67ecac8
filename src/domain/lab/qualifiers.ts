/**
 * What a laboratory's and a validator's letters mean. The same letter means
 * different things by laboratory, programme and state, so the meaning is looked
 * up in a legend that the user can change, never in the code.
 */
export const MEANINGS = [
  'not detected',
  'not detected, estimated',
  'estimated',
  'estimated high',
  'estimated low',
  'rejected',
  'tentative', // presumptive identification: not screened as the named compound
  'over range',
  'dilution',
  'in blank',
  'none',
] as const;

export type Meaning = (typeof MEANINGS)[number];

export const isMeaning = (text: string): text is Meaning =>
  (MEANINGS as readonly string[]).includes(text);

/** Meanings as bits, so that a set of them is one number. */
export const FLAG = {
  notDetected: 1,
  estimated: 2,
  high: 4,
  low: 8,
  rejected: 16,
  tentative: 32,
  overRange: 64,
  dilution: 128,
  inBlank: 256,
  /** A letter stands there that no legend explains. */
  unknown: 512,
} as const;

const FLAGS_OF: Readonly<Record<Meaning, number>> = {
  'not detected': FLAG.notDetected,
  'not detected, estimated': FLAG.notDetected | FLAG.estimated,
  estimated: FLAG.estimated,
  'estimated high': FLAG.estimated | FLAG.high,
  'estimated low': FLAG.estimated | FLAG.low,
  rejected: FLAG.rejected,
  tentative: FLAG.tentative,
  'over range': FLAG.overRange,
  dilution: FLAG.dilution,
  'in blank': FLAG.inBlank,
  none: 0,
};

/** A row of the table `qualifier_legends`. */
export type LegendRow = {
  /** Null: for every laboratory without a row of its own for the letter, and for the validator. */
  readonly laboratory: string | null;
  readonly letter: string;
  readonly meaning: string;
  readonly source: string | null;
};

const ORGANIC = 'EPA 540/R-99/008 (1999), National Functional Guidelines, organic';
const MEMORY = 'EPA 540-R-20-005 (2020), National Functional Guidelines (value from memory)';

/** The letters as EPA's guidelines for organic data have them; a laboratory's own legend comes first. */
export const DEFAULT_LEGEND: readonly LegendRow[] = [
  { letter: 'U', meaning: 'not detected', source: ORGANIC },
  { letter: 'J', meaning: 'estimated', source: ORGANIC },
  { letter: 'J+', meaning: 'estimated high', source: MEMORY },
  { letter: 'J-', meaning: 'estimated low', source: MEMORY },
  { letter: 'UJ', meaning: 'not detected, estimated', source: ORGANIC },
  { letter: 'R', meaning: 'rejected', source: ORGANIC },
  { letter: 'N', meaning: 'tentative', source: ORGANIC },
  { letter: 'NJ', meaning: 'tentative', source: `${ORGANIC}; ${MEMORY}` },
  // Older inorganic data: B between detection and quantitation limit, E interference.
  { letter: 'B', meaning: 'in blank', source: ORGANIC },
  { letter: 'E', meaning: 'over range', source: ORGANIC },
  { letter: 'D', meaning: 'dilution', source: ORGANIC },
].map((row) => ({ laboratory: null, ...row }));

/** Letters read: the bits of `FLAG`, and the ones no legend explains. */
export type Qualified = { readonly flags: number; readonly unknown: readonly string[] };

/** What letters, as written in a cell, mean. */
export type Legend = (letters: string) => Qualified;

const NO_LETTERS: Qualified = { flags: 0, unknown: [] };

/** Distinct cells are few; past this many something else is being read. */
const MOST_KEPT = 5000;

/**
 * The legends of a site. A letter is looked up among the laboratory's own rows,
 * then among the rows for every laboratory, then in `DEFAULT_LEGEND`; first as
 * written, then in capitals. The validator's letters skip the first step.
 */
export function legendsFrom(
  rows: readonly LegendRow[],
): (laboratory: string | null) => { readonly laboratory: Legend; readonly validation: Legend } {
  const byLaboratory = new Map<string | null, Map<string, Meaning>>();
  const add = ({ laboratory, letter, meaning }: LegendRow) => {
    if (!isMeaning(meaning)) return;
    const key = laboratory?.trim() || null;
    const letters = byLaboratory.get(key) ?? new Map<string, Meaning>();
    byLaboratory.set(key, letters.set(letter.trim(), meaning));
  };
  DEFAULT_LEGEND.forEach(add);
  rows.forEach(add);

  const common = byLaboratory.get(null) ?? new Map<string, Meaning>();
  const validation = legend((letter) => common.get(letter));
  const made = new Map<string | null, { laboratory: Legend; validation: Legend }>();
  return (name) => {
    const before = made.get(name);
    if (before) return before;
    const own = name === null ? undefined : byLaboratory.get(name);
    const laboratory = own ? legend((letter) => own.get(letter) ?? common.get(letter)) : validation;
    const legends = { laboratory, validation };
    made.set(name, legends);
    return legends;
  };
}

function legend(meaningOf: (letter: string) => Meaning | undefined): Legend {
  const kept = new Map<string, Qualified>();
  return (letters) => {
    if (letters === '') return NO_LETTERS;
    const before = kept.get(letters);
    if (before) return before;
    const read = readLetters(letters, meaningOf);
    if (kept.size < MOST_KEPT) kept.set(letters, read);
    return read;
  };
}

function readLetters(
  letters: string,
  meaningOf: (letter: string) => Meaning | undefined,
): Qualified {
  const known = (letter: string) => meaningOf(letter) ?? meaningOf(letter.toUpperCase());
  let flags = 0;
  const unknown: string[] = [];
  for (const token of letters.split(/[\s,;/|]+/).filter(Boolean)) {
    const meanings = known(token) ? [known(token)] : apart(token, known);
    if (meanings === null) unknown.push(token);
    else for (const meaning of meanings) flags |= meaning ? FLAGS_OF[meaning] : 0;
  }
  return unknown.length > 0
    ? { flags: flags | FLAG.unknown, unknown }
    : flags === 0
      ? NO_LETTERS
      : { flags, unknown };
}

/** "JB" as J and B: letters run together, the longest known first; null if any is left over. */
function apart(
  token: string,
  known: (letter: string) => Meaning | undefined,
): readonly Meaning[] | null {
  const meanings: Meaning[] = [];
  let rest = token;
  while (rest !== '') {
    let length = Math.min(3, rest.length);
    let meaning = known(rest.slice(0, length));
    while (!meaning && length > 1) meaning = known(rest.slice(0, --length));
    if (!meaning) return null;
    meanings.push(meaning);
    rest = rest.slice(length);
  }
  return meanings;
}

/** What only the validator can overrule: whether it was seen, how well, and whether it stands. */
const JUDGED =
  FLAG.notDetected | FLAG.estimated | FLAG.high | FLAG.low | FLAG.rejected | FLAG.tentative;

/**
 * Laboratory's and validator's letters together. Where the validator has judged
 * the result, that judgement stands in the laboratory's place, except that a
 * non-detect stays one. Facts of the analysis (over range, from a dilution, in
 * the blank) hold whoever noted them.
 */
export function combined(laboratory: number, validation: number): number {
  const judgement = validation & JUDGED;
  if (judgement === 0) return laboratory | validation;
  const facts = (laboratory | validation) & ~JUDGED;
  return judgement | (laboratory & FLAG.notDetected) | facts;
}
