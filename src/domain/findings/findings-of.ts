import type { Grid } from '../grid';
import { allOf } from '../site/read-table';
import type { Decision } from '../site/schema';
import type { Site } from '../site/site';
import { zonesOf } from '../water/flow';
import type { Examined, Finding, ReviewedFinding, Severity } from './finding';
import { flowAt, headsAt } from './history';
import { EVENT_RULES, SITE_RULES } from './rules';

/**
 * The site and one event of it, with the heads and flows the rules look at; null: the site alone.
 *
 * @param covers  whether a place lies in the area the site's grid is meant for
 */
export function examine(
  site: Site,
  event: string | null,
  covers: Grid['covers'] = () => null,
): Examined {
  if (event === null) return { site, event, heads: [], flows: [], covers };
  const heads = headsAt(site, event);
  const flows = zonesOf(heads).map((zone) => flowAt(site, event, zone));
  return { site, event, heads, flows, covers };
}

const RANK: Readonly<Record<Severity, number>> = { serious: 0, caution: 1, note: 2 };

/**
 * Everything doubtful about the site and, where one is examined, about the
 * event: the worst first, else in the order of the rules, each once. What
 * somebody accepted stays in the list, with the decision.
 */
export const findingsOf = (examined: Examined): readonly ReviewedFinding[] =>
  allOf(checking(examined));

/** `findingsOf` a rule at a time, so that a page can answer in between; each step says that one was asked. */
export function* checking(examined: Examined): Generator<number, readonly ReviewedFinding[]> {
  const { site, event } = examined;
  const rules = event === null ? SITE_RULES : [...SITE_RULES, ...EVENT_RULES];
  const found: Finding[] = [];
  for (const rule of rules) {
    for (const each of rule(examined)) found.push(each);
    yield 1;
  }
  found.sort((a, b) => RANK[a.severity] - RANK[b.severity]);
  const once = new Map<string, Finding>();
  for (const finding of found) if (!once.has(finding.about)) once.set(finding.about, finding);
  return [...once.values()].map((finding) => ({ ...finding, accepted: acceptedBy(site, finding) }));
}

const accepted = new WeakMap<readonly Decision[], ReadonlyMap<string, Decision>>();

/** The last decision to accept a finding; null if nobody has. */
export function acceptedBy(site: Site, { about }: Finding): Decision | null {
  let decisions = accepted.get(site.decisions);
  if (!decisions) {
    decisions = new Map(
      site.decisions
        .filter(({ what }) => what === 'accept finding')
        .map((decision) => [decision.on, decision]),
    );
    accepted.set(site.decisions, decisions);
  }
  return decisions.get(about) ?? null;
}
