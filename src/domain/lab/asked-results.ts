import { keptWhile } from '../kept';
import type { Site } from '../site/site';
import { rowsDifferingIn } from '../site/table-rows';
import { analyteKey } from './analytes';
import { ANALYTE_GROUPS, keysOfGroup } from './analyte-groups';
import { judgedBy, judgedList, type JudgedSelection } from './judged-selection';
import { levelSet } from './screening';
import { allRows, onlyRows, type Selection } from './selection';
import { columnsIn, columnsOf, columnsOfList } from './site-columns';
import { levelSetsOf, type JudgedResult } from './site-results';

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
 * What was asked for, in the order of the table.
 * @param event  null where the site has none: then every event
 */
export function askedOf(site: Site, event: string | null, asked: Asked): Selection {
  const group = asked.group === null ? null : keysOfGroup(asked.group);
  const columns = asked.allEvents || event === null ? columnsOf(site) : columnsIn(site, event);
  const { samples, kinds, sample, kind } = columns;
  const isSampleAsked = Uint8Array.from(samples, ({ sample: { matrix, kind: what }, screen }) =>
    (asked.zone === null || screen?.zone === asked.zone) &&
    (asked.matrix === null || matrix === asked.matrix) &&
    (asked.samples === 'all samples' || what === 'field sample')
      ? 1
      : 0,
  );
  const isKindAsked = Uint8Array.from(kinds, ({ key }) => ((group?.has(key) ?? true) ? 1 : 0));
  return onlyRows(
    allRows(columns),
    (row) => isSampleAsked[sample[row] ?? 0] === 1 && isKindAsked[kind[row] ?? 0] === 1,
  );
}

/** A selection judged against one of a site's sets of levels; nothing where there is no such set. */
export function judgedIn(site: Site, set: string | null, of: Selection): JudgedSelection {
  const levels = set === null ? undefined : levelSetsOf(site).get(set);
  return levels ? judgedBy(of, levels) : NOTHING_JUDGED;
}

const NOTHING_JUDGED = judgedBy(allRows(columnsOfList([])), levelSet('none', []));

export const askedResults = (
  site: Site,
  set: string | null,
  event: string | null,
  asked: Asked,
): JudgedResult[] => judgedList(judgedIn(site, set, askedOf(site, event, asked)));

/** What there is to choose among in a site's results. */
export type Choices = {
  readonly zones: readonly string[];
  readonly matrices: readonly string[];
  readonly groups: readonly string[];
};

const chosenAmong = keptWhile<Choices>();

/** The zones, matrices and groups of analytes a site has results of. */
export const choicesIn = ({ results, samples, screens }: Site): Choices =>
  chosenAmong(results, [samples, screens], () => choicesAmong(results, samples, screens));

function choicesAmong(
  results: Site['results'],
  samples: Site['samples'],
  screens: Site['screens'],
): Choices {
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
  return {
    zones: sorted(zones),
    matrices: sorted(matrices),
    groups: ANALYTE_GROUPS.filter((group) =>
      [...keysOfGroup(group)].some((key) => present.has(key)),
    ),
  };
}
