import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { Attempt } from '../../site/schema';
import type { Site } from '../../site/site';
import type { Finding, Rule } from '../finding';
import { counted, feet, finding, said } from '../words';

const holeName = ({ location, suffix }: Attempt) => (suffix ? `${location} ${suffix}` : location);

/** A hole without its decommissioning or a reason. Every hole is filled after sampling, by the rule of the state. */
export const openHole: Rule = ({ site }) =>
  site.attempts.flatMap((hole): Finding[] => {
    const { decommission_day: day, decommission_material: material, open_reason: reason } = hole;
    if (reason !== null) return [];
    const lacking = [
      day === null ? 'the day' : null,
      material === null ? 'the material' : null,
      hole.decommission_volume === null ? 'the volume' : null,
      hole.decommission_how === null ? 'how it was placed' : null,
    ].filter((part) => part !== null);
    if (lacking.length === 0) return [];
    const open = day === null;
    return [
      finding('hole not closed', holeName(hole), null, {
        severity: open ? 'caution' : 'note',
        who: [hole.location],
        says: open
          ? `No decommissioning of the hole at ${holeName(hole)} is recorded, nor a reason why it is open.`
          : `The decommissioning of ${holeName(hole)} lacks ${lacking.join(' and ')}.`,
        todo: 'Record material, volume, how and when it was filled; an open hole is a way down for what is on the ground. State rules come first.',
        cells: [cell('attempts', hole, open ? 'decommission_day' : 'decommission_material')],
      }),
    ];
  });

/** Lengths that come from sums of hundredths agree within this. */
const SLACK = feet(0.1);

/** Pushed points whose holes are not recorded, or do not reach the screens said to have been opened in them. */
export const holesReach: Rule = ({ site }) => {
  const holes = groupBy(site.attempts, ({ location }) => location);
  return [...site.locations.values()].flatMap((location): Finding[] => {
    if (location.kind !== 'direct push' || /planned|dropped/.test(location.status)) return [];
    const own = holes.get(location.id) ?? [];
    const [first] = own;
    const make = (severity: Finding['severity'], says: string, todo: string) =>
      finding('holes and screens', location.id, null, {
        severity,
        who: [location.id],
        says,
        todo,
        cells: first ? own.map((hole) => cell('attempts', hole, 'depth')) : [cell('locations', location, 'status')], // prettier-ignore
      });
    if (!first)
      return site.attempts.length === 0
        ? []
        : [
            make(
              'note',
              `${location.id} is ${location.status} and no hole is recorded for it.`,
              'Record each try, with its depth, outcome and decommissioning.',
            ),
          ];
    if (location.status === 'refused')
      return [
        make(
          'note',
          `${location.id} was not reached in ${counted(own.length, 'try', 'tries')}: nothing is known of the water there.`,
          'Say whether another try or another place is needed to close the gap.',
        ),
      ];
    const beyond = deeperThan(site, location.id, own);
    return beyond
      ? [make('caution', beyond, 'Correct the tip depth or the depth of the hole.')]
      : [];
  });
};

function deeperThan(site: Site, location: string, holes: readonly Attempt[]): string | null {
  const depths = holes.flatMap(({ depth }) => (depth ? [depth.value] : []));
  if (depths.length === 0) return null;
  const deepest = Math.max(...depths);
  const screen = [...site.screens.values()].find(
    (one) => one.location === location && (one.tip_depth?.value ?? 0) > deepest + SLACK,
  );
  return screen?.tip_depth
    ? `${screen.id} is said to have its tip at ${said(site, screen.tip_depth.value)}, but no hole at ${location} reached more than ${said(site, deepest)}.`
    : null;
}
