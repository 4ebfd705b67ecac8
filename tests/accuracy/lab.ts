/** Results: units, verdicts, sums, duplicates, blanks, trends, non-detects. */
import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { NITROGEN_SHARE } from '../../src/domain/lab/basis';
import { blankFlag } from '../../src/domain/lab/blanks';
import { checkDigit } from '../../src/domain/lab/cas';
import { amountIn, unitOf } from '../../src/domain/lab/concentration-units';
import { relativePercentDifference } from '../../src/domain/lab/duplicates';
import { kaplanMeier } from '../../src/domain/lab/kaplan-meier';
import { fitLognormal } from '../../src/domain/lab/lognormal';
import { mannKendall, senSlope, type TimedValue } from '../../src/domain/lab/mann-kendall';
import { resultReader } from '../../src/domain/lab/reading';
import { levelSets } from '../../src/domain/lab/screening';
import { countsOf, judgedAgainst } from '../../src/domain/lab/site-results';
import { PFAS_HAZARD_INDEX, TOTAL_TRIHALOMETHANES } from '../../src/domain/lab/sum-rules';
import { sumVerdict } from '../../src/domain/lab/sums';
import { countVerdicts } from '../../src/domain/lab/worst';
import censored from '../fixtures/oracles/f_censored.json';
import screening from '../fixtures/oracles/i_screening.json';
import trends from '../fixtures/oracles/e_mann_kendall.json';
import { openFolder } from '../unit/folder';
import { aLevel, aResult } from '../unit/lab/a-result';
import { same, value, values, worst, type AccuracyCase } from './case';

const read = resultReader();
const rowsOf = (name: string) =>
  Papa.parse<Readonly<Record<string, string>>>(
    readFileSync(new URL(`../fixtures/oracles/${name}`, import.meta.url), 'utf8'),
    { header: true, skipEmptyLines: true, comments: '#' },
  ).data;
const orNull = (text: string | undefined) => (text === undefined || text === '' ? null : text);

const amount = (text: string) => {
  const unit = unitOf(text);
  return unit ? amountIn(1, unit) : null;
};

const units = (): AccuracyCase[] => [
  worst(
    {
      quantity: 'units of concentration',
      source: 'exact decimals, another program',
      known: 'computed independently',
    },
    'units to mg/L',
    Object.entries(screening._meta.unit_factors_to_mg_per_L).map(([text, factor]) => [
      Number(factor),
      (amount(text) ?? NaN) / 1000,
    ]),
    { unit: 'relative', tolerance: 1e-12 },
  ),
  values(
    {
      quantity: 'units of activity',
      source: 'the curie, 3.7·10¹⁰ Bq exactly',
      known: 'published',
    },
    [1000 / 37],
    [(amount('Bq/L') ?? NaN) / (amount('pCi/L') ?? NaN)],
    { decimals: 6, unit: 'pCi/L in a Bq/L', tolerance: 1e-9 },
  ),
  values(
    {
      quantity: 'nitrate, as the ion for 10 mg/L as N',
      source: 'atomic weights, another program',
      known: 'computed independently',
    },
    [44.268],
    [10 / (NITROGEN_SHARE.NO3 ?? NaN)],
    { decimals: 3, unit: 'mg/L', tolerance: 5.1e-4 },
  ),
  same(
    {
      quantity: 'CAS check digit',
      source: 'CAS’s own explanation: 107-07-3; and 71-23-8, 7732-18-5, 64-17-5',
      known: 'published',
    },
    '3, 8, 5, 5',
    ['10707', '7123', '773218', '6417'].map(checkDigit).join(', '),
  ),
];

const verdicts = (): AccuracyCase[] => {
  const levels = rowsOf('i_screening_levels.csv').map((row) =>
    aLevel(row.level, row.unit, { cas: orNull(row.cas), analyte: row.analyte ?? '' }),
  );
  const set = levelSets(levels).get('A');
  const ours = countVerdicts(
    rowsOf('i_screening_lab_rows.csv').flatMap((row) => {
      const reading = read(
        aResult(orNull(row.result), {
          cas: orNull(row.cas),
          analyte: row.analyte ?? '',
          unit: orNull(row.unit),
          lab_qualifier: orNull(row.qualifier),
          reporting_limit: orNull(row.limit),
        }),
      );
      return set ? [set.judge(reading).outcome.verdict] : [];
    }),
  );
  const theirs = screening.lab_rows_expected_counts;
  const inl = openFolder('tests/fixtures/inl-southwest/site').site;
  const usgs = countsOf(
    judgedAgainst(inl, inl.settings.levelSets[0] ?? '', { fieldSamples: true }),
  );
  return [
    same(
      {
        quantity: 'verdicts: exceeds, does not, not detected, cannot tell, no result',
        source: '175 invented laboratory rows in exact decimals, another program',
        known: 'computed independently',
      },
      [
        theirs.above,
        theirs.equal + theirs.below,
        theirs['nd, limit at level'] + theirs['nd, limit below level'],
        theirs['nd, limit above level'],
        theirs['no result'],
      ].join(', '),
      [
        ours.exceeds + ours['exceeds-estimated'],
        ours['does-not-exceed'],
        ours['not-detected'],
        ours['cannot-tell'],
        ours['no-result'],
      ].join(', '),
    ),
    same(
      {
        quantity: 'verdicts: exceeds, does not, not detected, cannot tell',
        source:
          'USGS wells (inldata 1.2.5) against the data set’s own levels, another reading of the files',
        known: 'computed independently',
      },
      '24, 387, 898, 0',
      [usgs.exceeds, usgs['does-not-exceed'], usgs['not-detected'], usgs['cannot-tell']].join(', '),
    ),
    ...['osier-bend', 'quellmoor'].map(demoVerdicts),
  ];
};

