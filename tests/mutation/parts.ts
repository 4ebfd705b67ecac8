/**
 * What is changed together, one run of Stryker each, and which test files are to
 * notice: those of the subject, by the beginning of their names under tests/unit.
 */
export type Part = { readonly change: readonly string[]; readonly tests: readonly string[] };

const water = (...names: string[]) => names.map((name) => `src/domain/water/${name}.ts`);
const surface = (...names: string[]) => names.map((name) => `src/domain/water/surface/${name}.ts`);
const lab = (...names: string[]) => names.map((name) => `src/domain/lab/${name}.ts`);

export const PARTS: Readonly<Record<string, Part>> = {
  planes: {
    change: water('plane*', 'three-point', 'fit-many', 'ellipse-outline'),
    tests: ['water/plane', 'water/three-point', 'water/fit-many', 'water/works', 'check/plane'],
  },
  gradients: {
    change: water('seepage*', 'vertical', 'nests', 'triangle*'),
    tests: [
      'water/seepage',
      'water/vertical',
      'water/triangle',
      'water/nests',
      'check/section',
      'check/plane',
    ],
  },
  events: {
    change: water(
      'screen-interval',
      'tide',
      'decided',
      'event-heads',
      'head',
      'measuring-point',
      'contact',
      'unnamed-zone',
    ),
    tests: [
      'water/event',
      'water/screen',
      'water/marks',
      'water/unnamed',
      'findings/levels',
      'main-job/inl',
      'check/section',
    ],
  },
  statistics: {
    change: lab(
      'mann-kendall',
      'trend*',
      'kaplan-meier',
      'lognormal',
      'percentile',
      'over-time',
      'time-chart',
    ),
    tests: ['lab/mann', 'lab/trend', 'lab/censored', 'lab/percentile', 'lab/over', 'lab/time'],
  },
  amounts: {
    change: lab(
      'decimal',
      'concentration-units',
      'reported',
      'qualifiers',
      'limit',
      'cas',
      'basis',
    ),
    tests: [
      'lab/cells',
      'lab/decimal',
      'lab/concentration',
      'lab/reported',
      'lab/qualifiers',
      'lab/limit',
      'lab/cas',
      'lab/verdict.',
      'lab/screening',
    ],
  },
  readings: {
    change: lab(
      'reading',
      'screening',
      'verdict',
      'verdict-words',
      'verdict-work',
      'level*',
      'worst*',
      'runs',
      'outcome',
    ),
    tests: ['lab/read', 'lab/screening', 'lab/verdict', 'lab/level', 'lab/legend', 'lab/runs'],
  },
  sums: {
    change: lab('sum*', 'duplicates', 'blanks', 'holding-times', 'amount-work', 'site-sums'),
    tests: [
      'lab/sums',
      'lab/site-sums',
      'lab/quality',
      'lab/duplicates',
      'lab/screening',
      'lab/verdict-work',
      'lab/cross',
    ],
  },
  delineation: {
    change: lab('delineation', 'site-delineation'),
    tests: ['lab/delineation', 'lab/site-del'],
  },
  extents: { change: lab('extent*'), tests: ['lab/extent', 'lab/site-del'] },
  contours: {
    change: surface('contour*', 'hull', 'tin*', 'flow-lines', 'surface-*'),
    tests: ['surface/contour', 'surface/hull', 'surface/tin', 'surface/flow', 'surface/places'],
  },
  kriging: {
    change: surface('cholesky', 'cross-*', 'kriging', 'panels', 'variogram*'),
    tests: [
      'surface/cholesky',
      'surface/cross',
      'surface/kriging.',
      'surface/panels',
      'surface/variogram',
    ],
  },
  'kriging-grids': {
    change: surface('covariance*', 'kriging-*'),
    tests: ['surface/kriging-grid', 'surface/kriging.'],
  },
  chance: {
    change: water('random', 'distributions', 'special-functions', 'leave-one-out'),
    tests: ['water/random', 'water/dist', 'water/special', 'water/leave'],
  },
  // Not the 400,000 draws, which take minutes each time.
  simulation: { change: water('monte-carlo'), tests: ['water/monte-carlo-few'] },
  'water-sheets': {
    change: water(
      'calculation-sheet',
      'drawn-surface',
      'flow*',
      'ground-tables',
      'influence-words',
      'over-time',
      'rose',
      'section',
      'surface-*',
      'variogram-terms',
      'way-to-receptor',
    ),
    tests: ['water/flow', 'water/section', 'water/seepage', 'check/', 'main-job/one'],
  },
  columns: {
    change: lab('column-writer', 'event-rows', 'drawn-*', 'judged-*', '*-columns', 'selection'),
    tests: ['lab/verdict-columns', 'lab/cross', 'lab/asked', 'lab/every', 'lab/event'],
  },
  'lab-tables': {
    change: lab(
      'analyte*',
      'asked-results',
      'cross-tab',
      'custody*',
      'holding-time-list',
      'lab-settings',
      'legend-edits',
      'site-results',
      'turbid',
    ),
    tests: [
      'lab/cas',
      'lab/federal',
      'lab/lab-settings',
      'lab/cross',
      'lab/custody',
      'lab/quality',
      'lab/legend',
      'lab/site',
      'lab/turbid',
      'findings/lab',
    ],
  },
};

const isAmong = (file: string, patterns: readonly string[]) =>
  patterns.some((one) => new RegExp(`^${one.replaceAll('*', '[^/]*')}$`).test(file));

/** The tests of every part that some files belong to. */
export const testsOf = (files: readonly string[]): string[] => [
  ...new Set(
    Object.values(PARTS).flatMap(({ change, tests }) =>
      files.some((file) => isAmong(file, change)) ? tests : [],
    ),
  ),
];
