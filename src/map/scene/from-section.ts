import { LINES } from '../look/look';
import { ringAlong } from './offset';
import type { Item, LineItem, Place } from './scene';

/** The corridor of a section, and its line where it is none of the site's features. */
export function corridorItems(path: readonly Place[], corridor: number, drawLine: boolean): Item[] {
  const [only] = path;
  if (path.length < 2) return only && drawLine ? [beginning(only)] : [];
  const ring: LineItem = {
    kind: 'line',
    layer: 'section-lines',
    path: ringAlong(path, corridor),
    weight: LINES.thin,
    colour: 'ink-soft',
    dash: 'dotted',
    means: 'Corridor of the section',
  };
  return drawLine
    ? [
        ring,
        {
          kind: 'line',
          layer: 'section-lines',
          path,
          weight: LINES.medium,
          colour: 'ink',
          means: 'Line of the section',
        },
      ]
    : [ring];
}

/** The first corner of a line still being drawn. */
const beginning = (at: Place): Item => ({
  kind: 'symbol',
  layer: 'section-lines',
  at,
  shape: 'cross',
  size: 16,
  colour: 'ink',
  means: 'Beginning of the section',
});
