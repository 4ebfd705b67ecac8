import { cell } from '../../site/cite';
import type { Decision } from '../../site/schema';
import { readingName } from '../../water/decided';
import type { Rule } from '../finding';
import { finding } from '../words';

const isOnReading = ({ what }: Decision) => what === 'include' || what === 'exclude';

/** A decision on a reading that there is not: it decides nothing, most likely for a slip in its name. */
export const decisionsOnNothing: Rule = ({ site }) => {
  if (!site.decisions.some(isOnReading)) return [];
  const readings = new Set(site.waterLevels.map(({ screen, event }) => readingName(screen, event)));
  return site.decisions.flatMap((decision) =>
    isOnReading(decision) && !readings.has(decision.on)
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
