/**
 * Square roots of positive definite matrices, and quadratic forms by them.
 * Lower triangles are stored by rows: row i starts at i(i + 1)/2.
 */

export const rowStart = (i: number) => (i * (i + 1)) / 2;

/** Less than this part of the largest diagonal left over at a pivot: the row is a copy of others. */
const LEAST_PIVOT = 1e-13;

/** Rows between one report of progress and the next. */
const ROWS_AT_A_TIME = 64;

/**
 * Replaces a positive definite matrix, given by its lower triangle, with the
 * lower triangle L of L·Lᵀ. Yields the share done, from 0 to 1.
 *
 * @returns null when done; else the first row that follows from those before it
 */
export function* factorise(lower: Float64Array, n: number): Generator<number, number | null> {
  let largest = 0;
  for (let i = 0; i < n; i++) largest = Math.max(largest, lower[rowStart(i) + i] as number);
  for (let i = 0; i < n; i++) {
    if (!factoriseRow(lower, i, LEAST_PIVOT * largest)) return i;
    if (i % ROWS_AT_A_TIME === ROWS_AT_A_TIME - 1) yield (i / n) ** 3;
  }
  return null;
}

function factoriseRow(lower: Float64Array, i: number, least: number): boolean {
  const row = rowStart(i);
  for (let j = 0; j < i; j++) {
    const other = rowStart(j);
    let sum = lower[row + j] as number;
    for (let k = 0; k < j; k++) sum -= (lower[row + k] as number) * (lower[other + k] as number);
    lower[row + j] = sum / (lower[other + j] as number);
  }
  let left = lower[row + i] as number;
  for (let k = 0; k < i; k++) left -= (lower[row + k] as number) ** 2;
  if (!(left > least)) return false;
  lower[row + i] = Math.sqrt(left);
  return true;
}

/** x of L·x = b, in place. */
export function solveLower(lower: Float64Array, n: number, b: Float64Array): void {
  for (let i = 0; i < n; i++) {
    const row = rowStart(i);
    let sum = b[i] as number;
    for (let k = 0; k < i; k++) sum -= (lower[row + k] as number) * (b[k] as number);
    b[i] = sum / (lower[row + i] as number);
  }
}

/** x of Lᵀ·x = b, in place. */
export function solveUpper(lower: Float64Array, n: number, b: Float64Array): void {
  for (let i = n - 1; i >= 0; i--) {
    const row = rowStart(i);
    const x = (b[i] as number) / (lower[row + i] as number);
    b[i] = x;
    for (let k = 0; k < i; k++) b[k] = (b[k] as number) - (lower[row + k] as number) * x;
  }
}

/** The inverse of a lower triangle, itself a lower triangle. Yields the share done. */
export function* invertLower(lower: Float64Array, n: number): Generator<number, Float64Array> {
  const inverse = new Float64Array(rowStart(n));
  for (let i = 0; i < n; i++) {
    invertRow(lower, i, inverse);
    if (i % ROWS_AT_A_TIME === ROWS_AT_A_TIME - 1) yield (i / n) ** 3;
  }
  return inverse;
}

function invertRow(lower: Float64Array, i: number, inverse: Float64Array): void {
  const row = rowStart(i);
  const pivot = lower[row + i] as number;
  let k = 0;
  // Four rows above at a time, which is twice as fast; each is one longer than the last.
  for (; k + 4 <= i; k += 4) {
    const [a, b, c, d] = [rowStart(k), rowStart(k + 1), rowStart(k + 2), rowStart(k + 3)];
    const la = lower[row + k] as number;
    const lb = lower[row + k + 1] as number;
    const lc = lower[row + k + 2] as number;
    const ld = lower[row + k + 3] as number;
    for (let j = 0; j <= k; j++)
      inverse[row + j] =
        (inverse[row + j] as number) -
        (la * (inverse[a + j] as number) + lb * (inverse[b + j] as number)) -
        (lc * (inverse[c + j] as number) + ld * (inverse[d + j] as number));
    for (let r = k + 1; r < k + 4; r++)
      for (let j = k + 1; j <= r; j++)
        inverse[row + j] =
          (inverse[row + j] as number) -
          (lower[row + r] as number) * (inverse[rowStart(r) + j] as number);
  }
  for (; k < i; k++)
    for (let j = 0; j <= k; j++)
      inverse[row + j] =
        (inverse[row + j] as number) -
        (lower[row + k] as number) * (inverse[rowStart(k) + j] as number);
  for (let j = 0; j < i; j++) inverse[row + j] = (inverse[row + j] as number) / pivot;
  inverse[row + i] = 1 / pivot;
}
