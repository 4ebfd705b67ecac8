import { describe, expect, test } from 'vitest';
import { byName, jumpTo, type MapPoint } from '../../../src/map/furniture/point-list';

const list = (...names: string[]): MapPoint[] =>
  names.map((name) => ({ id: name, name, says: 'monitoring well', at: [0, 0] }));

test('points are listed as people count: DP-2 before DP-10', () => {
  const names = byName(list('DP-10', 'MW-1', 'DP-2', 'DP-1')).map(({ name }) => name);
  expect(names).toEqual(['DP-1', 'DP-2', 'DP-10', 'MW-1']);
});

describe('typing a name jumps to it', () => {
  const points = list('DP-01', 'DP-02', 'DP-12', 'MW-1', 'MW-6', 'PZ-1D');

  test.each([
    ['m', 0, 'MW-1'],
    ['m', 3, 'MW-6'],
    ['m', 4, 'MW-1'],
    ['mw6', 0, 'MW-6'],
    ['MW-6', 0, 'MW-6'],
    ['dp1', 0, 'DP-12'],
    ['12', 5, 'DP-12'],
    ['mw', 3, 'MW-1'],
  ])('"%s" from place %d is %s', (typed, from, name) => {
    expect(points[jumpTo(points, typed, from) ?? -1]?.name).toBe(name);
  });

  test.each(['x', '-', ''])('"%s" is nowhere', (typed) => {
    expect(jumpTo(points, typed, 0)).toBeNull();
  });

  test('nothing is found in an empty list', () => {
    expect(jumpTo([], 'm', 0)).toBeNull();
  });
});
