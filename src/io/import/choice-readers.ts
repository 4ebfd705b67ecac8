import type { Context } from './context';
import type { Slot } from './forms';
import { readHeading } from './heading';
import { refuse, remembering, type Reader } from './reader';
import { CHOICE_WORDS, CODES_UNDER } from './synonyms';

const simple = (text: string) =>
  text
    .toLowerCase()
    .replace(/[\s._-]+/g, ' ')
    .trim();

const choiceWords = new Map<string, ReadonlyMap<string, string>>();

/** Every way a choice is written, by slot. */
function wordsFor(slot: string, choices: readonly string[]): ReadonlyMap<string, string> {
  const before = choiceWords.get(slot);
  if (before) return before;
  const words = new Map<string, string>();
  const given = Object.hasOwn(CHOICE_WORDS, slot) ? (CHOICE_WORDS[slot] ?? {}) : {};
  for (const [choice, list] of Object.entries(given))
    for (const word of list.split(',')) words.set(simple(word), choice);
  for (const choice of choices) words.set(simple(choice), choice);
  choiceWords.set(slot, words);
  return words;
}

/** More codes than this are not a list of choices. */
const MOST_CODES = 25;

/** Under a heading of codes: what a person said a code stands for, else the code itself. */
export function codeReader(context: Context, slot: Slot, heading: string): Reader {
  let codes = 0;
  return remembering((text) => {
    if (text === '') return '';
    const answered = context.answer(`${slot.id} ${text}`)?.trim() ?? '';
    if (++codes <= MOST_CODES)
      context.ask({
        id: `${slot.id} ${text}`,
        question: `What does “${text.slice(0, 60)}” under ${heading} stand for?`,
        why: `${slot.says}. Without an answer the code itself is kept.`,
        choices: [],
        proposed: null,
        needed: false,
      });
    return answered === '' ? text : answered;
  });
}

/** A choice by its name, a listed word, the codes under its heading, or what a person said it means. */
export function choiceReader(context: Context, slot: Slot, heading: string): Reader {
  const choices = slot.field.choices ?? [];
  const words = wordsFor(slot.id, choices);
  const codes = CODES_UNDER[readHeading(heading).whole] ?? {};
  let unknown = 0;
  return (text) => {
    if (text === '') return '';
    const code = Object.hasOwn(codes, text.toLowerCase()) ? codes[text.toLowerCase()] : undefined;
    const known = code ?? words.get(simple(text));
    if (known !== undefined) return known;
    if (++unknown <= MOST_CODES)
      context.ask({
        id: `${slot.id} ${text}`,
        question: `What does “${text.slice(0, 60)}” under ${heading} mean?`,
        why: `${slot.says}. It is none of the words known here.`,
        choices: [
          ...choices.map((choice) => ({ value: choice, says: choice })),
          ...(slot.field.required ? [] : [{ value: '', says: 'leave it blank' }]),
        ],
        proposed: null,
        needed: true,
      });
    const answered = context.answer(`${slot.id} ${text}`);
    if (answered !== null && (answered === '' || choices.includes(answered))) return answered;
    const isAsked = answered === null && unknown <= MOST_CODES;
    return refuse(heading, isAsked ? 'an answer to what it means' : `one of ${choices.join(', ')}`, text); // prettier-ignore
  };
}
