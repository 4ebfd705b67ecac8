import { describe, expect, test } from 'vitest';
import type { TextItem } from '../../../src/map/scene/scene';
import { wholeWords } from '../../../src/map/scene/whole-words';

/** 100 m by 50 m in a window of 1000 by 500 px: ten px a metre. */
const SEEN = { west: 0, south: 0, east: 100, north: 50 };
const words = (at: TextItem['at'], more: Partial<TextItem> = {}): TextItem => ({
  kind: 'text',
  layer: 'captions',
  at,
  text: 'Degreaser sump',
  sides: ['e', 'w', 'n'],
  away: 10,
  size: 14,
  face: 'regular',
  colour: 'ink',
  priority: 1,
  ...more,
});
const sidesOf = (item: TextItem, magnify = 1) =>
  wholeWords([item], SEEN, [1000, 500], magnify).map((one) => one.kind === 'text' && one.sides);

describe('words on a wall', () => {
  test('are the same items where the edge cuts none of their sides', () => {
    const item = words([50, 25]);
    expect(wholeWords([item], SEEN, [1000, 500], 1)[0]).toBe(item);
  });

  test('stand only on the sides on which the edge of the map does not cut them', () => {
    expect(sidesOf(words([98, 25]))).toEqual([['w']]);
    expect(sidesOf(words([2, 25]))).toEqual([['e']]);
    expect(sidesOf(words([96, 25], { sides: ['n'] }))).toEqual([]);
  });

  test('need more room where they are larger', () => {
    expect(sidesOf(words([88, 25]))).toEqual([['e', 'w', 'n']]);
    expect(sidesOf(words([88, 25]), 3)).toEqual([['w']]);
  });

  test('that are always drawn are drawn where their place is seen, and not where it is not', () => {
    expect(sidesOf(words([99, 25], { sides: ['e'], always: true }))).toEqual([['e']]);
    expect(sidesOf(words([120, 25], { sides: ['e'], always: true }))).toEqual([]);
  });

  test('do not stand on the cross of a push that would close an open side', () => {
    const cross = {
      kind: 'symbol',
      layer: 'construction',
      at: [54, 25],
      shape: 'cross',
      size: 15,
      colour: 'signal',
    } as const;
    const [, item] = wholeWords([cross, words([50, 25])], SEEN, [1000, 500], 1);
    expect(item?.kind === 'text' && item.sides).toEqual(['w', 'n']);
  });
});
