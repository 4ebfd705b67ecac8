import type { Context } from './context';
import { slotTitle, type Slot } from './forms';
import type { Reader } from './reader';

/**
 * Matrices as files write them, by the word the tables use. The two-letter codes
 * are those of agencies' deliverables (values from memory); the words are common
 * practice, no source.
 */
const MATRICES: Readonly<Record<string, string>> = {
  groundwater:
    'wg, gw, ground water, ground-water, groundwater, grndwater, water - ground, water ground, water-ground, well water, monitoring well water',
  'surface water': 'ws, sw, surface water, surface-water, surfacewater, water - surface',
  soil: 'so, s, soil, soils, solid soil, subsurface soil, surface soil, soil/solid',
  sediment: 'se, sd, sed, sediment, sediments',
  'soil gas': 'gs, sg, soil gas, soil vapor, soil vapour, sv',
  air: 'a, aa, ai, air, ambient air, indoor air',
};

/** Words for water of whatever origin. */
const ANY_WATER = new Set('w,wq,wtr,water,waters,aq,aqueous,liquid,water/aqueous'.split(','));

const WORDS: ReadonlyMap<string, string> = new Map(
  Object.entries(MATRICES).flatMap(([matrix, list]) =>
    list.split(',').map((word) => [word.trim(), matrix] as const),
  ),
);

/** Words past this many are kept as they stand: they are no list of matrices. */
const MOST_WORDS = 12;

/**
 * Reads a sample's matrix: as a listed word or code says, else as a person does.
 * Water of no stated origin is asked about too, for levels are for groundwater.
 */
export function matrixReader(context: Context, slot: Slot, at: number | null): Reader {
  const heading = context.heading(at, slotTitle(slot));
  let asked = 0;
  return (text) => {
    const word = text.toLowerCase().replace(/\s+/g, ' ');
    if (word === '') return '';
    const matrix = WORDS.get(word);
    if (matrix !== undefined) {
      if (word !== matrix) context.say(`“${text}” under ${heading} is taken as ${matrix}.`);
      return matrix;
    }
    // A list of samples has the words of the tables: only a laboratory's file is asked about.
    if (context.mapping.form !== 'results') return text;
    const id = `${slot.id} ${text}`;
    const isWater = ANY_WATER.has(word);
    if (++asked <= MOST_WORDS)
      context.ask({
        id,
        question: `Which matrix is “${text.slice(0, 60)}”?`,
        why: isWater
          ? `${heading} says water, not of what. Levels for groundwater are compared with groundwater alone.`
          : `${heading} has a word not known here. Results are compared with levels for their matrix.`,
        choices: [
          ...Object.keys(MATRICES).map((each) => ({ value: each, says: each })),
          {
            value: text,
            says: isWater ? 'water, its origin not said' : `“${text}”, kept as it is`,
          },
        ],
        proposed: isWater ? 'groundwater' : null,
        usual: true,
        needed: true,
      });
    else return text;
    return context.answer(id) ?? { column: heading, expected: 'an answer to which matrix it is', found: text }; // prettier-ignore
  };
}
