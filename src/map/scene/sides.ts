import type { Side } from './scene';

/** Where the name of a point stands, best first: above and to the right, clear of its level. */
export const NAME_SIDES: readonly Side[] = ['ne', 'nw', 'n', 'e', 'w', 'se', 'sw', 's'];

/** Where a level stands: below and to the right, then anywhere. */
export const LEVEL_SIDES: readonly Side[] = ['se', 'sw', 's', 'e', 'w', 'ne', 'nw', 'n'];
