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
  const least = LEAST_PIVOT * largest;
  for (let i = 0; i < n; i++) {
    const row = rowStart(i);
    for (let j = 0; j < i; j++) {
      const other = rowStart(j);
      let sum = lower[row + j] as number;
      for (let k = 0; k < j; k++) sum -= (lower[row + k] as number) * (lower[other + k] as number);
      lower[row + j] = sum / (lower[other + j] as number);
    }
    let left = lower[row + i] as number;
    for (let k = 0; k < i; k++) left -= (lower[row + k] as number) ** 2;
    if (!(left > least)) return i;
    lower[row + i] = Math.sqrt(left);
    if (i % ROWS_AT_A_TIME === ROWS_AT_A_TIME - 1) yield (i / n) ** 3;
  }
  return null;
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
    const row = rowStart(i);
    const pivot = lower[row + i] as number;
    for (let k = 0; k < i; k++) {
      const l = lower[row + k] as number;
      const other = rowStart(k);
      for (let j = 0; j <= k; j++)
        inverse[row + j] = (inverse[row + j] as number) - l * (inverse[other + j] as number);
    }
    for (let j = 0; j < i; j++) inverse[row + j] = (inverse[row + j] as number) / pivot;
    inverse[row + i] = 1 / pivot;
    if (i % ROWS_AT_A_TIME === ROWS_AT_A_TIME - 1) yield (i / n) ** 3;
  }
  return inverse;
}

/** Rows of a triangle taken four at a time, so that four sums run side by side. */
export type Panels = {
  readonly n: number;
  /** Element (4p + r, j) of the triangle at starts[p] + 4j + r; zero beyond the triangle. */
  readonly elements: Float64Array;
  readonly starts: Int32Array;
};

export function panelsOf(lower: Float64Array, n: number): Panels {
  const count = Math.ceil(n / 4);
  const starts = new Int32Array(count + 1);
  for (let p = 0; p < count; p++) starts[p + 1] = (starts[p] as number) + 16 * (p + 1);
  const elements = new Float64Array(starts[count] as number);
  for (let i = 0; i < n; i++) {
    const start = (starts[i >> 2] as number) + (i & 3);
    for (let j = 0; j <= i; j++) elements[start + 4 * j] = lower[rowStart(i) + j] as number;
  }
  return { n, elements, starts };
}

/**
 * Squared length of T·c for four columns c at once, T being the triangle.
 *
 * @param columns  the four columns interleaved: element j of column t at 4j + t,
 *   with zeros up to the next multiple of four rows
 * @param into     receives four numbers from `at` on
 */
export function squaredLengths(
  { elements, starts }: Panels,
  columns: Float64Array,
  into: Float64Array,
  at: number,
): void {
  // prettier-ignore
  let s0 = 0, s1 = 0, s2 = 0, s3 = 0;
  for (let p = 0; p < starts.length - 1; p++) {
    const end = starts[p + 1] as number;
    // prettier-ignore
    let a0 = 0, a1 = 0, a2 = 0, a3 = 0, b0 = 0, b1 = 0, b2 = 0, b3 = 0,
        c0 = 0, c1 = 0, c2 = 0, c3 = 0, d0 = 0, d1 = 0, d2 = 0, d3 = 0;
    for (let e = starts[p] as number, c = 0; e < end; e += 4, c += 4) {
      const x0 = columns[c] as number;
      const x1 = columns[c + 1] as number;
      const x2 = columns[c + 2] as number;
      const x3 = columns[c + 3] as number;
      let t = elements[e] as number;
      a0 += t * x0;
      a1 += t * x1;
      a2 += t * x2;
      a3 += t * x3;
      t = elements[e + 1] as number;
      b0 += t * x0;
      b1 += t * x1;
      b2 += t * x2;
      b3 += t * x3;
      t = elements[e + 2] as number;
      c0 += t * x0;
      c1 += t * x1;
      c2 += t * x2;
      c3 += t * x3;
      t = elements[e + 3] as number;
      d0 += t * x0;
      d1 += t * x1;
      d2 += t * x2;
      d3 += t * x3;
    }
    s0 += a0 * a0 + b0 * b0 + c0 * c0 + d0 * d0;
    s1 += a1 * a1 + b1 * b1 + c1 * c1 + d1 * d1;
    s2 += a2 * a2 + b2 * b2 + c2 * c2 + d2 * d2;
    s3 += a3 * a3 + b3 * b3 + c3 * c3 + d3 * d3;
  }
  into[at] = s0;
  into[at + 1] = s1;
  into[at + 2] = s2;
  into[at + 3] = s3;
}
