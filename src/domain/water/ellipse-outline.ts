import type { GradientEllipse } from './plane-confidence';
import type { Plane } from './plane';

/** A gradient as a vector of flow: toward east and toward north, no unit. */
export type FlowVector = readonly [east: number, north: number];

/** The flow vector of a plane, down its slope. */
export const flowVector = ({ a, b }: Plane): FlowVector => [0 - a, 0 - b];

/** The edge of the ellipse in which the end of the flow vector lies, closed. */
export function ellipseOutline(
  [east, north]: FlowVector,
  { major, minor, trend }: GradientEllipse,
  corners = 72,
): FlowVector[] {
  const axis = (trend * Math.PI) / 180;
  const [sin, cos] = [Math.sin(axis), Math.cos(axis)];
  return Array.from({ length: corners + 1 }, (_, i) => {
    const turn = (2 * Math.PI * (i % corners)) / corners;
    const [along, across] = [major * Math.cos(turn), minor * Math.sin(turn)];
    return [east + along * sin + across * cos, north + along * cos - across * sin];
  });
}
