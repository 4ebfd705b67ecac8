import { cell } from '../../site/cite';
import type { Rule } from '../finding';
import { counted, finding, listed, locationsOf } from '../words';

/** Levels of wells that count in a plane though nobody said whether the water was at rest. */
export const stateNotKnown: Rule = ({ event, heads }) => {
  const unsaid = heads.filter(
    ({ reading, leftOut }) => leftOut === null && reading.status === 'not known',
  );
  return unsaid.length === 0
    ? []
    : [
        finding('state of the water not known', 'readings', event, {
          severity: 'note',
          who: locationsOf(unsaid),
          says: `${counted(unsaid.length, 'level counts', 'levels count')} in the plane of which it is not known whether the water was at rest: ${listed(locationsOf(unsaid))}.`,
          todo: 'Ask whoever read them, and write the state down.',
          cells: unsaid.map(({ reading }) => cell('water_levels', reading, 'status')),
        }),
      ];
};