/** The counts of a demo site, counted by hand from its tables. */
function demoVerdicts(name: string): AccuracyCase {
  const { site } = openFolder(`demo-sites/${name}`);
  const expected = JSON.parse(
    readFileSync(new URL(`../../demo-sites/${name}/expected.json`, import.meta.url), 'utf8'),
  ) as { results: { sets: Record<string, { all: Record<string, number> }> } };
  const [set = '', theirs] = Object.entries(expected.results.sets)[0] ?? [];
  const ours = new Map<string, number>(
    Object.entries(countsOf(judgedAgainst(site, set, { fieldSamples: false }))),
  );
  const sorted = (counts: Iterable<readonly [string, number]>) =>
    [...counts]
      .filter(([, n]) => n > 0)
      .map(([, n]) => n)
      .sort((a, b) => b - a)
      .join(', ');
  return same(
    {
      quantity: 'verdicts: counts of each class',
      source: `demo site ${name}`,
      known: 'worked by hand',
    },
    sorted(Object.entries(theirs?.all ?? {}).filter(([word]) => word !== 'total')),
    sorted(ours),
  );
}

const quality = (): AccuracyCase[] => {
  const ng = (cas: string, value: string) =>
    read(aResult(value, { cas, analyte: cas, unit: 'ng/L' }));
  const index = sumVerdict(
    PFAS_HAZARD_INDEX,
    [ng('13252-13-6', '4'), ng('375-73-5', '800'), ng('375-95-1', '2'), ng('355-46-4', '3')],
    null,
  );
  const trihalomethanes = sumVerdict(
    TOTAL_TRIHALOMETHANES,
    ['67-66-3', '75-27-4', '124-48-1', '75-25-2'].map((cas, i) =>
      read(aResult(String(10 * (i + 1)), { cas, analyte: cas })),
    ),
    null,
  );
  const flag = blankFlag(read(aResult('4.9')), read(aResult('1', { sample: 'TB-1' })));
  return [
    values(
      {
        quantity: 'sum: PFAS hazard index of 4, 800, 2, 3 ng/L',
        source: '40 CFR 141.61(c), 2024 text (rescission proposed); sum by another program',
        known: 'computed independently',
      },
      [1.3],
      [index.low],
      { decimals: 2, unit: '–', tolerance: 1e-12 },
    ),
    values(
      {
        quantity: 'sum: total trihalomethanes of 10, 20, 30, 40 µg/L',
        source: '40 CFR 141.64(b), a sum of four',
        known: 'worked by hand',
      },
      [100],
      [trihalomethanes.low],
      { decimals: 1, unit: 'µg/L', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'field duplicates: relative percent difference',
        source: '12 and 15, 2 and 1, 100 and 73.9, another program',
        known: 'computed independently',
      },
      [22.22, 66.67, 30.02],
      [[12, 15] as const, [2, 1] as const, [100, 73.9] as const].map(([a, b]) =>
        relativePercentDifference(a, b),
      ),
      { decimals: 2, unit: '%', tolerance: 0.0051 },
    ),
    values(
      {
        quantity: 'field duplicates: relative percent difference',
        source: '90 and 110 differ by 20 of a mean of 100',
        known: 'worked by hand',
      },
      [20],
      [relativePercentDifference(90, 110)],
      { decimals: 2, unit: '%', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'blanks: flagged below so many times the blank',
        source: 'EPA 540/R-99/008, 1999: five times',
        known: 'from memory',
      },
      [5],
      [flag?.times],
      { decimals: 0, unit: 'times', tolerance: 0 },
    ),
  ];
};

const SODIUM = 'EPA 530/R-09-007, 2009, Ex. 17-7 (answers as quoted, data from memory)';

const timed = (times: readonly number[], data: readonly number[]): TimedValue[] =>
  data.map((value, i) => ({ time: times[i] ?? i + 1, value }));

