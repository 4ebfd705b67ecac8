import { LINES, SIZES } from '../look/look';
import type { Item, Place } from './scene';

/** The way of a particle down the surface, with what is said of its time over its middle. */
export function surfacePathItems(path: readonly Place[], says: string | null): Item[] {
  const [before, last] = path.slice(-2);
  const middle = middleOf(path);
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
            at: middle,
            text: says,
            sides: ['n', 's', 'e', 'w'],
            away: 8,
            size: SIZES.note,
            face: 'semibold',
            colour: 'water',
            priority: 1,
            always: true,
          } as const,
        ]),
  ];
}

/** Halfway along. */
function middleOf(path: readonly Place[]): Place {
  const legs = path
    .slice(1)
    .map(([e, n], i) => Math.hypot(e - (path[i]?.[0] ?? e), n - (path[i]?.[1] ?? n)));
  let left = legs.reduce((sum, leg) => sum + leg, 0) / 2;
  for (const [i, leg] of legs.entries()) {
    const [a, b] = [path[i], path[i + 1]];
    if (a && b && leg >= left && leg > 0)
      return [a[0] + ((b[0] - a[0]) * left) / leg, a[1] + ((b[1] - a[1]) * left) / leg];
    left -= leg;
  }
  return path[0] ?? [0, 0];
}
