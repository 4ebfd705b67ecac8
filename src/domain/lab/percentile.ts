/**
 * Percentiles by the nine definitions of Hyndman & Fan (1996, The American
 * Statistician 50, 361–365). 6 is a spreadsheet's PERCENTILE.EXC, 7 its
 * PERCENTILE.INC, 2 the median of the textbook.
 */
export type PercentileType = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9;

/** A hair, so that 0.1 × 30 counts as 3. */
const HAIR = 4 * Number.EPSILON;

/** Of the values a position asks for, which: j whole steps and a share g of the next. */
function positionOf(n: number, p: number, type: PercentileType): readonly [j: number, g: number] {
  const [a, b] = ((): readonly [number, number] => {
    switch (type) {
      case 1:
      case 2:
      case 4:
        return [0, 1];
      case 3:
        return [-0.5, 1.5];
      case 5:
        return [0.5, 0.5];
      case 6:
        return [0, 0];
      case 7:
        return [1, 1];
      case 8:
        return [1 / 3, 1 / 3];
      case 9:
        return [3 / 8, 3 / 8];
    }
  })();
  const at = a + p * (n + 1 - a - b);
  const j = Math.floor(at + HAIR);
  const g = at - j;
  return [j, Math.abs(g) < HAIR ? 0 : g];
}

/**
 * The value a share p of the sorted values lies at or below; null of none.
 * @param sorted  ascending
 */
export function percentile(
  sorted: readonly number[],
  p: number,
  type: PercentileType = 7,
): number | null {
  const n = sorted.length;
  if (n === 0) return null;
  const [j, g] = positionOf(n, p, type);
  const at = (i: number) => sorted[Math.min(n, Math.max(1, i)) - 1] ?? 0;
  const share = ((): number => {
    switch (type) {
      case 1:
        return g > 0 ? 1 : 0;
      case 2:
        return g > 0 ? 1 : 0.5;
      case 3:
        return g > 0 || j % 2 !== 0 ? 1 : 0;
      default:
        return g;
    }
  })();
  return share === 0 ? at(j) : at(j) + share * (at(j + 1) - at(j));
}

export const median = (values: readonly number[]): number | null =>
  percentile(
    [...values].sort((a, b) => a - b),
    0.5,
  );
