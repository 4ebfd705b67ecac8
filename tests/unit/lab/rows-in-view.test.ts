import { expect, test } from 'vitest';
import { MOST_WHOLE, ROW, rowsInView } from '../../../src/ui/results/rows-in-view';

test('a short table is drawn whole, of a long one only what is in view and a little more', () => {
  const view = { top: 0, height: 640 };
  expect(rowsInView(0, view)).toEqual({ first: 0, last: 0 });
  expect(rowsInView(MOST_WHOLE, { top: 900, height: 10 })).toEqual({ first: 0, last: MOST_WHOLE });
  expect(rowsInView(50_000, view)).toEqual({ first: 0, last: 14 });
  expect(rowsInView(50_000, { top: 20_000 * ROW, height: 640 })).toEqual({
    first: 19_996,
    last: 20_014,
  });
});

test('scrolled past its end, as when the table grows shorter, its last rows stand', () => {
  const { first, last } = rowsInView(100, { top: 50_000 * ROW, height: 640 });
  expect(last).toBe(100);
  expect(first).toBeLessThan(100);
});
