import { cell } from '../../site/cite';
import { depthsApart } from '../../water/unnamed-zone';
import type { GaugedScreen } from '../../water/event-heads';
import type { Finding, Rule } from '../finding';
import { counted, finding, listed, locationsOf } from '../words';

const NAME_IT =
  'Name the zone each screen is open to: under “Flow”, or in the tables: Screens, column zone.';

/** A plane through heads whose zone nobody has named, or none because the screens lie at depths apart. */
export const unnamedZone: Rule = ({ event, heads, flows }) => {
  const apart = heads.filter(({ leftOut }) => leftOut === 'depths-apart');
  const groups = depthsApart(apart);
  const fitted = flows.flatMap(({ zone, fitted }) =>
    zone === null ? fitted.map(({ gauged }) => gauged) : [],
  );
  const zoneCells = (of: readonly GaugedScreen[]) =>
    of.map(({ screen }) => cell('screens', screen, 'zone'));
  return [
    ...(groups
      ? [
          finding('no zone named', 'depths apart', event, {
            severity: 'caution',
            who: locationsOf(apart),
            says: `No screen of the site has a zone, and those gauged lie at depths apart: ${namesOf(groups.above)} above, ${namesOf(groups.below)} below. No plane is laid through both.`,
            todo: NAME_IT,
            cells: zoneCells(apart),
          }),
        ]
      : []),
    ...(fitted.length > 0
      ? [
          finding('no zone named', 'all', event, {
            severity: 'caution',
            who: locationsOf(fitted),
            says: `No screen of the site has a zone, so the plane takes ${counted(fitted.length, 'head')} as of one: nobody has said that ${listed(fitted.map(({ screen }) => screen.id))} are open to the same water.`,
            todo: NAME_IT,
            cells: zoneCells(fitted),
          }),
        ]
      : []),
  ] satisfies Finding[];
};

const namesOf = (screens: readonly GaugedScreen[]) =>
  listed(screens.map(({ screen }) => screen.id));
