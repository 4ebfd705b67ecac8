/**
 * A result as a laboratory writes it, taken apart without being interpreted:
 * "<0.5", "ND", "0.5 U", "5.2 J", "1,200", "1.2E-3", ">200". What the letters
 * mean is the legend's business (`qualifiers.ts`). Nothing is guessed: what
 * does not fit is unreadable, with what was expected and what was found.
 */
export type Reported = {
  readonly kind:
    | 'number'
    | 'less than' // "<0.5", "≤0.5"
    | 'more than' // ">200", "≥200"
    | 'not detected' // "ND", with or without a number; "<MDL"
    | 'letters' // letters alone: "R", "U"
    | 'blank' // nothing, or a word that says there is none: "not sampled"
    | 'unreadable';
  /** The number with a decimal point and no grouping: "1200", "1.2E-3". */
  readonly number: string | null;
  /** Letters and signs beside the number, as written: "UJ", "J+", "B J". */
  readonly letters: string;
  /** What was expected, where it could not be read. */
  readonly expected: string | null;
};

/** How numbers are dressed in a file. Decimal commas only where somebody said so. */
export type Dress = { readonly decimalComma: boolean };

export const DECIMAL_POINT: Dress = { decimalComma: false };

const reported = (
  kind: Reported['kind'],
  number: string | null = null,
  letters = '',
  expected: string | null = null,
): Reported => ({ kind, number, letters, expected });

const BLANK = reported('blank');

/** Words that stand for "looked for and not seen", and for a limit named but not given. */
const NOT_SEEN =
  /^(?:n\.?d\.?|not[ -]detected|non-?detects?|non-detected|bdl|bql|brl|<\s*(?:mdl|rl|dl|pql|lod|loq|mrl|crql))$/i;

/** Words that say there is no result. */
const NONE =
  /^(?:-+|–|—|n\/?a|n\.a\.|ns|nr|nt|not (?:sampled|analy[sz]ed|reported|tested|measured|applicable))$/i;

const AROUND = /^(<=|>=|[<>≤≥])?\s*([-+−]?[\d.,]+(?:[eE][-+−]?\d{1,3})?)\s*(.*)$/;
const NOT_SEEN_AT = /^n\.?d\.?\s*[([]?\s*[<@]?\s*([\d.,]+(?:[eE][-+−]?\d{1,3})?)\s*[)\]]?\s*(.*)$/i;

/** Capitals or marks, or one small letter, with a sign of bias; several with spaces or commas between. */
const LETTERS = /^(?:[A-Z*^#]{1,4}|[a-z])[-+]?(?:[ ,;/]+(?:[A-Z*^#]{1,4}|[a-z])[-+]?){0,4}$/;
const LETTERS_ALONE = /^(?:[A-Z]{1,3}|[a-z])[-+]?$/;

/** A unit in the value's cell is not a qualifier. */
const UNIT_WORD =
  /(?:^|[ ,;/])(?:[munpµμk]?g|ml|l|kg|pp[mbtq]|mfl|p?ci|bq|ntu|deg|su|mv|uv|us)(?:$|[ ,;/])/i;

const POINT = {
  plain: /^[-+]?(?:\d+\.?\d*|\.\d+)$/,
  grouped: /^[-+]?[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/,
};
const COMMA = {
  plain: /^[-+]?(?:\d+,?\d*|,\d+)$/,
  grouped: /^[-+]?[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?$/,
};

/** No result is written longer, and a hostile file might. */
const LONGEST = 60;

/**
 * A number as people write it, turned into digits with a decimal point; null
 * unless well formed. Thousands may be grouped by threes ("1,200", not "1,20").
 */
export function plainDigits(text: string, { decimalComma }: Dress = DECIMAL_POINT): string | null {
  if (text.length > LONGEST) return null;
  const [, mantissa = '', power = ''] =
    /^([-+]?[\d.,]+)([eE][-+]?\d{1,3})?$/.exec(text.replaceAll('−', '-')) ?? [];
  const dress = decimalComma ? COMMA : POINT;
  if (dress.plain.test(mantissa)) return mantissa.replace(',', '.') + power;
  if (power !== '' || !dress.grouped.test(mantissa)) return null;
  return decimalComma
    ? mantissa.replaceAll('.', '').replace(',', '.')
    : mantissa.replaceAll(',', '');
}

export const A_RESULT = 'a result such as 5.2, <0.5, ND, 0.5 U or >200';

const EXPECTED_NUMBER = {
  point: 'a number such as 0.5 or 1,200 (a decimal comma only where the file is said to use it)',
  comma: 'a number such as 0,5 or 1.200, in a file said to use decimal commas',
} as const;

/** What a cell of results says; see `Reported`. */
export function readReported(cell: string | null, dress: Dress = DECIMAL_POINT): Reported {
  const text = (cell ?? '').trim().replace(/\s+/g, ' ');
  if (text === '') return BLANK;

  const number = (raw: string) => plainDigits(raw, dress);
  const noNumber = EXPECTED_NUMBER[dress.decimalComma ? 'comma' : 'point'];
  const unreadable = (expected: string) => reported('unreadable', null, '', expected);
  if (text.length > LONGEST) return unreadable(A_RESULT);

  const around = AROUND.exec(text);
  if (around) {
    const [, sign = '', raw = '', rest = ''] = around;
    const digits = number(raw);
    if (digits === null) return unreadable(noNumber);
    if (/^n\.?d\.?$/i.test(rest) && sign !== '>') return reported('not detected', digits);
    const letters = lettersIn(rest);
    if (letters === null) return unreadable('only qualifier letters after the number');
    const kind = /[<≤]/.test(sign) ? 'less than' : sign === '' ? 'number' : 'more than';
    return reported(kind, digits, letters);
  }
  if (NOT_SEEN.test(text)) return reported('not detected');
  const at = NOT_SEEN_AT.exec(text);
  if (at) {
    const digits = number(at[1] ?? '');
    const letters = lettersIn(at[2] ?? '');
    if (digits === null) return unreadable(noNumber);
    if (letters === null) return unreadable('only qualifier letters after the number');
    return reported('not detected', digits, letters);
  }
  if (NONE.test(text)) return BLANK;
  if (LETTERS_ALONE.test(text)) return reported('letters', null, text);
  return unreadable(A_RESULT);
}

/** The qualifier letters after a number; null where what stands there is something else. */
function lettersIn(rest: string): string | null {
  const bare = rest.replace(/^[([](.*)[)\]]$/, '$1').trim();
  if (bare === '') return '';
  return LETTERS.test(bare) && !UNIT_WORD.test(bare) ? bare : null;
}
