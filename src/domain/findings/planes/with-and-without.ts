import type { Site } from '../../site/site';
import { directionWithin } from '../../show';
import { flowOf, type Flow } from '../../water/flow';
import { withExcluded, withoutScreens } from '../../water/plane-variants';
import { listed } from '../words';

/** A direction with its error, as a finding says it: "106° ± 0.6°", or that there is none. */
export const wayWords = ({ azimuthGrid, azimuthHalfWidth }: Flow): string =>
  azimuthGrid === null ? 'not resolved' : directionWithin(azimuthGrid.value, azimuthHalfWidth);

/** The same flow with some of its screens left out. */
export const flowWithout = (
  site: Site,
  { event, zone, gauged }: Flow,
  screens: readonly string[],
) => flowOf(site, event, zone, withoutScreens(gauged, screens));

/** The direction without some screens that count, all of them left out at once, and with them. */
export function withoutWords(site: Site, flow: Flow, screens: readonly string[]): string {
  const [without, it] = screens.length === 1 ? ['it', 'it'] : [listed(screens), 'them'];
  const other = flowWithout(site, flow, screens);
  return `Without ${without} the direction is ${wayWords(other)}, with ${it} ${wayWords(flow)} (grid).`;
}

/** The direction with the wells somebody left out put back, all of them at once, and without them. */
export function withWords(site: Site, flow: Flow): string {
  const { heads, screens } = withExcluded(flow.gauged);
  if (screens.length === 0) return '';
  const [back, it] = screens.length === 1 ? ['it', 'it'] : [listed(screens), 'them'];
  const other = flowOf(site, flow.event, flow.zone, heads);
  return `With ${back} the direction would be ${wayWords(other)}, without ${it} it is ${wayWords(flow)} (grid).`;
}
