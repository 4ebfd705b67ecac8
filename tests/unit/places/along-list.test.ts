import { describe, expect, test } from 'vitest';
import { alongList } from '../../../src/ui/parts/along-list';

describe('keys along the grids found under a field', () => {
  test('↓ goes from the field into the list and stays at its end', () => {
    expect(alongList('ArrowDown', -1, 3)).toBe(0);
    expect(alongList('ArrowDown', 1, 3)).toBe(2);
    expect(alongList('ArrowDown', 2, 3)).toBe(2);
  });
  test('↑ goes back, and from the first to the field', () => {
    expect(alongList('ArrowUp', 2, 3)).toBe(1);
    expect(alongList('ArrowUp', 0, 3)).toBe(-1);
    expect(alongList('ArrowUp', -1, 3)).toBeNull();
  });
  test('Home and End stay with the text while the field is in hand', () => {
    expect(alongList('Home', -1, 3)).toBeNull();
    expect(alongList('End', -1, 3)).toBeNull();
    expect(alongList('Home', 2, 3)).toBe(0);
    expect(alongList('End', 0, 3)).toBe(2);
  });
  test('other keys, and an empty list, move nothing', () => {
    expect(alongList('Enter', 1, 3)).toBeNull();
    expect(alongList('ArrowDown', -1, 0)).toBeNull();
  });
});
