import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { Rule } from '../finding';
import { feet, finding, listed, said } from '../words';

/**
 * Two readings of a level at rest agree within 0.02 ft: USGS Techniques and
 * Methods 1-A1, 2011, GWPD 1 and 4 (value from memory). It checks the tape.
 */
const AGREEMENT = feet(0.02);
const HAIR = 1e-9;

/** Static readings of one screen in one event that do not agree. */
export const readTwice: Rule = ({ site, event, heads }) =>
  [...groupBy(heads, ({ screen }) => screen.id)].flatMap(([screen, readings]) => {
    const still = readings.filter(({ reading, head }) => reading.status === 'static' && head);
    const values = still.map(({ head }) => head?.value ?? 0);
    const apart = Math.max(...values) - Math.min(...values);
    if (still.length < 2 || apart <= AGREEMENT + HAIR) return [];
    return [
      finding('readings disagree', screen, event, {
        severity: 'caution',
        who: [still[0]?.location.id ?? screen],
        says: `${screen} was read ${still.length} times as static and the heads differ by ${said(site, apart)} (${listed(values.map((value) => said(site, value)))}); two readings at rest agree within ${said(site, AGREEMENT)}.`,
        todo: 'Find out which reading is right, or whether the level was still moving; the last one counts until then.',
        cells: still.map(({ reading }) => cell('water_levels', reading, 'depth_to_water')),
      }),
    ];
  });
