import type { Gap } from '../../domain/record/gaps';
import { LINES } from '../look/look';
import type { Item, Place } from './scene';

/** Corners of a ring drawn as a line. */
const CORNERS = 72;

const ring = ([east, north]: Place, radius: number): readonly Place[] =>
  Array.from({ length: CORNERS + 1 }, (_, i) => {
    const turn = (2 * Math.PI * i) / CORNERS;
    return [east + radius * Math.sin(turn), north + radius * Math.cos(turn)];
  });

/** What the layout misses: a ring about each place given up, out to the push point nearest to it. */
export const gapItems = (gaps: readonly Gap[]): Item[] =>
  gaps.flatMap(({ id, at, nearest }) =>
    nearest === null || nearest.id === id
      ? []
      : [
          {
            kind: 'line',
            layer: 'hiding-places',
            path: ring(at, nearest.apart),
            colour: 'signal',
            weight: LINES.thin,
            dash: 'dashed',
            means: 'No push point within: given up there',
          },
        ],
  );
