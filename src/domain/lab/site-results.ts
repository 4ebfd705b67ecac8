import { groupBy } from '../group';
import { keptWhile } from '../kept';
import type { Location, ResultRow, Sample, Screen } from '../site/schema';
import { allOf } from '../site/read-table';
import type { Site } from '../site/site';
import { resultRowsOf } from './event-rows';
import { rulesOfSet } from './lab-settings';
import { legendsFrom } from './qualifiers';
import { resultReader, type Reading, type ResultInput } from './reading';
import { chosenRuns, isDilution, type RunChoice } from './runs';
import { locationOfSample, screenOfSample } from './sample-place';
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

/** A result of the site with what it says of the level it is compared with. */
export type JudgedResult = SiteReading & { readonly judged: Judged };

/** What results are read against. */
const partsOf = (site: Site) => [site.samples, site.screens, site.locations, site.qualifierLegends];

/** Reads results, each under its laboratory's legend. */
export type SiteReader = {
  /** A row of `results`; null where its sample is not known. */
  readonly row: (row: ResultRow) => SiteReading | null;
  /** What was reported of a sample. */
  readonly reported: (result: ResultInput, sample: Sample) => Reading;
};

type Kept = {
  readonly reader: SiteReader;
  whole: SiteReadings | null;
  readonly byEvent: Map<string, SiteReadings>;
};

const kept = keptWhile<Kept>();

const keptOf = (site: Site): Kept =>
  kept(site.results, partsOf(site), () => ({
    reader: readerOf(site),
    whole: null,
    byEvent: new Map(),
  }));

/** What reads a site's results, the same one as long as they are read alike. */
export const siteReaderOf = (site: Site): SiteReader => keptOf(site).reader;

/**
 * Every result of a site, read once under its laboratory's own legend. Runs over
 * range have given way to the dilution that measured them.
 */
export function resultsOf(site: Site): SiteReadings {
  const known = keptOf(site);
  return (known.whole ??= allOf(readingsOf(site.results, known.reader)));
}

/**
 * The results of one event, as `resultsOf` has them: of a million only these are
 * read. A run gives way only to another of its own sample, and so of its event.
 */
export const resultsIn = (site: Site, event: string): SiteReadings =>
  allOf(readingResultsIn(site, event));

/** `resultsIn` some thousands of rows at a time; each step says how many rows it read. */
export function* readingResultsIn(site: Site, event: string): Generator<number, SiteReadings> {
  const known = keptOf(site);
  const before = known.byEvent.get(event);
  if (before) return before;
  const made = yield* readingsOf(resultRowsOf(site, event), known.reader);
  known.byEvent.set(event, made);
  return made;
}

function readerOf(site: Site): SiteReader {
  const legends = legendsFrom(site.qualifierLegends);
  const readers = new Map<string | null, ReturnType<typeof resultReader>>();
  const readerFor = (laboratory: string | null) => {
    const made = readers.get(laboratory);
    if (made) return made;
    const reader = resultReader({ dress: DECIMAL_POINT, ...legends(laboratory) });
    readers.set(laboratory, reader);
    return reader;
  };
  const reported: SiteReader['reported'] = (result, sample) => readerFor(sample.laboratory)(result);
  return {
    reported,
    row: (row) => {
      const sample = site.samples.get(row.sample);
      if (!sample) return null;
      const reading = reported({ ...row, matrix: sample.matrix }, sample);
      return { row, ...placed(site, sample), reading };
    },
  };
}

/** A sample and where it was taken. */
export type PlacedSample = Pick<SiteReading, 'sample' | 'screen' | 'location'>;

export const placed = (site: Site, sample: Sample): PlacedSample => ({
  sample,
  screen: screenOfSample(site, sample),
  location: locationOfSample(site, sample),
});

/** Rows read at a time: some milliseconds of work. */
const A_STEP = 4_096;

function* readingsOf(rows: Iterable<ResultRow>, read: SiteReader): Generator<number, SiteReadings> {
  const all: SiteReading[] = [];
  const diluted = new Set<Sample>();
  for (const row of rows) {
    const result = read.row(row);
    if (!result) continue;
    all.push(result);
    if (isDilution(result.reading)) diluted.add(result.sample);
    if (all.length % A_STEP === 0) yield A_STEP;
  }
  // A run gives way only to another of its own sample, where one of them was diluted.
  const { replaced } = chosenRuns(
    all.flatMap(({ sample, reading }) => (diluted.has(sample) ? [reading] : [])),
  );
  if (replaced.length === 0) return { used: all, replaced };
  const gone = new Set(replaced.map(({ reading }) => reading));
  return { used: all.filter(({ reading }) => !gone.has(reading)), replaced };
}

const sets = keptWhile<ReadonlyMap<string, LevelSet>>();

/** The sets of screening levels of a site, by name, each under the rules chosen for it. */
export const levelSetsOf = ({ screeningLevels, settings }: Site): ReadonlyMap<string, LevelSet> =>
  sets(screeningLevels, [settings.lab?.sets], () =>
    levelSets(screeningLevels, (set) => rulesOfSet(settings, set)),
  );

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
  const { used } = event === null ? resultsOf(site) : resultsIn(site, event);
  return used.flatMap((result) => {
    const { row, sample, screen, reading } = result;
    const asked =
      (zone === null || screen?.zone === zone) &&
      (analyte === null || row.analyte === analyte) &&
      (!fieldSamples || sample.kind === 'field sample');
    return asked ? [{ ...result, judged: levels.judge(reading) }] : [];
  });
}

export const countsOf = (results: readonly JudgedResult[]): VerdictCounts =>
  countVerdicts(results.map(({ judged }) => judged.outcome.verdict));

/** Results of field samples at each location, by location id; blanks have none. */
export const byLocation = <Result extends Pick<JudgedResult, 'location'>>(
  results: readonly Result[],
) =>
  groupBy(
    results.filter(({ location }) => location !== null),
    ({ location }) => location?.id ?? '',
  );
