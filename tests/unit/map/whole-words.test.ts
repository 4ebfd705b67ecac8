import { describe, expect, test } from 'vitest';
import type { TextItem } from '../../../src/map/scene/scene';
import { LEVEL_SIDES } from '../../../src/map/scene/sides';
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

  test('stand rather where they cross no contour, whose number they would be taken for', () => {
    const contour = {
      kind: 'line',
      layer: 'contours',
      path: [
        [56, 0],
        [56, 50],
      ],
      weight: 2,
      colour: 'water',
    } as const;
    const [, item] = wholeWords([contour, words([50, 25])], SEEN, [1000, 500], 1);
    expect(item?.kind === 'text' && item.sides).toEqual(['w', 'n', 'e']);
  });

  test('stand rather beside hatching than on it, even where it is larger than they are', () => {
    const buffer = {
      kind: 'area',
      layer: 'utility-buffers',
      polygons: [[[[51, 10], [90, 10], [90, 40], [51, 40], [51, 10]]]], // prettier-ignore
      hatch: { pattern: 'diagonal', colour: 'line' },
    } as const;
    const [, item] = wholeWords([buffer, words([50, 25])], SEEN, [1000, 500], 1);
    expect(item?.kind === 'text' && item.sides[0]).toBe('w');
  });

  test('a symbol that the edge would cut is not drawn, nor its name', () => {
    const well = {
      kind: 'symbol',
      layer: 'points',
      who: 'SW-1',
      at: [99.5, 25],
      shape: 'supply well, installed',
      size: 19,
      colour: 'ink',
    } as const;
    const name = words([99.5, 25], { who: 'SW-1', sides: ['w'] });
    expect(wholeWords([well, name], SEEN, [1000, 500], 1)).toEqual([]);
    const inside = [
      { ...well, at: [98, 25] },
      { ...name, at: [98, 25] },
    ] as const;
    expect(wholeWords(inside, SEEN, [1000, 500], 1)).toHaveLength(2);
  });
});

describe('the name of a point', () => {
  const point = (who: string, east: number) =>
    ({
      kind: 'symbol',
      layer: 'points',
      who,
      at: [east, 25],
      shape: 'direct push, decommissioned',
      size: 15,
      colour: 'ink',
    }) as const;
  const name = words([50, 25], {
    layer: 'point-labels',
    who: 'DP-02',
    text: 'DP-02',
    sides: ['w', 'e'],
    away: 11,
  });
  const standsBeside = (other: number, more: Partial<TextItem> = {}) => {
    const scene = [point('DP-01', other), point('DP-02', 50), { ...name, ...more }];
    return wholeWords(scene, SEEN, [1000, 500], 1).flatMap((one) =>
      one.kind === 'text' ? [(one.stands ?? []).map(({ side }) => side)] : [],
    );
  };

  test('does not stand between its point and another, for which it would be taken', () => {
    expect(standsBeside(20)).toEqual([['w', 'e']]);
    expect(standsBeside(44)).toEqual([['e']]);
  });

  test('is left out where it could only be taken for another’s, unless the words of the stop name it', () => {
    expect(standsBeside(44, { sides: ['w'] })).toEqual([]);
    expect(standsBeside(44, { sides: ['w'], always: true })).toEqual([['w']]);
  });
});

describe('the head of one well of a nest, drawn apart from the other', () => {
  const well = (who: string, north: number, size: number) =>
    ({
      kind: 'symbol',
      layer: 'points',
      who,
      at: [50, north],
      shape: 'piezometer, installed',
      size,
      colour: 'ink',
    }) as const;
  /** Twenty px under MW-3, as `nestsApart` sets them. */
  const nest = [well('MW-3', 26, 18), well('PZ-3D', 24, 16)];
  const headOf = (who: string, north: number, more: Partial<TextItem> = {}) =>
    words([50, north], {
      layer: 'posted-heads',
      who,
      text: '956.64',
      sides: LEVEL_SIDES,
      away: 12.5,
      always: true,
      mark: 'level, well',
      ...more,
    });
  const firstSide = (head: TextItem) => {
    const item = wholeWords([...nest, head], SEEN, [1000, 500], 1).at(-1);
    return item?.kind === 'text' ? item.stands?.[0]?.side : undefined;
  };

  test('stands in one line with its own well, not between the two', () => {
    expect(firstSide(headOf('MW-3', 26))).toBe('e');
    expect(firstSide(headOf('PZ-3D', 24))).toBe('se');
  });

  test('is never left out for want of such a place', () => {
    const only = { sides: ['se'] as const };
    expect(firstSide(headOf('MW-3', 26, only))).toBe('se');
    expect(firstSide(headOf('MW-3', 26, { ...only, always: false }))).toBe('se');
  });
});

describe('the name of a line', () => {
  const brook = words([5, 25], {
    who: 'brook',
    text: 'Brook',
    sides: ['centre'],
    away: 0,
    turned: 0,
    along: [
      [-200, 25],
      [210, 25],
    ],
  });
  const scaleBar = { left: 0, right: 300, top: 200, bottom: 300 };

  test('stands elsewhere along it where its usual place lies under something or out of sight', () => {
    for (const usual of [5, -150] as const) {
      const [item] = wholeWords([{ ...brook, at: [usual, 25] }], SEEN, [1000, 500], 1, [scaleBar]);
      expect(item).toMatchObject({ text: 'Brook', turned: 0 });
      expect(item?.kind === 'text' && item.at).toEqual([50, 25]);
    }
  });

  test('stays where it is where that can be read', () => {
    const there = { ...brook, at: [60, 25] as const };
    expect(wholeWords([there], SEEN, [1000, 500], 1)[0]).toMatchObject({ at: [60, 25] });
  });
});

describe('the name of an area', () => {
  const square = (half: number, hatched: boolean) =>
    ({
      kind: 'area',
      layer: hatched ? 'exclusions' : 'buildings',
      who: 'cage',
      polygons: [[[[50 - half, 25 - half], [50 + half, 25 - half], [50 + half, 25 + half], [50 - half, 25 + half], [50 - half, 25 - half]]]], // prettier-ignore
      ...(hatched
        ? ({ hatch: { pattern: 'crossed', colour: 'ink' } } as const)
        : { fill: 'wash' as const }),
    }) as const;
  const name = words([50, 25], { who: 'cage', sides: ['centre', 'n', 's'], away: 0 });
  const named = (half: number, hatched: boolean) => {
    const [, item] = wholeWords([square(half, hatched), name], SEEN, [1000, 500], 1);
    return item?.kind === 'text' ? item : null;
  };

  test('stands in it where it has the room', () => {
    expect(named(10, false)?.sides[0]).toBe('centre');
  });

  test('stands beside it where it is smaller than its name, clear of its edge', () => {
    expect(named(2, false)).toMatchObject({ away: 25 });
    expect(named(2, false)?.sides[0]).toBe('s');
  });

  test('never stands on hatching', () => {
    expect(named(10, true)).toMatchObject({ away: 105 });
  });
});
