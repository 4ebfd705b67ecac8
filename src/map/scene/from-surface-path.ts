import { LINES, SIZES } from '../look/look';
import type { Item, Place } from './scene';

/** The way of a particle down the surface, with what is said of its time at its end. */
export function surfacePathItems(path: readonly Place[], says: string | null): Item[] {
  const [before, last] = path.slice(-2);
  if (!before || !last) return [];
  return [
    {
      kind: 'line',
      layer: 'flow-lines',
      path,
      weight: LINES.heavy,
      colour: 'water',
      casing: 1.5,
      means: 'Flow line from the point chosen',
    },
    { kind: 'arrow', layer: 'flow-lines', tail: before, head: last, width: 3, colour: 'water' },
    ...(says === null
      ? []
      : [
          {
            kind: 'text',
            layer: 'captions',
            at: last,
            text: says,
            sides: ['e', 'w', 's', 'n'],
            away: 10,
            size: SIZES.note,
            face: 'semibold',
            colour: 'water',
            priority: 1,
            always: true,
          } as const,
        ]),
  ];
}
