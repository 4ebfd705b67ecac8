import { cell } from '../../site/cite';
import type { Rule } from '../finding';
import { counted, finding, listed } from '../words';

/** Points pushed with no clearance on record. What was in the ground is known by calling, not by a map. */
export const clearance: Rule = ({ site }) => {
  const cleared = new Set(
    site.decisions.filter(({ what }) => what === 'clear point').map(({ on }) => on),
  );
  const pushed = [...site.locations.values()].filter(
    ({ id, kind, status }) =>
      kind === 'direct push' && status !== 'planned' && status !== 'dropped' && !cleared.has(id),
  );
  return pushed.length === 0
    ? []
    : [
        finding('no clearance on record', 'points', null, {
          severity: 'note',
          who: pushed.map(({ id }) => id),
          says: `No utility clearance is recorded for ${counted(pushed.length, 'point')} that ${pushed.length === 1 ? 'was' : 'were'} pushed (${listed(pushed.map(({ id }) => id))}).`,
          todo: 'Record ticket, private locate and hand clearing with each point, before it is pushed. Local codes come first.',
          cells: pushed.map((location) => cell('locations', location, 'status')),
        }),
      ];
};
