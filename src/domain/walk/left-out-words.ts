import { groupBy } from '../group';
import { length } from '../show';
import type { Site } from '../site/site';
import { metres } from '../units';
import { leftOutWords, type GaugedScreen, type LeftOut } from '../water/event-heads';
import { counted, listed } from './stop';

/** Reasons as a room hears them, where the sheet's own words are for those who check it. */
const PLAIN: Partial<Readonly<Record<LeftOut, string>>> = {
  'push-point': 'temporary push points, open too briefly to be relied on',
  'staff-gauge': 'surface water, left out unless it is known to be one with the groundwater',
  'supply-well': 'supply wells, left out unless they are known to be at rest',
  recovering: 'still recovering',
};

/** Readings of one reason named before they are counted, and reasons told before "and more". */
const NAMED = 2;
const REASONS = 3;

/** Thickness of floating product, from the two depths read; blank where both are not known. */
function productWords(site: Site, { reading }: GaugedScreen): string {
  const [top, base] = [reading.depth_to_product?.value, reading.depth_to_water?.value];
  if (top === undefined || base === undefined || !(base > top)) return '';
  return `${length(metres(base - top), site.settings.verticalUnit)} of `;
}

function reasonWords(site: Site, reason: LeftOut, one: GaugedScreen): string {
  if (one.because !== null) return one.because.replace(/\.$/, '');
  if (reason === 'product-without-density')
    return `${productWords(site, one)}product floats on it and its density was not measured`;
  return PLAIN[reason] ?? leftOutWords(reason);
}

/** Readings that somebody could ask about: all but those a later one replaced. */
export const isAskedAbout = ({ leftOut }: GaugedScreen) => leftOut !== 'read-again';

/** Which readings do not count and why, in a sentence: by name while they are few; blank where all count. */
export function leftOutSentence(site: Site, gauged: readonly GaugedScreen[]): string {
  const out = gauged.flatMap((one) =>
    one.leftOut === null || !isAskedAbout(one)
      ? []
      : [{ one, why: reasonWords(site, one.leftOut, one) }],
  );
  if (out.length === 0) return '';
  const groups = [...groupBy(out, ({ why }) => why)].toSorted(
    ([, a], [, b]) => b.length - a.length,
  );
  const told = groups.slice(0, REASONS).map(([why, here]) => {
    const names = here.map(({ one }) => one.screen.id);
    return `${names.length > NAMED ? `${names.length} of them` : listed(names)}: ${why}`;
  });
  const rest = groups.slice(REASONS).reduce((sum, [, here]) => sum + here.length, 0);
  const more = rest > 0 ? [`${rest} more for other reasons`] : [];
  return `${counted(out.length, 'reading does not count', 'readings do not count')}. ${[...told, ...more].join('; ')}.`;
}
