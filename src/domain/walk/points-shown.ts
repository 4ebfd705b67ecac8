import type { JudgedResult } from '../lab/site-results';
import type { Site } from '../site/site';
import type { GaugedScreen } from '../water/event-heads';
import type { PointsShown } from './stop';

/** Ids of the locations a stop shows; null: all of them. */
export function pointsShown(
  which: PointsShown,
  site: Site,
  heads: readonly GaugedScreen[],
  results: readonly Pick<JudgedResult, 'location'>[],
): ReadonlySet<string> | null {
  const all = [...site.locations.values()];
  switch (which) {
    case 'all':
      return null;
    case 'pushed':
      return new Set(all.flatMap(({ id, kind }) => (kind === 'direct push' ? [id] : [])));
    case 'planned':
      return new Set(all.flatMap(({ id, status }) => (status === 'planned' ? [id] : [])));
    case 'borings':
      return new Set(site.strata.map(({ location }) => location));
    case 'gauged':
      // A level from a push point that does not count is not for a wall; its place is the sheet.
      return new Set(
        heads.flatMap((gauged) =>
          gauged.class === 'push' && gauged.leftOut !== null ? [] : [gauged.location.id],
        ),
      );
    case 'sampled':
      return new Set(results.flatMap(({ location }) => location?.id ?? []));
  }
}
