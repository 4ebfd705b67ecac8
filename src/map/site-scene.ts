import type { DrawnResult } from '../domain/lab/drawn-results';
import { byLocation } from '../domain/lab/site-results';
import { worstOf } from '../domain/lab/worst';
import { groupBy } from '../domain/group';
import type { Shown } from '../domain/site/shown';
import type { Site } from '../domain/site/site';
import type { GaugedScreen } from '../domain/water/event-heads';
import type { Flow } from '../domain/water/flow';
import { featureItems } from './scene/from-features';
import { flowItems } from './scene/from-flow';
import { headItems } from './scene/from-heads';
import { locationItems, placeOf } from './scene/from-locations';
import { once } from './scene/once';
import { turbidItems } from './scene/from-turbid';
import { verdictItems, type VerdictsAt } from './scene/from-verdicts';
import { placesOf, type Item, type Place, type Scene } from './scene/scene';

/** What the map of a site is made from. */
export type Drawing = {
  readonly site: Site;
  readonly shown: Shown;
  readonly heads: readonly GaugedScreen[];
  readonly flow: Flow | null;
  /** Field samples of the event, judged. */
  readonly results: readonly DrawnResult[];
  /** The three-point construction as items, where it is asked for. */
  readonly construction: readonly Item[];
};

/** A point's items with its name before those of points whose level is not posted: in a nest it is the name beside the head. */
const namedFirst = once((items: readonly Item[]) =>
  items.map((item): Item => (item.kind === 'text' ? { ...item, priority: 1 } : item)),
);

/** The whole map of a site as one scene. */
export function siteScene({ site, shown, heads, flow, results, construction }: Drawing): Scene {
  const { unit } = site.settings.grid;
  // The construction writes the heads of its three wells itself.
  const posted = heads.filter(
    ({ screen, leftOut }) =>
      leftOut !== 'read-again' &&
      (screen.zone === shown.zone || screen.zone === null) &&
      !(construction.length > 0 && shown.construction.includes(screen.id)),
  );
  const gauged = new Set(shown.heads ? posted.map(({ location }) => location.id) : []);
  const marks = [...site.locations.values()].flatMap((location) => {
    const at = placeOf(location);
    return at ? [at] : [];
  });
  return [
    ...site.features.flatMap((feature) => featureItems(feature, unit)),
    ...[...site.locations.values()].flatMap((location) =>
      gauged.has(location.id) ? namedFirst(locationItems(location)) : locationItems(location),
    ),
    ...(shown.heads ? headItems(posted, site.settings.verticalUnit) : []),
    ...(shown.arrow && flow && construction.length === 0 ? flowItems(flow, marks) : []),
    ...(shown.verdicts ? verdictItems(verdictsAt(site, results)) : []),
    ...(shown.verdicts ? turbidItems(site, results) : []),
    ...construction,
  ];
}

/** The worst verdict of each screen sampled, the shallowest screen of a point first. */
function verdictsAt(site: Site, results: readonly DrawnResult[]): VerdictsAt[] {
  return [...byLocation(results)].flatMap(([id, here]) => {
    const location = site.locations.get(id);
    const at = location ? placeOf(location) : null;
    if (!at) return [];
    const screens = [...groupBy(here, ({ screen }) => screen)].toSorted(
      ([a], [b]) => (a?.tip_depth?.value ?? 0) - (b?.tip_depth?.value ?? 0),
    );
    const verdicts = screens.flatMap(([, judged]) => {
      const worst = worstOf(judged.map((one) => one.judged.outcome.verdict));
      return worst === null ? [] : [worst];
    });
    return [{ who: id, at, verdicts }];
  });
}

/** Places of the points of a site and corners of its boundary, for the view that holds them all. */
export function placesIn({ locations, features, settings }: Site): Place[] {
  const points = [...locations.values()].flatMap((location) => {
    const at = placeOf(location);
    return at ? [at] : [];
  });
  const edges = features
    .filter(({ kind }) => kind === 'boundary')
    .flatMap((feature) => featureItems(feature, settings.grid.unit).flatMap(placesOf));
  return [...points, ...edges];
}
