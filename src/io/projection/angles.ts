import type { LngLat } from '../../domain/grid';
import { fail, ok, type Result } from '../../domain/result';
import { degrees, type Degrees } from '../../domain/units';

/** Which of the two an angle is, where it is known: each column of a table has one. */
export type AngleKind = 'longitude' | 'latitude';

/** Why a text is no longitude or latitude, in the parts of its sentence. */
export type AngleProblem = {
  readonly kind:
    | 'blank'
    | 'not-an-angle'
    | 'packed' // 294530: degrees or degrees, minutes and seconds run together
    | 'ambiguous' // two bare numbers, a comma, a letter with two meanings
    | 'wrong-hemisphere' // N in a longitude
    | 'sign-and-letter' // −95° W
    | 'out-of-range'
    | 'order-unknown'; // two angles and nothing to say which is which
  readonly expected: string;
  readonly found: string;
};

const EXAMPLE = {
  longitude: 'a longitude such as −95.36667 or 95°22′00″ W',
  latitude: 'a latitude such as 29.75833 or 29°45′30″ N',
};

type Reading = { readonly value: number; readonly letter: string | null; readonly signed: boolean };

const NUMBER = String.raw`(\d+(?:\.\d*)?|\.\d+)`;
const DEGREE = String.raw`\s*[°º˚]\s*|\s*(?:deg|d)\s*`;
const MINUTE = String.raw`\s*['′’]\s*|\s*(?:min|m)\s*`;
const SECOND = String.raw`(?:\s*(?:["″”]|''|′′|’’|sec|s))?`;
const MARKED = new RegExp(
  `^${NUMBER}(?:${DEGREE})(?:${NUMBER}(?:${MINUTE})(?:${NUMBER}${SECOND})?)?$`,
  'i',
);
const MARKED_MINUTES_BARE = new RegExp(`^${NUMBER}(?:${DEGREE})${NUMBER}$`, 'i');
const BARE = new RegExp(
  `^${NUMBER}(?:\\s+${NUMBER}|\\s*:\\s*${NUMBER})?(?:\\s+${NUMBER}|\\s*:\\s*${NUMBER})?$`,
);

/** No angle is longer; a cell of megabytes is not worth matching. */
const LONGEST = 60;

const whole = (text: string) => !text.includes('.');

/**
 * Reads one longitude or latitude: decimal degrees, degrees and minutes, or
 * degrees, minutes and seconds, with a sign or a letter N, S, E, W. West and
 * south are negative. What can be read two ways is refused: two bare numbers
 * without letter or marks, 294530 run together, a decimal comma, the letter O
 * (ouest, oeste or Ost), a minus sign with W or S.
 */
export function readAngle(text: string, kind: AngleKind): Result<Degrees, AngleProblem> {
  const problem = (what: AngleProblem['kind']) =>
    fail({ kind: what, expected: EXAMPLE[kind], found: text.trim() });
  const read = reading(text);
  if (typeof read === 'string') return problem(read);
  const { value, letter } = read;
  if (letter !== null && !(kind === 'latitude' ? 'NS' : 'EW').includes(letter))
    return problem('wrong-hemisphere');
  const limit = kind === 'latitude' ? 90 : 180;
  return Math.abs(value) <= limit ? ok(degrees(value)) : problem('out-of-range');
}

/** The angle with its sign, or the kind of problem. */
function reading(text: string): Reading | AngleProblem['kind'] {
  let rest = text
    .trim()
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/\u00a0/g, ' ');
  if (rest === '') return 'blank';
  if (rest.length > LONGEST) return 'not-an-angle';

  const ahead = /^([NSEWO])\s*/i.exec(rest);
  if (ahead) rest = rest.slice(ahead[0].length);
  // An s after minutes marked m (29d45m30s) is seconds; any other last letter is a hemisphere.
  const behind = /d.*m[\s\d.]*s$/i.test(rest) ? null : /\s*([NSEWO])$/i.exec(rest);
  if (behind) rest = rest.slice(0, -behind[0].length);
  if (ahead && behind) return 'not-an-angle';
  const letter = (ahead ?? behind)?.[1]?.toUpperCase() ?? null;
  if (letter === 'O') return 'ambiguous';

  const sign = /^[+-]\s*/.exec(rest)?.[0] ?? '';
  rest = rest.slice(sign.length);
  if (sign !== '' && letter !== null) return 'sign-and-letter';
  if (/^\d+,\d+/.test(rest)) return 'ambiguous';

  const parts = split(rest, letter !== null);
  if (typeof parts === 'string') return parts;
  const [d, m, s] = parts;
  if (m !== undefined && (!whole(d) || Number(m) >= 60)) return 'not-an-angle';
  if (m !== undefined && s !== undefined && (!whole(m) || Number(s) >= 60)) return 'not-an-angle';
  // A decimal angle is taken as it was written; the others are worked out once, in seconds.
  const size =
    m === undefined ? Number(d) : (Number(d) * 3600 + Number(m) * 60 + Number(s ?? 0)) / 3600;
  const negative = sign.startsWith('-') || letter === 'W' || letter === 'S';
  return { value: negative && size !== 0 ? -size : size, letter, signed: sign !== '' };
}

