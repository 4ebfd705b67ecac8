import type { Site } from '../site/site';
import { rowsDifferingIn } from '../site/table-rows';
import { analyteKey } from './analytes';
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

const chosenAmong = new WeakMap<
  object,
  { readonly parts: readonly unknown[]; readonly choices: Choices }
>();

/** The zones, matrices and groups of analytes a site has results of. */
export function choicesIn({ results, samples, screens }: Site): Choices {
  const parts = [samples, screens];
  const before = chosenAmong.get(results);
  if (before?.parts.every((part, i) => part === parts[i])) return before.choices;
  const zones = new Set<string>();
  const matrices = new Set<string>();
  for (const { sample: id } of rowsDifferingIn(results, ['sample'])) {
    const sample = samples.get(id);
    const zone = sample?.screen ? screens.get(sample.screen)?.zone : null;
    if (zone) zones.add(zone);
    if (sample?.matrix) matrices.add(sample.matrix);
  }
  const present = new Set<string>();
  for (const { cas, analyte } of rowsDifferingIn(results, ['cas', 'analyte']))
    present.add(analyteKey(cas, analyte));
  const sorted = (names: ReadonlySet<string>) => [...names].toSorted((a, b) => a.localeCompare(b));
  const choices = {
    zones: sorted(zones),
    matrices: sorted(matrices),
    groups: ANALYTE_GROUPS.filter((group) =>
      [...keysOfGroup(group)].some((key) => present.has(key)),
    ),
  };
  chosenAmong.set(results, { parts, choices });
  return choices;
}
