import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { Location, Screen, Stratum } from '../../site/schema';
import type { Site } from '../../site/site';
import { intervalOf } from '../../water/screen-interval';
import type { Finding, Rule } from '../finding';
import { finding, said } from '../words';

/** Layers that hold water back, between those that carry it. */
const HOLDS_BACK: readonly (string | null)[] = ['clay', 'silt', 'till', 'peat', 'rock'];

/** A layer with less than this share of the exposed length does not make a crossing. A judgement, no source. */
const A_SHARE = 0.1;

/** An interval open to two layers: it has no zone, and its head belongs to neither, unless somebody accepts it. */
export const crossesContact: Rule = ({ site }) => {
  const strata = groupBy(site.strata, ({ location }) => location);
  return [...site.screens.values()].flatMap((screen): Finding[] => {
    const location = site.locations.get(screen.location);
    const layers = strata.get(screen.location);
    return location && layers ? crossing(site, screen, location, layers) : [];
  });
};

function crossing(
  site: Site,
  screen: Screen,
  location: Location,
  layers: readonly Stratum[],
): Finding[] {
  const found = intervalOf(screen, location);
  if (!found.ok) return [];
  const [top, base] = [found.value.topDepth.value, found.value.baseDepth.value];
  const met = layers
    .map((layer) => ({
      layer,
      open: Math.min(layer.bottom.value, base) - Math.max(layer.top.value, top),
    }))
    .filter(({ open }) => open > A_SHARE * (base - top));
  const kinds = new Set(met.map(({ layer }) => HOLDS_BACK.includes(layer.class)));
  const [upper, lower] = [met[0]?.layer, met.at(-1)?.layer];
  if (kinds.size < 2 || !upper || !lower) return [];
  const accepted = site.decisions.find(
    ({ what, on }) => what === 'accept interval' && on === screen.id,
  );
  const zoned = screen.zone !== null;
  return [
    finding('interval crosses a contact', screen.id, null, {
      severity: zoned && !accepted ? 'caution' : 'note',
      who: [location.id],
      says: `The interval of ${screen.id} crosses from ${upper.class ?? upper.description ?? 'one layer'} into ${lower.class ?? lower.description ?? 'another'} at ${said(site, upper.bottom.value)} below ground${accepted ? `, which was accepted: ${accepted.reason}` : zoned ? `, yet it is in the zone ${screen.zone}` : ', and has no zone'}.`,
      todo: zoned
        ? 'Take its zone away, or accept the interval with a reason.'
        : 'Keep it out of zone planes; read its results as a mixture of the two layers.',
      cells: [
        cell('screens', screen, 'exposed_length'),
        cell('screens', screen, 'zone'),
        cell('strata', upper, 'bottom'),
      ],
    }),
  ];
}
