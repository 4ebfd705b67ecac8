import type { XY } from '../../domain/geometry/shape';

/**
 * A tool in hand over the map: presses go to it and not to what lies there.
 * Places and reaches in metres of the grid; the reach is as far as a finger or
 * a pointer is off, so larger for a touch.
 */
export type MapTool = {
  readonly press: (at: XY, reach: number) => void;
  /** The pointer moved, no button down; null when it left. */
  readonly point: (at: XY | null, reach: number) => void;
  /** Button or finger down; returns whether something was taken hold of, else the map is dragged. */
  readonly grab: (at: XY, reach: number) => boolean;
  readonly drag: (at: XY, reach: number) => void;
  readonly drop: () => void;
};
