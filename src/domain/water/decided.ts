import type { Decision } from '../site/schema';
import type { Site } from '../site/site';

/** How a decision names a reading: "MW-3 @ 2026-04". */
export const readingName = (screen: string, event: string) => `${screen} @ ${event}`;

const byReading = new WeakMap<readonly Decision[], ReadonlyMap<string, Decision>>();

/** The last decision to include or exclude a screen's reading in an event; null if nobody decided. */
export function decisionOn(site: Site, screen: string, event: string): Decision | null {
  let decided = byReading.get(site.decisions);
  if (!decided) {
    decided = new Map(
      site.decisions
        .filter(({ what }) => what === 'include' || what === 'exclude')
        .map((decision) => [decision.on, decision]),
    );
    byReading.set(site.decisions, decided);
  }
  return decided.get(readingName(screen, event)) ?? null;
}

/** Who decided and when, as it stands in a sentence: " (K.B., 2026-03-27 10:05)"; "" where neither is written. */
export function signedWords({ who, when }: Pick<Decision, 'who' | 'when'>): string {
  const parts = [who, when?.replace('T', ' ')].filter(Boolean);
  return parts.length > 0 ? ` (${parts.join(', ')})` : '';
}
