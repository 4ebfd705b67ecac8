import type { Finding, Rule } from '../finding';
import { finding } from '../words';

/** A plane whose direction can't be told from the errors of its heads. Not the same as heads that are no plane. */
export const notResolved: Rule = ({ event, flows }) =>
  flows.flatMap(({ zone, plane, resolved, reason }): Finding[] =>
    plane === null || resolved
      ? []
      : [
          finding('direction not resolved', zone ?? 'all', event, {
            severity: 'caution',
            who: [],
            says: `The direction in ${zone ?? 'this event'} cannot be told: ${reason ?? ''}`,
            todo: 'Draw no arrow. More fall, wells further apart or off the line, or a better survey would tell.',
            cells: [],
          }),
        ],
  );
