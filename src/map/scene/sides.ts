import type { Side } from './scene';

/** Where the name of a point stands, best first: above and to the right, clear of its level. */
export const NAME_SIDES: readonly Side[] = ['ne', 'nw', 'n', 'e', 'w', 'se', 'sw', 's'];

/** Where a level stands: below and to the right, then anywhere. */
export const LEVEL_SIDES: readonly Side[] = ['se', 'sw', 's', 'e', 'w', 'ne', 'nw', 'n'];

const WINDS: readonly Side[] = ['n', 'ne', 'e', 'se', 's', 'sw', 'w', 'nw'];

/** Where words stand ahead of something pointing in a direction: straight on, then to either hand. */
export function sidesAhead(azimuth: number): Side[] {
  const straight = Math.round(azimuth / 45);
  return [0, 1, -1, 2, -2].map((step) => WINDS[(((straight + step) % 8) + 8) % 8] ?? 'e');
}
