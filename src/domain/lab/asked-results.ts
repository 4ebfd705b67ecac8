import type { Site } from '../site/site';
import { ANALYTE_GROUPS, keysOfGroup } from './analyte-groups';
import {
  levelSetsOf,
  resultsIn,
  resultsOf,
  type JudgedResult,
  type SiteReading,
} from './site-results';

/** Which results are asked for beside event and analyte; null asks for all. */
export type Asked = {
  /** Every event of the site, not only the one in hand. */
  readonly allEvents: boolean;
  readonly zone: string | null;
  readonly matrix: string | null;
  readonly samples: 'field samples' | 'all samples';
  /** A group of `ANALYTE_GROUPS`. */
  readonly group: string | null;
};

export const ASKED_AT_FIRST: Asked = {
  allEvents: false,
  zone: null,
  matrix: null,
  samples: 'field samples',
  group: null,
};

/**
 * Readings that were asked for, in the order of the table.
 * @param event  null where the site has none: then every event
 */
export function askedReadings(site: Site, event: string | null, asked: Asked): SiteReading[] {
  const group = asked.group === null ? null : keysOfGroup(asked.group);
  const { used } = asked.allEvents || event === null ? resultsOf(site) : resultsIn(site, event);
  return used.filter(
    ({ sample, screen, reading }) =>
      (asked.zone === null || screen?.zone === asked.zone) &&
      (asked.matrix === null || sample.matrix === asked.matrix) &&
      (asked.samples === 'all samples' || sample.kind === 'field sample') &&
      (group === null || group.has(reading.key)),
  );
}

/** What was asked for, judged against one set; none where there is no such set. */
export function askedResults(
  site: Site,
  set: string | null,
  event: string | null,
  asked: Asked,
): readonly JudgedResult[] {
  const levels = set === null ? undefined : levelSetsOf(site).get(set);
  if (!levels) return [];
  return askedReadings(site, event, asked).map((result) => ({
    ...result,
    judged: levels.judge(result.reading),
  }));
}

/** What there is to choose among in a site's results. */
export type Choices = {
  readonly zones: readonly string[];
  readonly matrices: readonly string[];
  readonly groups: readonly string[];
};

export function choicesIn(site: Site): Choices {
  const { used } = resultsOf(site);
  const distinct = (of: (result: SiteReading) => string | null | undefined) =>
    [...new Set(used.map(of))].flatMap((one) => one ?? []).toSorted((a, b) => a.localeCompare(b));
  const present = new Set(used.map(({ reading }) => reading.key));
  return {
    zones: distinct(({ screen }) => screen?.zone),
    matrices: distinct(({ sample }) => sample.matrix),
    groups: ANALYTE_GROUPS.filter((group) =>
      [...keysOfGroup(group)].some((key) => present.has(key)),
    ),
  };
}
