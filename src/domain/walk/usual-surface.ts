import type { Site } from '../site/site';
import { inUnits, metres } from '../units';
import { drawnSurface, type DrawnSurface } from '../water/drawn-surface';
import type { Flow } from '../water/flow';
import { surfacePoints } from '../water/surface-words';
import { usualInterval } from '../water/surface/contour-interval';
import { usualReach } from '../water/surface/contour-pieces';

/** Contours and the interval between them, in the site's vertical unit. */
export type Contours = { readonly surface: DrawnSurface; readonly interval: number };

/**
 * The contours drawn where nobody has chosen others: triangulated, at the usual
 * interval. Null where no direction is resolved to go with them, or no surface
 * can be drawn.
 */
export function usualSurface({ settings }: Site, flow: Flow | null): Contours | null {
  if (!flow?.resolved) return null;
  const points = surfacePoints(flow);
  const interval = usualInterval(points, settings.verticalUnit);
  const reach = usualReach(points);
  if (points.length < 3 || interval === null || reach === null) return null;
  const { unit } = settings.grid;
  const made = drawnSurface({
    points,
    method: 'triangulated',
    model: null,
    interval,
    reach: metres(Math.round(inUnits(reach, unit)), unit),
    byError: false,
    noFlow: [],
  });
  return made.ok
    ? { surface: made.value, interval: inUnits(interval, settings.verticalUnit) }
    : null;
}
