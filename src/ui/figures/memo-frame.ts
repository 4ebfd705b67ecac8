import type { Size } from '../../map/camera';
import type { Extent } from '../../map/scene/scene';

/** px of a figure: as wide as the page's column, and no taller than leaves room on a page for its legend and some words. */
const WIDEST = 760;
const [LOWEST, TALLEST] = [300, 470];

/** The frame that an extent fills: as tall as it is for its width, so that half of it does not stand empty. */
export function frameFor(extent: Extent | null): Size {
  if (!extent) return [WIDEST, TALLEST];
  const wide = Math.max(1e-9, extent.east - extent.west);
  const tall = ((extent.north - extent.south) / wide) * WIDEST;
  return [WIDEST, Math.round(Math.min(TALLEST, Math.max(LOWEST, tall)))];
}
