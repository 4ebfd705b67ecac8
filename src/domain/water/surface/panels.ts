import { rowStart } from './cholesky';

/**
 * Products of a triangle with many columns: the inner loops of every kriging
 * variance. Rows are taken three at a time and columns four at a time, so that
 * each number read is used more than once and the twelve sums stay in the
 * processor's registers.
 */
export type Panels = {
  /** Rows counted up to whole panels; those beyond the triangle are zero. */
  readonly rows: number;
  /** Element (3p + r, j) of the triangle at starts[p] + 3j + r. */
  readonly elements: Float64Array;
  readonly starts: Int32Array;
};

const PANEL = 3;

/** Up to the next multiple of four. */
export const wholeFours = (n: number): number => 4 * Math.ceil(n / 4);

/** Rows that panels of so many rows take up. */
export const wholePanels = (n: number): number => PANEL * Math.ceil(n / PANEL);

/**
 * A lower triangle in panels.
 *
 * @param columns  only these columns of it, in rising order; all where left out
 */
export function panelsOf(lower: Float64Array, n: number, columns?: Int32Array): Panels {
  const rows = wholePanels(n);
  const count = rows / PANEL;
  const starts = new Int32Array(count + 1);
  const chosen = columns ?? Int32Array.from({ length: n }, (_, j) => j);
  let reached = 0;
  for (let p = 0; p < count; p++) {
    while (reached < chosen.length && (chosen[reached] as number) < PANEL * (p + 1)) reached++;
    starts[p + 1] = (starts[p] as number) + PANEL * reached;
  }
  const elements = new Float64Array(starts[count] as number);
  for (let i = 0; i < n; i++) {
    const start = (starts[Math.floor(i / PANEL)] as number) + (i % PANEL);
    const row = rowStart(i);
    for (let k = 0; k < chosen.length && (chosen[k] as number) <= i; k++)
      elements[start + PANEL * k] = lower[row + (chosen[k] as number)] as number;
  }
  return { rows, elements, starts };
}

/**
 * T·c for columns c taken four at a time, T being the triangle. Each panel of T
 * is used for all the columns before the next, so that it is fetched once.
 *
 * @param columns  fours of columns one after the other, each interleaved:
 *   element j of column t at 4j + t, 4·`rows` numbers to a four
 * @param product  receives T·c in the same order
 * @param fours    how many fours there are
 */
export function triangleTimes(
  { elements, starts, rows }: Panels,
  columns: Float64Array,
  product: Float64Array,
  fours = 1,
): void {
  for (let p = 0; p < starts.length - 1; p++) {
    const start = starts[p] as number;
    const end = starts[p + 1] as number;
    for (let four = 0; four < fours; four++) {
      // prettier-ignore
      let a0 = 0, a1 = 0, a2 = 0, a3 = 0, b0 = 0, b1 = 0, b2 = 0, b3 = 0,
          c0 = 0, c1 = 0, c2 = 0, c3 = 0;
      for (let e = start, c = 4 * rows * four; e < end; e += 3, c += 4) {
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
      }
      const to = 4 * rows * four + 12 * p;
      product[to] = a0;
      product[to + 1] = a1;
      product[to + 2] = a2;
      product[to + 3] = a3;
      product[to + 4] = b0;
      product[to + 5] = b1;
      product[to + 6] = b2;
      product[to + 7] = b3;
      product[to + 8] = c0;
      product[to + 9] = c1;
      product[to + 10] = c2;
      product[to + 11] = c3;
    }
  }
}

/** Products of four interleaved columns with four others, column by column, into `into` from `at` on. */
export function fourProducts(
  a: Float64Array,
  b: Float64Array,
  rows: number,
  into: Float64Array,
  at: number,
): void {
  // prettier-ignore
  let s0 = 0, s1 = 0, s2 = 0, s3 = 0;
  for (let i = 0; i < 4 * rows; i += 4) {
    s0 += (a[i] as number) * (b[i] as number);
    s1 += (a[i + 1] as number) * (b[i + 1] as number);
    s2 += (a[i + 2] as number) * (b[i + 2] as number);
    s3 += (a[i + 3] as number) * (b[i + 3] as number);
  }
  into[at] = s0;
  into[at + 1] = s1;
  into[at + 2] = s2;
  into[at + 3] = s3;
}

/** All sixteen products of four interleaved columns with four others: column j of a with k of b at 4j + k. */
export function sixteenProducts(
  a: Float64Array,
  fromA: number,
  b: Float64Array,
  fromB: number,
  rows: number,
  into: Float64Array,
): void {
  // prettier-ignore
  let a0 = 0, a1 = 0, a2 = 0, a3 = 0, b0 = 0, b1 = 0, b2 = 0, b3 = 0,
      c0 = 0, c1 = 0, c2 = 0, c3 = 0, d0 = 0, d1 = 0, d2 = 0, d3 = 0;
  for (let i = 0; i < 4 * rows; i += 4) {
    const x0 = b[fromB + i] as number;
    const x1 = b[fromB + i + 1] as number;
    const x2 = b[fromB + i + 2] as number;
    const x3 = b[fromB + i + 3] as number;
    let t = a[fromA + i] as number;
    a0 += t * x0;
    a1 += t * x1;
    a2 += t * x2;
    a3 += t * x3;
    t = a[fromA + i + 1] as number;
    b0 += t * x0;
    b1 += t * x1;
    b2 += t * x2;
    b3 += t * x3;
    t = a[fromA + i + 2] as number;
    c0 += t * x0;
    c1 += t * x1;
    c2 += t * x2;
    c3 += t * x3;
    t = a[fromA + i + 3] as number;
    d0 += t * x0;
    d1 += t * x1;
    d2 += t * x2;
    d3 += t * x3;
  }
  into[0] = a0;
  into[1] = a1;
  into[2] = a2;
  into[3] = a3;
  into[4] = b0;
  into[5] = b1;
  into[6] = b2;
  into[7] = b3;
  into[8] = c0;
  into[9] = c1;
  into[10] = c2;
  into[11] = c3;
  into[12] = d0;
  into[13] = d1;
  into[14] = d2;
  into[15] = d3;
}

/** column − Σ coefficients[j]·columns[j], in place; columns lie `stride` apart. */
export function subtractColumns(
  column: Float64Array,
  length: number,
  columns: Float64Array,
  stride: number,
  coefficients: Float64Array,
  count: number,
): void {
  let j = 0;
  for (; j + 6 <= count; j += 6) {
    const a = coefficients[j] as number;
    const b = coefficients[j + 1] as number;
    const c = coefficients[j + 2] as number;
    const d = coefficients[j + 3] as number;
    const e = coefficients[j + 4] as number;
    const f = coefficients[j + 5] as number;
    const p = j * stride;
    const q = p + stride;
    const r = q + stride;
    const s = r + stride;
    const t = s + stride;
    const u = t + stride;
    for (let i = 0; i < length; i++)
      column[i] =
        (column[i] as number) -
        (a * (columns[p + i] as number) + b * (columns[q + i] as number)) -
        (c * (columns[r + i] as number) + d * (columns[s + i] as number)) -
        (e * (columns[t + i] as number) + f * (columns[u + i] as number));
  }
  for (; j < count; j++) {
    const a = coefficients[j] as number;
    const p = j * stride;
    for (let i = 0; i < length; i++)
      column[i] = (column[i] as number) - a * (columns[p + i] as number);
  }
}
