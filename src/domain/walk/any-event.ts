import { ASKED_AT_FIRST, type Asked } from '../lab/asked-results';
import { judgedAgainst, type JudgedResult } from '../lab/site-results';
import { isOver } from '../lab/verdict';
import type { Site } from '../site/site';
import type { Material } from './stop';

/** Results of every event, as a map marks them beside words that speak of all. */
export const inAnyEvent = ({ zone }: Pick<Material['of'], 'zone'>): Asked => ({
  ...ASKED_AT_FIRST,
  allEvents: true,
  zone,
});

/** Events in which something was sampled, in the order of the table. */
export function sampledEvents({ samples, events }: Site): string[] {
  const sampled = new Set([...samples.values()].map(({ event }) => event));
  return [...events.keys()].filter((id) => sampled.has(id));
}

/** Field samples of a zone that exceed a level, whenever they were taken. */
export const overInAnyEvent = (
  site: Site,
  { levelSet, zone }: Pick<Material['of'], 'levelSet' | 'zone'>,
): JudgedResult[] =>
  sampledEvents(site).flatMap((event) =>
    judgedAgainst(site, levelSet, { event, zone, fieldSamples: true }).filter(({ judged }) =>
      isOver(judged.outcome.verdict),
    ),
  );
