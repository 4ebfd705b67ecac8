import { fail, ok, type Result } from '../result';
import { cell } from '../site/cite';
import type { Location, Screen } from '../site/schema';
import type { Site } from '../site/site';
import type { XY } from '../geometry/shape';
import type { Flow } from '../water/flow';
import { depthOf, expectedDepth, waterBetween } from './expected-water';
import { groundOf } from './driven';
import { workedOut, written, type Given } from './given';
import { groundBetween, type NoGround, type SurveyedGround } from './ground-elevation';
import { layersNear } from './layers-near';
import { placeIn } from './replan';
import type { Layer } from './water-in-screen';

/** The ground at a point, and how it is known. */
export type KnownGround = {
  readonly elevation: Given;
  readonly how: 'surveyed' | 'estimated';
  /** The surveyed point it is nearest to, in the grid's unit; null where it is surveyed itself. */
  readonly nearest: { readonly id: string; readonly distance: number } | null;
};

/** A place with what is known of the ground and water there. */
export type GroundAt = {
  /** In the grid's unit. */
  readonly at: XY;
  readonly ground: Result<KnownGround, string>;
  /** Elevation of the water expected; why none, in words. */
  readonly water: Result<Given, string>;
  /** Its depth below ground: by that elevation, else as expected for the whole site; null not known. */
  readonly waterDepth: Given | null;
  /** As logged there, else estimated from the borings around. */
  readonly layers: readonly Layer[];
};

/** A planned point with what is known of the ground and water there. */
export type PlannedPoint = GroundAt & {
  readonly location: Location;
  /** Screens planned there and not yet driven, the shallowest first. */
  readonly screens: readonly Screen[];
};

/** Points whose ground was surveyed. */
const surveyedGround = (site: Site): SurveyedGround[] =>
  [...site.locations.values()].flatMap((location) => {
    const at = placeIn(location, site.settings.grid.unit);
    const elevation = location.ground_how === 'surveyed' ? groundOf(location) : null;
    return at && elevation ? [{ id: location.id, at, elevation }] : [];
  });

/**
 * Every planned point with its expected ground and water. The ground is its own
 * where surveyed, else between surveyed points; the water is between the heads
 * that count in the flow shown. Neither is carried on beyond what was measured.
 */
export function plannedPoints(site: Site, flow: Flow | null): PlannedPoint[] {
  const conditions = conditionsAt(site, flow);
  return [...site.locations.values()].flatMap((location) => {
    const planned = plannedAt(site, conditions, location);
    return planned ? [planned] : [];
  });
}

/** One planned point with its expected ground and water; null where it is not planned, or not known where. */
export const plannedPoint = (site: Site, flow: Flow | null, location: Location) =>
  location.status === 'planned' ? plannedAt(site, conditionsAt(site, flow), location) : null;

function plannedAt(
  site: Site,
  conditions: ReturnType<typeof conditionsAt>,
  location: Location,
): PlannedPoint | null {
  const at = placeIn(location, site.settings.grid.unit);
  if (location.status !== 'planned' || !at) return null;
  const logged = layersAt(site, location.id);
  const there = conditions(at, location);
  const layers = logged.length > 0 ? logged : there.layers;
  return { ...there, layers, location, screens: plannedScreens(site, location.id) };
}

/** Ground, water and layers expected at any place; at a location its own ground comes first. */
export function conditionsAt(
  site: Site,
  flow: Flow | null,
): (at: XY, location?: Location) => GroundAt {
  const between = groundBetween(surveyedGround(site));
  const waterAt = waterBetween(site, flow);
  const typed = expectedDepth(site);
  const layersAround = layersNear(site);
  return (at, location) => {
    const ground = groundAt(location ?? null, at, between);
    const layers = layersAround(at, ground.ok ? ground.value.elevation : null);
    const water = waterAt(at);
    const waterDepth = ground.ok && water.ok ? depthOf(water.value, ground.value.elevation) : typed;
    return { at, ground, water, waterDepth, layers };
  };
}

function groundAt(
  location: Location | null,
  at: XY,
  between: ReturnType<typeof groundBetween>,
): PlannedPoint['ground'] {
  const own = location?.ground_how === 'surveyed' ? groundOf(location) : null;
  if (own) return ok({ elevation: own, how: 'surveyed', nearest: null });
  const made = between(at);
  if (made.ok) {
    const { elevation, nearest } = made.value;
    return ok({ elevation: workedOut(elevation), how: 'estimated', nearest });
  }
  return fail(noGroundWords(made.problem));
}

function noGroundWords(problem: NoGround): string {
  switch (problem.kind) {
    case 'too-few':
      return `ground not known: ${problem.have} points surveyed, three are needed`;
    case 'in-a-line':
      return 'ground not known: the surveyed points lie in a line';
    case 'outside-survey':
      return `ground not known: outside the surveyed points, the nearest is ${problem.nearest.id}`;
  }
}

const layerName = ({ class: soil, description }: Site['strata'][number]) =>
  soil ?? description ?? 'layer';

/** Every layer named in the logs of the site, in the order met. */
export const layerNames = (site: Site): readonly string[] => [
  ...new Set(site.strata.map(layerName)),
];

const layersAt = (site: Site, location: string): Layer[] =>
  site.strata
    .filter((layer) => layer.location === location)
    .map((layer) => ({
      name: layerName(layer),
      top: written(layer.top, cell('strata', layer, 'top')),
      bottom: written(layer.bottom, cell('strata', layer, 'bottom')),
    }))
    .sort((a, b) => a.top.value - b.top.value);

const plannedScreens = (site: Site, location: string): Screen[] =>
  [...site.screens.values()]
    .filter((screen) => screen.location === location && !screen.tip_depth)
    .sort((a, b) => (a.planned_tip_depth?.value ?? 0) - (b.planned_tip_depth?.value ?? 0));
