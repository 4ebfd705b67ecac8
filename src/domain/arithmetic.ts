/**
 * The arithmetic of a printed formula: + - * / ^, brackets, and a few functions
 * of angles in degrees. Used to choose how many digits of each term to print,
 * so that anyone with a calculator gets the printed answer.
 */
const FUNCTIONS: Readonly<Record<string, (...n: number[]) => number>> = {
  sqrt: (x = NaN) => Math.sqrt(x),
  abs: (x = NaN) => Math.abs(x),
  exp: (x = NaN) => Math.exp(x),
  ln: (x = NaN) => Math.log(x),
  /** Direction of (east, north), in degrees clockwise from north, 0 to 360. */
  azimuth: (east = NaN, north = NaN) =>
    ((((Math.atan2(east, north) * 180) / Math.PI) % 360) + 360) % 360,
  /** An angle turned into 0 to 360. */
  turn: (a = NaN) => ((a % 360) + 360) % 360,
  /** Radians in degrees. */
  degrees: (a = NaN) => (a * 180) / Math.PI,
};

/** Names of the functions a formula may use, so that they are not taken for symbols. */
export const isFunctionName = (name: string) => Object.hasOwn(FUNCTIONS, name);

const TOKEN =
  /\s*(?:(\d+\.?\d*(?:e[-+]?\d+)?|\.\d+)|([a-zA-Zα-ωΑ-Ωσ₀-₉_][\wα-ωΑ-Ω₀-₉′]*)|([-+*/^(),]))/gy;

type Token = { readonly kind: 'number' | 'name' | 'sign'; readonly text: string };

function tokensOf(formula: string): Token[] | null {
  const tokens: Token[] = [];
  TOKEN.lastIndex = 0;
  const end = formula.trimEnd().length;
  while (TOKEN.lastIndex < end) {
    const match = TOKEN.exec(formula);
    if (!match) return null;
    const [, number, name, sign] = match;
    if (number !== undefined) tokens.push({ kind: 'number', text: number });
    else if (name !== undefined) tokens.push({ kind: 'name', text: name });
    else tokens.push({ kind: 'sign', text: sign ?? '' });
  }
  return tokens;
}

/**
 * The value of a formula with its symbols given; null if it cannot be read or
 * a symbol is missing.
 */
export function evaluate(formula: string, symbols: ReadonlyMap<string, number>): number | null {
  const tokens = tokensOf(formula);
  if (!tokens) return null;
  let at = 0;
  const peek = () => tokens[at]?.text;
  const take = (text: string) => (peek() === text ? ++at : 0) > 0;

  const sum = (): number => {
    let value = product();
    for (;;) {
      if (take('+')) value += product();
      else if (take('-')) value -= product();
      else return value;
    }
  };
  const product = (): number => {
    let value = signed();
    for (;;) {
      if (take('*')) value *= signed();
      else if (take('/')) value /= signed();
      else return value;
    }
  };
  const signed = (): number => (take('-') ? -signed() : power());
  const power = (): number => {
    const base = atom();
    return take('^') ? base ** signed() : base;
  };
  const atom = (): number => {
    const token = tokens[at++];
    if (token?.kind === 'number') return Number(token.text);
    if (token?.kind === 'name') {
      const call = isFunctionName(token.text) && peek() === '(' ? FUNCTIONS[token.text] : undefined;
      if (!call) return symbols.get(token.text) ?? NaN;
      at++;
      const given = [sum()];
      while (take(',')) given.push(sum());
      return take(')') ? call(...given) : NaN;
    }
    if (token?.text !== '(') return NaN;
    const value = sum();
    return take(')') ? value : NaN;
  };

  const value = sum();
  return at === tokens.length && Number.isFinite(value) ? value : null;
}

/** The symbols a formula uses, in order of appearance, each once. */
export function symbolsIn(formula: string): string[] {
  const names = (tokensOf(formula) ?? []).filter(
    ({ kind, text }) => kind === 'name' && !isFunctionName(text),
  );
  return [...new Set(names.map(({ text }) => text))];
}