const trend = (): AccuracyCase[] => {
  const gilbert = timed([], [10, 15, 14, 20]);
  const tied = timed([1, 1, 1, 2, 3, 3, 4, 5], [10, 22, 21, 30, 22, 30, 40, 40]);
  const sodium = timed(
    [89.6, 90.1, 90.8, 91.1, 92.1, 93.1, 94.1, 95.6, 96.1, 96.3],
    [56, 53, 51, 55, 52, 60, 62, 59, 61, 63],
  );
  const vanBelle = timed([], [10, 14, 14, 14, 17, 22, 22, 23, 27, 27]);
  return [
    values(
      {
        quantity: 'Mann–Kendall: S',
        source: 'R. O. Gilbert, 1987, Ex. 16.1, 16.3, 17.1 (as quoted)',
        known: 'published',
      },
      [4, 19, 5],
      [gilbert, tied, timed([1, 1, 2, 3], [8, 10, 12, 15])].map((data) => mannKendall(data).s),
      { decimals: 0, unit: '–', tolerance: 0 },
    ),
    values(
      {
        quantity: 'Mann–Kendall: variance with ties',
        source: 'G. van Belle and J. P. Hughes, 1984, p. 129 (as quoted)',
        known: 'published',
      },
      [119.33],
      [mannKendall(vanBelle).variance],
      { decimals: 2, unit: '–', tolerance: 0.0051 },
    ),
    value(
      { quantity: 'Mann–Kendall: z', source: SODIUM, known: 'published' },
      2.146625,
      mannKendall(sodium).z,
      6,
      '–',
      5.1e-7,
    ),
    value(
      { quantity: 'Mann–Kendall: tau', source: SODIUM, known: 'published' },
      0.5555556,
      mannKendall(sodium).tau,
      7,
      '–',
      5.1e-8,
    ),
    value(
      { quantity: 'Sen slope', source: SODIUM, known: 'published' },
      1.3333333,
      senSlope(sodium)?.slope,
      7,
      'a year',
      5.1e-8,
    ),
    worst(
      {
        quantity: 'Mann–Kendall: z',
        source: 'R 4.2.2, cor.test, 23 series',
        known: 'computed independently',
      },
      'series',
      trends.series.flatMap(({ t, x, expected }) =>
        expected.Z === null ? [] : [[expected.Z, mannKendall(timed(t, x)).z] as const],
      ),
      { unit: 'relative', tolerance: 1e-9 },
    ),
    worst(
      {
        quantity: 'Sen slope',
        source: 'exact rationals, scipy theilslopes beside',
        known: 'computed independently',
      },
      'series',
      trends.series.map(({ t, x, expected }) => [expected.sen_slope, senSlope(timed(t, x))?.slope]),
      { unit: 'relative', tolerance: 1e-9 },
    ),
  ];
};

const nonDetects = (): AccuracyCase[] => {
  const sets = censored.sets.map(({ rows, ...theirs }) => ({
    theirs,
    data: rows.map(({ value, nd }) => ({ value, detected: !nd })),
  }));
  // 2, <3, 4, 8: the mass of the non-detect under 3 falls on what lies below it.
  const small = kaplanMeier([
    { value: 2, detected: true },
    { value: 3, detected: false },
    { value: 4, detected: true },
    { value: 8, detected: true },
  ]);
  return [
    worst(
      {
        quantity: 'Kaplan–Meier mean with non-detects',
        source: 'R 4.2.2, survival 3.5',
        known: 'computed independently',
      },
      'sets',
      sets.flatMap(({ theirs: { km }, data }) =>
        km === null ? [] : [[km.mean_efron, kaplanMeier(data)?.mean] as const],
      ),
      { unit: 'relative', tolerance: 1e-9 },
    ),
    values(
      {
        quantity: 'Kaplan–Meier mean with non-detects',
        source: '2, <3, 4, 8: half the mass is on 2, a quarter each on 4 and 8',
        known: 'worked by hand',
      },
      [4],
      [small?.mean],
      { decimals: 3, unit: 'µg/L', tolerance: 1e-12 },
    ),
    worst(
      {
        quantity: 'lognormal by maximum likelihood',
        source: 'R 4.2.2, survreg',
        known: 'computed independently',
      },
      'parameters',
      sets.flatMap(({ theirs: { mle_lognormal: mle }, data }) => {
        const fit = fitLognormal(data);
        return mle === null
          ? []
          : [[mle.mu_log, fit?.mu] as const, [mle.sigma_log, fit?.sigma] as const];
      }),
      { unit: 'relative', tolerance: 1e-7 },
    ),
  ];
};

export const lab = (): AccuracyCase[] => [
  ...units(),
  ...verdicts(),
  ...quality(),
  ...trend(),
  ...nonDetects(),
];
