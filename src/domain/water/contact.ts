import type { Decision, Location, Screen, Stratum } from '../site/schema';
import type { Site } from '../site/site';
import { intervalOf } from './screen-interval';

/** Layers that hold water back, between those that carry it. */
const HOLDS_BACK: readonly (string | null)[] = ['clay', 'silt', 'till', 'peat', 'rock'];

/** A layer with less than this share of the exposed length does not make a crossing. A judgement, no source. */
const A_SHARE = 0.1;

/** The first and last of the layers an interval is open to. */
export type Crossing = { readonly upper: Stratum; readonly lower: Stratum };

/**
 * The layers an interval opens to each other: one that carries water and one
 * that holds it back. Null where it opens one kind, or its depths are not known.
 *
 * @param layers  as logged at its location, the shallowest first
 */
export function contactCrossed(
  screen: Screen,
  location: Location,
  layers: readonly Stratum[],
): Crossing | null {
  const found = intervalOf(screen, location);
  if (!found.ok) return null;
  const [top, base] = [found.value.topDepth.value, found.value.baseDepth.value];
  const met = layers.filter(
    ({ top: from, bottom }) =>
      Math.min(bottom.value, base) - Math.max(from.value, top) > A_SHARE * (base - top),
  );
  const kinds = new Set(met.map((layer) => HOLDS_BACK.includes(layer.class)));
  const [upper, lower] = [met[0], met.at(-1)];
  return kinds.size > 1 && upper && lower ? { upper, lower } : null;
}

/** The decision to take an interval as it is; null if nobody made one. */
export const acceptedInterval = (site: Site, screen: string): Decision | null =>
  site.decisions.find(({ what, on }) => what === 'accept interval' && on === screen) ?? null;
