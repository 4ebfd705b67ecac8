import { pointsShown } from '../domain/walk/points-shown';
import type { StopView } from '../domain/walk/stop';
import type { DrawnSurface } from '../domain/water/drawn-surface';
import { nextPushes } from '../domain/lab/site-delineation';
import { sidesTold } from '../domain/walk/lab-stops';
import { groundPlaces } from './ground-places';
import { contourDecimals, contourItems } from './scene/from-contours';
import { openSideItems } from './scene/from-delineation';
import type { Item, Scene } from './scene/scene';
import { siteScene, type Drawing } from './site-scene';

/** Contours of a stop, and the interval they are drawn at in the site's vertical unit. */
export type StopSurface = { readonly surface: DrawnSurface; readonly interval: number };

/** The map at a stop: the site's own, with only the points that the stop is about. */
export function stopScene(
  drawing: Drawing,
  { points, sides, shown }: StopView,
  contours: StopSurface | null,
): Scene {
  const { site, heads, results, flow } = drawing;
  const wanted = pointsShown(points, site, heads, results);
  const isWanted = ({ who, layer }: Item) =>
    wanted === null || who === undefined || !site.locations.has(who) || layer === 'selection'
      ? true
      : wanted.has(who);
  const placeOf = groundPlaces(flow, site.grid.combinedFactor);
  return [
    ...siteScene(drawing).filter(isWanted),
    ...(sides ? openSideItems(site, nextPushes(sidesTold(site, shown, heads))) : []),
    ...(contours && placeOf
      ? contourItems(
          contours.surface,
          placeOf,
          site.settings.verticalUnit,
          contourDecimals(contours.interval),
        )
      : []),
  ];
}
