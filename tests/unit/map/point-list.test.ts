import { describe, expect, test } from 'vitest';
import { jumpTo, orderByName, type MapPoint } from '../../../src/map/furniture/point-list';

const list = (...names: string[]): MapPoint[] =>
  names.map((name) => ({ id: name, name, says: 'monitoring well', at: [0, 0] }));

test('points are listed as people count: DP-2 before DP-10', () => {
  const names = orderByName()(list('DP-10', 'MW-1', 'DP-2', 'DP-1')).map(({ name }) => name);
  expect(names).toEqual(['DP-1', 'DP-2', 'DP-10', 'MW-1']);
});

test('the same names with other heads stand in the same order, and other names in theirs', () => {
  const byName = orderByName();
  const told = (points: readonly MapPoint[]) => byName(points).map(({ name, says }) => `${name} ${says}`); // prettier-ignore
  const points = list('DP-10', 'MW-1', 'DP-2');
  told(points);
  const later = points.map((point, i) => ({ ...point, says: `head ${i}` }));
  expect(told(later)).toEqual(['DP-2 head 2', 'DP-10 head 0', 'MW-1 head 1']);
  expect(told(list('DP-10', 'MW-1', 'AA-1'))[0]).toContain('AA-1');
  expect(told(list('MW-1'))).toHaveLength(1);
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
