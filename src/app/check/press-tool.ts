import type { XY } from '../../domain/geometry/shape';
import type { MapTool } from '../lay-out/map-tool';

/** A tool that takes presses and nothing else: dragging moves the map as ever. */
export const pressTool = (
  press: (at: XY, reach: number) => void,
  point: (at: XY | null) => void = () => {},
): MapTool => ({ press, point, grab: () => false, drag: () => {}, drop: () => {} });
