import type { Context } from './context';
import { DEPTH_WORDS } from './synonyms';

/** More words than this are no list of states. */
const MOST_WORDS = 12;

const STATES = ['dry', 'obstructed', 'flowing'] as const;

type State = (typeof STATES)[number];

const isState = (text: string | null): text is State => STATES.some((state) => state === text);

/** The state of the water a cell of depths says in words: a listed one, or as a person says; null where it says none. */
export function depthWordReader(
  context: Context,
  depthAt: number | null,
): (text: string) => State | null {
  // prettier-ignore
  const heading = context.heading(depthAt, 'Depth to water');
  let asked = 0;
  return (text) => {
    const word = text.toLowerCase();
    if (Object.hasOwn(DEPTH_WORDS, word)) return DEPTH_WORDS[word] ?? null;
    // A number with a slip of the pen is refused, not asked about.
    if (word === '' || /\d/.test(word)) return null;
    const id = `depth ${text}`;
    if (++asked <= MOST_WORDS)
      context.ask({
        id,
        question: `What does “${text.slice(0, 60)}” under ${heading} mean?`,
        why: 'A reading needs a depth, or a reason there is none. Without an answer its rows are refused, with their remarks in the file of refused rows.', // prettier-ignore
        choices: [
          { value: 'dry', says: 'no water: dry' },
          { value: 'obstructed', says: 'not to be measured: obstructed' },
          { value: 'flowing', says: 'above the mark: flowing' },
          { value: 'refuse', says: 'no reading: refuse its rows' },
        ],
        proposed: null,
        needed: false,
      });
    const answer = context.answer(id);
    return isState(answer) ? answer : null;
  };
}
