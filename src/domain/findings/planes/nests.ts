import { cell } from '../../site/cite';
import { metres } from '../../units';
import { nestsOf, placesTogether, verticalText } from '../../water/nests';
import type { Finding, Rule } from '../finding';
import { counted, feet, finding, listed, locationsOf, said } from '../words';

/** Screens this near each other are at one place. */
const ONE_PLACE = metres(1);

/** Heads in one zone at one place that differ by more than this want explaining. Common practice, no source. */
const UNEXPLAINED = feet(0.1);

/** Several screens at one place that count as so many wells of one plane. */
export const nestInPlane: Rule = ({ site, event, flows }) =>
  flows.flatMap((flow) =>
    placesTogether(
      site,
      flow.fitted.map(({ gauged }) => gauged),
      ONE_PLACE,
    ).flatMap((nest): Finding[] => {
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

/** Screens of different zones beside each other: what presses the water up or down. One note for them all. */
export const nestAcrossZones: Rule = ({ site, event, heads }) => {
  const gauged = new Map(heads.filter(({ head }) => head).map((one) => [one.screen.id, one]));
  const zoneOf = (id: string) => gauged.get(id)?.screen.zone;
  const pairs = nestsOf(site, heads)
    .flatMap((nest) => nest.pairs)
    .flatMap((pair) => (pair.ok ? [pair.value] : []))
    .filter(({ shallow, deep }) => zoneOf(shallow.id) !== zoneOf(deep.id));
  const screens = pairs.flatMap(({ shallow, deep }) =>
    [shallow, deep].flatMap(({ id }) => gauged.get(id) ?? []),
  );
  return pairs.length === 0
    ? []
    : [
        finding('vertical gradients', 'nests', event, {
          severity: 'note',
          who: locationsOf(screens),
          says: `Between zones, in wells beside each other, positive downward at 95 %: ${pairs.map((pair) => `${pair.shallow.id} to ${pair.deep.id} ${verticalText(pair)}`).join('; ')}.`,
          todo: 'Keep them in mind where a plume is drawn in one zone only.',
          cells: screens.map(({ reading }) => cell('water_levels', reading, 'depth_to_water')),
        }),
      ];
};
