import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { Location, Screen, Stratum } from '../../site/schema';
import type { Site } from '../../site/site';
import { acceptedInterval, contactCrossed } from '../../water/contact';
import type { Finding, Rule } from '../finding';
import { finding, said } from '../words';

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
  const crossed = contactCrossed(screen, location, layers);
  if (!crossed) return [];
  const { upper, lower } = crossed;
  const accepted = acceptedInterval(site, screen.id);
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
