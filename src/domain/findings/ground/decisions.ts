import { cell } from '../../site/cite';
import { readingName } from '../../water/decided';
import type { Rule } from '../finding';
import { finding } from '../words';

/** A decision on a reading that there is not: it decides nothing, most likely for a slip in its name. */
export const decisionsOnNothing: Rule = ({ site }) => {
  const readings = new Set(site.waterLevels.map(({ screen, event }) => readingName(screen, event)));
  return site.decisions.flatMap((decision) =>
    (decision.what === 'include' || decision.what === 'exclude') && !readings.has(decision.on)
      ? [
          finding('decision on nothing', decision.on, null, {
            severity: 'caution',
            who: [],
            says: `A decision to ${decision.what} “${decision.on}” names no reading of this site and decides nothing.`,
            todo: 'A reading is named by its screen and event, as “MW-3 @ 2026-04”.',
            cells: [cell('decisions', decision, 'on')],
          }),
        ]
      : [],
  );
};
