import type { Site } from '../site/site';
import type { Finding, Rule } from './finding';

type Answer = { readonly parts: readonly unknown[]; readonly found: readonly Finding[] };

/**
 * A rule that is asked again only when one of the tables it looks at has
 * changed, so that typing a water level does not read every result anew.
 *
 * @param partsOf  every part of the site the rule looks at, the first an object
 * @param of  whether the rule looks at the event too
 */
export function whileSame(
  partsOf: (site: Site) => readonly [object, ...unknown[]],
  rule: Rule,
  of: 'site' | 'event' = 'event',
): Rule {
  const answers = new WeakMap<object, Map<string | null, Answer>>();
  return (examined) => {
    const parts = partsOf(examined.site);
    const byEvent = answers.get(parts[0]) ?? new Map<string | null, Answer>();
    answers.set(parts[0], byEvent);
    const event = of === 'site' ? null : examined.event;
    const before = byEvent.get(event);
    if (before?.parts.every((part, i) => part === parts[i])) return before.found;
    const found = rule(examined);
    byEvent.set(event, { parts, found });
    return found;
  };
}
