import { groupBy } from '../group';
import type { Location, ResultRow, Sample, Screen } from '../site/schema';
import type { Site } from '../site/site';
import { rulesOfSet, type LabSettings } from './lab-settings';
import { legendsFrom } from './qualifiers';
import { resultReader, type Reading } from './reading';
import { chosenRuns, type RunChoice } from './runs';
import { levelSets, type Judged, type LevelSet } from './screening';
import { countVerdicts, type VerdictCounts } from './worst';
import { DECIMAL_POINT } from './reported';

/** A result with the bottles and the place it came from; no place for blanks. */
export type SiteReading = {
  readonly row: ResultRow;
  readonly sample: Sample;
  readonly screen: Screen | null;
  readonly location: Location | null;
  readonly reading: Reading;
};

export type SiteReadings = {
  /** In the order of the table. */
  readonly used: readonly SiteReading[];
  /** Runs that gave way to another of the same sample, and why. */
  readonly replaced: RunChoice['replaced'];
};

export type JudgedResult = SiteReading & { readonly judged: Judged };

const read = new WeakMap<
  object,
  { readonly against: readonly unknown[]; readonly readings: SiteReadings }
>();

/**
 * Every result of a site, read once under its laboratory's own legend. Runs over
 * range have given way to the dilution that measured them.
 */
export function resultsOf(site: Site): SiteReadings {
  const against = [site.samples, site.screens, site.locations, site.qualifierLegends];
  const before = read.get(site.results);
  if (before?.against.every((part, i) => part === against[i])) return before.readings;
  const readings = readAll(site);
  read.set(site.results, { against, readings });
  return readings;
}

function readAll(site: Site): SiteReadings {
  const legends = legendsFrom(site.qualifierLegends);
  const readers = new Map<string | null, ReturnType<typeof resultReader>>();
  const readerOf = (laboratory: string | null) => {
    const made = readers.get(laboratory);
    if (made) return made;
    const reader = resultReader({ dress: DECIMAL_POINT, ...legends(laboratory) });
    readers.set(laboratory, reader);
    return reader;
  };

  const all: SiteReading[] = [];
  for (const row of site.results) {
    const sample = site.samples.get(row.sample);
    if (!sample) continue;
    const screen = sample.screen === null ? null : (site.screens.get(sample.screen) ?? null);
    const location = screen ? (site.locations.get(screen.location) ?? null) : null;
    const reading = readerOf(sample.laboratory)({ ...row, matrix: sample.matrix });
    all.push({ row, sample, screen, location, reading });
  }
  const { replaced } = chosenRuns(all.map(({ reading }) => reading));
  const gone = new Set(replaced.map(({ reading }) => reading));
  return { used: all.filter(({ reading }) => !gone.has(reading)), replaced };
}

const sets = new WeakMap<
  object,
  { readonly rules: LabSettings['sets']; readonly made: ReadonlyMap<string, LevelSet> }
>();

/** The sets of screening levels of a site, by name, each under the rules chosen for it. */
export function levelSetsOf(site: Site): ReadonlyMap<string, LevelSet> {
  const rules = site.settings.lab?.sets;
  const before = sets.get(site.screeningLevels);
  if (before && before.rules === rules) return before.made;
  const made = levelSets(site.screeningLevels, (set) => rulesOfSet(site.settings, set));
  sets.set(site.screeningLevels, { rules, made });
  return made;
}

/** What is asked of the results: blank parts ask for everything. */
export type ResultFilter = {
  readonly event?: string | null;
  readonly zone?: string | null;
  readonly analyte?: string | null;
  /** Field samples alone: no duplicates, no blanks. */
  readonly fieldSamples?: boolean;
};

/** Results judged against one set of levels; none where there is no such set. */
export function judgedAgainst(
  site: Site,
  set: string | null,
  { event = null, zone = null, analyte = null, fieldSamples = false }: ResultFilter = {},
): readonly JudgedResult[] {
  const levels = set === null ? undefined : levelSetsOf(site).get(set);
  if (!levels) return [];
  return resultsOf(site).used.flatMap((result) => {
    const { row, sample, screen, reading } = result;
    const asked =
      (event === null || sample.event === event) &&
      (zone === null || screen?.zone === zone) &&
      (analyte === null || row.analyte === analyte) &&
      (!fieldSamples || sample.kind === 'field sample');
    return asked ? [{ ...result, judged: levels.judge(reading) }] : [];
  });
}

export const countsOf = (results: readonly JudgedResult[]): VerdictCounts =>
  countVerdicts(results.map(({ judged }) => judged.outcome.verdict));

/** Results of field samples at each location, by location id; blanks have none. */
export const byLocation = (results: readonly JudgedResult[]) =>
  groupBy(
    results.filter(({ location }) => location !== null),
    ({ location }) => location?.id ?? '',
  );
