/**
 * Something the file does not say and nobody may guess. Until it is answered
 * the rows that hang on it are refused, and say so.
 */
export type Ask = {
  readonly id: string;
  readonly question: string;
  /** What in the file makes it a question, and what speaks for which answer. */
  readonly why: string;
  /** None: a text of the person's own. */
  readonly choices: readonly { readonly value: string; readonly says: string }[];
  /** What the evidence speaks for; null where it speaks for nothing. */
  readonly proposed: string | null;
  /** Nothing in the file speaks for `proposed`: it is only what is usual, and a person says so. */
  readonly usual?: boolean;
  /** Whether rows are refused for want of an answer. */
  readonly needed: boolean;
};

/** What a person answered, by the ask's id. */
export type Answers = Readonly<Record<string, string>>;

export const answerTo = (answers: Answers, id: string): string | null =>
  Object.hasOwn(answers, id) ? (answers[id] ?? null) : null;

/** The answers the file itself speaks for: for a person who has looked and agrees. */
export const evidentAnswers = (asks: readonly Ask[]): Answers =>
  proposedAnswers(asks.filter(({ usual }) => usual !== true));

/** Those, and the usual answers where the file says nothing. */
export const proposedAnswers = (asks: readonly Ask[]): Answers =>
  Object.fromEntries(
    asks.flatMap(({ id, proposed }) => (proposed === null ? [] : [[id, proposed]])),
  );

/**
 * Questions whose answers may hold for the next file of the same shape: units,
 * what a word or letter means, what things are. How dates and numbers are
 * written, rounds, names and what would change are asked of each file anew.
 */
const LASTING =
  /^(?:length unit|land surface|new locations|new screens|kind of .*|is .*|[a-z_]+\.[a-z_]+ .*)$/;
const NAMES = new Set(['is screening_levels.set', 'is samples.id']);

/** Those of some answers that may be offered again. */
export const lastingAnswers = (answers: Answers): Answers =>
  Object.fromEntries(Object.entries(answers).filter(([id]) => LASTING.test(id) && !NAMES.has(id)));

/** The answers given before that fit questions still open: offered again, never given by themselves. */
export const offeredAgain = (asks: readonly Ask[], answers: Answers, before: Answers): Answers =>
  Object.fromEntries(
    asks.flatMap(({ id, choices }) => {
      const value = answerTo(lastingAnswers(before), id);
      const isChoice = choices.length === 0 || choices.some((choice) => choice.value === value);
      return value !== null && value !== '' && isChoice && answerTo(answers, id) === null
        ? [[id, value]]
        : [];
    }),
  );

/** Why a cell can't be taken, in the parts of its sentence. */
export type Refusal = {
  readonly column: string;
  readonly expected: string;
  readonly found: string;
};

/** A cell as the table takes it, or why it can't. */
export type Cell = string | Refusal;

export const isRefusal = (cell: Cell): cell is Refusal => typeof cell !== 'string';

const shortened = (text: string) => (text.length > 80 ? `${text.slice(0, 77)}…` : text);

/** How what a refusal expected begins where nothing is wrong with the cell: a question is open. */
const AN_ANSWER = 'an answer to ';

/** Whether a cell is refused only for want of an answer. */
export const isWaiting = ({ expected }: Refusal): boolean => expected.startsWith(AN_ANSWER);

/** "Result: expected a number such as 0.5, found “abc”."; "Well: waits for an answer to what stands there (“MW-3”)." */
export function refusalSentence(refusal: Refusal): string {
  const { column, expected, found } = refusal;
  const isBlank = found.trim() === '';
  if (isWaiting(refusal))
    return `${column}: waits for ${expected}${isBlank ? '' : ` (“${shortened(found)}”)`}.`;
  return `${column}: expected ${expected}, found ${isBlank ? 'a blank' : `“${shortened(found)}”`}.`;
}
