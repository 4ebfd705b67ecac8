import { cell } from '../../site/cite';
import { toGround } from '../../grid';
import type { Site } from '../../site/site';
import { significant } from '../../show';
import { metres } from '../../units';
import type { GaugedScreen } from '../../water/event-heads';
import type { Flow } from '../../water/flow';
import { intervalOf } from '../../water/screen-interval';
import type { Finding, Rule } from '../finding';
import { counted, feet, finding, listed, locationsOf, said } from '../words';

/** Screens this near each other are at one place. */
const ONE_PLACE = metres(1);

/** Screens this near are read as a nest across zones. Common practice, no source. */
const NEST = metres(5);

/** Heads in one zone at one place that differ by more than this want explaining. Common practice, no source. */
const UNEXPLAINED = feet(0.1);

/** Several screens at one place that count as so many wells of one plane. */
export const nestInPlane: Rule = ({ site, event, flows }) =>
  flows.flatMap((flow) =>
    placesOf(flow).flatMap((nest): Finding[] => {
      if (nest.length < 2) return [];
      const heads = nest.map(({ head }) => head?.value ?? 0);
      const [least, most] = [Math.min(...heads), Math.max(...heads)];
      const names = locationsOf(nest);
      const differ =
        most - least > Math.max(UNEXPLAINED, 3 * Math.max(...nest.map((n) => n.sigma)));
      return [
        finding('nest in one plane', `${flow.zone ?? 'all'}, ${names.join(' ')}`, event, {
          severity: 'caution',
          who: names,
          says: `${nest.length} screens at one place (${listed(
            nest.map(({ screen }) => screen.id),
            4,
          )}) count as ${counted(nest.length, 'well')} of ${flow.zone ?? 'one plane'}: they are a nest, whose heads run from ${said(site, least)} to ${said(site, most)}, and one place weighs ${nest.length} times.${differ ? ` The difference of ${said(site, most - least)} in one zone is not explained.` : ''}`,
          todo: 'Keep the screen that belongs to the surface drawn and leave the others out; read the nest for its vertical gradient.',
          cells: nest.map(({ screen }) => cell('screens', screen, 'zone')),
        }),
      ];
    }),
  );

/** The screens that count, those at one place together, in the order of the readings. */
function placesOf({ fitted }: Flow): GaugedScreen[][] {
  const places: { readonly x: number; readonly y: number; readonly nest: GaugedScreen[] }[] = [];
  for (const { gauged, x, y } of fitted) {
    const place = places.find(
      (other) =>
        other.nest[0]?.location.id === gauged.location.id ||
        Math.hypot(other.x - x, other.y - y) <= ONE_PLACE,
    );
    if (place) place.nest.push(gauged);
    else places.push({ x, y, nest: [gauged] });
  }
  return places.map(({ nest }) => nest);
}

/** Well screens of different zones beside each other: the head across them, and its vertical gradient. */
export const nestAcrossZones: Rule = ({ site, event, heads }) => {
  const wells = heads.filter(
    (one) => one.class === 'well' && one.head !== null && one.leftOut === null,
  );
  const nests = wells.flatMap((one, i) =>
    wells.slice(i + 1).flatMap((other) => {
      if (one.screen.zone === other.screen.zone || !near(site, one, other)) return [];
      const pair = ordered(one, other);
      const says = pair && verticalGradient(site, ...pair);
      return says ? [{ pair, says }] : [];
    }),
  );
  return nests.length === 0
    ? []
    : [
        finding('vertical gradients', 'nests', event, {
          severity: 'note',
          who: locationsOf(nests.flatMap(({ pair }) => pair)),
          says: `Between zones, in wells beside each other: ${nests.map(({ says }) => says).join('; ')}.`,
          todo: 'Keep them in mind where a plume is drawn in one zone only.',
          cells: nests.flatMap(({ pair }) =>
            pair.map(({ reading }) => cell('water_levels', reading, 'depth_to_water')),
          ),
        }),
      ];
};

function near(site: Site, { location: one }: GaugedScreen, { location: other }: GaugedScreen) {
  if (one.id === other.id) return true;
  if (!one.easting || !one.northing || !other.easting || !other.northing) return false;
  const apart = Math.hypot(
    one.easting.value - other.easting.value,
    one.northing.value - other.northing.value,
  );
  return toGround(metres(apart), site.grid) <= NEST;
}

/** Middle of the screen, or of what of it stands in water: metres above the datum. */
function middleOf({ screen, location, head }: GaugedScreen): number | null {
  const interval = intervalOf(screen, location);
  if (!interval.ok || !head) return null;
  const { topElevation: top, baseElevation: base } = interval.value;
  return top && base ? (Math.min(top.value, head.value) + base.value) / 2 : null;
}

/** The upper one first; null where either's interval is not known. */
function ordered(one: GaugedScreen, other: GaugedScreen): [GaugedScreen, GaugedScreen] | null {
  const [a, b] = [middleOf(one), middleOf(other)];
  if (a === null || b === null || a === b) return null;
  return a > b ? [one, other] : [other, one];
}

/** i = (h shallow − h deep) / (z shallow − z deep), positive down; σ = √(σ₁² + σ₂²)/Δz. */
function verticalGradient(site: Site, upper: GaugedScreen, lower: GaugedScreen): string | null {
  const [high, low] = [middleOf(upper), middleOf(lower)];
  if (high === null || low === null || !upper.head || !lower.head) return null;
  const fall = upper.head.value - lower.head.value;
  const error = Math.hypot(upper.sigma, lower.sigma);
  const names = `${upper.screen.id} to ${lower.screen.id}`;
  if (Math.abs(fall) <= 2 * error)
    return `${names}, heads within ${said(site, 2 * error)}, no vertical gradient to be told`;
  const size = `${significant(Math.abs(fall) / (high - low), 2)} ± ${significant(error / (high - low), 1)}`;
  return `${names}, ${size} ${fall > 0 ? 'downward' : 'upward'} (${said(site, Math.abs(fall))})`;
}
