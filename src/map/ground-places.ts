import type { Flow } from '../domain/water/flow';
import type { Place } from './scene/scene';

/** From ground metres about the middle of a flow's wells to places in the grid; null without wells. */
export function groundPlaces(
  flow: Flow | null,
  combinedFactor: number | null,
): ((x: number, y: number) => Place) | null {
  const centre = flow?.centre;
  if (!centre) return null;
  const factor = combinedFactor ?? 1;
  return (x, y) => [centre.easting + x * factor, centre.northing + y * factor];
}
