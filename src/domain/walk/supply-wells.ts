import { length } from '../show';
import type { Site } from '../site/site';
import type { GaugedScreen } from '../water/event-heads';
import { said, type Sentence } from './stop';

/**
 * The level read in each supply well of an event, and whether it was pumped then:
 * what a room asks of first, and what the direction between the wells does not tell.
 *
 * @param heads  of the event, every zone
 */
export function supplyWellSentences(
  { settings }: Site,
  heads: readonly GaugedScreen[],
): Sentence[] {
  const lowest = Math.min(...heads.map(({ head }) => head?.value ?? Infinity));
  return heads.flatMap(({ screen, location, reading, head, leftOut }) => {
    if (location.kind !== 'supply well' || head === null || leftOut === 'read-again') return [];
    const rank = head.value === lowest ? ', the lowest level measured' : '';
    return [
      said(
        `${screen.id}, a supply well, stood at `,
        { text: length(head.value, settings.verticalUnit, head.work.decimals), work: head.work },
        `${reading.status === 'pumping' ? ' while it was being pumped' : ''}${rank}. Water may go to it from any side: the direction told between the wells does not answer that.`,
      ),
    ];
  });
}
