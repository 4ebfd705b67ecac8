import type { Feature } from '../site/schema';
import type { Site } from '../site/site';
import { plain, type Stop } from './stop';

const LETTER = /[\w-]/;

/** Whether a name stands in words as a word of its own: "MW-1" does not stand in "MW-10". */
function standsIn(words: string, name: string): boolean {
  for (let at = words.indexOf(name); at >= 0; at = words.indexOf(name, at + 1)) {
    const [before = ' ', after = ' '] = [words[at - 1], words[at + name.length]];
    if (!LETTER.test(before) && !LETTER.test(after)) return true;
  }
  return false;
}

/** A receptor along a water has its name on the water. */
const LOOKED_FOR: readonly Feature['kind'][] = ['source area', 'receptor', 'surface water'];

/**
 * The points, sources, receptors and waters of a site, by id, that the words of a stop
 * name: a room looks for these on its map.
 */
export function namedPoints(
  { locations, features }: Pick<Site, 'locations' | 'features'>,
  { title, sentences }: Pick<Stop, 'title' | 'sentences'>,
): ReadonlySet<string> {
  const words = [title, ...sentences.map(plain)].join('\n');
  const drawn = features.filter(({ kind }) => LOOKED_FOR.includes(kind));
  return new Set([
    ...[...locations.keys()].filter((id) => standsIn(words, id)),
    ...drawn.flatMap(({ id, name }) => (name !== null && standsIn(words, name) ? [id] : [])),
  ]);
}