/** Degrees, and minutes and seconds where there are any, as written. */
function split(
  text: string,
  lettered: boolean,
): readonly [string, string?, string?] | AngleProblem['kind'] {
  const marked = MARKED.exec(text) ?? MARKED_MINUTES_BARE.exec(text);
  if (marked) return present(marked.slice(1));
  const bare = BARE.exec(text);
  if (!bare) return 'not-an-angle';
  const parts = present(bare.slice(1));
  if (parts.length === 1 && /^\d{5,7}(\.|$)/.test(parts[0])) return 'packed';
  // 95 22 could be 95°22′ or two cells run together; 95 22.000 W says which.
  return parts.length === 2 && !lettered ? 'ambiguous' : parts;
}

const present = (groups: readonly (string | undefined)[]) =>
  groups.filter((group) => group !== undefined) as [string, string?, string?];

const PAIR = 'a latitude and a longitude, such as 29.75833 N, 95.36667 W';

/**
 * Reads two angles from one text, "29°45′30″N 95°22′00″W" or "29.758, −95.367".
 * Letters say which is which; without them, only a number beyond ±90 does.
 * Otherwise the order is refused rather than guessed.
 */
export function readLngLat(text: string): Result<LngLat, AngleProblem> {
  const problem = (kind: AngleProblem['kind']) =>
    fail({ kind, expected: PAIR, found: text.trim() });
  if (text.trim() === '') return problem('blank');
  const halves = text.trim().length > 2 * LONGEST ? null : halvesOf(text.trim());
  if (halves === null) return problem('not-an-angle');
  const [first, second] = [reading(halves[0]), reading(halves[1])];
  if (typeof first === 'string') return problem(first);
  if (typeof second === 'string') return problem(second);

  const kindOf = ({ letter, value }: Reading): AngleKind | null =>
    letter !== null ? ('NS'.includes(letter) ? 'latitude' : 'longitude') : Math.abs(value) > 90 ? 'longitude' : null; // prettier-ignore
  const kinds = [kindOf(first), kindOf(second)];
  if (kinds[0] === null && kinds[1] === null) return problem('order-unknown');
  if (kinds[0] === kinds[1]) return problem('not-an-angle');
  const longitudeFirst = kinds[0] === 'longitude' || kinds[1] === 'latitude';
  const [lng, lat] = longitudeFirst ? [first.value, second.value] : [second.value, first.value];
  return Math.abs(lng) <= 180 && Math.abs(lat) <= 90 ? ok([lng, lat]) : problem('out-of-range');
}

/** Cut at the one comma or semicolon, after or before the second hemisphere letter, or between two lone numbers. */
function halvesOf(text: string): readonly [string, string] | null {
  const cuts = [
    /^([^,;]+?)\s*[,;]\s*([^,;]+)$/,
    ...(/[dm]/i.test(text)
      ? [] // in 29d45m30s the s is no hemisphere
      : [/^([^NSEW]*[NSEW])\s*([^NSEW]+[NSEW])$/i, /^([NSEW][^NSEW]+?)\s*([NSEW][^NSEW]+)$/i]),
    /^(\S+)\s+(\S+)$/,
  ];
  for (const cut of cuts) {
    const [, first, second] = cut.exec(text) ?? [];
    if (first !== undefined && second !== undefined) return [first, second];
  }
  return null;
}
