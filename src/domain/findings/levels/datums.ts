import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { GaugedScreen } from '../../water/event-heads';
import type { Finding, Rule } from '../finding';
import { finding, listed, locationsOf } from '../words';

/** "NAVD 88" and "navd88" are one name. */
const plain = (datum: string) => datum.toUpperCase().replaceAll(/[^A-Z0-9]/g, '');

/**
 * Heads that hang from marks in another vertical datum than the site's. Datums
 * differ by feet, not by a constant over a region, and nothing is converted here.
 */
export const mixedDatums: Rule = ({ site, event, heads }) => {
  const own = site.settings.verticalDatum;
  const others = heads.filter(({ measuringPoint: mark, leftOut }) => {
    const named = mark?.datum;
    return leftOut !== 'read-again' && named && plain(named) !== plain(own);
  });
  const byDatum = groupBy(others, ({ measuringPoint }) => plain(measuringPoint?.datum ?? ''));
  return [...byDatum].map(([key, marks]): Finding => {
    const counted = marks.filter(({ leftOut }) => leftOut === null);
    const name = marks[0]?.measuringPoint?.datum ?? '';
    const screens = (of: readonly GaugedScreen[]) => listed(of.map(({ screen }) => screen.id));
    return finding('mixed datums', key, event, {
      severity: counted.length > 0 ? 'serious' : 'note',
      who: locationsOf(marks),
      says: `The marks of ${screens(marks)} are in ${name}, the site in ${own}: their heads do not compare${counted.length === 0 ? ', and none of them counts' : ''}.`,
      todo: 'Resurvey them in the site’s datum, or have a licensed surveyor convert them and write down how.',
      cells: marks.flatMap(({ measuringPoint: mark }) =>
        mark ? [cell('measuring_points', mark, 'datum')] : [],
      ),
    });
  });
};
