import type { StopView } from '../../domain/walk/stop';
import { metres } from '../../domain/units';
import { checkViewOf } from '../check/check-view.svelte';
import { BETWEEN, FREE } from '../check/section-choice.svelte';
import { resultsViewOf } from '../check/results-view.svelte';
import type { OpenSite } from '../open-site.svelte';
import { laidPictures } from '../places/laid-pictures';

/** What Check can draw over the map that a stop cannot, by the overlay it stands in. */
const NOT_KEPT: Readonly<Record<string, string>> = {
  extent: 'the outline of the extent',
  plane: 'what was asked of the plane',
  path: 'the way to a receptor',
  change: 'changes since the event before',
};

/** What is drawn beside what the desk shows, as far as a stop can hold it; the rest in words. */
export function whatIsDrawn(site: OpenSite): {
  readonly drawn: Partial<StopView>;
  readonly without: readonly string[];
} {
  const isOver = (name: string) => (site.overlays[name] ?? []).length > 0;
  const { chosen, line, corridor, unit } = checkViewOf(site).section;
  const pictures = laidPictures(site.package, site.files);
  const isFeature = chosen !== BETWEEN && chosen !== FREE;
  return {
    drawn: {
      ...(isOver('surface') ? { contours: true } : {}),
      ...(isOver('open-sides') ? { sides: true } : {}),
      ...(pictures.some(({ picture }) => picture.shown) ? { pictures: true } : {}),
      ...(isOver('section') && line.length > 1
        ? {
            section: true,
            cut: {
              line: isFeature ? chosen : line.map(([e, n]) => [e, n] as const),
              corridor: metres(corridor, unit),
            },
          }
        : {}),
    },
    without: [
      ...Object.entries(NOT_KEPT).flatMap(([name, words]) => (isOver(name) ? [words] : [])),
      ...(resultsViewOf(site).boxes ? ['boxes of results'] : []),
      ...(site.shown.construction.length > 0 ? ['the three-point construction'] : []),
    ],
  };
}
