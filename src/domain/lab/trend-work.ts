import type { Term, Work } from '../work';
import { senSlopes, type MannKendall, type TimedValue } from './mann-kendall';

const term = (symbol: string, name: string, value: number, text: string): Term => ({
  symbol,
  name,
  value,
  dimension: 'number',
  from: { kind: 'citation', text },
});

const counted = 'counted over all pairs of results';
const GILBERT = 'R. O. Gilbert, 1987, Statistical Methods for Environmental Pollution Monitoring';

/** S worked out, and Z from it; Z is null where there is none or S is nothing. */
export function mannKendallWork(test: MannKendall): { readonly s: Work; readonly z: Work | null } {
  const s: Work = {
    title: `Mann–Kendall S of ${test.n} results`,
    symbol: 'S',
    formula: 'rising - falling',
    terms: [
      term('rising', 'pairs that rise with time', test.rising, counted),
      term('falling', 'pairs that fall with time', test.falling, counted),
    ],
    answer: { value: test.s, dimension: 'number' },
    decimals: 0,
    note: `${GILBERT}, ch. 16`,
  };
  if (test.z === null || test.s === 0) return { s, z: null };
  const z: Work = {
    title: 'Z, corrected for continuity',
    symbol: 'Z',
    formula: `(S ${test.s > 0 ? '-' : '+'} 1) / sqrt(variance)`,
    terms: [
      {
        ...term('S', 'pairs that rise less pairs that fall', test.s, ''),
        from: { kind: 'work', work: s },
      },
      term('variance', 'of S, with its ties', test.variance, `${GILBERT}, eq. 16.4 and 16.5`),
    ],
    answer: { value: test.z, dimension: 'number' },
    decimals: 3,
  };
  return { s, z };
}

/** Slopes shown one by one at most. */
const MOST_SHOWN = 60;

/**
 * Sen's slope as the middle of the slopes of all pairs: the one or two that
 * decide, with the slopes in order as a table where they are few. Null without
 * two different times.
 */
export function senSlopeWork(series: readonly TimedValue[], unit: string): Work | null {
  const slopes = senSlopes(series);
  const n = slopes.length;
  const [low, high] = [slopes[Math.ceil(n / 2) - 1], slopes[Math.floor(n / 2)]];
  if (low === undefined || high === undefined) return null;
  const rank = (place: number) => `slope ${place} of ${n} in order`;
  const even = n % 2 === 0;
  const terms = even
    ? [term('lower', rank(n / 2), low, counted), term('upper', rank(n / 2 + 1), high, counted)]
    : [term('middle', rank((n + 1) / 2), low, counted)];
  return {
    title: `Sen’s slope, ${unit}`,
    symbol: 'slope',
    formula: even ? '(lower + upper) / 2' : 'middle',
    terms,
    answer: { value: even ? (low + high) / 2 : low, dimension: 'number' },
    decimals: 4,
    note: `${GILBERT}, ch. 16.5`,
    ...(n <= MOST_SHOWN
      ? {
          table: {
            columns: [
              { name: 'rank', dimension: 'number' as const },
              { name: `slope, ${unit}`, dimension: 'number' as const },
            ],
            rows: slopes.map((slope, i) => [i + 1, slope]),
          },
        }
      : {}),
  };
}
