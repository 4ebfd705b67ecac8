import type { Site } from '../../site/site';
import { normalAbove } from '../../water/distributions';
import type { GaugedScreen } from '../../water/event-heads';
import type { Flow } from '../../water/flow';
import type { Source } from '../../work';
import type { Finding } from '../finding';
import { aboveOrBelow, chance, said } from '../words';
import { offTheSound } from './elsewhere';
import { evidenceOn, toLeaveOut } from './evidence';
import { withWords } from './with-and-without';

/** What the heads say of a well that somebody left out. */
export type LeftOutEvidence = {
  readonly says: readonly string[];
  readonly todo: string;
  readonly cells: readonly Source[];
  readonly leaveOut: NonNullable<Finding['leaveOut']>;
};

/**
 * The evidence about a well left out by hand, which is the same after the
 * decision as before it: how far it is off the plane of the others, what would
 * explain that, and the direction with and without. Null where its head or the
 * plane is not known.
 */
export function leftOutEvidence(
  site: Site,
  flow: Flow,
  gauged: GaugedScreen,
): LeftOutEvidence | null {
  const found = offTheSound(site, flow, gauged);
  if (!found || !gauged.head) return null;
  const { off, error, others } = found;
  const probability = Math.min(1, 2 * (others + 1) * normalAbove(Math.abs(off) / error));
  const head = `Its head, ${said(site, gauged.head.value)}, is ${aboveOrBelow(site, off)} the plane of the other ${others} wells`;
  const turned = withWords(site, flow);
  if (probability >= 1 - site.settings.confidence)
    return {
      says: [`${head}, no more than the errors make: the heads do not ask for it.`, turned],
      todo: 'Check the reason: it has to stand without the heads.',
      cells: [],
      leaveOut: [],
    };
  const evidence = evidenceOn(site, flow, gauged, found);
  const also = evidence.offToo.length > 0;
  return {
    says: [`${head} (chance ${chance(probability)}).`, ...evidence.says, turned].filter(Boolean),
    todo: also
      ? `It still counts in ${evidence.offToo.join(' and ')}, where the same mark puts it off by as much: leave it out there too, or resurvey the mark.`
      : 'Check the reason against this.',
    cells: evidence.cells,
    leaveOut: toLeaveOut(gauged, evidence),
  };
}
