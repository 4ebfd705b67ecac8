import { VERDICTS, type Verdict } from '../../../../src/domain/lab/verdict';
import type { Site } from '../../../../src/domain/site/site';
import { headsOf } from '../../../../src/domain/water/event-heads';
import { flowOf } from '../../../../src/domain/water/flow';
import { constructionOf } from '../../../../src/map/construction';
import type { MapPoint } from '../../../../src/map/furniture/point-list';
import { featureItems } from '../../../../src/map/scene/from-features';
import { flowItems, residualItems } from '../../../../src/map/scene/from-flow';
import { headItems } from '../../../../src/map/scene/from-heads';
import {
  locationItems,
  locationWords,
  placeOf,
  pointsExtent,
} from '../../../../src/map/scene/from-locations';
import { verdictItems } from '../../../../src/map/scene/from-verdicts';
import type { Item } from '../../../../src/map/scene/scene';

/** What is drawn over the points. */
export type Show = 'flow' | 'residuals' | 'verdicts' | 'three';

/**
 * A demo as one scene. The verdicts are not those of its results: every mark is
 * shown somewhere, and every fourth point has three screens.
 */
export function demoScene(site: Site, event: string, zone: string, show: Show) {
  const { unit } = site.settings.grid;
  const { verticalUnit } = site.settings;
  const heads = headsOf(site, event).filter(
    ({ screen }) => screen.zone === zone || screen.zone === null,
  );
  const flow = flowOf(site, event, zone);
  const places = [...site.locations.values()].flatMap((location) => {
    const at = placeOf(location);
    return at ? [{ location, at }] : [];
  });
  const verdicts = () =>
    places
      .filter(({ location }) => location.kind === 'direct push')
      .map(({ location, at }, point) => ({
        who: location.id,
        at,
        verdicts: Array.from(
          { length: point % 4 === 0 ? 3 : 1 },
          (_, screen): Verdict => VERDICTS[(point * 2 + screen) % VERDICTS.length] ?? 'no-result',
        ),
      }));
  const over: Record<Show, () => readonly Item[]> = {
    flow: () => flowItems(flow),
    residuals: () => residualItems(flow, verticalUnit),
    verdicts: () => verdictItems(verdicts()),
    three: () =>
      constructionOf(flow, ['MW-1', 'PZ-8', 'MW-6'], 1, { vertical: verticalUnit, grid: unit }),
  };
  const scene: Item[] = [
    ...site.features.flatMap((feature) => featureItems(feature, unit)),
    ...places.flatMap(({ location }) => locationItems(location)),
    ...(show === 'three' ? [] : headItems(heads, verticalUnit)),
    ...over[show](),
  ];
  const points: MapPoint[] = places.map(({ location, at }) => ({
    id: location.id,
    name: location.id,
    says: locationWords(location).toLowerCase(),
    at,
  }));
  return { scene, extent: pointsExtent(places.map(({ at }) => at)), points };
}
