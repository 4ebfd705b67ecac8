import type { Size } from '../camera';
import type { Box } from '../scene/place-labels';

/** px that what stands on a map beside the drawing takes of its corners, at arm's length, blank around it included. */
const NORTH = { width: 128, height: 64 } as const;
const BUTTONS = { width: 56, height: 126 } as const;
const SCALE = { width: 246, height: 42 } as const;

/** What stands over the site's own map beside these: its folded legend and the deed that keeps a view. */
export const besideSite = ([right, bottom]: Size): Box[] => [
  { left: 10, right: 104, top: bottom - 98, bottom: bottom - 50 },
  { left: right - 278, right: right - 152, top: 8, bottom: 52 },
];

/** Where a window's north, buttons and scale bar lie over the drawing, so that no words go under them. */
export function furnitureRoom([right, bottom]: Size, magnify: number): Box[] {
  const wall = Math.max(1, magnify / 1.5);
  return [
    { left: right - NORTH.width * magnify, right, top: 0, bottom: NORTH.height * magnify },
    { left: 0, right: BUTTONS.width * wall, top: 0, bottom: BUTTONS.height * wall },
    { left: 0, right: SCALE.width * magnify, top: bottom - SCALE.height * magnify, bottom },
  ];
}
