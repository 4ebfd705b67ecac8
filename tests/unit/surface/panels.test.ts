import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { rowStart } from '../../../src/domain/water/surface/cholesky';
import {
  fourProducts,
  panelsOf,
  sixteenProducts,
  subtractColumns,
  triangleTimes,
  wholeFours,
  wholePanels,
} from '../../../src/domain/water/surface/panels';

/** Small whole numbers, none of them 0, so that every product is exact. */
const numbers = (count: number, seed: number) =>
  Float64Array.from({ length: count }, (_, i) => ((i * 7 + seed * 13) % 17) - 8 || 9);

const triangle = (n: number) => {
  const lower = numbers(rowStart(n), n);
  const matrix = Matrix.zeros(n, n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) matrix.set(i, j, lower[rowStart(i) + j]!);
  return { lower, matrix };
};

/** Column t of the four interleaved from `from` on. */
const column = (of: Float64Array, rows: number, t: number, from = 0) =>
  Array.from({ length: rows }, (_, j) => of[from + 4 * j + t]!);

test('whole fours and whole panels of three', () => {
  expect([0, 1, 4, 5, 8].map(wholeFours)).toEqual([0, 4, 4, 8, 8]);
  expect([0, 1, 3, 4, 7].map(wholePanels)).toEqual([0, 3, 3, 6, 9]);
});

describe('a triangle times columns, against another library', () => {
  test.each([1, 2, 3, 4, 7, 9, 10])('%d rows', (n) => {
    const { lower, matrix } = triangle(n);
    const panels = panelsOf(lower, n);
    expect(panels.rows).toBe(wholePanels(n));
    for (const fours of [1, 2, 3]) {
      const columns = new Float64Array(4 * panels.rows * fours);
      const product = new Float64Array(columns.length).fill(NaN);
      for (let four = 0; four < fours; four++)
        columns.set(numbers(4 * n, four + 1), 4 * panels.rows * four);
      triangleTimes(panels, columns, product, fours);
      for (let four = 0; four < fours; four++)
        for (let t = 0; t < 4; t++) {
          const from = 4 * panels.rows * four;
          const expected = matrix.mmul(Matrix.columnVector(column(columns, n, t, from)));
          expect(column(product, n, t, from)).toEqual(expected.to1DArray());
          // Rows beyond the triangle come out as nothing.
          for (const rest of column(product, panels.rows, t, from).slice(n)) expect(rest).toBe(0);
        }
    }
  });

  test('only some of its columns: the rest count as nothing', () => {
    const n = 8;
    const { lower, matrix } = triangle(n);
    const chosen = [1, 2, 4, 7];
    const panels = panelsOf(lower, n, Int32Array.from(chosen));
    const columns = new Float64Array(4 * panels.rows);
    columns.set(numbers(4 * chosen.length, 5));
    const product = new Float64Array(columns.length);
    triangleTimes(panels, columns, product);
    const some = new Matrix(matrix.to2DArray().map((row) => chosen.map((j) => row[j]!)));
    for (let t = 0; t < 4; t++)
      expect(column(product, n, t)).toEqual(
        some.mmul(Matrix.columnVector(column(columns, chosen.length, t))).to1DArray(),
      );
    // Row i holds only the columns at or before it: 3 panels of 2, 3 and 4 columns.
    expect([...panels.starts]).toEqual([0, 6, 15, 27]);
  });
});

describe('products of columns, against another library', () => {
  const rows = 5;
  const a = numbers(4 * (rows + 2), 3);
  const b = numbers(4 * (rows + 3), 4);
  const dot = (one: readonly number[], other: readonly number[]) =>
    Matrix.rowVector([...one])
      .mmul(Matrix.columnVector([...other]))
      .get(0, 0);

  test('four with four, each with its own', () => {
    const into = new Float64Array(9).fill(-1);
    fourProducts(a, b, rows, into, 3);
    expect([...into]).toEqual([
      -1,
      -1,
      -1,
      ...[0, 1, 2, 3].map((t) => dot(column(a, rows, t), column(b, rows, t))),
      -1,
      -1,
    ]);
  });

  test('four with four, each with all', () => {
    const into = new Float64Array(16);
    sixteenProducts(a, 8, b, 12, rows, into);
    const expected = [0, 1, 2, 3].flatMap((j) =>
      [0, 1, 2, 3].map((k) => dot(column(a, rows, j, 8), column(b, rows, k, 12))),
    );
    expect([...into]).toEqual(expected);
  });

  test.each([0, 1, 5, 6, 7, 12, 15])('a column less %d others, each times its number', (count) => {
    const [length, stride] = [7, 9];
    const columns = numbers(stride * 16, 6);
    const coefficients = numbers(16, 7);
    const before = numbers(length + 1, 8);
    const after = before.slice();
    subtractColumns(after, length, columns, stride, coefficients, count);
    for (let i = 0; i < length; i++) {
      let expected = before[i]!;
      for (let j = 0; j < count; j++) expected -= coefficients[j]! * columns[j * stride + i]!;
      expect(after[i]).toBe(expected);
    }
    expect(after[length]).toBe(before[length]);
  });
});
