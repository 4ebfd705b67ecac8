import { expect, test } from 'vitest';
import { keyRows } from '../../../src/ui/figures/key-rows';

test('the entries of a key stand beside one another, and under one another where a row is full', () => {
  expect(keyRows([100, 220, 90, 60], 420, 22)).toEqual([
    [0, 0],
    [100, 0],
    [320, 0],
    [0, 22],
  ]);
});

test('an entry wider than the sheet still stands, alone in its row', () => {
  expect(keyRows([500, 80], 420, 22)).toEqual([
    [0, 0],
    [0, 22],
  ]);
});
